/**
 * Divides a curve into stretches that may be interpolated: a gap, or a long run of unusable readings, is never crossed.
 */

import type { Channel } from '../../contract/burn-record.ts';
import { median } from '../../statistics/quantile.ts';

export interface Segment {
  /** First index and one past the last. */
  readonly from: number;
  readonly to: number;
}

const SHORTEST_GAP_S = 10;
const GAP_PERIODS = 4;
/** Readings of a person are irregular; a pause longer than this is a gap ("common practice, no source"). */
export const SHORTEST_HAND_GAP_S = 1200;
const SAMPLED_STEPS = 1000;
/** All channels of a board share their moments, which do not change. */
const periodsS = new WeakMap<Float64Array, number>();
const pauses = new WeakMap<Float64Array, { bridgeS: number; indices: readonly number[] }>();

/**
 * Returns the time between scans, s: the median of up to a thousand steps spread over the whole; 1 for fewer than two
 * scans.
 */
export function scanPeriodS(timeS: Float64Array): number {
  const known = periodsS.get(timeS);
  if (known !== undefined) return known;
  const periodS = medianStepS(timeS);
  periodsS.set(timeS, periodS);
  return periodS;
}

function medianStepS(timeS: Float64Array): number {
  const count = timeS.length - 1;
  if (count < 1) return 1;
  const stride = Math.max(1, Math.ceil(count / SAMPLED_STEPS));
  const steps = new Float64Array(Math.ceil(count / stride));
  for (let sample = 0; sample < steps.length; sample++) {
    const index = sample * stride;
    steps[sample] = timeS[index + 1]! - timeS[index]!;
  }
  return median(steps);
}

/** Returns the index after each pause longer than `bridgeS`. */
export function longPauses(timeS: Float64Array, bridgeS: number): readonly number[] {
  const known = pauses.get(timeS);
  if (known?.bridgeS === bridgeS) return known.indices;
  const indices: number[] = [];
  for (let index = 1; index < timeS.length; index++)
    if (timeS[index]! - timeS[index - 1]! > bridgeS) indices.push(index);
  pauses.set(timeS, { bridgeS, indices });
  return indices;
}

/** Returns the longest time between two readings, s, that may be interpolated. */
export function longestBridgeS(periodS: number): number {
  return Math.max(SHORTEST_GAP_S, GAP_PERIODS * periodS);
}

/** Returns the same for the readings of one channel: those of a person are irregular and minutes apart. */
export function bridgeOf({ channel, timeS }: { channel: Channel; timeS: Float64Array }): number {
  const bridgeS = longestBridgeS(scanPeriodS(timeS));
  return channel.handRead ? Math.max(SHORTEST_HAND_GAP_S, bridgeS) : bridgeS;
}

/** Returns segments of usable readings, without a pause longer than `bridgeS`. */
export function segmentsOf(timeS: Float64Array, value: Float64Array, bridgeS: number): Segment[] {
  const segments: Segment[] = [];
  let from = -1;
  let last = -1;
  for (let index = 0; index < timeS.length; index++) {
    if (Number.isNaN(value[index]!)) continue;
    if (last >= 0 && timeS[index]! - timeS[last]! > bridgeS) {
      segments.push({ from, to: last + 1 });
      from = index;
    }
    if (from < 0) from = index;
    last = index;
  }
  if (last >= 0) segments.push({ from, to: last + 1 });
  return segments;
}
