/** Choosing a stretch of a probe to be left out: on the strip above, or by its minutes. */
import { type Signal, useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import { useEffect } from 'preact/hooks';
import type { BurnDetail } from '../../../shared/contract/burns.ts';
import type { TimeChartModel } from '../../charts/time-chart-model.ts';
import type { Exclusion } from '../../lib/outbox-entries.ts';
import { translate } from '../../state/catalogue.ts';
import { leaveOut } from '../../state/exclusions.ts';
import { type Entry, number, readNumber } from '../../state/figures.ts';
import { comeBack } from '../../state/outbox.ts';
import { shownExclusions } from '../../state/shown-entries.ts';
import { draftFields } from '../kit/draft-fields.tsx';
import type { StretchHands } from '../kit/time-chart-view.tsx';
import { useDraft } from '../kit/use-draft.ts';

/** As typed, in minutes from lighting. */
interface StretchDraft {
  readonly isOpen: boolean;
  readonly channelId: string;
  readonly from: string;
  readonly to: string;
  readonly why: string;
}

export interface StretchChoice {
  readonly draft: Signal<StretchDraft>;
  readonly hands: StretchHands;
  open(): void;
  close(): void;
}

/** The stretch being chosen for one burn; outlives a reload. */
export function useStretch(detail: BurnDetail, zeroUs: number): StretchChoice {
  const { burn } = detail;
  const blank = { isOpen: false, channelId: burn.channels[0]?.id ?? '', from: '', to: '', why: '' };
  const { draft, forget } = useDraft<StretchDraft>(`leave-out.${burn.id}`, blank);
  const change = (fields: Partial<StretchDraft>) => {
    draft.value = { ...draft.value, ...fields };
  };
  const asked = comeBack.value;
  useEffect(() => {
    if (asked?.burnId !== burn.id || asked.about.kind !== 'exclusion') return;
    comeBack.value = undefined;
    const typed = refusedStretch(detail)?.refusal?.typed;
    if (!typed) return;
    const minute = (us: number) => number((us - zeroUs) / 60e6, 1);
    const { channelId, fromUs, toUs, reason } = typed;
    change({ isOpen: true, channelId, from: minute(fromUs), to: minute(toUs), why: reason });
  }, [asked]);
  const sweep = (one: number, other: number) =>
    change({ from: number(Math.min(one, other), 1), to: number(Math.max(one, other), 1) });
  return {
    draft,
    hands: {
      onSweep: sweep,
      onEnd(minute) {
        const from = readNumber(draft.value.from);
        if (!from.ok || draft.value.to !== '') change({ from: number(minute, 1), to: '' });
        else sweep(from.value, minute);
      },
    },
    open: () => change({ isOpen: true }),
    close() {
      draft.value = blank;
      forget();
    },
  };
}

/** The stretch that was refused last, to be put right in the form it came from. */
function refusedStretch(detail: BurnDetail) {
  return shownExclusions(detail).find(({ refusal, version }) => refusal && version === 0);
}

/** What the strip shows of the choice: one end is a line, two are a stretch. */
export function chosenStretch({ isOpen, from, to }: StretchDraft): TimeChartModel['chosen'] {
  const [fromMin, toMin] = [readNumber(from), readNumber(to)];
  if (!isOpen || !fromMin.ok) return undefined;
  return { fromMin: fromMin.value, toMin: toMin.ok ? toMin.value : fromMin.value };
}

export function LeaveOut({
  detail,
  choice: { draft, close },
  zeroUs,
  onDone,
}: {
  detail: BurnDetail;
  choice: StretchChoice;
  zeroUs: number;
  onDone: (exclusion: Exclusion) => void;
}): VNode {
  const words = translate().read.leaveOut;
  const { burn } = detail;
  const tried = useSignal(false);
  const isSending = useSignal(false);
  const refused = refusedStretch(detail);
  const { channelId, from, to, why } = draft.value;
  const start = readNumber(from);
  const end = readEnd(to, start);
  const done = () => {
    tried.value = false;
    close();
  };
  const save = async (event: Event) => {
    event.preventDefault();
    tried.value = true;
    const reason = why.trim();
    if (!start.ok || !end.ok || reason === '') return;
    const us = (minutes: number) => Math.round(zeroUs + minutes * 60e6);
    const stretch = { channelId, fromUs: us(start.value), toUs: us(end.value), reason };
    isSending.value = true;
    const { exclusion, outcome } = await leaveOut(burn.id, stretch, refused);
    isSending.value = false;
    if (outcome.is === 'refused') return;
    onDone(exclusion);
    done();
  };
  const { select, figure, line } = draftFields<StretchDraft>({
    draft: draft.value,
    problems: tried.value
      ? {
          ...(!start.ok && { from: start.problem }),
          ...(!end.ok && { to: end.problem }),
          ...(why.trim() === '' && { why: translate().describe.number.text }),
        }
      : {},
    onChange: (fields) => {
      draft.value = { ...draft.value, ...fields };
    },
  });
  return (
    <form class="leave-out" onSubmit={save} aria-label={words.title}>
      <h2>{words.title}</h2>
      {select(
        'channelId',
        words.probe,
        burn.channels.map(({ id, name }) => [id, name] as const),
      )}
      <div class="row-form">
        {figure('from', words.from, undefined)}
        {figure('to', words.to, undefined)}
      </div>
      {line('why', words.why, { hint: words.whyHint })}
      <p class="row">
        <button type="submit" class="primary" disabled={isSending.value}>
          {isSending.value ? translate().sending : words.save}
        </button>
        <button type="button" onClick={done}>
          {translate().cancel}
        </button>
      </p>
      <p class="hint">{words.nothingLost}</p>
      <p class="problem" role="alert">
        {refused?.refusal?.problem.message}
      </p>
    </form>
  );
}

function readEnd(typed: string, start: Entry<number>): Entry<number> {
  const end = readNumber(typed);
  if (!end.ok || !start.ok || end.value > start.value) return end;
  return { ok: false, problem: translate().read.leaveOut.backwards };
}
