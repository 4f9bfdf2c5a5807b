/** A burn while it runs: the number, the time chart, the marks, everything under one thumb. */

import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import { useEffect, useMemo } from 'preact/hooks';
import { startDateMs } from '../../../shared/contract/burn-date.ts';
import type { BurnDetail } from '../../../shared/contract/burns.ts';
import type { MarkKind } from '../../../shared/contract/marks.ts';
import { routeHash } from '../../addresses/router.ts';
import { type BurnState, burnState, type ShownMark } from '../../burn/burn-state.ts';
import { largestFeedKg } from '../../burn/heavy-feed.ts';
import { translate } from '../../language/catalogue.ts';
import { clock, duration, number } from '../../language/figures.ts';
import { health } from '../../requests/service.ts';
import { burnNowAtTickUs } from '../../state/ages.ts';
import { alarms } from '../../state/alarms.ts';
import { announce } from '../../state/announce.ts';
import { followCurves } from '../../state/live-curves.ts';
import { logMark } from '../../state/log-mark.ts';
import { orderOf } from '../../state/mark-order.ts';
import { burnSignal, editBurn, loadBurn } from '../../state/open-burn.ts';
import { takeBack } from '../../state/outbox.ts';
import { go } from '../../state/route.ts';
import { shownMarks } from '../../state/shown-entries.ts';
import { holdWakeLock } from '../../state/wake-lock.ts';
import { useInventory } from '../forms/use-inventory.ts';
import { Alarms } from '../kit/alarms.tsx';
import { BoardStatus } from '../kit/board-status.tsx';
import { Cautions } from '../kit/cautions.tsx';
import { Fetching } from '../kit/fetching.tsx';
import { MarkedUpText } from '../kit/marked-up-text.tsx';
import { MissingScans } from '../kit/missing-scans.tsx';
import { PracticeScales } from '../kit/practice-scales.tsx';
import { sentenceFor, useLoad } from '../kit/use-load.ts';
import { useLow, useWide } from '../kit/use-wide.ts';
import { MarkEditor } from '../marks/mark-editor.tsx';
import { markWords } from '../marks/mark-words.ts';
import { MarksLog } from '../marks/marks-log.tsx';
import { useOpenSheet } from '../sheets/use-open-sheet.ts';
import { useRefusedMark } from '../sheets/use-refused-mark.ts';
import { TimeChartTable } from '../time-chart/time-chart-table.tsx';
import { TimeChartView } from '../time-chart/time-chart-view.tsx';
import { ActionButtons } from './action-buttons.tsx';
import { liveModel } from './live-model.ts';
import { LiveSheets, type LoggedMark } from './live-sheets.tsx';
import { measuredWater } from './measured-water.ts';
import { Reading } from './reading.tsx';

/** Heights of the paper, by what the screen has room for beside number and buttons. */
const limits = {
  wide: { lowest: 260, highest: 460 },
  low: { lowest: 130, highest: 150 },
  upright: { lowest: 180, highest: 205 },
};

export function LiveBurn({ id, cooling }: { id: string; cooling: (detail: BurnDetail) => VNode }): VNode {
  const loading = useLoad(id, () => loadBurn(id));
  const detail = burnSignal(id).value;
  if (!detail) return <Fetching of={loading} />;
  return detail.burn.purpose === 'cooling' ? cooling(detail) : <Running key={id} detail={detail} />;
}

function Running({ detail }: { detail: BurnDetail }): VNode {
  const id = detail.burn.id;
  const live = useMemo(() => followCurves(id), [id]);
  useEffect(() => live.stop, [live]);
  useEffect(holdWakeLock, []);
  useInventory();
  const wide = useWide();
  const low = useLow();
  const open = useOpenSheet(`live.${id}`);
  const picked = useOpenSheet(`marks.${id}`);
  useRefusedMark(id, picked);
  const marks = shownMarks(detail);
  const state = burnState(marks);
  const lastMark = newestMark(marks);
  const curves = live.curves.value ?? [];
  const handRead = detail.burn.channels.filter((channel) => channel.handRead);

  const water = detail.burn.channels.filter(({ role }) => role === 'water');
  const measured = measuredWater(id, water, live.estimate.value, curves);
  const model = liveModel({ detail, curves, estimate: live.estimate.value, measured, marks, state, withRate: wide });

  const log = (...mark: LoggedMark) => {
    open.close();
    return logAndPrint(detail, ...mark);
  };
  const holdState = live.estimate.value?.hold?.state;
  // After a reload the alarm may be known before the next estimate.
  const isCalled = alarms.value.get(id)?.some(({ kind }) => kind === 'holdDone') ?? false;
  const isHoldDone = holdState === 'done' || holdState === 'ended' || isCalled;
  const pickedMark = marks.find(({ mark }) => mark.id === picked.which);
  return (
    <div class="run">
      <RunHead detail={detail} />
      <div class="run-left">
        <Reading detail={detail} estimate={live.estimate.value} measured={measured} state={state} marks={marks} />
        <Alarms burnId={id} estimate={live.estimate.value} />
      </div>
      <div class="run-strip">
        {live.curves.value && (
          <TimeChartView
            label={detail.burn.title}
            model={model}
            limits={wide ? limits.wide : low ? limits.low : limits.upright}
            onPickMark={picked.show}
            tableElsewhere
          />
        )}
      </div>
      <Since detail={detail} state={state} usualS={live.estimate.value?.usualAttentionS} />
      <div class="run-more">
        <MissingScans detail={detail} />
        {state.litUs === undefined && <Cautions of={['lighting', 'scrap', 'defer']} />}
        {state.fireOutUs !== undefined && <Cautions of={['char', 'hot']} />}
        {detail.burn.origin === 'simulated' && <PracticeScales burnId={id} />}
        <MarksLog burn={detail.burn} marks={marks} zeroUs={state.litUs ?? 0} newestFirst onPick={picked.show} />
        {live.curves.value && <TimeChartTable label={detail.burn.title} model={model} />}
        <DescribeOrStop detail={detail} />
      </div>
      <ActionButtons
        state={state}
        isHoldDone={isHoldDone}
        lastMark={lastMark}
        marks={marks}
        onFeed={() => open.show('feed')}
        onMark={(kind) => void log(kind)}
        onNote={() => open.show('note')}
        onRead={handRead.length > 0 ? () => open.show('reading') : undefined}
        onOther={() => open.show('other')}
        onUndo={(mark) => void undo(id, mark)}
        onWrapUp={() => go({ at: 'wrapUp', id })}
      />
      <LiveSheets
        detail={detail}
        marks={marks}
        state={state}
        open={open}
        pile={curves.find(({ role }) => role === 'fuelScale')}
        isHoldDone={isHoldDone}
        onLog={(...mark) => void log(...mark)}
      />
      {pickedMark && (
        <MarkEditor
          key={pickedMark.mark.id}
          burnId={id}
          shown={pickedMark}
          largestFeedKg={largestFeedKg(marks, detail.largestFeedKg, pickedMark.mark.id)}
          zeroUs={state.litUs ?? 0}
          onClose={picked.close}
        />
      )}
    </div>
  );
}

async function logAndPrint({ burn }: BurnDetail, kind: MarkKind, details: object = {}, agoS = 0): Promise<void> {
  const { mark, outcome } = await logMark(burn.id, kind, details as never, agoS);
  // The banner says why not.
  if (outcome.is === 'refused') return;
  const startMs = startDateMs(burn);
  const at = startMs === undefined ? '' : clock(startMs + mark.elapsedUs / 1000, burn.zone);
  announce(translate().marks.logged({ what: markWords(mark), clock: at }));
}

async function undo(burnId: string, { mark, version }: ShownMark): Promise<void> {
  const outcome = await takeBack(burnId, 'mark', mark.id, version);
  if (outcome.is !== 'refused') announce(translate().marks.undone({ what: markWords(mark) }));
}

/** The entry made last, whenever it is said to have happened; for those from before this page opened, the latest moment. */
function newestMark(marks: readonly ShownMark[]): ShownMark | undefined {
  return marks
    .filter(({ mark }) => mark.source !== 'detected')
    .sort((a, b) => orderOf(a.mark.id) - orderOf(b.mark.id) || a.mark.elapsedUs - b.mark.elapsedUs)
    .at(-1);
}

function RunHead({ detail }: { detail: BurnDetail }): VNode {
  const { burn } = detail;
  const nowUs = burnNowAtTickUs(burn.id);
  const startMs = startDateMs(burn);
  const scale = health.value?.timeScale ?? 1;
  return (
    <header class="run-head">
      <h1>
        <a href={routeHash({ at: 'burn', id: burn.id })}>{burn.title}</a>
      </h1>
      <p class="status">
        {burn.origin === 'simulated' && (
          <span class="simulated">
            {scale === 1 ? translate().run.simulated : translate().run.simulatedFast({ scale: number(scale, 0) })}
          </span>
        )}
        <BoardStatus burn={burn} />
        {startMs !== undefined && nowUs !== undefined && <time>{clock(startMs + nowUs / 1000, burn.zone)}</time>}
      </p>
    </header>
  );
}

function Since({
  detail,
  state,
  usualS,
}: {
  detail: BurnDetail;
  state: BurnState;
  usualS: number | undefined;
}): VNode | null {
  const nowUs = burnNowAtTickUs(detail.burn.id);
  const at = state.lastFed?.elapsedUs ?? state.lastAttentionUs;
  if (at === undefined || nowUs === undefined || state.litUs === undefined) return null;
  const words = translate().run;
  return (
    <p class="since">
      <span>
        <MarkedUpText
          text={words.since({
            what: translate().marks.names[state.lastFed ? 'fed' : 'nudged'],
            time: duration((nowUs - at) / 1e6),
          })}
        />
      </span>
      {usualS !== undefined && <span class="quiet">{words.asks({ time: duration(usualS) })}</span>}
    </p>
  );
}

/** A question that opens under the thumb's buttons. */
function scrollIntoSight(element: HTMLElement | null): void {
  element?.scrollIntoView({ block: 'nearest' });
}

/** What is asked for seldom while a burn runs: its description, which may come after lighting, and its end. */
function DescribeOrStop({ detail }: { detail: BurnDetail }): VNode {
  const asking = useSignal(false);
  const problem = useSignal<string | undefined>(undefined);
  const stop = async () => {
    try {
      await editBurn(detail.burn.id, { expectedVersion: detail.burn.version, status: 'ended' });
      go({ at: 'wrapUp', id: detail.burn.id });
    } catch (cause) {
      problem.value = sentenceFor(cause);
    }
  };
  return (
    <div class="stop">
      {asking.value ? (
        <div role="alertdialog" aria-label={translate().run.stop} ref={scrollIntoSight}>
          <p>{translate().run.stopSure}</p>
          <p class="row">
            <button type="button" class="primary" onClick={() => void stop()}>
              {translate().run.stop}
            </button>
            <button
              type="button"
              onClick={() => {
                asking.value = false;
              }}
            >
              {translate().cancel}
            </button>
          </p>
        </div>
      ) : (
        <p class="row">
          <a class="button" href={routeHash({ at: 'describe', id: detail.burn.id })}>
            {translate().burns.burn.describe}
          </a>
          <button
            type="button"
            onClick={() => {
              asking.value = true;
            }}
          >
            {translate().run.stop}
          </button>
        </p>
      )}
      <p class="problem" role="alert">
        {problem.value}
      </p>
    </div>
  );
}
