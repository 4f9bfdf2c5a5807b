/**
 * Flags readings of a single channel, whatever it measures: faults, gaps, exclusions, impossible values, spikes, stuck
 * readings.
 */

import type { BurnRecord, FaultCode } from '../../contract/burn-record.ts';
import { median } from '../../statistics/quantile.ts';
import type { Curve } from './channel-curve.ts';
import { type FlagCode, FlaggedCurve } from './flags.ts';
import { bridgeOf, longPauses, scanPeriodS } from './segments.ts';

const FAULT_FLAGS: Readonly<Record<FaultCode, FlagCode>> = {
  open: 'open',
  shortToGround: 'shorted',
  shortToSupply: 'shorted',
  outOfRange: 'outOfRange',
  noAnswer: 'gap',
  unreadable: 'gap',
};
/** Limits of temperatures at a stove; water in an open pot is well inside the second pair. */
const LIMITS_C = { low: -60, high: 1400 };
const WATER_LIMITS_C = { low: -5, high: 130 };
/** A jump below this is not a spike, K. Flames flicker; water does not. */
const SPIKE_K = { water: 2, contentCore: 2, flue: 40, riser: 60 } as const;
const OTHER_SPIKE_K = 6;
const SPIKE_NOISE_WIDTHS = 8;
const NEIGHBOURS = 4;
/**
 * Number of equal readings in a row that count as stuck. Where one reading in five reverses by noise, chance produces
 * such a run less than once in a billion.
 */
const STUCK_READINGS = 150;
const FLICKER_SHARE = 0.2;
const MOVED_STEADY_S = 30;

export function assessQuality(record: BurnRecord, curves: readonly Curve[]): FlaggedCurve[] {
  return curves.map((curve) => {
    const flagged = new FlaggedCurve(curve);
    const limits = limitsOf(curve);
    // Nearly every curve is whole and possible, and is looked at once for it.
    const isSound = isWithin(curve.value, limits);
    if (!isSound || curve.faults.length > 0) flagFaults(flagged);
    flagMissedScans(flagged);
    for (const exclusion of record.exclusions ?? []) {
      if (exclusion.channelId !== curve.channel.id) continue;
      flagged.flagBetween(exclusion.fromUs / 1e6, exclusion.toUs / 1e6, 'excluded');
    }
    for (const mark of record.marks) {
      if (mark.kind !== 'probeMoved' || mark.channelId !== curve.channel.id) continue;
      flagged.flagBetween(mark.elapsedUs / 1e6, mark.elapsedUs / 1e6 + MOVED_STEADY_S, 'moved');
    }
    if (isTemperature(curve)) {
      flagSpikes(flagged);
      if (!isSound) flagImpossible(flagged, limits);
      flagStuck(flagged);
    }
    return flagged;
  });
}

export function isTemperature({ channel }: Curve): boolean {
  return channel.unit === 'Cel' || channel.unit === 'uV' || channel.unit === 'Ohm';
}

function flagFaults(flagged: FlaggedCurve): void {
  const { faults, value } = flagged.curve;
  for (const [place, fault] of faults) if (place < value.length) flagged.flag(place, FAULT_FLAGS[fault]);
  for (let index = 0; index < value.length; index++) if (Number.isNaN(value[index]!)) flagged.flag(index, 'gap');
}

function flagMissedScans(flagged: FlaggedCurve): void {
  const { timeS } = flagged.curve;
  for (const index of longPauses(timeS, bridgeOf(flagged.curve))) {
    flagged.flagMissedScans(timeS[index - 1]!, timeS[index]!);
  }
}

interface Limits {
  readonly low: number;
  readonly high: number;
}

function limitsOf(curve: Curve): Limits {
  if (!isTemperature(curve)) return { low: Number.NEGATIVE_INFINITY, high: Number.POSITIVE_INFINITY };
  return curve.channel.role === 'water' ? WATER_LIMITS_C : LIMITS_C;
}

/** @returns false for a NaN, too */
function isWithin(value: Float64Array, { low, high }: Limits): boolean {
  for (let index = 0; index < value.length; index++) if (!(value[index]! >= low && value[index]! <= high)) return false;
  return true;
}

function flagImpossible(flagged: FlaggedCurve, { low, high }: Limits): void {
  const { value } = flagged.curve;
  for (let index = 0; index < value.length; index++) {
    if (value[index]! < low || value[index]! > high) flagged.flag(index, 'outOfRange');
  }
}

/**
 * Returns the noise of one reading: from the median of the steps between readings, so that spikes and steps do not
 * count.
 */
function noiseOf(value: Float64Array): number {
  const stride = Math.max(1, Math.floor(value.length / 2000));
  const steps = new Float64Array(Math.ceil(value.length / stride));
  let count = 0;
  for (let index = 1; index < value.length; index += stride) {
    const step = Math.abs(value[index]! - value[index - 1]!);
    if (!Number.isNaN(step)) steps[count++] = step;
  }
  if (count === 0) return 0;
  // Median of |difference of two normals| is 0.6745·√2 standard deviations.
  return median(steps.subarray(0, count)) / (0.6745 * Math.SQRT2);
}

/**
 * Returns the same from the distance of a reading from the line between its neighbours, since distant readings differ
 * by the rise itself.
 */
export function noiseAboutLines(value: Float64Array): number {
  const stride = Math.max(1, Math.floor(value.length / 2000));
  const bends: number[] = [];
  for (let index = 2; index < value.length; index += stride) {
    const bend = Math.abs(value[index]! - 2 * value[index - 1]! + value[index - 2]!);
    if (!Number.isNaN(bend)) bends.push(bend);
  }
  return bends.length === 0 ? 0 : median(bends) / (0.6745 * Math.sqrt(6));
}

function flagSpikes(flagged: FlaggedCurve): void {
  const { value, timeS, channel } = flagged.curve;
  const least = channel.role in SPIKE_K ? SPIKE_K[channel.role as keyof typeof SPIKE_K] : OTHER_SPIKE_K;
  // Readings minutes apart may differ by any amount: a spike is only visible in a curve that is dense in time.
  if (scanPeriodS(timeS) > 10) return;
  let noiseJump: number | undefined;
  // The noise is worked out at the first step that is large enough without it: most curves have none.
  const isJump = (differenceK: number) => {
    if (!(differenceK > least)) return false;
    noiseJump ??= SPIKE_NOISE_WIDTHS * noiseOf(value);
    return differenceK > noiseJump;
  };
  const spikes: number[] = [];
  const near = new Float64Array(2 * NEIGHBOURS);
  let last = Number.NaN;
  let lastWasOdd = false;
  for (let index = 0; index < value.length; index++) {
    const here = value[index]!;
    if (!lastWasOdd && Math.abs(here - last) <= least) {
      last = here;
      continue;
    }
    if (Number.isNaN(here)) continue;
    const jumped = Number.isNaN(last) || isJump(Math.abs(here - last));
    if ((jumped || lastWasOdd) && isJump(Math.abs(here - medianAround(value, index, near)))) {
      spikes.push(index);
      lastWasOdd = true;
    } else {
      lastWasOdd = jumped;
    }
    last = here;
  }
  for (const place of spikes) flagged.flag(place, 'spike');
}

function medianAround(value: Float64Array, index: number, near: Float64Array): number {
  let count = 0;
  for (let step = 1; step < 60 && index - step >= 0 && count < NEIGHBOURS; step++) {
    if (!Number.isNaN(value[index - step]!)) near[count++] = value[index - step]!;
  }
  const before = count;
  for (let step = 1; step < 60 && index + step < value.length && count < before + NEIGHBOURS; step++) {
    if (!Number.isNaN(value[index + step]!)) near[count++] = value[index + step]!;
  }
  if (count < 3) return value[index]!;
  return median(near.subarray(0, count));
}

/**
 * Flags equal readings in a row, where noise changes the readings of the channel elsewhere. A quiet coarse channel may
 * stay on one count for long.
 */
function flagStuck(flagged: FlaggedCurve): void {
  const { value } = flagged.curve;
  const runs = equalRuns(value, STUCK_READINGS);
  if (runs.length === 0 || flickerShare(value) < FLICKER_SHARE) return;
  for (const [from, to] of runs) {
    for (let index = from; index < to; index++) flagged.flag(index, 'stuck');
  }
}

/** Returns the share of the steps between readings in the opposite direction to the step before. */
function flickerShare(value: Float64Array): number {
  let turns = 0;
  let steps = 0;
  let lastStep = 0;
  for (let index = 1; index < value.length; index++) {
    const step = value[index]! - value[index - 1]!;
    if (Number.isNaN(step)) continue;
    steps += 1;
    if (step === 0) continue;
    if (step * lastStep < 0) turns += 1;
    lastStep = step;
  }
  return steps === 0 ? 0 : turns / steps;
}

/** Runs of at least `least` equal values, two or more: [first index, one past the last]. */
export function equalRuns(value: Float64Array, least: number): [number, number][] {
  const runs: [number, number][] = [];
  // Such a run contains two of the indices that are this far apart, so only those are tested.
  const stride = Math.floor(least / 2);
  for (let index = 0; index + stride < value.length; index += stride) {
    if (value[index] !== value[index + stride]) continue;
    let from = index;
    while (from > 0 && value[from - 1] === value[index]) from--;
    let to = index + 1;
    while (to < value.length && value[to] === value[index]) to++;
    if (to - from >= least) runs.push([from, to]);
    index = Math.floor((to - 1) / stride) * stride;
  }
  return runs;
}
