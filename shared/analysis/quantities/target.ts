/** When the target was reached, as a quantity: the person's mark, or the crossing of the curve with all that makes it uncertain. */

import type { BurnRecord } from '../../contract/burn-record.ts';
import { BOIL_BELOW_K } from '../curves/boil-rule.ts';
import { type FoundMoment, markedMoment, marksOf } from '../curves/fire-moments.ts';
import { type CrossingTable, crossingTable, isReached, momentOf } from '../curves/level-crossing.ts';
import { firstIndexAtOrAfter } from '../curves/smoothing.ts';
import type { WaterCurve } from '../curves/water-curve.ts';
import { byDefault, missing, remark } from '../engine/messages.ts';
import type { Model } from '../engine/model.ts';
import { defineHeatingRate } from './heating-rate.ts';
import { defineLayers } from './layers.ts';
import { defineMoment } from './moment-error.ts';
import type { WaterErrors } from './water-temperature.ts';

/** Lag of a probe of which it is not known, s: anywhere from none to this ("common practice, no source"). */
const UNKNOWN_LAG_S = 20;
/** The rate at the crossing is that of the last half kelvin before it. */
const SLOPE_OVER_K = 0.5;
const SHORT_GAP_S = 300;
/** Readings closer than this follow the water well enough to say when it passed a level. */
const SPARSE_S = 45;

export const TARGET_NAMES = ['litToTargetS', 'litToBoilS', 'targetTempC', 'heatingRateKPerMin'] as const;

export function defineTarget(
  record: BurnRecord,
  water: WaterCurve | undefined,
  errors: WaterErrors | undefined,
  lit: FoundMoment,
  litError: number,
  fireOut: FoundMoment | undefined,
  model: Model,
): FoundMoment | undefined {
  const { target } = record;
  const isBoil = target.kind === 'boil';
  if (!isBoil) model.markMissing('litToBoilS', missing('targetBelowBoil', { targetTempC: target.tempC }));
  const best = model.evaluate(model.bestEstimate());
  const boilingKnown = model.isKnown('boilingTempC');
  if (!isBoil && boilingKnown && target.tempC > best.boilingTempC - BOIL_BELOW_K) {
    model.markMissing(
      TARGET_NAMES,
      missing('targetAboveBoiling', { targetTempC: target.tempC, boilingTempC: best.boilingTempC }),
    );
    return undefined;
  }
  if (isBoil && !boilingKnown) model.markMissing('targetTempC', missing('boilingPointUnknown'));
  model.define((_draw, quantities) => {
    quantities.targetTempC = isBoil ? quantities.boilingTempC - BOIL_BELOW_K : target.tempC;
  });
  const targetC = isBoil ? best.boilingTempC - BOIL_BELOW_K : target.tempC;
  if (best.startTempC >= targetC) {
    model.markMissing(
      TARGET_NAMES,
      missing('targetAlreadyReached', { startTempC: best.startTempC, targetTempC: targetC }),
    );
    return undefined;
  }
  const endS = fireOut?.elapsedS ?? water?.timeS.at(-1) ?? 0;
  const reached =
    water && errors && !Number.isNaN(targetC)
      ? findTarget(water, errors, targetC, lit.elapsedS, endS, best.waterGain)
      : undefined;
  if (reached) defineHeatingRate(water!, lit.elapsedS, reached.atS, reached.levelC, best.startTempC, model);
  else model.markMissing('heatingRateKPerMin', missing('targetNotReached', reachedParams(water, errors, targetC)));

  const [mark] = marksOf(record, 'targetReached');
  if (mark) {
    const marked = markedMoment(mark, reached?.atS);
    const error = defineMoment('mark.target', marked, model);
    model.remark(['litToTargetS', 'litToBoilS'], remark('targetFromMark'));
    model.define((draw, quantities) => {
      quantities.litToTargetS = marked.elapsedS + draw[error]! - lit.elapsedS - draw[litError]!;
      quantities.litToBoilS = quantities.litToTargetS;
    });
    if (marked.elapsedS <= lit.elapsedS) model.markMissing(TARGET_NAMES, missing('windowEmpty'));
    return marked;
  }
  if (!water || !errors) {
    model.markMissing(TARGET_NAMES, missing('noWaterTemperature'));
    return undefined;
  }
  if (!reached) {
    model.markMissing(
      TARGET_NAMES,
      missing(
        isBoil && !boilingKnown ? 'boilingPointUnknown' : 'targetNotReached',
        reachedParams(water, errors, targetC),
      ),
    );
    return undefined;
  }
  return defineCrossing(water, errors, reached, lit, litError, isBoil, model);
}

interface Reached {
  readonly table: CrossingTable;
  readonly levelC: number;
  readonly atS: number;
}

/** The level as read that stands for the true target, and when it was reached, with a table around it for the draws. */
function findTarget(
  water: WaterCurve,
  errors: WaterErrors,
  targetC: number,
  litS: number,
  endS: number,
  gain: number,
): Reached | undefined {
  const levelC = targetC + errors.errorK(targetC) + gain * errors.errorK(targetC);
  const reachK = 6 * Math.max(0.05, errors.standardUncertaintyK) + 1;
  const table = crossingTable(water, litS, endS, levelC - reachK, levelC + reachK, reachK / 200);
  if (!isReached(table, levelC)) return undefined;
  return { table, levelC, atS: momentOf(table, levelC) };
}

function reachedParams(
  water: WaterCurve | undefined,
  errors: WaterErrors | undefined,
  targetC: number,
): Record<string, number> {
  if (!water || !errors || Number.isNaN(targetC)) return {};
  let highestC = Number.NEGATIVE_INFINITY;
  for (const tempC of water.tempC) if (tempC > highestC) highestC = tempC;
  return { highestTempC: highestC - errors.errorK(highestC), targetTempC: targetC };
}

function defineCrossing(
  water: WaterCurve,
  errors: WaterErrors,
  { table, levelC, atS }: Reached,
  lit: FoundMoment,
  litError: number,
  isBoil: boolean,
  model: Model,
): FoundMoment | undefined {
  const names = ['litToTargetS', 'litToBoilS'] as const;
  const index = firstIndexAtOrAfter(water.timeS, atS);
  const rateKPerS = Math.max(1e-4, SLOPE_OVER_K / (atS - momentOf(table, levelC - SLOPE_OVER_K)));
  const betweenS = timeBefore(water, index);
  const gapS = betweenS > water.bridgeS ? betweenS : 0;
  if (gapS > SHORT_GAP_S) {
    // When it was reached is not known; that it was reached is.
    model.markMissing(names, missing('crossingInGap', { gapS }));
    return { elapsedS: atS, standardUncertaintyS: gapS / Math.sqrt(12), source: 'detected', uncertaintyStated: true };
  }
  const levelError = model.ownError('water.noiseAtTarget', Math.max(0.01, water.noiseK));
  const layers = defineLayers(water, atS, lit.elapsedS, model);
  // Between readings far apart the water may have passed the level at any time, whoever read it.
  const isSparse = gapS > 0 || betweenS > SPARSE_S;
  const gap = isSparse ? model.ownError('water.gapAtTarget', betweenS / Math.sqrt(12), 'rectangular') : undefined;
  if (gapS > 0) model.remark(names, remark('crossingInShortGap', { gapS }));
  else if (isSparse) model.remark(names, remark('crossingBetweenReadings', { apartS: betweenS }));
  const lag = water.lagS === undefined ? defineUnknownLag(water, model) : undefined;
  model.define((draw, quantities) => {
    const { targetTempC, waterOffsetK, waterGain } = quantities;
    const readC = targetTempC + waterOffsetK + waterGain * targetTempC;
    // Noise and layers move the moment along the curve's own slope there: near a plateau a look-up would leave the curve.
    let momentS = momentOf(table, readC) + (draw[levelError]! + draw[layers]!) / rateKPerS;
    if (lag !== undefined) momentS -= draw[lag]!;
    if (gap !== undefined) momentS += draw[gap]!;
    quantities.litToTargetS = momentS - lit.elapsedS - draw[litError]!;
    quantities.litToBoilS = quantities.litToTargetS;
  });
  const u = errors.afterPlateauK / rateKPerS;
  if (isBoil && !isReached(table, levelC + 2 * errors.afterPlateauK)) model.remark(names, remark('boilUncertain'));
  return { elapsedS: atS, standardUncertaintyS: u, source: 'detected', uncertaintyStated: true };
}

/** From the usable reading before a place to the one there, s; 0 where there is none before. */
function timeBefore({ timeS, tempC }: WaterCurve, index: number): number {
  let before = index - 1;
  while (before >= 0 && Number.isNaN(tempC[before]!)) before--;
  if (before < 0 || index >= timeS.length) return 0;
  return timeS[index]! - timeS[before]!;
}

function defineUnknownLag(water: WaterCurve, model: Model): number {
  model.setDefault(['litToTargetS', 'litToBoilS'], byDefault('probeLag', { longestS: UNKNOWN_LAG_S }));
  return model.input({
    name: 'probe.lag',
    value: 0,
    standardUncertainty: UNKNOWN_LAG_S / Math.sqrt(12),
    distribution: 'oneSided',
    sharing: 'channel',
    sharedId: water.channels[0]!.id,
  });
}
