import type { Finding } from '../contract/board-check.ts';
import { ZERO_CELSIUS_K } from '../physics/units.ts';
import { allowedErrorK } from './allowed-error.ts';
import { baselineOf } from './baseline.ts';
import type { LocalBoilingPoint } from './boiling-point.ts';
import { otherTempMoved } from './other-channel.ts';
import { type Outcome, probeFinding, type RunningTest, seriesOf } from './probe-scan.ts';
import { BATH_UNCERTAINTY_K, steadinessOf } from './steadiness.ts';

/** Change, K, that shows that a probe was put into the bath. */
const ENTERED_K = 5;
/** Extra time, s, for this probe when another one in the same bath responds first. */
const OTHER_GRACE_S = 20;
/** Error, K, above which the cause is a wrong kind of probe or a bad joint rather than calibration. */
const FAR_OFF_K = 5;
/** Tolerance, K, for recognising a reading in another scale of temperature. */
const OTHER_SCALE_K = 3;

/**
 * A probe in ice or boiling water, once it is steady, has to read the temperature of the bath, within its class.
 * @param boiling local boiling point; undefined where the place is not known
 */
export function bathTest(
  kind: 'ice' | 'boil',
  test: RunningTest,
  nowS: number,
  boiling: LocalBoilingPoint | undefined,
): Outcome | undefined {
  const { channels, index, before, since, beganS, limitS } = test;
  const isOver = nowS - beganS >= limitS;
  const other = otherTempMoved(test, nowS, OTHER_GRACE_S, kind === 'ice' ? -1 : 1);
  if (other) return other;
  const series = seriesOf(since, index);
  const steadiness = steadinessOf(series);
  if (!steadiness) return undefined;
  const { mean, drift, isSteady, isStill } = steadiness;
  if (!isStill && !isOver) return undefined;
  const ended = (code: Finding['code'], level: Finding['level'], params: Finding['params'] = {}): Outcome => ({
    passed: level === 'good',
    finding: probeFinding(code, level, index, channels[index]!, { tempC: mean, ...params }),
  });
  if (!isSteady) return ended(`probe/${kind}-not-steady`, 'doubtful', { driftK: drift });
  const startC = baselineOf(before, index)?.value ?? series.values[0]!;
  const hasEntered = Math.abs(mean - startC) >= ENTERED_K;
  const notEntered = () => (isOver ? ended(`probe/${kind}-not-entered`, 'doubtful') : undefined);
  const bath = kind === 'ice' ? { tempC: 0, standardUncertaintyK: 0 } : boiling;
  if (!bath) return hasEntered ? { ...ended('probe/boil-no-place', 'doubtful'), reached: mean } : notEntered();

  const { tempC: truthC } = bath;
  const bathK = Math.hypot(BATH_UNCERTAINTY_K[kind], bath.standardUncertaintyK);
  const allowedK = allowedErrorK(channels[index]!, truthC, bathK);
  const offK = mean - truthC;
  const compared = { reached: mean, expected: truthC, expectedUncertaintyK: bathK };
  if (Math.abs(offK) <= allowedK)
    return { ...ended(`probe/${kind}-passed`, 'good', { truthC, allowedK }), ...compared };
  if (!hasEntered) return notEntered();
  const scale = otherScale(mean, truthC);
  if (scale) return ended(`probe/reads-${scale}`, 'bad', { truthC });
  const level = Math.abs(offK) > FAR_OFF_K ? 'bad' : 'doubtful';
  return { ...ended(`probe/${kind}-off`, level, { truthC, offK, allowedK }), ...compared };
}

/** Returns the other scale, if any, in which `tempC` is the reading for `truthC`. */
export function otherScale(tempC: number, truthC: number): 'fahrenheit' | 'kelvin' | undefined {
  if (Math.abs(tempC - (1.8 * truthC + 32)) <= OTHER_SCALE_K) return 'fahrenheit';
  return Math.abs(tempC - (truthC + ZERO_CELSIUS_K)) <= OTHER_SCALE_K ? 'kelvin' : undefined;
}
