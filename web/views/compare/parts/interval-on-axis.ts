import type { Deciding, Difference } from '../../../../shared/contract/comparison.ts';

/**
 * How far beyond the levels an interval of a ratio is drawn: a wider one adds nothing, and would compress the levels to
 * one spot.
 */
const WIDEST = 2;

/**
 * Both ends of the interval that decides as values of the result, on an axis that shows the given levels.
 * @param from level from which the difference is taken
 * @returns undefined while there is no interval
 */
export function intervalOnAxis(
  { interval, relativeInterval }: Deciding,
  scale: Difference['scale'],
  from: number,
  levels: readonly number[],
): [low: number, high: number] | undefined {
  if (!interval || !relativeInterval) return undefined;
  if (scale !== 'ratio') return [from + interval[0], from + interval[1]];
  const [least, most] = [Math.min(...levels) / WIDEST, Math.max(...levels) * WIDEST];
  const end = (relative: number) => Math.min(most, Math.max(least, from * (1 + relative)));
  return [end(relativeInterval[0]), end(relativeInterval[1])];
}
