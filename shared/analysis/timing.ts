/** Times and temperatures at lit, at the target and at fire out, as ingredients. */
import type { BurnRecord } from '../contract/burn-record.ts';
import { type FoundMoment, firstPotOn, markedMoment, marksOf } from './fire-moments.ts';
import type { Ledger } from './ledger.ts';
import { byDefault, missing, remark } from './messages.ts';
import { isReached, momentOf, type ReachTable, reachTable } from './reaching.ts';
import { firstPlaceAtOrAfter } from './smoothing.ts';
import type { WaterCurve } from './water-curve.ts';
import type { WaterErrors } from './water-temperature.ts';

export const BOIL_BELOW_K = 0.5;
/** Lag of a probe of which it is not known, s: anywhere from none to this ("common practice, no source"). */
const UNKNOWN_LAG_S = 15;
/** Weight of the warm and the cool end in the mean of the water: half, give or take this (rectangular). */
const LAYER_WEIGHT = 0.12;
const ONE_PROBE_U_K = 0.3;
/** The rate at the crossing is that of the last half kelvin before it. */
const SLOPE_OVER_K = 0.5;
const SHORT_GAP_S = 300;
const HAND_READ_U_K = 1;
/** The water before lighting, clear of the smoothing. */
const BEFORE_S = { from: 80, to: 20 };
const ALREADY_RISING_K_PER_S = 0.2 / 60;
const CAME_WITH_THE_POT_K = 2;

export interface Timing {
  readonly target: FoundMoment | undefined;
  /** Moments of every level around the target, for what depends on it. */
  readonly startReadC: number | undefined;
}

export function enterTiming(
  record: BurnRecord,
  water: WaterCurve | undefined,
  errors: WaterErrors | undefined,
  lit: FoundMoment | undefined,
  fireOut: FoundMoment | undefined,
  ledger: Ledger,
): Timing {
  const litError = lit && enterMoment('mark.lit', lit, ledger);
  const startReadC = enterStart(record, water, lit, ledger);
  enterWhole(lit, litError, fireOut, ledger);
  enterEnd(record, water, fireOut, ledger);
  if (!lit || litError === undefined) {
    ledger.lack(['litToTargetS', 'litToBoilS', 'targetTempC', 'heatingRateKPerMin'], missing('litUnknown'));
    return { target: undefined, startReadC };
  }
  const target = enterTarget(record, water, errors, lit, litError, fireOut, ledger);
  return { target, startReadC };
}

/** Enters the error of a moment; what was not stated is named. */
export function enterMoment(
  name: 'mark.lit' | 'mark.fireOut' | 'mark.target',
  moment: FoundMoment,
  ledger: Ledger,
): number {
  const ingredient = {
    'mark.lit': ['litToTargetS', 'litToBoilS', 'wholeS'],
    'mark.fireOut': ['wholeS'],
    'mark.target': ['litToTargetS', 'litToBoilS'],
  } as const;
  const u = { standardUncertaintyS: moment.standardUncertaintyS };
  if (moment.source === 'detected' && name !== 'mark.target') {
    ledger.assume(ingredient[name], byDefault(name === 'mark.lit' ? 'litDetected' : 'fireOutDetected', u));
  } else if (!moment.uncertaintyStated) {
    const codes = {
      'mark.lit': 'litUncertainty',
      'mark.fireOut': 'fireOutUncertainty',
      'mark.target': 'targetMarkUncertainty',
    } as const;
    ledger.assume(ingredient[name], byDefault(codes[name], u));
  }
  return ledger.input({
    name,
    value: 0,
    standardUncertainty: moment.standardUncertaintyS,
    distribution: 'normal',
    sharing: 'mark',
    ...(moment.markId === undefined ? {} : { sharedId: moment.markId }),
  });
}

function enterWhole(
  lit: FoundMoment | undefined,
  litError: number | undefined,
  fireOut: FoundMoment | undefined,
  ledger: Ledger,
): void {
  if (!lit || litError === undefined) {
    ledger.lack('wholeS', missing('litUnknown'));
    return;
  }
  if (!fireOut) {
    ledger.lack('wholeS', missing('fireOutUnknown'));
    return;
  }
  const wholeS = fireOut.elapsedS - lit.elapsedS;
  if (wholeS <= 0) {
    ledger.lack('wholeS', missing('windowEmpty'));
    return;
  }
  const fireOutError = enterMoment('mark.fireOut', fireOut, ledger);
  ledger.fill((draw, ingredients) => {
    ingredients.wholeS = wholeS + draw[fireOutError]! - draw[litError]!;
  });
}

/** The water as it stood when the fire began to act on it: at lit, or at pot on where the pot came later. */
function enterStart(
  record: BurnRecord,
  water: WaterCurve | undefined,
  lit: FoundMoment | undefined,
  ledger: Ledger,
): number | undefined {
  const potOn = firstPotOn(record);
  const potOnS = potOn && potOn.elapsedUs / 1e6;
  if (lit && potOnS !== undefined && Math.abs(potOnS - lit.elapsedS) > 1) {
    ledger.remark(['litToTargetS', 'litToBoilS'], remark('potOnOffset', { offsetS: potOnS - lit.elapsedS }));
  }
  const startS = Math.max(lit?.elapsedS ?? Number.NEGATIVE_INFINITY, potOnS ?? Number.NEGATIVE_INFINITY);
  if (water && Number.isFinite(startS)) {
    const cameLater = potOnS !== undefined && lit !== undefined && potOnS > lit.elapsedS + BEFORE_S.to;
    const around =
      (cameLater ? atPotOn(water, startS) : upTo(water, startS)) ??
      readAround(water, startS - BEFORE_S.from, startS + 15) ??
      readAround(water, startS, startS + 240);
    if (around) {
      const first = water.timeS[firstPlaceAtOrAfter(water.timeS, startS - BEFORE_S.from)]!;
      if (first > startS + 15)
        ledger.remark('startTempC', remark('recordingStartedAfterLit', { afterS: first - startS }));
      enterReadTemp('startTempC', around, water, ledger);
      return around.tempC;
    }
  }
  const weighed = record.weighings.find(
    ({ of, when, tempC }) => of === 'water' && when === 'start' && tempC !== undefined,
  );
  if (weighed?.tempC !== undefined) {
    enterHandTemp('startTempC', weighed.tempC, ledger);
    ledger.assume(
      'startTempC',
      byDefault('startTempFromWeighing', { tempC: weighed.tempC, standardUncertaintyK: HAND_READ_U_K }),
    );
    return undefined;
  }
  ledger.lack('startTempC', missing(water ? 'noWaterTempAtLit' : 'noWaterTemperature'));
  return undefined;
}

/** The water before lighting. Over a stove still warm from the burn before it may be rising already: then on along its line. */
function upTo(water: WaterCurve, atS: number): ReadTemp | undefined {
  const around = readAround(water, atS - BEFORE_S.from, atS - BEFORE_S.to);
  const middleS = (BEFORE_S.from + BEFORE_S.to) / 2;
  const rateKPerS = water.rateKPerS[firstPlaceAtOrAfter(water.timeS, atS - middleS)] ?? 0;
  if (!around || Math.abs(rateKPerS) < ALREADY_RISING_K_PER_S) return around;
  return { ...around, tempC: around.tempC + middleS * rateKPerS };
}

/** Probes that sat in the waiting pot all along read its water before it came; probes that came with it do not. */
function atPotOn(water: WaterCurve, atS: number): ReadTemp | undefined {
  const before = upTo(water, atS);
  const after = backTo(water, atS);
  const same = before && after && Math.abs(before.tempC - after.tempC) < CAME_WITH_THE_POT_K;
  return same ? before : after;
}

/** A pot that came later brings its probes along: the line through their first minute, back to the moment of pot on. */
function backTo(water: WaterCurve, atS: number): ReadTemp | undefined {
  const place = firstPlaceAtOrAfter(water.timeS, atS + 30);
  const laterS = (water.timeS[place] ?? Number.NaN) - atS;
  if (!(laterS < 60) || Number.isNaN(water.tempC[place]!)) return undefined;
  return { tempC: water.tempC[place]! - laterS * water.rateKPerS[place]!, noiseK: Math.max(2 * water.noiseK, 0.05) };
}

function enterEnd(
  record: BurnRecord,
  water: WaterCurve | undefined,
  fireOut: FoundMoment | undefined,
  ledger: Ledger,
): void {
  if (!fireOut) {
    ledger.lack('endTempC', missing('fireOutUnknown'));
    return;
  }
  if (ledger.missing.get('wholeS')?.code === 'windowEmpty') {
    ledger.lack('endTempC', missing('windowEmpty'));
    return;
  }
  if (water) {
    const endS = fireOut.elapsedS;
    const around = readAround(water, endS - 30, endS + 15) ?? readAround(water, endS - 600, endS);
    if (around) {
      enterReadTemp('endTempC', around, water, ledger);
      return;
    }
  }
  const weighed = record.weighings.find(
    ({ of, when, tempC }) => of === 'water' && when === 'end' && tempC !== undefined,
  );
  if (weighed?.tempC === undefined) {
    ledger.lack('endTempC', missing(water ? 'noWaterTempAtEnd' : 'noWaterTemperature'));
    return;
  }
  enterHandTemp('endTempC', weighed.tempC, ledger);
  ledger.assume(
    'endTempC',
    byDefault('endTempFromWeighing', { tempC: weighed.tempC, standardUncertaintyK: HAND_READ_U_K }),
  );
}

interface ReadTemp {
  readonly tempC: number;
  readonly noiseK: number;
}

function readAround(water: WaterCurve, fromS: number, toS: number): ReadTemp | undefined {
  let count = 0;
  let sum = 0;
  for (let place = firstPlaceAtOrAfter(water.timeS, fromS); place < water.timeS.length; place++) {
    if (water.timeS[place]! > toS) break;
    if (Number.isNaN(water.tempC[place]!)) continue;
    count += 1;
    sum += water.tempC[place]!;
  }
  return count > 0 ? { tempC: sum / count, noiseK: Math.max(water.noiseK, 0.005) } : undefined;
}

function enterReadTemp(
  name: 'startTempC' | 'endTempC',
  { tempC, noiseK }: ReadTemp,
  water: WaterCurve,
  ledger: Ledger,
): void {
  const noise = ledger.ownError(name === 'startTempC' ? 'water.noiseAtStart' : 'water.noiseAtEnd', noiseK);
  if (water.channels.length === 1)
    ledger.remark(name, remark('onlyOneProbeLeft', { channel: water.channels[0]!.name }));
  ledger.fill((draw, ingredients) => {
    ingredients[name] = tempC + draw[noise]! - ingredients.waterOffsetK - ingredients.waterGain * tempC;
  });
}

function enterHandTemp(name: 'startTempC' | 'endTempC', tempC: number, ledger: Ledger): void {
  const error = ledger.ownError(name === 'startTempC' ? 'water.handReadStart' : 'water.handReadEnd', HAND_READ_U_K);
  ledger.fill((draw, ingredients) => {
    ingredients[name] = tempC + draw[error]!;
  });
}

const TARGET_NAMES = ['litToTargetS', 'litToBoilS', 'targetTempC', 'heatingRateKPerMin'] as const;

function enterTarget(
  record: BurnRecord,
  water: WaterCurve | undefined,
  errors: WaterErrors | undefined,
  lit: FoundMoment,
  litError: number,
  fireOut: FoundMoment | undefined,
  ledger: Ledger,
): FoundMoment | undefined {
  const { target } = record;
  const isBoil = target.kind === 'boil';
  if (!isBoil) ledger.lack('litToBoilS', missing('targetBelowBoil', { targetTempC: target.tempC }));
  const best = ledger.evaluate(ledger.bestEstimate());
  const boilingKnown = ledger.isKnown('boilingTempC');
  if (!isBoil && boilingKnown && target.tempC > best.boilingTempC - BOIL_BELOW_K) {
    ledger.lack(
      TARGET_NAMES,
      missing('targetAboveBoiling', { targetTempC: target.tempC, boilingTempC: best.boilingTempC }),
    );
    return undefined;
  }
  if (isBoil && !boilingKnown) ledger.lack('targetTempC', missing('boilingPointUnknown'));
  ledger.fill((_draw, ingredients) => {
    ingredients.targetTempC = isBoil ? ingredients.boilingTempC - BOIL_BELOW_K : target.tempC;
  });
  const targetC = isBoil ? best.boilingTempC - BOIL_BELOW_K : target.tempC;
  if (best.startTempC >= targetC) {
    ledger.lack(TARGET_NAMES, missing('targetAlreadyReached', { startTempC: best.startTempC, targetTempC: targetC }));
    return undefined;
  }
  const endS = fireOut?.elapsedS ?? water?.timeS.at(-1) ?? 0;
  const reached =
    water && errors && !Number.isNaN(targetC)
      ? findTarget(water, errors, targetC, lit.elapsedS, endS, best.waterGain)
      : undefined;
  if (reached) enterHeatingRate(water!, lit.elapsedS, reached.atS, reached.levelC, best.startTempC, ledger);
  else ledger.lack('heatingRateKPerMin', missing('targetNotReached', reachedParams(water, errors, targetC)));

  const [mark] = marksOf(record, 'targetReached');
  if (mark) {
    const marked = markedMoment(mark, reached?.atS);
    const error = enterMoment('mark.target', marked, ledger);
    ledger.remark(['litToTargetS', 'litToBoilS'], remark('targetFromMark'));
    ledger.fill((draw, ingredients) => {
      ingredients.litToTargetS = marked.elapsedS + draw[error]! - lit.elapsedS - draw[litError]!;
      ingredients.litToBoilS = ingredients.litToTargetS;
    });
    if (marked.elapsedS <= lit.elapsedS) ledger.lack(TARGET_NAMES, missing('windowEmpty'));
    return marked;
  }
  if (!water || !errors) {
    ledger.lack(TARGET_NAMES, missing('noWaterTemperature'));
    return undefined;
  }
  if (!reached) {
    ledger.lack(
      TARGET_NAMES,
      missing(
        isBoil && !boilingKnown ? 'boilingPointUnknown' : 'targetNotReached',
        reachedParams(water, errors, targetC),
      ),
    );
    return undefined;
  }
  return enterCrossing(water, errors, reached, lit, litError, isBoil, ledger);
}

interface Reached {
  readonly table: ReachTable;
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
  const table = reachTable(water, litS, endS, levelC - reachK, levelC + reachK, reachK / 200);
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

function enterCrossing(
  water: WaterCurve,
  errors: WaterErrors,
  { table, levelC, atS }: Reached,
  lit: FoundMoment,
  litError: number,
  isBoil: boolean,
  ledger: Ledger,
): FoundMoment | undefined {
  const names = ['litToTargetS', 'litToBoilS'] as const;
  const place = firstPlaceAtOrAfter(water.timeS, atS);
  const rateKPerS = Math.max(1e-4, SLOPE_OVER_K / (atS - momentOf(table, levelC - SLOPE_OVER_K)));
  const gapS = gapBefore(water, place);
  if (gapS > SHORT_GAP_S) {
    // When it was reached is not known; that it was reached is.
    ledger.lack(names, missing('crossingInGap', { gapS }));
    return { elapsedS: atS, standardUncertaintyS: gapS / Math.sqrt(12), source: 'detected', uncertaintyStated: true };
  }
  const levelError = ledger.ownError('water.noiseAtTarget', Math.max(0.01, water.noiseK));
  const layers = enterLayers(water, atS, lit.elapsedS, ledger);
  const gap = gapS > 0 ? ledger.ownError('water.gapAtTarget', gapS / Math.sqrt(12), 'rectangular') : undefined;
  if (gap !== undefined) ledger.remark(names, remark('crossingInShortGap', { gapS }));
  const lag = water.lagS === undefined ? enterUnknownLag(water, ledger) : undefined;
  ledger.fill((draw, ingredients) => {
    const { targetTempC, waterOffsetK, waterGain } = ingredients;
    const readC = targetTempC + waterOffsetK + waterGain * targetTempC;
    // Noise and layers move the moment along the curve's own slope there: near a plateau a look-up would leave the curve.
    let momentS = momentOf(table, readC) + (draw[levelError]! + draw[layers]!) / rateKPerS;
    if (lag !== undefined) momentS -= draw[lag]!;
    if (gap !== undefined) momentS += draw[gap]!;
    ingredients.litToTargetS = momentS - lit.elapsedS - draw[litError]!;
    ingredients.litToBoilS = ingredients.litToTargetS;
  });
  const u = errors.afterPlateauK / rateKPerS;
  if (isBoil && !isReached(table, levelC + 2 * errors.afterPlateauK)) ledger.remark(names, remark('boilUncertain'));
  return { elapsedS: atS, standardUncertaintyS: u, source: 'detected', uncertaintyStated: true };
}

function gapBefore({ timeS, tempC, bridgeS }: WaterCurve, place: number): number {
  let before = place - 1;
  while (before >= 0 && Number.isNaN(tempC[before]!)) before--;
  if (before < 0 || place >= timeS.length) return 0;
  const gapS = timeS[place]! - timeS[before]!;
  return gapS > bridgeS ? gapS : 0;
}

/** The mean of the probes is not the mean of the water where the water lies in layers. */
function enterLayers(water: WaterCurve, atS: number, zeroS: number, ledger: Ledger): number {
  if (water.probesAt(atS) < 2) {
    ledger.assume(['litToTargetS', 'litToBoilS'], byDefault('singleProbe', { standardUncertaintyK: ONE_PROBE_U_K }));
    return ledger.ownError('water.layers', ONE_PROBE_U_K);
  }
  const spreadK = water.spreadK(atS, zeroS);
  const u = (LAYER_WEIGHT / Math.sqrt(3)) * spreadK;
  ledger.assume(['litToTargetS', 'litToBoilS'], byDefault('layers', { spreadK, weight: LAYER_WEIGHT }));
  return ledger.ownError('water.layers', Math.max(0.01, u), 'rectangular');
}

function enterUnknownLag(water: WaterCurve, ledger: Ledger): number {
  ledger.assume(['litToTargetS', 'litToBoilS'], byDefault('probeLag', { longestS: UNKNOWN_LAG_S }));
  return ledger.input({
    name: 'probe.lag',
    value: 0,
    standardUncertainty: UNKNOWN_LAG_S / Math.sqrt(12),
    distribution: 'oneSided',
    sharing: 'channel',
    sharedId: water.channels[0]!.id,
  });
}

/**
 * Least-squares slope of the water from 10 to 90 % of its rise. Where that window lies depends on the errors of the temperature: the
 * slope of a window whose end is a kelvin higher tells how much.
 */
function enterHeatingRate(
  water: WaterCurve,
  litS: number,
  targetS: number,
  levelC: number,
  startTempC: number,
  ledger: Ledger,
): void {
  const fit = slopeBetween(water, litS, targetS, startTempC, levelC - startTempC);
  if (!fit) {
    ledger.lack('heatingRateKPerMin', missing('noRise'));
    return;
  }
  const wider = slopeBetween(water, litS, targetS, startTempC, levelC - startTempC + 1) ?? fit;
  const perKelvin = wider.slope - fit.slope;
  const layersK = (LAYER_WEIGHT / Math.sqrt(3)) * water.spreadK((litS + targetS) / 2, litS);
  const u = Math.hypot(Math.max(water.noiseK, 0.01) / Math.sqrt(fit.spread), layersK / fit.lastsMin);
  const slopeError = ledger.ownError('water.noiseOfSlope', u);
  const bestErrorK = levelC - ledger.evaluate(ledger.bestEstimate()).targetTempC;
  ledger.fill((draw, ingredients) => {
    const { waterOffsetK, waterGain, targetTempC } = ingredients;
    const errorK = Number.isNaN(targetTempC) ? bestErrorK : waterOffsetK + waterGain * targetTempC;
    ingredients.heatingRateKPerMin =
      fit.slope * (1 - waterGain) + perKelvin * (errorK - bestErrorK) + draw[slopeError]!;
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
  for (let place = firstPlaceAtOrAfter(timeS, litS); place < timeS.length; place++) {
    if (timeS[place]! > targetS) break;
    const roseK = tempC[place]! - startTempC;
    if (!(roseK >= 0.1 * riseK && roseK <= 0.9 * riseK)) continue;
    const minutes = (timeS[place]! - litS) / 60;
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
