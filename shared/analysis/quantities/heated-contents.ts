/** Goods heated with the water: their mass, and the lag of their mean temperature behind the bath. */
import type { Content } from '../../contract/burn-record.ts';
import type { Message } from '../../contract/results.ts';
import type { Curve } from '../curves/channel-curve.ts';
import { cylinderMeansC } from '../curves/contents.ts';
import { valueAt } from '../curves/smoothing.ts';
import type { WaterCurve } from '../curves/water-curve.ts';
import { type Input, ownError, type Sum } from '../engine/declaration.ts';
import { byDefault, remark } from '../messages/messages.ts';
import { curves, fireOut, heatingStartS, water } from './burn-curves.ts';
import { fact } from './declare.ts';
import { foundTarget } from './target.ts';

/** Contents of unknown shape: the largest lag of their mean, as a share of the rise ("common practice, no source"). */
const LAG_AT_TARGET = 0.4;
const LAG_AT_END = 0.1;

export interface Heated {
  readonly name: string;
  readonly kg: Sum;
  readonly MJPerKgK: number;
  readonly startTempC: number | undefined;
  /** Factor of the lag behind the bath. */
  readonly lag: Input;
  /** Lag behind the bath, K, at the target and at the end, for one value of that factor. */
  readonly lagAtTargetK: (factor: number, riseK: number) => number;
  readonly lagAtEndK: (factor: number, riseK: number) => number;
  readonly remarks: readonly Message[];
}

interface LoadWindows {
  readonly startS: number;
  readonly targetS: number | undefined;
  readonly endS: number | undefined;
}

export const heatedContents = fact(
  'heated contents',
  [curves, water, heatingStartS, foundTarget, fireOut],
  (given): Heated[] => {
    const windows: LoadWindows = {
      startS: given.fact(heatingStartS),
      targetS: given.fact(foundTarget).moment?.elapsedS,
      endS: given.fact(fireOut)?.elapsedS,
    };
    return (given.subject.contents ?? []).map((content) =>
      heatedContent(content, given.fact(curves), given.fact(water), windows),
    );
  },
);

function heatedContent(
  content: Content,
  curves: readonly Curve[],
  water: WaterCurve | undefined,
  windows: LoadWindows,
): Heated {
  const stated = content.standardUncertaintyKg;
  const standardUncertaintyKg = stated ?? Math.max(0.01, 0.01 * content.massKg);
  const massDefaults =
    stated === undefined
      ? [byDefault('contentsMassUncertainty', { content: content.name, standardUncertaintyKg })]
      : [];
  const massError = ownError('contents.mass', standardUncertaintyKg, { of: content.id, defaults: massDefaults });
  const common = {
    name: content.name,
    kg: { constant: content.massKg, terms: [{ input: massError, weight: 1 }] },
    MJPerKgK: content.specificHeatJPerKgK / 1e6,
    startTempC: content.startTempC,
  };
  const lags = knownLags(content, curves, water, windows);
  if (lags) {
    return {
      ...common,
      lag: { ...ownError('contents.lag', lags.u, { of: content.id }), value: 1 },
      lagAtTargetK: (factor) => factor * lags.atTargetK,
      lagAtEndK: (factor) => factor * lags.atEndK,
      remarks: [],
    };
  }
  const defaults = [byDefault('contentsLag', { content: content.name })];
  return {
    ...common,
    lag: ownError('contents.lag', 1 / Math.sqrt(12), { distribution: 'oneSided', of: content.id, defaults }),
    lagAtTargetK: (factor, riseK) => factor * LAG_AT_TARGET * riseK,
    lagAtEndK: (factor, riseK) => factor * LAG_AT_END * riseK,
    remarks: [remark('contentsOneSided', { content: content.name })],
  };
}

/**
 * Returns the lag of the mean behind the bath: half that of a core probe, or by conduction into a cylinder of the
 * stated radius.
 */
function knownLags(
  content: Content,
  curves: readonly Curve[],
  water: WaterCurve | undefined,
  { startS, targetS, endS }: LoadWindows,
): { atTargetK: number; atEndK: number; u: number } | undefined {
  if (!water || !Number.isFinite(startS)) return undefined;
  const bathC = (atS: number) => valueAt(water.timeS, water.tempC, atS, 600);
  const core = curves.find(({ channel }) => channel.id === content.coreChannelId);
  if (core) {
    const lag = (atS: number | undefined) =>
      atS === undefined ? 0 : (bathC(atS) - valueAt(core.timeS, core.value, atS, 600)) / 2;
    const [atTargetK, atEndK] = [lag(targetS), lag(endS)];
    if (!Number.isNaN(atTargetK + atEndK)) return { atTargetK, atEndK, u: 0.25 };
  }
  if (content.radiusM === undefined) return undefined;
  const startC = content.startTempC ?? bathC(startS);
  const moments = [targetS ?? startS, endS ?? targetS ?? startS];
  const means = cylinderMeansC(content, water, startS, startC, moments);
  const lags = moments.map((atS, index) => bathC(atS) - means[index]!);
  if (lags.some((lag) => Number.isNaN(lag))) return undefined;
  return { atTargetK: lags[0]!, atEndK: lags[1]!, u: 0.3 };
}
