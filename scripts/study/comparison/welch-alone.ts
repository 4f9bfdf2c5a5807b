/**
 * How often Welch's interval holds the true difference where nothing is shared and all is normal: the best that a comparison
 * built on it can do. From a few values it holds more than it says, since its degrees of freedom are estimated from the same few.
 */
import { compareGroups } from '../../../shared/comparison/mean-difference.ts';
import { createRandom } from '../../../shared/statistics/random.ts';

const DRAWS = 40_000;
const known = new Map<number, number>();

/** @param burns values in each of two groups of one mean and one deviation. @returns share of 95 % intervals that hold 0 */
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
