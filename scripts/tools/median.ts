import { median as medianOf } from '../../shared/statistics/quantile.ts';

/** The middle of what the rounds of a bench took, or the mean of the two middle ones. */
export function median(rounds: readonly number[]): number {
  return medianOf(Float64Array.from(rounds));
}
