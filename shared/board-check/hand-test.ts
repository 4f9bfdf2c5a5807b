import { baselineOf, type Change, changeOf } from './baseline.ts';
import { otherTempMoved } from './other-channel.ts';
import { isTemperature, type Outcome, probeFinding, type RunningTest } from './probe-scan.ts';

/** A hand of about 33 °C warms a probe at the bench by more than this within a minute. Common practice, no source. */
const RISE_K = 2;
/** A fall this large is not a draught: the two wires of the thermocouple are exchanged. */
const FALL_K = 1;
/** Rise of a cold junction, a chip under a finger. */
const FINGER_RISE_K = 0.5;
/** Above this a hand warms a probe too little to be visible, or cools it. */
const TOO_WARM_C = 29;
/** Grace time, s, for this probe when another one held with it responds first. */
const OTHER_GRACE_S = 5;
/** Force of a hand on a scale, as a mass. */
const PRESS_KG = 0.1;

/** A probe in the hand gets warmer, and a pressed scale reads more; a falling reading means reversed wires. */
export function handTest(test: RunningTest, nowS: number): Outcome | undefined {
  const change = changeOf(test.before, test.since, test.index);
  return isTemperature(test.channels[test.index]!) ? warmed(test, change, nowS) : pressed(test, change, nowS);
}

function warmed(test: RunningTest, change: Change | undefined, nowS: number): Outcome | undefined {
  const { channels, index, before } = test;
  const checked = channels[index]!;
  const startC = baselineOf(before, index)?.value;
  const riseK = checked.channel.role === 'coldJunction' ? FINGER_RISE_K : RISE_K;
  if (change && change.by >= riseK + change.unclear)
    return { passed: true, finding: probeFinding('probe/hand-passed', 'good', index, checked, { riseK: change.by }) };
  const isWarm = startC !== undefined && startC > TOO_WARM_C;
  if (change && !isWarm && change.by <= -FALL_K - change.unclear)
    return { passed: false, finding: probeFinding('probe/hand-falls', 'bad', index, checked, { fallK: -change.by }) };
  const other = otherTempMoved(test, nowS, OTHER_GRACE_S, 1);
  if (other) return other;
  if (nowS - test.beganS < test.limitS || !change) return undefined;
  if (isWarm)
    return {
      passed: false,
      finding: probeFinding('probe/hand-too-warm', 'doubtful', index, checked, { tempC: startC }),
    };
  return {
    passed: false,
    finding: probeFinding('probe/hand-nothing', 'bad', index, checked, { changeK: change.by, seconds: test.limitS }),
  };
}

function pressed(test: RunningTest, change: Change | undefined, nowS: number): Outcome | undefined {
  const { channels, index } = test;
  const checked = channels[index]!;
  if (!change) return undefined;
  const kg = Math.abs(change.by);
  if (kg >= PRESS_KG + change.unclear)
    return change.by > 0
      ? { passed: true, finding: probeFinding('probe/press-passed', 'good', index, checked, { kg }) }
      : { passed: false, finding: probeFinding('probe/press-falls', 'bad', index, checked, { kg }) };
  if (nowS - test.beganS < test.limitS) return undefined;
  const params = { kg: change.by, seconds: test.limitS };
  return { passed: false, finding: probeFinding('probe/press-nothing', 'bad', index, checked, params) };
}
