/**
 * Finds feeds in the curves that no mark explains: the open door cools the riser, the new wood then heats it; or the
 * pile gets lighter.
 */

import type { BurnRecord, Channel } from '../contract/burn-record.ts';
import { ATTENTIONS } from '../contract/mark-kinds.ts';
import type { Curve } from './curves/channel-curve.ts';
import { bridgeOf, segmentsOf } from './curves/segments.ts';
import { firstIndexAtOrAfter, smooth } from './curves/smoothing.ts';

const HALF_WIDTH_S = 10;
const EXPLAINED_WITHIN_S = 180;
const FALL_SHARE = 0.1;
const RISE_SHARE = 0.15;
/** Time between checks, s: a fire changes slowly enough. */
const LOOK_EVERY_S = 5;
const FALL_WITHIN_S = 90;
const RISE_WITHIN_S = 360;
const PILE_STEP_KG = 0.1;
const PILE_WITHIN_S = 20;
const MIN_SPACING_S = 180;

export function suggestedFeedsS(record: BurnRecord, curves: readonly Curve[], fromS: number, toS: number): number[] {
  // The readings of a person are too far apart to show a step or a dip.
  const ofRole = (role: Channel['role']) => curves.find(({ channel }) => channel.role === role && !channel.handRead);
  const scale = ofRole('fuelScale');
  const fire = ofRole('riser') ?? ofRole('flue');
  const seenS = scale ? pileStepsS(scale) : fire ? dipsS(fire) : [];
  const knownS = record.marks
    .filter(({ kind }) => ATTENTIONS.has(kind) || kind === 'lit')
    .map((mark) => mark.elapsedUs / 1e6);
  return seenS.filter(
    (atS) =>
      atS > fromS + EXPLAINED_WITHIN_S &&
      atS < toS &&
      !knownS.some((known) => Math.abs(known - atS) <= EXPLAINED_WITHIN_S),
  );
}

function levelOf(curve: Curve): Float64Array {
  const segments = segmentsOf(curve.timeS, curve.value, bridgeOf(curve));
  return smooth(curve.timeS, curve.value, segments, HALF_WIDTH_S).level;
}

function pileStepsS(scale: Curve): number[] {
  const level = levelOf(scale);
  const { timeS } = scale;
  const found: number[] = [];
  for (let index = 0; index < timeS.length; index++) {
    const later = firstIndexAtOrAfter(timeS, timeS[index]! + PILE_WITHIN_S);
    if (later >= timeS.length) break;
    if (
      level[index]! - level[later]! >= PILE_STEP_KG &&
      timeS[index]! - (found.at(-1) ?? Number.NEGATIVE_INFINITY) > MIN_SPACING_S
    ) {
      found.push(timeS[index]!);
    }
  }
  return found;
}

function dipsS(fire: Curve): number[] {
  const level = levelOf(fire);
  const { timeS } = fire;
  const coldC = level.find((value) => !Number.isNaN(value)) ?? 0;
  const lowestFrom = slidingExtreme(timeS, level, FALL_WITHIN_S, -1);
  const highestFrom = slidingExtreme(timeS, level, RISE_WITHIN_S, 1);
  const found: number[] = [];
  let lookedS = Number.NEGATIVE_INFINITY;
  for (let index = 0; index < timeS.length; index++) {
    const atS = timeS[index]!;
    if (atS - lookedS < LOOK_EVERY_S) continue;
    lookedS = atS;
    if (atS - (found.at(-1) ?? Number.NEGATIVE_INFINITY) < MIN_SPACING_S || !(level[index]! > coldC + 100)) continue;
    const heightK = level[index]! - coldC;
    const lowest = lowestFrom(index);
    const fallK = level[index]! - level[lowest]!;
    if (fallK < FALL_SHARE * heightK) continue;
    if (level[highestFrom(lowest)]! - level[lowest]! >= RISE_SHARE * heightK + fallK) found.push(timeS[lowest]!);
  }
  return found;
}

/**
 * Returns a function from an index with a level to the index of the lowest (`sign` −1) or highest (1) level from there
 * to `withinS` later. It is called with rising indices, so a level that a later one exceeds is never wanted again.
 */
function slidingExtreme(timeS: Float64Array, level: Float64Array, withinS: number, sign: 1 | -1) {
  const candidates = new Int32Array(level.length);
  let head = 0;
  let count = 0;
  let end = 0;
  return (index: number): number => {
    for (; end < level.length && timeS[end]! <= timeS[index]! + withinS; end++) {
      if (Number.isNaN(level[end]!)) continue;
      while (count > head && sign * (level[end]! - level[candidates[count - 1]!]!) > 0) count--;
      candidates[count++] = end;
    }
    while (candidates[head]! < index) head++;
    return candidates[head]!;
  };
}
