import type { WeighUp } from '../../shared/contract/entries.ts';
import type { Weighing } from '../../shared/contract/weighings.ts';
import { AppError } from '../base/app-error.ts';
import { findBurn } from '../records/versioned-documents.ts';
import type { StoredDocument } from '../store/store.ts';
import { isDelivered } from './entries.ts';
import { type EntryContext, refuseWrongWeighing, standing, weighingRules } from './entry-rules.ts';
import type { Lifecycle } from './lifecycle.ts';
import { refuseMoreLeft } from './refusals.ts';

/**
 * Saves all weighings of a burn and its new status in one transaction.
 * @throws AppError as for a single weighing, and burn/wrong-step; nothing is saved then
 */
export type SaveWeighUp = (burnId: string, weighUp: WeighUp) => void;

/** One weighing as it shall be; without a body it is withdrawn, from version 0 it is new. */
interface Change {
  id: string;
  expectedVersion: number;
  body?: Weighing;
}

export function createWeighUp(context: EntryContext & { lifecycle: Pick<Lifecycle, 'edit'> }): SaveWeighUp {
  const { store, lifecycle } = context;
  const { documents } = store;
  const { announce } = weighingRules(context);

  function refuseElsewhere(burnId: string, { id, expectedVersion }: Change): void {
    const there = documents.get('weighing', id);
    if (there && there.burnId !== burnId) throw new AppError('burn/already-there', { kind: 'weighing', id });
    if (!there && expectedVersion > 0) throw new AppError('weighing/not-found', { id });
  }

  function save(burnId: string, { id, body, expectedVersion }: Change, by?: string): StoredDocument<'weighing'> {
    if (!body) return documents.withdraw('weighing', id, { expectedVersion, by });
    refuseWrongWeighing(context, burnId, body);
    // Unlike a single weighing, a new one whose identifier exists with different content is a conflict.
    return expectedVersion === 0 && !documents.get('weighing', id)
      ? documents.create('weighing', { id, burnId, body, by }).document
      : documents.revise('weighing', id, { expectedVersion, body, by });
  }

  return (burnId, { weighings, takeBack = [], status, by }) => {
    const burn = findBurn(store, burnId);
    const changes: Change[] = [
      ...weighings.map(({ weighing, expectedVersion = 0 }) => ({ id: weighing.id, body: weighing, expectedVersion })),
      ...takeBack,
    ];
    for (const change of changes) refuseElsewhere(burnId, change);
    const fresh = changes.filter((change) => !isDelivered(documents, 'weighing', change));
    if (changes.length > 0 && fresh.length === 0) return;

    let stored: StoredDocument<'weighing'>[] = [];
    const saveAll = () => {
      stored = fresh.map((change) => save(burnId, change, by));
      // Checked once all weighings are saved: in between, some would contradict those still to be saved.
      refuseMoreLeft(standing(store, 'weighing', burnId), standing(store, 'mark', burnId));
    };
    if (status === undefined || status === burn.body.status) store.together(saveAll);
    else if (burn.body.status === 'setAside') throw new AppError('burn/wrong-step', { from: 'setAside', to: status });
    else lifecycle.edit(burnId, { expectedVersion: burn.version, status, by }, saveAll);
    for (const entry of stored) announce(burnId, entry);
  };
}
