/**
 * The interval for a new burn, from the scatter between burns of this stove, the uncertainty of their mean, the errors
 * they share, and the uncertainty of the model.
 */
import { mean } from '../../statistics/moments.ts';
import { coverageFactor } from '../../statistics/student-t.ts';
import type { ComparedValue } from '../contributions.ts';
import { scatterOf, sharedVarianceOfMean } from '../mean-difference.ts';

const COVERAGE = 0.9;

/**
 * Run-to-run scatter, relative, and its weight in burns, for a stove with fewer than three burns ("common practice, no
 * source").
 */
export const USUAL_SCATTER = 0.12;
const USUAL_SCATTER_FREEDOM = 2;
const ENOUGH_BURNS = 3;
/** The least scatter of a few burns: closer agreement is chance ("common practice, no source"). */
const LEAST_SCATTER = 0.05;
const HANDFUL = 6;

export interface NewBurnOptions {
  /** The least scatter that few burns are given. */
  readonly leastScatter?: number;
}

/**
 * @param values logarithm of the value of each burn carried over to the new load, with the errors they share
 * @param modelVariance variance, on the logarithm, of carrying them over
 */
export function newBurnInterval(
  values: readonly ComparedValue[],
  modelVariance: number,
  { leastScatter = LEAST_SCATTER }: NewBurnOptions = {},
): { value: number; interval90: [number, number] } {
  const count = values.length;
  const observed = count > 1 ? scatterOf(values) ** 2 : 0;
  const own = count - 1;
  const [scatter, freedom] =
    count >= ENOUGH_BURNS
      ? [count < HANDFUL ? Math.max(observed, leastScatter ** 2) : observed, own]
      : [
          (own * observed + USUAL_SCATTER_FREEDOM * USUAL_SCATTER ** 2) / (own + USUAL_SCATTER_FREEDOM),
          own + USUAL_SCATTER_FREEDOM,
        ];
  // Each part with its own factor, added in quadrature: unlike one factor from pooled degrees of freedom, more
  // uncertainty in one part then never makes the total narrower.
  const fromScatter = coverageFactor(COVERAGE, freedom) ** 2 * scatter * (1 + 1 / count);
  const known = coverageFactor(COVERAGE, Infinity) ** 2 * (sharedVarianceOfMean(values) + modelVariance);
  const level = mean(values.map(({ value }) => value));
  const reach = Math.sqrt(fromScatter + known);
  return { value: Math.exp(level), interval90: [Math.exp(level - reach), Math.exp(level + reach)] };
}

/** Whether the scatter combines few burns with the usual scatter. */
export function usesUsualScatter(count: number): boolean {
  return count < ENOUGH_BURNS;
}
