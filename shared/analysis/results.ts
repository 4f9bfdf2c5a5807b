/** The published results of one burn by one method set, each with what stands behind it on the path that was really taken. */

import { type Message, type Result, type ResultId, resultIds, type ValueResult } from '../contract/results.ts';
import { budgetsOf, type Share } from './engine/budget.ts';
import { type Spread, spreads } from './engine/draws.ts';
import { pathOf, plan } from './engine/plan.ts';
import { missing } from './messages/messages.ts';
import type { Method } from './methods/method.ts';
import type { BurnEvaluation, BurnQuantity } from './quantities/declare.ts';

/** @param draws Monte Carlo draws; 0 gives values without uncertainty */
export function resultsOf(method: Method, burn: BurnEvaluation, draws: number, seed: number | string): Result[] {
  const published = resultIds.map((id) => ({ id, ...asked(method, burn, id) }));
  const known = published.flatMap(({ quantity, why }) => (quantity && !why ? [quantity] : []));
  const computing = plan(burn, known);
  const budgets = budgetsOf(computing);
  const values = known.map((quantity) => burn.quantity(quantity).best);
  const spread = draws > 0 ? spreads(computing, values, draws, seed) : [];
  return published.map(({ id, quantity, why }) => {
    if (why) return { id, missing: why };
    const at = known.indexOf(quantity!);
    return valueResult(id, method, burn, quantity!, budgets[at]!, spread[at]);
  });
}

function asked(
  method: Method,
  burn: BurnEvaluation,
  id: ResultId,
): { quantity?: BurnQuantity | undefined; why?: Message | undefined } {
  const quantity = method.results[id];
  if (!quantity) return { why: missing('notDefinedByMethod', { method: method.name }) };
  const { best, missing: why } = burn.quantity(quantity);
  return { quantity, why: why ?? (Number.isFinite(best) ? undefined : missing('notComputable')) };
}

function valueResult(
  id: ResultId,
  method: Method,
  burn: BurnEvaluation,
  quantity: BurnQuantity,
  budget: readonly Share[],
  spread: Spread | undefined,
): ValueResult {
  const { unit, window = 'whole', formula, source } = quantity;
  const behind = pathOf(burn, [quantity]).map(({ found }) => found!);
  return {
    id,
    value: burn.quantity(quantity).best,
    unit,
    window,
    method: method.name,
    ...(spread ? { ...spread, budget: budget.map(({ entry }) => entry) } : {}),
    inputs: measuredInputs(quantity).map((input) => step(burn, input)),
    working: { formula, source, steps: workingSteps(quantity, burn).map((each) => step(burn, each)) },
    defaults: distinct([
      ...budget.flatMap(({ input }) => input.defaults ?? []),
      ...behind.flatMap(({ defaults = [] }) => defaults),
    ]),
    remarks: distinct(behind.flatMap(({ remarks = [] }) => remarks)),
  };
}

function step(burn: BurnEvaluation, quantity: BurnQuantity) {
  const { name, label = name, unit } = quantity;
  return { name: label, value: burn.quantity(quantity).best, unit };
}

/** What the arithmetic starts from: quantities that are no arithmetic themselves. */
function measuredInputs(quantity: BurnQuantity): BurnQuantity[] {
  const inputs = quantity.inputs?.flatMap((input) => (input.inputs ? measuredInputs(input) : [input])) ?? [quantity];
  return [...new Set(inputs)];
}

/** Everything on the way from there to the result, and what is also shown, each after what it is made of. */
function workingSteps({ inputs = [], alsoShown = [] }: BurnQuantity, burn: BurnEvaluation): BurnQuantity[] {
  const steps = [
    ...inputs.flatMap((input) => [...(input.inputs ? workingSteps(input, burn) : []), input]),
    ...alsoShown.filter((each) => Number.isFinite(burn.quantity(each).best)),
  ];
  return [...new Set(steps)];
}

export function distinct(messages: readonly Message[]): Message[] {
  const byText = new Map(messages.map((message) => [JSON.stringify([message.code, message.params]), message]));
  return [...byText.values()];
}
