/** Chooses a stretch of a probe to be excluded: on the time chart above, or by its minutes. */
import { type Signal, useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import { useEffect } from 'preact/hooks';
import type { BurnDetail } from '../../../shared/contract/burns.ts';
import type { TimeChartModel } from '../../charts/time-chart-model.ts';
import { translate } from '../../language/catalogue.ts';
import { number, readNumber } from '../../language/figures.ts';
import type { Exclusion } from '../../outbox/entries.ts';
import { leaveOut } from '../../state/exclusions.ts';
import { refusedEntry } from '../../state/outbox.ts';
import { shownExclusions } from '../../state/shown-entries.ts';
import { type DraftOf, type Field, figure, line, needed, select, wrong } from '../forms/field-spec.ts';
import { useDraft } from '../forms/use-draft.ts';
import { useForm } from '../forms/use-form.tsx';
import type { StretchHands } from '../time-chart/use-chart.ts';

function stretchFields(channels: BurnDetail['burn']['channels'], from: string) {
  const words = translate().burns.leaveOut;
  const start = readNumber(from);
  const end = figure({ label: words.to });
  return {
    channelId: needed(
      select(
        { label: words.probe },
        channels.map(({ id, name }) => [id, name]),
      ),
    ),
    from: needed(figure({ label: words.from })),
    to: needed({
      ...end,
      read(text) {
        const entry = end.read(text);
        return entry.ok && start.ok && entry.value <= start.value ? wrong(words.backwards) : entry;
      },
    } satisfies Field<number>),
    why: needed(line({ label: words.why, hint: words.whyHint })),
  };
}

/** As typed, in minutes from lighting. */
interface StretchDraft extends DraftOf<ReturnType<typeof stretchFields>> {
  readonly isOpen: boolean;
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
  const asked = refusedEntry.value;
  useEffect(() => {
    if (asked?.burnId !== burn.id || asked.about.kind !== 'exclusion') return;
    refusedEntry.value = undefined;
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

/** The stretch refused last, to be corrected in the form where it was entered. */
function refusedStretch(detail: BurnDetail) {
  return shownExclusions(detail).find(({ refusal, version }) => refusal && version === 0);
}

/** What the time chart shows of the choice: a line for one end, a stretch for two. */
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
  const words = translate().burns.leaveOut;
  const { burn } = detail;
  const isSending = useSignal(false);
  const refused = refusedStretch(detail);
  const change = (fields: Partial<StretchDraft>) => {
    draft.value = { ...draft.value, ...fields };
  };
  const { field, submit } = useForm(stretchFields(burn.channels, draft.value.from), draft.value, change);
  const save = submit(async ({ channelId, from, to, why }) => {
    const us = (minutes: number) => Math.round(zeroUs + minutes * 60e6);
    const stretch = { channelId, fromUs: us(from), toUs: us(to), reason: why };
    isSending.value = true;
    const { exclusion, outcome } = await leaveOut(burn.id, stretch, refused);
    isSending.value = false;
    if (outcome.is === 'refused') return;
    onDone(exclusion);
    close();
  });
  return (
    <form class="leave-out" onSubmit={save} aria-label={words.title}>
      <h2>{words.title}</h2>
      {field('channelId')}
      <div class="row-form">
        {field('from')}
        {field('to')}
      </div>
      {field('why')}
      <p class="row">
        <button type="submit" class="primary" disabled={isSending.value}>
          {isSending.value ? translate().sending : words.save}
        </button>
        <button type="button" onClick={close}>
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
