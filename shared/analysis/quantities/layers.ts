/** Water in layers: how far the mean of the probes may be from the mean of the water. */

import type { WaterCurve } from '../curves/water-curve.ts';
import { byDefault } from '../engine/messages.ts';
import type { Model } from '../engine/model.ts';

/** Weight of the warm and the cool end in the mean of the water: half, give or take this (rectangular). */
const LAYER_WEIGHT = 0.12;
const ONE_PROBE_U_K = 0.3;

/** Standard uncertainty, K, around a moment; `zeroS` is a moment at which the water was still. */
export function layersU(water: WaterCurve, atS: number, zeroS: number): number {
  return (LAYER_WEIGHT / Math.sqrt(3)) * water.spreadK(atS, zeroS);
}

/** The mean of the probes is not the mean of the water where the water lies in layers. */
export function defineLayers(water: WaterCurve, atS: number, zeroS: number, model: Model): number {
  if (water.probesAt(atS) < 2) {
    model.setDefault(['litToTargetS', 'litToBoilS'], byDefault('singleProbe', { standardUncertaintyK: ONE_PROBE_U_K }));
    return model.ownError('water.layers', ONE_PROBE_U_K);
  }
  const spreadK = water.spreadK(atS, zeroS);
  model.setDefault(['litToTargetS', 'litToBoilS'], byDefault('layers', { spreadK, weight: LAYER_WEIGHT }));
  return model.ownError('water.layers', Math.max(0.01, layersU(water, atS, zeroS)), 'rectangular');
}
