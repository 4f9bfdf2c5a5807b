/** A channel just before a test begins, and how far it has come since. */
import { fitLine } from '../statistics/line-fit.ts';
import { mean } from '../statistics/moments.ts';
import { median } from '../statistics/quantile.ts';
import { type ProbeScan, seriesOf } from './probe-scan.ts';

/** So far back the readings before a test count. */
const BASELINE_S = 15;
/** A change is looked at in the median of so many readings, so that no single stray one decides. */
const RECENT_READINGS = 3;

/** A drift goes on as it was, or up to so many times as fast. */
const DRIFT_SHARE = 1.5;

interface Baseline {
  readonly value: number;
  /** Standard deviation about the trend. */
  readonly noise: number;
  /** Per second; 0 where it cannot be told from none. */
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
  /** From the baseline to the last readings. */
  readonly by: number;
  /** What noise and the drift of before explain of it. */
  readonly unclear: number;
}

/** How far a channel has come since the test began; undefined while there are too few readings. */
export function changeOf(before: readonly ProbeScan[], since: readonly ProbeScan[], index: number): Change | undefined {
  // A test that is begun with the first scan has nothing before it.
  const baseline = baselineOf(before, index) ?? baselineOf(since.slice(0, 1), index);
  const { timesS, values } = seriesOf(since, index);
  if (!baseline || values.length < RECENT_READINGS) return undefined;
  const passedS = timesS.at(-1)! - (before.at(-1)?.atS ?? timesS[0]!);
  return {
    by: median(values.slice(-RECENT_READINGS)) - baseline.value,
    unclear: 5 * baseline.noise + DRIFT_SHARE * Math.abs(baseline.slope) * passedS,
  };
}
