import type { Channel } from '../contract/burn-record.ts';
import { baselineOf } from './baseline.ts';
import { otherMoved } from './other-channel.ts';
import { type Outcome, type ProbeScan, probeFinding, type RunningTest, valueUnit } from './probe-scan.ts';

/** Number of scans with a fault before it counts, so that a loose contact during pulling does not. */
const FAULTY_SCANS = 2;
/** Grace time, s: a plug may hold two probes, which drop out one scan after the other. */
const OTHER_GRACE_S = 5;
/** A jump of this size, in the unit of the value, is how a board reads a missing probe. Common practice, no source. */
const JUMP: Partial<Record<Channel['unit'], number>> = { Cel: 20, kg: 1, Pa: 5000 };
/** Duration, s, after which a jump counts. */
const LASTING_S = 10;

/** Pulling a probe must show as a fault of its channel, never as a number. */
export function faultTest(test: RunningTest, nowS: number): Outcome | undefined {
  const { channels, index, since, before } = test;
  const checked = channels[index]!;
  const fault = since.at(-1)?.readings[index]?.fault;
  if (fault !== undefined && isFaulty(since, index)) {
    return { passed: true, finding: probeFinding('probe/pull-passed', 'good', index, checked, { fault }) };
  }
  const wasGood = (place: number) => before.at(-1)?.readings[place]?.fault === undefined;
  const other = otherMoved(
    test,
    nowS,
    OTHER_GRACE_S,
    (earlier, place) => wasGood(place) && isFaulty(earlier.since, place),
  );
  if (other) return other;
  const { value, count } = since.at(-1)?.readings[index] ?? {};
  if (count === undefined) return undefined;
  const params = { found: value ?? count, unit: value === undefined ? '1' : valueUnit(checked) };
  if (hasJumped(test, nowS))
    return { passed: false, finding: probeFinding('probe/pull-number', 'bad', index, checked, params) };
  if (nowS - test.beganS < test.limitS) return undefined;
  return { passed: false, finding: probeFinding('probe/pull-unseen', 'bad', index, checked, params) };
}

function isFaulty(scans: readonly ProbeScan[], index: number): boolean {
  const last = scans.slice(-FAULTY_SCANS);
  return last.length === FAULTY_SCANS && last.every(({ readings }) => readings[index]?.fault !== undefined);
}

/** Whether the value jumped and stayed there; a count outside every temperature counts as a jump too. */
function hasJumped({ channels, before, since, index }: RunningTest, nowS: number): boolean {
  const start = baselineOf(before, index)?.value;
  const jump = JUMP[valueUnit(channels[index]!)];
  if (start === undefined || jump === undefined) return false;
  const lastNear = since.findLast(({ readings }) => {
    const { value, count } = readings[index] ?? {};
    return count === undefined || (value !== undefined && Math.abs(value - start) < jump);
  });
  return nowS - (lastNear?.atS ?? since[0]!.atS) >= LASTING_S;
}
