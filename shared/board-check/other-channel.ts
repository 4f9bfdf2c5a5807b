import { changeOf } from './baseline.ts';
import { isTemperature, type Outcome, probeFinding, type RunningTest } from './probe-scan.ts';

/** A change of another probe by this much, K, is caused by the person. */
const MOVED_K = 3;
/** A change of this probe, K, that shows it is only slower. */
const FOLLOWS_K = 1;

/**
 * Returns whether another probe responded instead of this one: the person holds the wrong probe, or the wires or labels
 * of the two are exchanged.
 * @param graceS time in which this probe may still respond
 * @param hasMoved whether a channel responds in the scans of the test passed in
 */
export function otherMoved(
  test: RunningTest,
  nowS: number,
  graceS: number,
  hasMoved: (test: RunningTest, index: number) => boolean,
): Outcome | undefined {
  const { channels, index, since } = test;
  const earlier = { ...test, since: since.filter(({ atS }) => atS <= nowS - graceS) };
  const other = channels.findIndex(
    ({ channel }, place) => place !== index && channel.role !== 'coldJunction' && hasMoved(earlier, place),
  );
  if (other < 0) return undefined;
  const params = { other: channels[other]!.label, otherNumber: other + 1 };
  return { passed: false, finding: probeFinding('probe/other-moved', 'bad', index, channels[index]!, params) };
}

/** Returns whether another probe got warmer (1) or colder (-1) while this one did not. */
export function otherTempMoved(
  test: RunningTest,
  nowS: number,
  graceS: number,
  direction: 1 | -1,
): Outcome | undefined {
  const own = changeOf(test.before, test.since, test.index);
  if (!own || direction * own.by >= FOLLOWS_K + own.unclear) return undefined;
  return otherMoved(test, nowS, graceS, ({ channels, before, since }, place) => {
    const change = isTemperature(channels[place]!) ? changeOf(before, since, place) : undefined;
    return change !== undefined && direction * change.by >= MOVED_K + change.unclear;
  });
}
