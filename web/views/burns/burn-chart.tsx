/** The time chart of a finished burn: all curves and bands, moments, gaps; zoom by fingers, keys or buttons; marks can be dragged. */
import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import { useEffect } from 'preact/hooks';
import { BOIL_BELOW_K } from '../../../shared/analysis/curves/boil-rule.ts';
import type { BurnDetail } from '../../../shared/contract/burns.ts';
import type { Analysis, Moment } from '../../../shared/contract/results.ts';
import type { Series } from '../../../shared/contract/series.ts';
import { burnState, type ShownMark } from '../../burn/burn-state.ts';
import type { Stretch, TimeChartModel } from '../../charts/time-chart-model.ts';
import { translate, translateResult } from '../../language/catalogue.ts';
import type { Exclusion } from '../../outbox/entries.ts';
import { call } from '../../requests/service.ts';
import { link } from '../../state/connection.ts';
import { shownExclusions } from '../../state/shown-entries.ts';
import { useLow, useWide } from '../kit/use-wide.ts';
import {
  type LeftOut,
  levelsOf,
  timeChartBase,
  timeChartCurves,
  timeChartMarks,
  timeChartReadings,
} from '../time-chart/time-chart-data.ts';
import { TimeChartKey } from '../time-chart/time-chart-key.tsx';
import { TimeChartView } from '../time-chart/time-chart-view.tsx';
import { chosenStretch, LeaveOut, useStretch } from './leave-out.tsx';

const points = 1200;
/** Heights of the paper, by what the screen has room for. */
const limits = {
  wide: { lowest: 280, highest: 440 },
  low: { lowest: 130, highest: 170 },
  upright: { lowest: 210, highest: 320 },
};

export function BurnTimeChart({
  detail,
  analysis,
  marks,
  onMoveMark,
  onPickMark,
  onLeftOut,
}: {
  detail: BurnDetail;
  analysis: Analysis | undefined;
  marks: readonly ShownMark[];
  onMoveMark: (markId: string, toUs: number) => void;
  onPickMark: (markId: string) => void;
  onLeftOut: (exclusion: Exclusion) => void;
}): VNode | null {
  const wide = useWide();
  const low = useLow();
  const id = detail.burn.id;
  const series = useSignal<Series | undefined>(undefined);
  const zoomed = useSignal<TimeChartModel['range'] | undefined>(undefined);
  const zeroS = (burnState(marks).litUs ?? 0) / 1e6;
  const range = zoomed.value;
  const choice = useStretch(detail, zeroS * 1e6);
  // What is left out changes the water curve.
  const without = detail.exclusions.map(({ exclusion, version }) => `${exclusion.id} ${version}`).join(' ');
  const isAway = link.value === 'lost';
  useEffect(() => {
    if (isAway) return;
    const stretch = range && {
      from: Math.floor(range.fromMin * 60 + zeroS),
      to: Math.ceil(range.toMin * 60 + zeroS),
    };
    // While fingers move, the old curves are stretched; the finer ones follow when they rest.
    const timer = setTimeout(
      () =>
        void call('GET /burns/:id/series', { params: { id }, query: { points, ...stretch } }).then(
          (fetched) => {
            series.value = fetched;
          },
          () => undefined,
        ),
      range ? 250 : 0,
    );
    return () => clearTimeout(timer);
  }, [id, range, zeroS, series, without, isAway]);
  if (!series.value) return <div class="chart-space" />;
  const leftOut = leftOutOf(detail, zeroS);
  const curves = timeChartCurves(series.value.curves, zeroS, { probes: true, leftOut });
  const chosen = chosenStretch(choice.draft.value);
  const isChoosing = choice.draft.value.isOpen;
  const whole = wholeRange(detail, curves, zeroS);
  const setRange = (next: TimeChartModel['range']) => {
    const span = next.toMin - next.fromMin;
    zoomed.value = span >= whole.toMin - whole.fromMin ? undefined : within(next, whole);
  };
  const boiling = analysis?.results.find((result) => result.id === 'localBoilingPoint');
  const boilingC = boiling && 'value' in boiling ? boiling.value : undefined;
  const { target } = detail.burn;
  const boilTargetC = boilingC === undefined ? undefined : boilingC - BOIL_BELOW_K;
  const targetC = target.kind === 'temperature' ? target.tempC : boilTargetC;
  const model: TimeChartModel = {
    ...timeChartBase(curves, [{ marks: timeChartMarks(marks, zeroS) }], range ?? whole),
    readings: timeChartReadings(series.value.curves, zeroS, leftOut),
    ...(chosen && { chosen }),
    momentLines: (analysis?.moments ?? []).flatMap((moment) => momentLine(moment, zeroS)),
    gaps: [...detail.gaps, ...detail.repairs].map(({ fromUs, toUs }) => ({
      fromMin: (fromUs / 1e6 - zeroS) / 60,
      toMin: (toUs / 1e6 - zeroS) / 60,
    })),
    levels: levelsOf({ boilingC, targetC, floorC: undefined }),
  };
  return (
    <TimeChartView
      label={detail.burn.title}
      model={model}
      limits={wide ? limits.wide : low ? limits.low : limits.upright}
      onPickMark={onPickMark}
      onMoveMark={(markId, toMin) => onMoveMark(markId, Math.round((toMin * 60 + zeroS) * 1e6))}
      onRange={setRange}
      choosing={isChoosing ? choice.hands : undefined}
    >
      {isChoosing && <LeaveOut detail={detail} choice={choice} zeroUs={zeroS * 1e6} onDone={onLeftOut} />}
      <TimeChartKey curves={curves} />
      <p class="hint screen-only">{translate().burns.burn.dragHint}</p>
      <ZoomButtons
        range={range ?? whole}
        isWhole={range === undefined}
        onRange={setRange}
        onWhole={() => {
          zoomed.value = undefined;
        }}
        onLeaveOut={isChoosing || detail.burn.channels.length === 0 ? undefined : choice.open}
      />
    </TimeChartView>
  );
}

function ZoomButtons({
  range: { fromMin, toMin },
  isWhole,
  onRange,
  onWhole,
  onLeaveOut,
}: {
  range: TimeChartModel['range'];
  isWhole: boolean;
  onRange: (range: TimeChartModel['range']) => void;
  onWhole: () => void;
  onLeaveOut: (() => void) | undefined;
}): VNode {
  const words = translate().burns.chart;
  const span = toMin - fromMin;
  const move = (from: number, to: number) => () =>
    onRange({ fromMin: fromMin + span * from, toMin: toMin + span * to });
  return (
    <fieldset class="zoom" aria-label={words.zoom}>
      <button type="button" disabled={span <= 10} onClick={move(0.25, -0.25)}>
        {words.closer}
      </button>
      <button type="button" disabled={isWhole} onClick={move(-0.5, 0.5)}>
        {words.wider}
      </button>
      <button type="button" disabled={isWhole} onClick={move(-0.5, -0.5)}>
        {words.earlier}
      </button>
      <button type="button" disabled={isWhole} onClick={move(0.5, 0.5)}>
        {words.later}
      </button>
      <button type="button" disabled={isWhole} onClick={onWhole}>
        {words.whole}
      </button>
      <button type="button" disabled={!onLeaveOut} onClick={onLeaveOut}>
        {translate().burns.leaveOut.title}
      </button>
    </fieldset>
  );
}

function leftOutOf(detail: BurnDetail, zeroS: number): LeftOut {
  const minute = (us: number) => (us / 1e6 - zeroS) / 60;
  const byChannel = new Map<string, Stretch[]>();
  for (const { thing: exclusion, state } of shownExclusions(detail)) {
    if (state === 'refused') continue;
    const stretch = { fromMin: minute(exclusion.fromUs), toMin: minute(exclusion.toUs) };
    byChannel.set(exclusion.channelId, [...(byChannel.get(exclusion.channelId) ?? []), stretch]);
  }
  return byChannel;
}

function momentLine(moment: Moment, zeroS: number): TimeChartModel['momentLines'][number][] {
  const atMin = (moment.elapsedS - zeroS) / 60;
  // The zero of the axis is the lighting itself; a boil that is the target needs no second line.
  if (moment.kind === 'lit' || moment.kind === 'boil' || Math.abs(atMin) < 1) return [];
  return [{ atMin, label: translateResult().moments[moment.kind] }];
}

function wholeRange(
  detail: BurnDetail,
  curves: readonly { x: readonly number[] }[],
  zeroS: number,
): TimeChartModel['range'] {
  const first = Math.min(0, ...curves.flatMap(({ x }) => x.slice(0, 1)));
  const ended = detail.burn.endedElapsedUs;
  const last = Math.max(
    30,
    ...curves.flatMap(({ x }) => x.slice(-1)),
    ended === undefined ? 0 : (ended / 1e6 - zeroS) / 60,
  );
  return { fromMin: Math.floor(first / 5) * 5, toMin: Math.ceil(last / 5) * 5 };
}

function within(range: TimeChartModel['range'], whole: TimeChartModel['range']): TimeChartModel['range'] {
  const span = range.toMin - range.fromMin;
  const fromMin = Math.min(Math.max(range.fromMin, whole.fromMin), whole.toMin - span);
  return { fromMin, toMin: fromMin + span };
}
