/** The mean heating rate as a quantity. */

import { firstIndexAtOrAfter } from '../curves/smoothing.ts';
import type { WaterCurve } from '../curves/water-curve.ts';
import { missing } from '../engine/messages.ts';
import type { Model } from '../engine/model.ts';
import { layersU } from './layers.ts';

/**
 * Least-squares slope of the water from 10 to 90 % of its rise. Where that window lies depends on the errors of the temperature: the
 * slope of a window whose end is a kelvin higher tells how much.
 */
export function defineHeatingRate(
  water: WaterCurve,
  litS: number,
  targetS: number,
  levelC: number,
  startTempC: number,
  model: Model,
): void {
  const fit = slopeBetween(water, litS, targetS, startTempC, levelC - startTempC);
  if (!fit) {
    model.markMissing('heatingRateKPerMin', missing('noRise'));
    return;
  }
  const wider = slopeBetween(water, litS, targetS, startTempC, levelC - startTempC + 1) ?? fit;
  const perKelvin = wider.slope - fit.slope;
  const layersK = layersU(water, (litS + targetS) / 2, litS);
  const u = Math.hypot(Math.max(water.noiseK, 0.01) / Math.sqrt(fit.spread), layersK / fit.lastsMin);
  const slopeError = model.ownError('water.noiseOfSlope', u);
  const bestErrorK = levelC - model.evaluate(model.bestEstimate()).targetTempC;
  model.define((draw, quantities) => {
    const { waterOffsetK, waterGain, targetTempC } = quantities;
    const errorK = Number.isNaN(targetTempC) ? bestErrorK : waterOffsetK + waterGain * targetTempC;
    quantities.heatingRateKPerMin = fit.slope * (1 - waterGain) + perKelvin * (errorK - bestErrorK) + draw[slopeError]!;
  });
}

interface Slope {
  /** K/min. */
  readonly slope: number;
  /** Σ(t − t̄)², min². */
  readonly spread: number;
  readonly lastsMin: number;
}

function slopeBetween(
  { timeS, tempC }: WaterCurve,
  litS: number,
  targetS: number,
  startTempC: number,
  riseK: number,
): Slope | undefined {
  if (!(riseK > 0)) return undefined;
  let count = 0;
  let sumT = 0;
  let sumC = 0;
  let sumTT = 0;
  let sumTC = 0;
  let first = Number.NaN;
  let last = Number.NaN;
  for (let index = firstIndexAtOrAfter(timeS, litS); index < timeS.length; index++) {
    if (timeS[index]! > targetS) break;
    const roseK = tempC[index]! - startTempC;
    if (!(roseK >= 0.1 * riseK && roseK <= 0.9 * riseK)) continue;
    const minutes = (timeS[index]! - litS) / 60;
    if (count === 0) first = minutes;
    last = minutes;
    count += 1;
    sumT += minutes;
    sumC += roseK;
    sumTT += minutes * minutes;
    sumTC += minutes * roseK;
  }
  const spread = sumTT - (sumT * sumT) / count;
  if (count < 3 || !(spread > 0)) return undefined;
  return { slope: (sumTC - (sumT * sumC) / count) / spread, spread, lastsMin: last - first };
}
