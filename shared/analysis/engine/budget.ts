/**
 * The contribution of each input alone to each result: the change of the result for one standard uncertainty of the
 * input (JCGM 100, 5.1.3).
 */
import type { BudgetEntry } from '../../contract/results.ts';
import { type Input, ONE_SIDED_WIDTH } from './declaration.ts';
import { bind, keyOf, type Plan } from './plan.ts';

export interface Share {
  readonly input: Input;
  readonly entry: BudgetEntry;
}

/** Entries below this share of the largest are left out. */
const NEGLIGIBLE = 1e-4;

/**
 * Returns the contributions per result of the plan, largest first. Each row has one input changed, up or down, and all
 * others at their best estimate.
 */
export function budgetsOf(plan: Plan): Share[][] {
  const inputs = plan.inputs.filter(({ standardUncertainty }) => standardUncertainty > 0);
  const columns = Array.from({ length: plan.columnCount }, () => new Float64Array(2 * inputs.length));
  for (const [column, { value }] of plan.inputs.entries()) columns[column]!.fill(value);
  inputs.forEach((input, at) => {
    const column = columns[plan.inputs.indexOf(input)]!;
    column[2 * at]! += above(input);
    column[2 * at + 1]! -= below(input);
  });
  bind(plan, columns)();
  return plan.results.map((result) => tidy(inputs.flatMap((input, at) => share(input, columns[result]!, 2 * at))));
}

function share(input: Input, values: Float64Array, row: number): Share[] {
  const { name, standardUncertainty: u, sharing, sharedId } = input;
  const effect = ((values[row]! - values[row + 1]!) / (above(input) + below(input))) * u;
  if (effect === 0 || !Number.isFinite(effect)) return [];
  const entry: BudgetEntry = {
    input: name,
    contribution: Math.abs(effect),
    sign: effect > 0 ? 1 : -1,
    sharing,
    ...(sharedId === undefined ? {} : { sharedId }),
  };
  return [{ input, entry }];
}

const above = ({ distribution, standardUncertainty }: Input) =>
  (distribution === 'oneSided' ? ONE_SIDED_WIDTH : 1) * standardUncertainty;
const below = ({ distribution, standardUncertainty }: Input) => (distribution === 'oneSided' ? 0 : standardUncertainty);

function tidy(shares: Share[]): Share[] {
  const largest = Math.max(...shares.map(({ entry }) => entry.contribution));
  return shares
    .filter(({ entry }) => entry.contribution > NEGLIGIBLE * largest)
    .sort((a, b) => b.entry.contribution - a.entry.contribution || (keyOf(a.input) < keyOf(b.input) ? -1 : 1));
}
