/** The page of one burn: its main results, then the time chart, all results, marks and weighings, changes. */

import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import type { MethodSet } from '../../../shared/contract/burn-record.ts';
import type { BurnDetail } from '../../../shared/contract/burns.ts';
import type { Mark } from '../../../shared/contract/marks.ts';
import type { Analysis } from '../../../shared/contract/results.ts';
import { routeHash } from '../../addresses/router.ts';
import { burnState, type ShownMark } from '../../burn/burn-state.ts';
import { largestFeedKg } from '../../burn/heavy-feed.ts';
import { minuteLabel } from '../../charts/axis-labels.ts';
import { burnDay } from '../../language/burn-day.ts';
import { translate, translateResult } from '../../language/catalogue.ts';
import { percent } from '../../language/figures.ts';
import { fetchAnalysis } from '../../requests/analyses.ts';
import { useAgain } from '../../state/exclusions.ts';
import { burnSignal, loadBurn } from '../../state/open-burn.ts';
import { correct } from '../../state/outbox.ts';
import { shownMarks, shownWeighings } from '../../state/shown-entries.ts';
import { Cautions } from '../kit/cautions.tsx';
import { Fetching } from '../kit/fetching.tsx';
import { minuteText } from '../kit/minute-words.ts';
import { MissingScans } from '../kit/missing-scans.tsx';
import { useLoad } from '../kit/use-load.ts';
import { MarkEditor } from '../marks/mark-editor.tsx';
import { markWords } from '../marks/mark-words.ts';
import { MarksLog } from '../marks/marks-log.tsx';
import { useOpenSheet } from '../sheets/use-open-sheet.ts';
import { useRefusedMark } from '../sheets/use-refused-mark.ts';
import { WeighingsList } from '../weighing/weighings-list.tsx';
import { BurnActions } from './burn-actions.tsx';
import { BurnTimeChart } from './burn-chart.tsx';
import { BurnPhotos } from './burn-photos.tsx';
import { ByMethod } from './by-method.tsx';
import { ChangedOnDisk } from './changed-on-disk.tsx';
import { ToContradictions } from './contradictions.tsx';
import { EditsLog } from './edits-log.tsx';
import { Exclusions, stretchParts } from './exclusions.tsx';
import { Headline } from './headline.tsx';
import { HeatPicture } from './heat-picture.tsx';
import { type Correction, LastChange } from './last-change.tsx';
import { Results } from './results.tsx';
import { Siblings } from './siblings.tsx';
import { offersWeighing, ToDo } from './to-do.tsx';

export function BurnPage({ id }: { id: string }): VNode {
  const loading = useLoad(id, () => loadBurn(id));
  const detail = burnSignal(id).value;
  if (!detail) return <Fetching of={loading} />;
  return <Loaded key={id} detail={detail} />;
}

function Loaded({ detail }: { detail: BurnDetail }): VNode {
  const { burn } = detail;
  const marks = shownMarks(detail);
  const weighings = shownWeighings(detail);
  const state = burnState(marks);
  const zeroUs = state.litUs ?? 0;
  const changes = changesOf(detail);
  const method = useSignal<MethodSet>(burn.methodSet);
  const analysis = useLoad(`${burn.id} ${method.value} ${changes}`, () => fetchAnalysis(burn.id, method.value));
  const known = analysis.value.value;
  const picked = useOpenSheet(`marks.${burn.id}`);
  useRefusedMark(burn.id, picked);
  const corrected = useSignal<Correction | undefined>(undefined);
  const pickedMark = marks.find(({ mark }) => mark.id === picked.which);
  const moveMark = async (markId: string, elapsedUs: number) => {
    const moved = marks.find(({ mark }) => mark.id === markId);
    if (!moved) return;
    const outcome = await correct(burn.id, 'mark', { ...moved.mark, elapsedUs }, moved.version);
    if (outcome.is === 'refused') picked.show(markId);
    else corrected.value = movedBack(burn.id, moved, elapsedUs, zeroUs);
  };
  return (
    <div class="page burn-page">
      <header class="page-head">
        <h1>{burn.title}</h1>
        <p class="quiet facts">{facts(detail)}</p>
      </header>
      <ChangedOnDisk of={detail.summary.changedOnDisk ?? []} />
      <div class="burn-top">
        {burn.status === 'running' ? (
          <p class="lead">
            <a class="button" href={routeHash({ at: 'run', id: burn.id })}>
              {translate().burns.burn.live}
            </a>
          </p>
        ) : burn.status === 'ended' ? (
          <div class="to-do-space">{known && <ToDo detail={detail} analysis={known} />}</div>
        ) : (
          <Headline analysis={known} aim={burn} />
        )}
        <BurnTimeChart
          detail={detail}
          analysis={known}
          marks={marks}
          onPickMark={picked.show}
          onMoveMark={(markId, elapsedUs) => void moveMark(markId, elapsedUs)}
          onLeftOut={(exclusion) => {
            corrected.value = {
              id: exclusion.id,
              words: translate().burns.leaveOut.done(stretchParts(detail, exclusion, zeroUs)),
              undo: () => void useAgain(burn.id, exclusion, 1),
            };
          }}
        />
      </div>
      <LastChange
        correction={corrected.value}
        onGone={() => {
          corrected.value = undefined;
        }}
      />
      {known && burn.status === 'ended' && <Headline analysis={known} aim={burn} />}
      {known && (burn.status === 'complete' || burn.status === 'setAside') && <ToDo detail={detail} analysis={known} />}
      {known && <ToContradictions analysis={known} />}
      {known && <HeatPicture analysis={known} />}
      {known && <Siblings detail={detail} analysis={known} />}
      <p class="quiet">{translate().burns.burn.one}</p>
      <BurnPhotos marks={marks} zeroUs={zeroUs} />
      {known ? (
        <Results
          analysis={known}
          aim={burn}
          method={method.value}
          onMethod={(next) => {
            method.value = next;
          }}
          onPickMark={picked.show}
        />
      ) : (
        <Fetching of={analysis} />
      )}
      {known && <ByMethod burnId={burn.id} changes={changes} />}
      {known && <Quality analysis={known} detail={detail} zeroUs={zeroUs} />}
      <MissingScans detail={detail} />
      <div class="columns">
        <MarksLog burn={burn} marks={marks} zeroUs={zeroUs} newestFirst={false} onPick={picked.show} />
        <WeighingsList detail={detail} weighings={weighings} hasLink={!offersWeighing(known)} />
      </div>
      <Exclusions detail={detail} zeroUs={zeroUs} />
      <BurnActions detail={detail} />
      <EditsLog burnId={burn.id} changes={changes} />
      {burn.contents && burn.contents.length > 0 && <Cautions of={['food']} />}
      {pickedMark && (
        <MarkEditor
          key={pickedMark.mark.id}
          burnId={burn.id}
          shown={pickedMark}
          largestFeedKg={largestFeedKg(marks, detail.largestFeedKg, pickedMark.mark.id)}
          zeroUs={zeroUs}
          onCorrected={(was, version, isGone) => {
            corrected.value = correctedBack(burn.id, was, version, isGone);
          }}
          onClose={picked.close}
        />
      )}
    </div>
  );
}

/** A key that changes with everything from which the results are computed. */
function changesOf({ burn, marks, weighings, exclusions, repairs }: BurnDetail): string {
  const entries = [...marks, ...weighings].map(({ version, withdrawn }) => `${version}${withdrawn}`);
  return [burn.version, ...entries, ...exclusions.map(({ version }) => version), repairs.length].join(' ');
}

/** A mark that was dragged, with its undo. */
function movedBack(burnId: string, { mark, version }: ShownMark, elapsedUs: number, zeroUs: number): Correction {
  const minuteOf = (us: number) => minuteText(Math.round((us - zeroUs) / 60e6));
  const moved = { what: markWords(mark), from: minuteOf(mark.elapsedUs), to: minuteOf(elapsedUs) };
  return {
    id: mark.id,
    words: translate().burns.burn.moved(moved),
    undo: () => void correct(burnId, 'mark', mark, version + 1),
  };
}

/** A mark that was corrected or withdrawn, with its undo. */
function correctedBack(burnId: string, was: Mark, version: number, isGone: boolean): Correction {
  const words = translate().burns.burn;
  const what = { what: markWords(was) };
  return {
    id: was.id,
    words: isGone ? words.takenBack(what) : words.corrected(what),
    undo: () => void correct(burnId, 'mark', was, version),
  };
}

function facts({ burn, summary }: BurnDetail): string {
  const words = translate().burns.list;
  return [
    summary.stove &&
      summary.revision &&
      `${summary.stove.name}, ${translate().describe.revision.toLowerCase()} ${summary.revision.label}`,
    burnDay(burn),
    burn.operator,
    burn.setAsideReason === undefined && words.status[burn.status],
    burn.origin !== 'measured' && words.origin[burn.origin],
    burn.setAsideReason && translate().burns.burn.setAsideBecause({ reason: burn.setAsideReason }),
  ]
    .filter(Boolean)
    .join(' · ');
}

/** A single bad reading needs no flag; it is included in the excluded share. */
const shortestFlagS = 30;

function Quality({
  analysis,
  detail,
  zeroUs,
}: {
  analysis: Analysis;
  detail: BurnDetail;
  zeroUs: number;
}): VNode | null {
  const words = translate().burns.burn;
  const minute = (elapsedS: number) => `${minuteLabel(Math.round((elapsedS - zeroUs / 1e6) / 60))}\u00a0min`;
  const excluded = Object.entries(analysis.excludedShare).filter(([, share]) => share >= 0.001);
  const corrected = analysis.moments.filter(
    ({ source, detectedElapsedS, elapsedS }) =>
      source === 'person' && detectedElapsedS !== undefined && Math.abs(detectedElapsedS - elapsedS) > 60,
  );
  const nameOf = (id: string) => detail.burn.channels.find((channel) => channel.id === id)?.name ?? id;
  const flags = analysis.flags.filter(({ fromS, toS }) => toS - fromS >= shortestFlagS);
  if (excluded.length + corrected.length + flags.length + analysis.suggestedFeedsS.length === 0) return null;
  return (
    <ul class="remarks">
      {flags.map(({ channelId, code, fromS, toS }) => (
        <li key={`${channelId} ${code} ${fromS}`}>
          {words.flagged({
            name: nameOf(channelId),
            what: translateResult().flags[code],
            from: minute(fromS),
            to: minute(toS),
          })}
        </li>
      ))}
      {excluded.map(([id, share]) => (
        <li key={id}>{words.excluded({ name: nameOf(id), share: percent(share) })}</li>
      ))}
      {corrected.map(({ kind, elapsedS, detectedElapsedS }) => (
        <li key={kind}>
          {words.byPersonAndCurve({
            what: translateResult().moments[kind],
            entered: minute(elapsedS),
            detected: minute(detectedElapsedS ?? elapsedS),
          })}
        </li>
      ))}
      {analysis.suggestedFeedsS.length > 0 && (
        <li>{words.suggestedFeeds({ times: analysis.suggestedFeedsS.map(minute).join(', ') })}</li>
      )}
    </ul>
  );
}
