import { saveSampleBurns } from '../../server/samples/sample-burns.ts';
import type { Store } from '../../server/store/store.ts';
import type { BurnRecord } from '../../shared/contract/burn-record.ts';

/** @param print prints a line of progress */
export async function saveFinishedBurns(store: Store, print: (line: string) => void): Promise<void> {
  await saveSampleBurns(store, (record, left) => {
    print(`simulated ${record.title}${left > 0 ? `, ${left} more to come` : ''}`);
    placeProbes(store, record.channels);
  });
}

/** The probes of the bench board get the places that they had in the finished burns. */
function placeProbes(store: Store, channels: BurnRecord['channels']): void {
  for (const channel of channels) {
    const { boardId, index } = channel;
    if (boardId === undefined || index === undefined) continue;
    store.documents.create('channel', { id: channel.id, body: { ...channel, boardId, index } });
  }
}

/** Removes burns left unfinished by an earlier demonstration that was killed: their board no longer exists. */
export function removeAbandonedBurns(store: Store): void {
  for (const { id, body } of store.documents.list('burn')) {
    if (body.origin === 'simulated' && body.status === 'running') store.removeBurn(id);
  }
}
