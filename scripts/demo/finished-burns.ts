import { keepRecord } from '../../server/burns/keep-record.ts';
import { toBurnRecord } from '../../server/simulator/burn-record.ts';
import { heronBurns } from '../../server/simulator/heron.ts';
import { simulateBurn } from '../../server/simulator/simulate-burn.ts';
import type { Store } from '../../server/store/store.ts';

/**
 * Simulates the Heron's eight finished burns and keeps them as any other burn is kept. Those that are there already stay as
 * they are, with whatever somebody has changed in them.
 * @param say takes a line of progress
 */
export async function keepFinishedBurns(store: Store, say: (line: string) => void): Promise<void> {
  const burns = heronBurns();
  for (const [place, { scenario, seed, errors, description }] of burns.entries()) {
    if (store.documents.get('burn', description.id)) continue;
    say(`simulating burn ${place + 1} of ${burns.length}: ${description.title}`);
    const record = toBurnRecord(simulateBurn(scenario, seed, errors), description);
    await keepRecord(store, record);
    placeProbes(store, record.channels);
  }
}

/** The probes of the bench board stay where they sat in the finished burns. */
function placeProbes(store: Store, channels: ReturnType<typeof toBurnRecord>['channels']): void {
  for (const channel of channels) {
    const { boardId, index } = channel;
    if (boardId === undefined || index === undefined) continue;
    store.documents.create('channel', { id: channel.id, body: { ...channel, boardId, index } });
  }
}

/** A live burn that an earlier demonstration left behind in the middle will not go on: its board is gone. */
export function endAbandonedBurns(store: Store): void {
  for (const { id, version, body } of store.documents.list('burn')) {
    if (body.status !== 'running' || body.origin !== 'simulated') continue;
    const latest = store.scans.boards(id).flatMap((boardId) => store.scans.latest(id, boardId)?.elapsedUs ?? []);
    const ended = { ...body, status: 'ended' as const, endedElapsedUs: Math.max(0, ...latest) };
    store.documents.revise('burn', id, { expectedVersion: version, body: ended });
  }
}
