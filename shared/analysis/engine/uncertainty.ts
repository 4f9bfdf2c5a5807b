/** The uncertainties of some quantities: the contribution of each input, and the spread of their draws. */
import { budgetsOf, type Share } from './budget.ts';
import type { Quantity } from './declaration.ts';
import { type Spread, spreads } from './draws.ts';
import type { Evaluation } from './evaluation.ts';
import { plan } from './plan.ts';

export interface Uncertainty {
  readonly budget: readonly Share[];
  /** Left out without draws. */
  readonly spread: Spread | undefined;
}

/**
 * Returns one uncertainty per quantity, all from the same draws.
 * @param wanted quantities that have a value
 * @param draws Monte Carlo draws; 0 for budgets only
 */
export function uncertaintiesOf<Subject>(
  evaluation: Evaluation<Subject>,
  wanted: readonly Quantity<Subject>[],
  draws: number,
  seed: number | string,
): ReadonlyMap<Quantity<Subject>, Uncertainty> {
  const computing = plan(evaluation, wanted);
  const budgets = budgetsOf(computing);
  const values = wanted.map((quantity) => evaluation.quantity(quantity).best);
  const spread = draws > 0 ? spreads(computing, values, draws, seed) : [];
  return new Map(wanted.map((quantity, at) => [quantity, { budget: budgets[at]!, spread: spread[at] }]));
}
