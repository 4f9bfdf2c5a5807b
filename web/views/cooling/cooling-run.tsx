/** A cooling run: its progress, and when it is long enough. */
import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import { useEffect, useMemo } from 'preact/hooks';
import { LEAST_COOLING_K, SHORTEST_COOLING_S } from '../../../shared/analysis/curves/cooling-limits.ts';
import type { BurnDetail } from '../../../shared/contract/burns.ts';
import { routeHash } from '../../addresses/router.ts';
import { translate, translateCooling } from '../../language/catalogue.ts';
import { duration, shown, text, unit } from '../../language/figures.ts';
import { burnNowAtTickUs } from '../../state/ages.ts';
import { type Curve, followCurves } from '../../state/live-curves.ts';
import { logMark } from '../../state/log-mark.ts';
import { editBurn } from '../../state/open-burn.ts';
import { go } from '../../state/route.ts';
import { shownMarks } from '../../state/shown-entries.ts';
import { holdWakeLock } from '../../state/wake-lock.ts';
import { Alarms } from '../kit/alarms.tsx';
import { BoardStatus } from '../kit/board-status.tsx';
import { sentenceFor } from '../kit/use-load.ts';
import { ReadingSheet } from '../now/reading-sheet.tsx';
import { useOpenSheet } from '../sheets/use-open-sheet.ts';

/** Half as long again as the shortest with a result. */
const ENOUGH_S = 1.5 * SHORTEST_COOLING_S;

export function CoolingRun({ detail }: { detail: BurnDetail }): VNode {
  const { burn } = detail;
  const words = translateCooling();
  const live = useMemo(() => followCurves(burn.id), [burn.id]);
  useEffect(() => live.stop, [live]);
  useEffect(holdWakeLock, []);
  const sheet = useOpenSheet(`cooling.${burn.id}`);
  const marks = shownMarks(detail);
  const handRead = burn.channels.filter((channel) => channel.handRead);
  const water = waterOf(live.curves.value ?? [], live.estimate.value?.waterTempC);
  const offS = (marks.find(({ mark }) => mark.kind === 'potOff')?.mark.elapsedUs ?? 0) / 1e6;
  const lastsS = Math.max(0, (burnNowAtTickUs(burn.id) ?? 0) / 1e6 - offS);
  const fellK = water ? Math.max(0, water.firstC - water.lastC) : 0;
  const falls = text('temperatureDifference', LEAST_COOLING_K);
  const isLong = lastsS >= ENOUGH_S;
  const isEnough = isLong && fellK >= LEAST_COOLING_K;
  const hasResult = lastsS >= SHORTEST_COOLING_S && fellK >= LEAST_COOLING_K;
  return (
    <div class="page narrow cooling-run">
      <header class="page-head">
        <h1>{words.live}</h1>
        <p class="status">
          <span>
            <a href={routeHash({ at: 'burn', id: burn.id })}>{burn.title}</a>
          </span>
          <BoardStatus burn={burn} />
        </p>
      </header>
      <Alarms burnId={burn.id} estimate={live.estimate.value} />
      <div class="cooling-now">
        <div>
          {water ? (
            <>
              <p class="quiet">{words.waterNow}</p>
              <p class="cooling-figure">
                <b>{shown('temperature', water.lastC).figure}</b> {unit('temperature')}
              </p>
            </>
          ) : (
            <p>{words.noReading}</p>
          )}
        </div>
        <div>
          <p>
            <progress max={ENOUGH_S} value={Math.min(ENOUGH_S, lastsS)} aria-label={words.live} />
          </p>
          <p>
            {words.progress({
              minutes: duration(lastsS),
              of: duration(ENOUGH_S),
              fell: text('temperatureDifference', fellK),
            })}
          </p>
          <p role="status">{isEnough ? words.enough : isLong ? words.tooLittle({ least: falls }) : words.leaveAlone}</p>
        </div>
      </div>
      {handRead.length > 0 && (
        <p>
          <button type="button" onClick={() => sheet.show('reading')}>
            {words.read}
          </button>
        </p>
      )}
      <Finish detail={detail} isEnough={isEnough} hasResult={hasResult} falls={falls} />
      {sheet.which === 'reading' && (
        <ReadingSheet
          detail={detail}
          probes={handRead}
          marks={marks}
          onLog={({ channelId, value, agoS }) => {
            sheet.close();
            void logMark(burn.id, 'reading', { channelId, value }, agoS);
          }}
          onClose={sheet.close}
        />
      )}
    </div>
  );
}

/** The mean of the water as it was first read and as it is now. */
function waterOf(
  curves: readonly Curve[],
  estimatedC: number | undefined,
): { firstC: number; lastC: number } | undefined {
  const read = (curves.find(({ id }) => id === 'water')?.v ?? []).filter((value) => value !== null);
  const [firstC, lastC] = [read[0] ?? estimatedC, estimatedC ?? read.at(-1)];
  return firstC === undefined || lastC === undefined ? undefined : { firstC, lastC };
}

/** Ends the run; asks for confirmation where it would give no result yet. */
function Finish({
  detail: { burn },
  isEnough,
  hasResult,
  falls,
}: {
  detail: BurnDetail;
  isEnough: boolean;
  hasResult: boolean;
  falls: string;
}): VNode {
  const words = translateCooling();
  const isAsking = useSignal(false);
  const problem = useSignal<string | undefined>(undefined);
  const finish = async () => {
    try {
      await editBurn(burn.id, { expectedVersion: burn.version, status: 'complete' });
      go({ at: 'burn', id: burn.id });
    } catch (cause) {
      problem.value = sentenceFor(cause);
    }
  };
  const press = () => {
    if (hasResult) void finish();
    else isAsking.value = true;
  };
  return (
    <>
      {isAsking.value && !hasResult ? (
        <div role="alertdialog" aria-label={words.finish}>
          <p>{words.tooEarly({ minutes: duration(SHORTEST_COOLING_S), least: falls })}</p>
          <p class="row">
            <button type="button" onClick={() => void finish()}>
              {words.finishAll}
            </button>
            <button
              type="button"
              onClick={() => {
                isAsking.value = false;
              }}
            >
              {translate().cancel}
            </button>
          </p>
        </div>
      ) : (
        <p class="row">
          <button type="button" class={isEnough ? 'primary' : undefined} onClick={press}>
            {words.finish}
          </button>
        </p>
      )}
      <p class="problem" role="alert">
        {problem.value}
      </p>
    </>
  );
}
