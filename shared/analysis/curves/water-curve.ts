/**
 * The temperature of the water: the mean of the trusted water probes on one time base, smoothed, and corrected for the
 * lag of the probes where it is known. It is the temperature as read: the errors of the probes are applied later, in
 * every draw.
 */
import type { Channel } from '../../contract/burn-record.ts';
import type { Curve } from './channel-curve.ts';
import { noiseAboutLines } from './quality.ts';
import { bridgeOf, type Segment, scanPeriodS, segmentsOf } from './segments.ts';
import { firstIndexAtOrAfter, smooth, valueAt } from './smoothing.ts';
import { findStair, type Stair } from './stairs.ts';

export interface WaterCurve {
  /** Probes in the mean, with equal weights. */
  readonly channels: readonly Channel[];
  readonly timeS: Float64Array;
  /** NaN where no probe is usable. */
  readonly tempC: Float64Array;
  readonly rateKPerS: Float64Array;
  readonly segments: readonly Segment[];
  readonly bridgeS: number;
  readonly periodS: number;
  /**
   * Whether a person read it, at intervals of minutes: the readings are interpolated linearly, and the temperature
   * between them is not known.
   */
  readonly isHandRead: boolean;
  /** Standard deviation of the noise left in `tempC`, K. */
  readonly noiseK: number;
  /**
   * Standard uncertainty, K, of the mean of displays with coarse steps, where no edge determines the curve; 0 without
   * such steps.
   */
  readonly restingU: number;
  /** Errors of the moment at which the mean passed a level, from steps without a near edge. */
  stepErrors(atS: number): StepError[];
  /** Mean lag of the probes that the curve is corrected for, s; `undefined` where a probe's lag is not known. */
  readonly lagS: number | undefined;
  /** Number of probes with a reading near a moment. */
  probesAt(atS: number): number;
  /** The reading of each probe near a moment, °C, in the order of `channels`; NaN where it has none. */
  readAt(atS: number): number[];
  /** Difference between the warmest and the coolest probe near a moment, K, less their difference near `zeroS`. */
  spreadK(atS: number, zeroS: number): number;
}

/** A rectangular error from the steps of one probe, or of several in phase. */
export interface StepError {
  readonly channelId: string;
  readonly halfWidthS: number;
}

const FINEST_PERIOD_S = 1;
const HALF_WIDTH_S = 20;
/** A line fitted to this many readings counts fully, to the fewer not at all; between the two, in proportion. */
const FITTED_READINGS = { all: 9, none: 6 };
/** A probe with readings for less than this share of the time is left out. */
const LEAST_SHARE = 0.05;
/** Number of scans over which a probe's usual distance from the mean is averaged. */
const LEARNING_SCANS = 30;
const LAYERS_FADE_S = 900;
const SPREAD_HALF_WIDTH_S = 60;
/** Edges of two probes closer than this share of a step count as in phase. */
const IN_PHASE = 0.1;
/** Step of a dial without a stated one: it is read to the nearest kelvin ("common practice, no source"). */
const DIAL_STEP_K = 1;

/** Returns `undefined` when no water probe has a usable reading. */
export function waterCurve(curves: readonly Curve[]): WaterCurve | undefined {
  const probes = counted(
    curves.filter(({ channel, value }) => channel.role === 'water' && usableShare(value) >= LEAST_SHARE),
  );
  const base = probes.reduce<Curve | undefined>(
    (best, curve) => (best && boardSize(best, probes) >= boardSize(curve, probes) ? best : curve),
    undefined,
  );
  if (!base) return undefined;
  const timeS = grid(base.timeS);
  const periodS = scanPeriodS(timeS);
  const isHandRead = base.channel.handRead === true;
  const bridgeS = bridgeOf({ channel: base.channel, timeS });
  const stairs = probes.map(({ channel, timeS: atS, value }) => (channel.handRead ? undefined : findStair(atS, value)));
  const led = probes.map((probe, at) => ({ ...probe, value: stairs[at]?.value ?? probe.value }));
  const readings = led.map((probe) => onGrid(probe, timeS, bridgeS));
  const mean = steadyMean(timeS, readings);
  const segments = segmentsOf(timeS, mean, bridgeS);
  const smoothed = smooth(timeS, mean, segments, HALF_WIDTH_S);
  const { slope } = smoothed;
  // A line over a few distant readings removes little noise and rounds off the corner at the boil.
  const fitted = isHandRead ? 0 : fittedShare(periodS);
  const level =
    fitted === 1 ? smoothed.level : mean.map((reading, index) => blend(reading, smoothed.level[index]!, fitted));
  const lags = probes.map(({ channel }) => channel.timeConstantS);
  const lagS = lags.every((lag) => lag !== undefined)
    ? lags.reduce((sum, lag) => sum + lag, 0) / lags.length
    : undefined;
  if (lagS !== undefined) for (let index = 0; index < level.length; index++) level[index]! += lagS * slope[index]!;
  return {
    channels: probes.map(({ channel }) => channel),
    timeS,
    tempC: level,
    rateKPerS: slope,
    segments,
    bridgeS,
    periodS,
    isHandRead,
    noiseK: stairs.some((stair) => stair)
      ? noiseOfEdges(probes, stairs)
      : noiseOfMean(probes, mean) * noiseShare(fitted, periodS),
    restingU: Math.hypot(...stairs.map((stair) => (stair?.stepK ?? 0) / Math.sqrt(12))) / probes.length,
    stepErrors: (atS) => openSteps(probes, stairs, atS),
    lagS,
    probesAt: (atS) => readings.filter((reading) => !Number.isNaN(meanAround(timeS, reading, atS))).length,
    readAt: (atS) => readings.map((reading) => meanAround(timeS, reading, atS)),
    spreadK(atS, zeroS) {
      if (readings.length < 2) return 0;
      const distances = readings.map((reading) => meanAround(timeS, reading, atS) - meanAround(timeS, reading, zeroS));
      const usable = distances.filter((distance) => !Number.isNaN(distance));
      return usable.length < 2 ? 0 : Math.max(...usable) - Math.min(...usable);
    },
  };
}

/** Returns the weight of a fitted line against single readings, 0 to 1. */
function fittedShare(periodS: number): number {
  const { all, none } = FITTED_READINGS;
  return Math.min(1, Math.max(0, (readingsInFit(periodS) - none) / (all - none)));
}

function readingsInFit(periodS: number): number {
  return 1 + (2 * HALF_WIDTH_S) / periodS;
}

function blend(reading: number, line: number, fitted: number): number {
  if (Number.isNaN(reading)) return fitted > 0 ? line : Number.NaN;
  return reading + fitted * (line - reading);
}

/** Returns the share of a reading's noise, as a standard deviation, that remains after smoothing. */
function noiseShare(fitted: number, periodS: number): number {
  const own = 1 - fitted;
  return Math.sqrt(own * own + (1 - own * own) / readingsInFit(periodS));
}

/**
 * Selects the probes that count. Where boards read the water, readings by a person do not count, since they are less
 * exact and rare. They do where the boards stopped before half of the person's readings.
 */
function counted(probes: readonly Curve[]): readonly Curve[] {
  const byHand = probes.filter(({ channel }) => channel.handRead);
  const byBoard = probes.filter(({ channel }) => !channel.handRead);
  const lasts = (curves: readonly Curve[]) => Math.max(0, ...curves.map(lastsS));
  return lasts(byBoard) > 0 && lasts(byBoard) >= lasts(byHand) / 2 ? byBoard : byHand.length > 0 ? byHand : byBoard;
}

/** Returns the time from the first usable reading to the last, s. */
function lastsS({ timeS, value }: Curve): number {
  const isUsable = (reading: number) => !Number.isNaN(reading);
  const first = value.findIndex(isUsable);
  return first < 0 ? 0 : timeS[value.findLastIndex(isUsable)]! - timeS[first]!;
}

function usableShare(value: Float64Array): number {
  let usable = 0;
  for (let index = 0; index < value.length; index++) if (!Number.isNaN(value[index]!)) usable += 1;
  return value.length > 0 ? usable / value.length : 0;
}

function boardSize(curve: Curve, probes: readonly Curve[]): number {
  return probes.filter(({ timeS }) => timeS === curve.timeS).length;
}

/** Returns the scan times of the board, or whole seconds where it scans faster than once a second. */
function grid(timeS: Float64Array): Float64Array {
  if (scanPeriodS(timeS) >= 0.9 * FINEST_PERIOD_S) return timeS;
  const seconds: number[] = [];
  for (const atS of timeS) {
    const second = Math.floor(atS) + FINEST_PERIOD_S / 2;
    if (second !== seconds.at(-1)) seconds.push(second);
  }
  return Float64Array.from(seconds);
}

function onGrid(curve: Curve, timeS: Float64Array, bridgeS: number): Float64Array {
  if (curve.timeS === timeS) return curve.value;
  const ownPeriodS = scanPeriodS(curve.timeS);
  if (ownPeriodS < 0.9 * FINEST_PERIOD_S) return secondMeans(curve, timeS);
  return timeS.map((atS) => valueAt(curve.timeS, curve.value, atS, Math.max(bridgeS, bridgeOf(curve))));
}

function secondMeans(curve: Curve, timeS: Float64Array): Float64Array {
  let index = 0;
  return timeS.map((atS) => {
    let count = 0;
    let sum = 0;
    while (index < curve.timeS.length && curve.timeS[index]! < atS + FINEST_PERIOD_S / 2) {
      const value = curve.value[index++]!;
      if (Number.isNaN(value) || curve.timeS[index - 1]! < atS - FINEST_PERIOD_S / 2) continue;
      count += 1;
      sum += value;
    }
    return count > 0 ? sum / count : Number.NaN;
  });
}

/**
 * Returns the mean over all probes. Where some are missing, the others are shifted by their latest distance from the
 * mean, so that a probe that drops out causes no step. Part of that distance is the layering of the water, which
 * disappears as the water boils; the distance therefore decays to that in the still water at the start, which comes
 * from the probes themselves.
 */
function steadyMean(timeS: Float64Array, readings: readonly Float64Array[]): Float64Array {
  const [first] = readings;
  if (!first || readings.length === 1) return Float64Array.from(first ?? []);
  const still = firstDistances(readings);
  const usual = still.slice();
  const mean = new Float64Array(first.length);
  for (let index = 0; index < first.length; index++) {
    const stepS = index > 0 ? timeS[index]! - timeS[index - 1]! : 0;
    let count = 0;
    let sum = 0;
    let sumUsual = 0;
    for (let probe = 0; probe < readings.length; probe++) {
      const reading = readings[probe]![index]!;
      if (Number.isNaN(reading)) continue;
      count += 1;
      sum += reading;
      sumUsual += usual[probe]!;
    }
    const here = (sum - (count < readings.length ? sumUsual : 0)) / count;
    mean[index] = here;
    if (count < readings.length) {
      const fades = Math.min(1, stepS / LAYERS_FADE_S);
      for (let probe = 0; probe < readings.length; probe++) usual[probe]! += fades * (still[probe]! - usual[probe]!);
      continue;
    }
    for (let probe = 0; probe < readings.length; probe++) {
      usual[probe]! += (readings[probe]![index]! - here - usual[probe]!) / LEARNING_SCANS;
    }
  }
  return mean;
}

/**
 * Returns the distance of each probe from the mean over the first scans in which all were read; zero when there are
 * none.
 */
function firstDistances(readings: readonly Float64Array[]): Float64Array {
  const distances = new Float64Array(readings.length);
  const length = readings[0]!.length;
  let count = 0;
  for (let index = 0; index < length && count < LEARNING_SCANS; index++) {
    const values = readings.map((reading) => reading[index]!);
    if (values.some((value) => Number.isNaN(value))) continue;
    const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
    values.forEach((value, probe) => {
      distances[probe]! += value - mean;
    });
    count += 1;
  }
  return count > 0 ? distances.map((distance) => distance / count) : distances;
}

/**
 * Returns the noise of edges: an edge is located to one reading, and its noise remains, since nothing is averaged over
 * a step.
 */
function noiseOfEdges(probes: readonly Curve[], stairs: readonly (Stair | undefined)[]): number {
  const each = probes.map(({ channel, timeS }, at) => {
    const stair = stairs[at];
    const placedK = stair ? (stair.stepK / stair.dwellS) * (scanPeriodS(timeS) / Math.sqrt(12)) : 0;
    return Math.hypot(placedK, channel.unit === 'Cel' ? (channel.noiseStandardDeviation ?? 0) : 0);
  });
  return Math.hypot(...each) / probes.length;
}

/**
 * Returns the errors of open steps. Probes in phase have the same error: the mean of two is no better than one. Where
 * only some rest on a step, the others alone determine the mean, so that half a step of the resting ones takes as long
 * as the others need for it.
 */
function openSteps(probes: readonly Curve[], stairs: readonly (Stair | undefined)[], atS: number): StepError[] {
  const together: { stair: Stair; channelId: string; count: number }[] = [];
  stairs.forEach((stair, at) => {
    if (!stair?.isOpen(atS)) return;
    const same = together.find((other) => isInPhase(other.stair, stair, atS));
    if (same) same.count += 1;
    else together.push({ stair, channelId: probes[at]!.channel.id, count: 1 });
  });
  const rising = stairs.filter((stair) => stair && !stair.isOpen(atS)) as Stair[];
  return together.map(({ stair, channelId, count }) => ({
    channelId,
    halfWidthS:
      rising.length === 0
        ? (count * stair.halfStepS(atS)) / stairs.length
        : (count * stair.stepK) / 2 / rising.reduce((sum, other) => sum + other.stepK / (2 * other.halfStepS(atS)), 0),
  }));
}

function isInPhase(a: Stair, b: Stair, atS: number): boolean {
  const [ofA, ofB] = [a.edgeBeforeS(atS), b.edgeBeforeS(atS)];
  const apart = Math.abs(ofA - ofB) / Math.min(a.dwellS, b.dwellS);
  return Math.abs(apart - Math.round(apart)) < IN_PHASE;
}

/**
 * Returns the stated noise of the probes where it is stated for all of them, else that of the readings, and at least
 * the rounding.
 */
function noiseOfMean(probes: readonly Curve[], mean: Float64Array): number {
  const stated = probes.map(({ channel }) => (channel.unit === 'Cel' ? channel.noiseStandardDeviation : undefined));
  if (stated.every((noise) => noise !== undefined)) return Math.hypot(...stated) / probes.length;
  if (probes.every(({ channel }) => channel.handRead)) {
    // From one reading to the next the water itself warms; only the dial's step is noise.
    const steps = probes.map(({ channel }) => channel.noiseStandardDeviation ?? DIAL_STEP_K / Math.sqrt(12));
    return Math.hypot(...steps) / probes.length;
  }
  const rounding = probes.map(({ channel }) => (channel.unit === 'Cel' ? channel.scale : 0) / Math.sqrt(12));
  return Math.max(noiseAboutLines(mean), Math.hypot(...rounding) / probes.length);
}

function meanAround(timeS: Float64Array, value: Float64Array, atS: number): number {
  let count = 0;
  let sum = 0;
  for (let index = firstIndexAtOrAfter(timeS, atS - SPREAD_HALF_WIDTH_S); index < timeS.length; index++) {
    if (timeS[index]! > atS + SPREAD_HALF_WIDTH_S) break;
    if (Number.isNaN(value[index]!)) continue;
    count += 1;
    sum += value[index]!;
  }
  return sum / count;
}
