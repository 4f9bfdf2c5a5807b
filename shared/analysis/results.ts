/** The published results of one burn by one method set, each with the quantities on the path taken to it. */

import { type Message, type Result, type ResultId, resultIds, type ValueResult } from '../contract/results.ts';
import { pathOf } from './engine/plan.ts';
import type { Uncertainty } from './engine/uncertainty.ts';
import { missing } from './messages/messages.ts';
import type { Method } from './methods/method.ts';
import type { BurnEvaluation, BurnQuantity } from './quantities/declare.ts';

/** Returns the quantities of the results that have a value. */
export function knownQuantities(method: Method, burn: BurnEvaluation): BurnQuantity[] {
  return resultIds.flatMap((id) => {
    const { quantity, why } = asked(method, burn, id);
    return quantity && !why ? [quantity] : [];
  });
}

/** @param uncertainties uncertainties of the known quantities */
export function resultsOf(
  method: Method,
  burn: BurnEvaluation,
  uncertainties: ReadonlyMap<BurnQuantity, Uncertainty>,
): Result[] {
  return resultIds.map((id) => {
    const { quantity, why } = asked(method, burn, id);
    return why ? { id, missing: why } : valueResult(id, method, burn, quantity!, uncertainties.get(quantity!)!);
  });
}

function asked(
  method: Method,
  burn: BurnEvaluation,
  id: ResultId,
): { quantity?: BurnQuantity | undefined; why?: Message | undefined } {
  const quantity = method.results[id];
  if (!quantity) return { why: method.whyNoOthers ?? missing('notDefinedByMethod', { method: method.name }) };
  const { best, missing: why } = burn.quantity(quantity);
  return { quantity, why: why ?? (Number.isFinite(best) ? undefined : missing('notComputable')) };
}

function valueResult(
  id: ResultId,
  method: Method,
  burn: BurnEvaluation,
  quantity: BurnQuantity,
  { budget, spread }: Uncertainty,
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

/** Returns the inputs of the arithmetic: quantities that are not arithmetic themselves. */
function measuredInputs(quantity: BurnQuantity): BurnQuantity[] {
  const inputs = quantity.inputs?.flatMap((input) => (input.inputs ? measuredInputs(input) : [input])) ?? [quantity];
  return [...new Set(inputs)];
}

/** Returns all quantities from there to the result, and those that are also shown, each after its inputs. */
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
