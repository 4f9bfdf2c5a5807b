/** The readings of a channel before a test begins, and its change since then. */
import { fitLine } from '../statistics/line-fit.ts';
import { mean } from '../statistics/moments.ts';
import { median } from '../statistics/quantile.ts';
import { type ProbeScan, seriesOf } from './probe-scan.ts';

/** Time before a test, s, from which its baseline is taken. */
const BASELINE_S = 15;
/** Number of readings whose median gives a change, so that no single outlier decides. */
const RECENT_READINGS = 3;

/** A drift is assumed to continue at up to this multiple of its rate. */
const DRIFT_SHARE = 1.5;

interface Baseline {
  readonly value: number;
  /** Standard deviation about the trend. */
  readonly noise: number;
  /** Per second; 0 where it is not significant. */
  readonly slope: number;
}

export function baselineOf(before: readonly ProbeScan[], index: number): Baseline | undefined {
  const lastS = before.at(-1)?.atS ?? 0;
  const { timesS, values } = seriesOf(
    before.filter(({ atS }) => atS >= lastS - BASELINE_S),
    index,
  );
  if (values.length === 0) return undefined;
  if (values.length < 3) return { value: values.at(-1)!, noise: 0, slope: 0 };
  const line = fitLine(timesS, values);
  const isClear = Math.abs(line.slope) > 2 * line.slopeStandardError;
  return {
    value: isClear ? line.intercept + line.slope * timesS.at(-1)! : mean(values),
    noise: line.residualStandardDeviation,
    slope: isClear ? line.slope : 0,
  };
}

export interface Change {
  /** The change from the baseline to the last readings. */
  readonly by: number;
  /** The part of it that noise and the previous drift explain. */
  readonly unclear: number;
}

/** Returns the change of a channel since the test began; undefined while there are too few readings. */
export function changeOf(before: readonly ProbeScan[], since: readonly ProbeScan[], index: number): Change | undefined {
  // A test that begins with the first scan has no readings before it.
  const baseline = baselineOf(before, index) ?? baselineOf(since.slice(0, 1), index);
  const { timesS, values } = seriesOf(since, index);
  if (!baseline || values.length < RECENT_READINGS) return undefined;
  const passedS = timesS.at(-1)! - (before.at(-1)?.atS ?? timesS[0]!);
  return {
    by: median(values.slice(-RECENT_READINGS)) - baseline.value,
    unclear: 5 * baseline.noise + DRIFT_SHARE * Math.abs(baseline.slope) * passedS,
  };
}
