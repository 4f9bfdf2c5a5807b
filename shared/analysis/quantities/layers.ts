/** Layered water: the deviation of the mean of the probes from the mean of the water. */

import type { WaterCurve } from '../curves/water-curve.ts';
import { type Input, ownError } from '../engine/declaration.ts';
import { byDefault } from '../messages/messages.ts';

/** Weight of the warm and the cool end in the mean of the water: half, with this half-width (rectangular). */
const LAYER_WEIGHT = 0.12;
const ONE_PROBE_U_K = 0.3;

/** Returns the standard uncertainty, K, near a moment; `zeroS` is a moment at which the water was still. */
export function layersU(water: WaterCurve, atS: number, zeroS: number): number {
  return (LAYER_WEIGHT / Math.sqrt(3)) * water.spreadK(atS, zeroS);
}

/** Returns the error of the mean of the probes as the mean of layered water. */
export function layersError(water: WaterCurve, atS: number, zeroS: number): Input {
  if (water.probesAt(atS) < 2) {
    const defaults = [byDefault('singleProbe', { standardUncertaintyK: ONE_PROBE_U_K })];
    return ownError('water.layers', ONE_PROBE_U_K, { defaults });
  }
  const defaults = [byDefault('layers', { spreadK: water.spreadK(atS, zeroS), weight: LAYER_WEIGHT })];
  const u = Math.max(0.01, layersU(water, atS, zeroS));
  return ownError('water.layers', u, { distribution: 'rectangular', defaults });
}
