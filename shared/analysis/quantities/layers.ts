/** Layered water: the deviation of the mean of the probes from the mean of the water. */

import { firstIndexAtOrAfter } from '../curves/smoothing.ts';
import type { WaterCurve } from '../curves/water-curve.ts';
import { type Input, ownError } from '../engine/declaration.ts';
import { byDefault } from '../messages/messages.ts';

/** Weight of the warm and the cool end in the mean of the water: half, with this half-width (rectangular). */
const LAYER_WEIGHT = 0.12;
/**
 * Read at one place, the mean of the water lies within this to either side (rectangular): the top and the bottom of a large pot that
 * nobody stirs differ by 2 to 3 K while it warms, and by 1 K or more where its own bubbles stir it ("common practice, no source").
 */
const ONE_PLACE_HALF_WIDTH_K = { warming: 1.5, boiling: 0.8 };
/** The first bubbles leave the bottom so far below the boiling point, K, and from there on they stir all of the water. */
const BUBBLES_BELOW_BOIL_K = { first: 4, everywhere: 0.5 };

/** A moment at which the probes stand for the water, and what is known of it. */
export interface LayersAt {
  readonly atS: number;
  /** A moment at which nothing had heated the water yet. */
  readonly stillS: number;
  /** How far the water stands below its boiling point, K; NaN where that is not known. */
  readonly belowBoilK: number;
}

/** Standard uncertainty, K, of water read at one place, so far below its boiling point. */
export function onePlaceU(belowBoilK: number): number {
  const { warming, boiling } = ONE_PLACE_HALF_WIDTH_K;
  const { first, everywhere } = BUBBLES_BELOW_BOIL_K;
  const share = (belowBoilK - everywhere) / (first - everywhere);
  const calm = Number.isNaN(share) ? 1 : Math.min(1, Math.max(0, share));
  return (boiling + calm * (warming - boiling)) / Math.sqrt(3);
}

/** Standard uncertainty, K, of the mean of the probes as the mean of the water. */
export function layersU(water: WaterCurve, at: LayersAt): number {
  return layersOf(water, at).standardUncertaintyK;
}

/** The same as an input of the result that `of` names: the layers of one moment are not those of another. */
export function layersError(water: WaterCurve, at: LayersAt, of: string): Input {
  const { standardUncertaintyK, taken } = layersOf(water, at);
  return ownError('water.layers', standardUncertaintyK, { distribution: 'rectangular', of, defaults: [taken] });
}

function layersOf(water: WaterCurve, { atS, stillS, belowBoilK }: LayersAt) {
  const readS = lastReadS(water, atS);
  if (water.probesAt(readS) < 2) {
    const standardUncertaintyK = onePlaceU(belowBoilK);
    return { standardUncertaintyK, taken: byDefault('singleProbe', { standardUncertaintyK }) };
  }
  const spreadK = water.spreadK(readS, stillS);
  return {
    standardUncertaintyK: Math.max(0.01, (LAYER_WEIGHT / Math.sqrt(3)) * spreadK),
    taken: byDefault('layers', { spreadK, weight: LAYER_WEIGHT }),
  };
}

/** The moment itself, or in a gap the last reading before it. */
function lastReadS({ timeS, tempC, bridgeS }: WaterCurve, atS: number): number {
  let last = firstIndexAtOrAfter(timeS, atS);
  if (timeS[last] !== atS) last -= 1;
  while (last >= 0 && Number.isNaN(tempC[last]!)) last -= 1;
  return last < 0 || atS - timeS[last]! <= bridgeS ? atS : timeS[last]!;
}
