/** Marks and weighings as the person should see them: what the service has, plus what still waits here, less what is being undone. */
import type { BurnDetail } from '../../shared/contract/api.ts';
import type { Mark } from '../../shared/contract/marks.ts';
import type { Weighing } from '../../shared/contract/weighings.ts';
import { inOrder, type ShownMark } from '../lib/burn-state.ts';
import { outbox } from './outbox.ts';

export interface ShownWeighing {
  readonly weighing: Weighing;
  readonly version: number;
  readonly state: ShownMark['state'];
}

/** Marks in force, in order. */
export function shownMarks(detail: BurnDetail): ShownMark[] {
  const { undone, queued } = entriesOf(detail.burn.id, 'mark');
  const kept = detail.marks
    .filter(({ mark, withdrawn }) => !withdrawn && !undone.has(mark.id))
    .map(({ mark, version }) => ({ mark, version, state: 'kept' as const }));
  const known = new Set(detail.marks.map(({ mark }) => mark.id));
  const fresh = queued
    .filter(({ about }) => !known.has(about.id) && !undone.has(about.id))
    .map(({ body, refusal }) => ({
      mark: body as unknown as Mark,
      version: 1,
      state: refusal ? ('refused' as const) : ('waiting' as const),
    }));
  return inOrder([...kept, ...fresh]);
}

/** Weighings in force. */
export function shownWeighings(detail: BurnDetail): ShownWeighing[] {
  const { undone, queued } = entriesOf(detail.burn.id, 'weighing');
  const known = new Set(detail.weighings.map(({ weighing }) => weighing.id));
  return [
    ...detail.weighings
      .filter(({ weighing, withdrawn }) => !withdrawn && !undone.has(weighing.id))
      .map(({ weighing, version }) => ({ weighing, version, state: 'kept' as const })),
    ...queued
      .filter(({ about }) => !known.has(about.id))
      .map(({ body, refusal }) => ({
        weighing: body as unknown as Weighing,
        version: 1,
        state: refusal ? ('refused' as const) : ('waiting' as const),
      })),
  ];
}

function entriesOf(burnId: string, kind: 'mark' | 'weighing') {
  const entries = outbox.value.filter((entry) => entry.burnId === burnId && entry.about.kind === kind);
  return {
    queued: entries.filter(({ method }) => method === 'POST'),
    undone: new Set(
      entries.filter(({ method, refusal }) => method === 'DELETE' && !refusal).map(({ about }) => about.id),
    ),
  };
}
