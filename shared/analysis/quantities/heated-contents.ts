/** Goods heated with the water: their mass, and how far their mean temperature lies behind the bath. */
import type { Content } from '../../contract/burn-record.ts';
import type { Curve } from '../curves/channel-curve.ts';
import { cylinderMeansC } from '../curves/contents.ts';
import { valueAt } from '../curves/smoothing.ts';
import type { WaterCurve } from '../curves/water-curve.ts';
import { byDefault, remark } from '../engine/messages.ts';
import type { Draw, Model } from '../engine/model.ts';
import type { LoadWindows } from './weighed-water.ts';

/** Contents of unknown shape: how far their mean may lie behind, as a share of the rise ("common practice, no source"). */
const LAG_AT_TARGET = 0.4;
const LAG_AT_END = 0.1;

export interface Heated {
  readonly kg: (draw: Draw) => number;
  readonly MJPerKgK: number;
  readonly startTempC: number | undefined;
  /** Behind the bath, K, at the target and at the end. */
  readonly lagAtTargetK: (draw: Draw, riseK: number) => number;
  readonly lagAtEndK: (draw: Draw, riseK: number) => number;
}

export function heatedContent(
  content: Content,
  curves: readonly Curve[],
  water: WaterCurve | undefined,
  windows: LoadWindows,
  model: Model,
): Heated {
  const massU = content.standardUncertaintyKg ?? Math.max(0.01, 0.01 * content.massKg);
  if (content.standardUncertaintyKg === undefined) {
    model.setDefault(
      ['loadMJ', 'loadToTargetMJ'],
      byDefault('contentsMassUncertainty', { content: content.name, standardUncertaintyKg: massU }),
    );
  }
  const massError = model.ownError('contents.mass', massU);
  const common = {
    kg: (draw: Draw) => content.massKg + draw[massError]!,
    MJPerKgK: content.specificHeatJPerKgK / 1e6,
    startTempC: content.startTempC,
  };
  const lags = knownLags(content, curves, water, windows);
  if (lags) {
    const factor = model.input({
      name: 'contents.lag',
      value: 1,
      standardUncertainty: lags.u,
      distribution: 'normal',
      sharing: 'none',
    });
    return {
      ...common,
      lagAtTargetK: (draw) => draw[factor]! * lags.atTargetK,
      lagAtEndK: (draw) => draw[factor]! * lags.atEndK,
    };
  }
  const oneSided = model.ownError('contents.lag', 1 / Math.sqrt(12), 'oneSided');
  model.setDefault(['loadMJ', 'loadToTargetMJ'], byDefault('contentsLag', { content: content.name }));
  model.remark(['loadMJ', 'loadToTargetMJ'], remark('contentsOneSided', { content: content.name }));
  return {
    ...common,
    lagAtTargetK: (draw, riseK) => draw[oneSided]! * LAG_AT_TARGET * riseK,
    lagAtEndK: (draw, riseK) => draw[oneSided]! * LAG_AT_END * riseK,
  };
}

/** Lag of the mean behind the bath: half that of a core probe, or by conduction into a cylinder of the stated radius. */
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
