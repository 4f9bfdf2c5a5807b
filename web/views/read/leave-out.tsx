/** Choosing a stretch of a probe to be left out: on the strip above, or by its minutes. */
import { type Signal, useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import type { BurnDetail, KeptExclusion } from '../../../shared/contract/api.ts';
import type { StripModel } from '../../charts/strip-model.ts';
import { say } from '../../state/catalogue.ts';
import { leaveOut } from '../../state/exclusions.ts';
import { type Entry, number, readNumber } from '../../state/figures.ts';
import { draftFields } from '../kit/draft-fields.tsx';
import type { StretchHands } from '../kit/strip-view.tsx';
import { useDraft } from '../kit/use-draft.ts';
import { sentenceFor } from '../kit/use-load.ts';

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
export function useStretch({ burn }: BurnDetail): StretchChoice {
  const blank = { isOpen: false, channelId: burn.channels[0]?.id ?? '', from: '', to: '', why: '' };
  const { draft, forget } = useDraft<StretchDraft>(`leave-out.${burn.id}`, blank);
  const change = (fields: Partial<StretchDraft>) => {
    draft.value = { ...draft.value, ...fields };
  };
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

/** What the strip shows of the choice: one end is a line, two are a stretch. */
export function chosenStretch({ isOpen, from, to }: StretchDraft): StripModel['chosen'] {
  const [fromMin, toMin] = [readNumber(from), readNumber(to)];
  if (!isOpen || !fromMin.ok) return undefined;
  return { fromMin: fromMin.value, toMin: toMin.ok ? toMin.value : fromMin.value };
}

export function LeaveOut({
  detail: { burn },
  choice: { draft, close },
  zeroUs,
  onDone,
}: {
  detail: BurnDetail;
  choice: StretchChoice;
  zeroUs: number;
  onDone: (kept: KeptExclusion) => void;
}): VNode {
  const words = say().read.leaveOut;
  const tried = useSignal(false);
  const problem = useSignal<string | undefined>(undefined);
  const { channelId, from, to, why } = draft.value;
  const start = readNumber(from);
  const end = readEnd(to, start);
  const done = () => {
    tried.value = false;
    problem.value = undefined;
    close();
  };
  const save = async (event: Event) => {
    event.preventDefault();
    tried.value = true;
    const reason = why.trim();
    if (!start.ok || !end.ok || reason === '') return;
    const us = (minutes: number) => Math.round(zeroUs + minutes * 60e6);
    try {
      onDone(await leaveOut(burn.id, { channelId, fromUs: us(start.value), toUs: us(end.value), reason }));
      done();
    } catch (cause) {
      problem.value = sentenceFor(cause);
    }
  };
  const { select, figure, line } = draftFields<StretchDraft>({
    draft: draft.value,
    problems: tried.value
      ? {
          ...(!start.ok && { from: start.problem }),
          ...(!end.ok && { to: end.problem }),
          ...(why.trim() === '' && { why: say().describe.number.text }),
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
        <button type="submit" class="primary">
          {words.save}
        </button>
        <button type="button" onClick={done}>
          {say().cancel}
        </button>
      </p>
      <p class="hint">{words.nothingLost}</p>
      <p class="problem" role="alert">
        {problem.value}
      </p>
    </form>
  );
}

function readEnd(typed: string, start: Entry<number>): Entry<number> {
  const end = readNumber(typed);
  if (!end.ok || !start.ok || end.value > start.value) return end;
  return { ok: false, problem: say().read.leaveOut.backwards };
}
