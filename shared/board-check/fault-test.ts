import type { Channel } from '../contract/burn-record.ts';
import { baselineOf } from './baseline.ts';
import { otherMoved } from './other-channel.ts';
import { type Outcome, type ProbeScan, probeFinding, type RunningTest, valueUnit } from './probe-scan.ts';

/** A fault counts once it stands in so many scans: a loose contact while pulling is none yet. */
const FAULTY_SCANS = 2;
/** One plug may hold two probes: both fall out, one scan after the other. */
const OTHER_GRACE_S = 5;
/** A number that jumps by so much, in the unit of the value, is what the board makes of no probe. Common practice, no source. */
const JUMP: Partial<Record<Channel['unit'], number>> = { Cel: 20, kg: 1, Pa: 5000 };
/** A jump that lasts so long is no passing one. */
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

/** Whether the number went far off and stayed there; a count that is no temperature any more is far off as well. */
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
