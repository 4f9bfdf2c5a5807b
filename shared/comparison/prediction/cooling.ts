/** Measures losses from a stretch in which the pot cools off the fire. */
import { LEAST_COOLING_K, SHORTEST_COOLING_S } from '../../analysis/curves/cooling-limits.ts';
import type { HeatedLoad } from './heat-input.ts';

export type CoolingLoad = Pick<HeatedLoad, 'capacityJPerK' | 'lossW'>;

/**
 * Returns measured losses divided by those of the model, by the energy balance of the stretch.
 * @param timeS seconds, from any moment
 * @param load with the losses of the model
 * @returns undefined where the stretch is too short or the water cools too little
 */
export function lossFactor(timeS: ArrayLike<number>, tempC: ArrayLike<number>, load: CoolingLoad): number | undefined {
  const last = timeS.length - 1;
  if (last < 2 || timeS[last]! - timeS[0]! < SHORTEST_COOLING_S) return undefined;
  if (tempC[0]! - tempC[last]! < LEAST_COOLING_K) return undefined;
  let modelJ = 0;
  for (let index = 1; index <= last; index++) {
    const middleC = (tempC[index - 1]! + tempC[index]!) / 2;
    modelJ += load.lossW(middleC, timeS[index]!) * (timeS[index]! - timeS[index - 1]!);
  }
  return modelJ > 0 ? (load.capacityJPerK * (tempC[0]! - tempC[last]!)) / modelJ : undefined;
}
