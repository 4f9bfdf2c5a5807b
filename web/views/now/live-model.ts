import type { Burn, BurnDetail } from '../../../shared/contract/burns.ts';
import type { Estimate } from '../../../shared/contract/live-estimates.ts';
import type { BurnState, ShownMark } from '../../burn/burn-state.ts';
import type { TimeChartModel } from '../../charts/time-chart-model.ts';
import { translate } from '../../language/catalogue.ts';
import { duration, onScreen } from '../../language/figures.ts';
import { burnNowAtTickUs, isOld } from '../../state/ages.ts';
import { slowestPeriodMs } from '../../state/setup.ts';
import {
  type Curve,
  fanOf,
  levelsOf,
  readUsOf,
  timeChartBase,
  timeChartCurves,
  timeChartMarks,
} from '../time-chart/time-chart-data.ts';
import type { MeasuredWater } from './measured-water.ts';

/** Paper shown from the start, so that the burn draws itself onto it without the scale jumping. */
const firstWidthMin = 120;
const widthStepMin = 30;
const beforeLightingMin = 15;

/** What the time chart of a running burn shows. */
export function liveModel({
  detail,
  curves,
  estimate,
  measured,
  marks,
  state,
  withRate,
}: {
  detail: BurnDetail;
  curves: readonly Curve[];
  estimate: Estimate | undefined;
  measured: MeasuredWater | undefined;
  marks: readonly ShownMark[];
  state: BurnState;
  withRate: boolean;
}): TimeChartModel {
  const zeroS = (state.litUs ?? 0) / 1e6;
  const drawn = timeChartCurves(curves, zeroS, { rate: withRate, notes: agesAt(detail.burn) });
  // From a reading that may be another by now nothing is foretold.
  const fan = state.fireOutUs === undefined && !measured?.isOld ? fanOf(estimate, zeroS) : undefined;
  const isHolding = estimate?.hold && estimate.hold.state !== 'notYet' && estimate.hold.state !== 'ended';
  const nowMin = estimate ? (estimate.elapsedUs / 1e6 - zeroS) / 60 : 0;
  return {
    ...timeChartBase(drawn, [{ marks: timeChartMarks(marks, zeroS) }], liveRange(drawn, nowMin, fan?.arrivals[2])),
    gaps: [...detail.gaps, ...detail.repairs].map(({ fromUs, toUs }) => ({
      fromMin: (fromUs / 1e6 - zeroS) / 60,
      toMin: (toUs / 1e6 - zeroS) / 60,
    })),
    ...(fan && { fan }),
    ...(estimate?.waterTempC !== undefined && {
      now: {
        atMin: (readUsOf(estimate) / 1e6 - zeroS) / 60,
        value: onScreen('temperature', estimate.waterTempC),
        ...(measured?.isOld && { isOld: true }),
      },
    }),
    levels: levelsOf({
      boilingC: estimate?.boilingTempC,
      targetC: estimate?.targetTempC,
      floorC: isHolding ? estimate?.hold?.floorTempC : undefined,
    }),
  };
}

/** How old the end of a curve is, where that is worth a word. */
function agesAt({ id, channels }: Burn): (lastS: number) => string | undefined {
  const nowUs = burnNowAtTickUs(id);
  const periodMs = slowestPeriodMs(channels);
  return (lastS) => {
    const ageS = nowUs === undefined ? 0 : nowUs / 1e6 - lastS;
    return isOld(ageS, periodMs) ? translate().run.ago({ time: duration(ageS) }) : undefined;
  };
}

function liveRange(
  curves: readonly { x: readonly number[] }[],
  nowMin: number,
  arrivalMin = 0,
): TimeChartModel['range'] {
  const first = Math.min(0, ...curves.flatMap(({ x }) => x.slice(0, 1)));
  const fromMin = Math.max(-beforeLightingMin, Math.floor(first / 5) * 5);
  const needed = Math.max(nowMin + 10, Math.min(arrivalMin + 5, nowMin + 90));
  const toMin = Math.max(firstWidthMin, Math.ceil(needed / widthStepMin) * widthStepMin);
  return { fromMin, toMin };
}
