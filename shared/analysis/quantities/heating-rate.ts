/** The mean heating rate. */
import { firstIndexAtOrAfter } from '../curves/smoothing.ts';
import type { WaterCurve } from '../curves/water-curve.ts';
import { each } from '../engine/columns.ts';
import { ownError } from '../engine/declaration.ts';
import { missing } from '../messages/messages.ts';
import { lit, stillS, water } from './burn-curves.ts';
import { quantity } from './declare.ts';
import { startTempC } from './edge-temperatures.ts';
import { layersError } from './layers.ts';
import { foundTarget, targetLevel, targetNotReached, targetTempC } from './target.ts';
import { boilingTempC, waterGain, waterOffsetK } from './water-temperature.ts';

/** Layers form in the first minutes; on the way from a tenth to nine tenths they change by no more than this share of themselves ("common practice, no source"). */
const LAYERS_CHANGE = 2 / 3;

/**
 * Least-squares slope of the water from 10 to 90 % of its rise. The window depends on the errors of the temperature;
 * the slope of a window that ends a kelvin higher gives the sensitivity.
 */
export const heatingRateKPerMin = quantity({
  name: 'heatingRateKPerMin',
  symbol: 'dT/dt',
  unit: 'K/min',
  window: 'toTarget',
  formula: 'slope of T from 10 to 90 % of the rise (least squares)',
  source: 'bench-1 definition',
  needs: [
    water,
    lit,
    stillS,
    targetLevel,
    foundTarget,
    targetNotReached,
    targetTempC,
    startTempC,
    boilingTempC,
    waterOffsetK,
    waterGain,
  ],
  state(given) {
    const level = given.fact(targetLevel);
    if (level.missing) return { missing: level.missing };
    const curve = given.fact(water);
    const { reached, missing: why } = given.fact(foundTarget);
    const litS = given.fact(lit)!.elapsedS;
    if (!curve || !reached) return { missing: given.fact(targetNotReached) };
    const startC = given.best(startTempC);
    const { atS, levelC } = reached;
    const fit = slopeBetween(curve, litS, atS, startC, levelC - startC);
    if (!fit) return { missing: missing('noRise') };
    if (why) return { missing: why };
    const wider = slopeBetween(curve, litS, atS, startC, levelC - startC + 1) ?? fit;
    const perKelvin = wider.slope - fit.slope;
    const noiseKPerMin = Math.max(curve.noiseK, 0.01) / Math.sqrt(fit.spread);
    const middle = {
      atS: (litS + atS) / 2,
      stillS: given.fact(stillS),
      belowBoilK: given.best(boilingTempC) - (startC + levelC) / 2,
    };
    const bestErrorK = levelC - given.best(targetTempC);
    return {
      from: [waterOffsetK, waterGain, targetTempC],
      measured: [
        ownError('water.noiseOfSlope', noiseKPerMin),
        {
          constant: 0,
          terms: [{ input: layersError(curve, middle, 'heatingRate'), weight: LAYERS_CHANGE / fit.lastsMin }],
        },
      ],
      compute: each(
        (offsetK, gain, targetC, noise, layers) =>
          fit.slope * (1 - gain) + perKelvin * (offsetK + gain * targetC - bestErrorK) + noise + layers,
      ),
    };
  },
});

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
