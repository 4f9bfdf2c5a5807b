/**
 * How often Welch's interval contains the true difference where no error is shared and all distributions are normal:
 * the best that a comparison based on it can achieve. With few values it covers more than stated, since its degrees of
 * freedom are estimated from the same few values.
 */
import { compareGroups } from '../../../shared/comparison/mean-difference.ts';
import { createRandom } from '../../../shared/statistics/random.ts';

const DRAWS = 40_000;
const known = new Map<number, number>();

/**
 * @param burns values in each of two groups of one mean and one deviation. @returns share of 95 % intervals that
 *   contain 0
 */
export function welchHolds(burns: number): number {
  const share = known.get(burns) ?? drawnShare(burns);
  known.set(burns, share);
  return share;
}

function drawnShare(burns: number): number {
  const random = createRandom(`Welch alone, ${burns}`);
  const group = () =>
    Array.from({ length: burns }, (_, index) => {
      return { burnId: `${index}`, value: random.normal(), shared: new Map<string, number>(), ownVariance: 0 };
    });
  let held = 0;
  for (let draw = 0; draw < DRAWS; draw++) {
    const [low, high] = compareGroups(group(), group()).interval95;
    if (low <= 0 && 0 <= high) held += 1;
  }
  return held / DRAWS;
}
