import type { ImportOutcome } from '../../shared/contract/imports.ts';
import { AppError } from '../base/app-error.ts';
import type { IncomingBurns, ScanPage } from '../records/incoming-burns.ts';
import { redrawSmallCurve, saveScans } from '../records/save-record.ts';
import { findBurn } from '../records/versioned-documents.ts';
import { unpackBlock } from '../store/packed-block.ts';
import type { Store } from '../store/store.ts';

export interface AddToBurnOptions {
  /** Where on the clock of the burn the file begins; by both clocks when left out, else at the beginning. */
  atElapsedS?: number | undefined;
  by?: string | undefined;
  newId(): string;
}

/**
 * Adds the readings (and marks) of a file to a burn that is described here already. The same file again changes nothing.
 * @throws AppError burn/not-found, import/into-running; nothing has changed then
 */
export async function addToBurn(
  store: Store,
  burnId: string,
  { burns, pages }: IncomingBurns,
  options: AddToBurnOptions,
): Promise<ImportOutcome> {
  const { body } = findBurn(store, burnId);
  const named = { id: burnId, title: body.title };
  const { record, boards, lastUs } = burns[0]!;
  if (store.scans.boards(burnId).includes(boards[0]!)) {
    return { burns: [{ ...named, state: 'same' }], created: [], changed: [] };
  }
  if (body.status === 'running') throw new AppError('import/into-running', { title: body.title });

  const shiftUs = Math.round(shiftS(body.startedUtcMs, record.startedUtcMs, options.atElapsedS) * 1e6);
  const waiting = options.newId();
  try {
    await saveScans(store, new Map([[0, waiting]]), shifted(pages, shiftUs));
    store.together(() => {
      store.scans.copyFrom(waiting, burnId);
      for (const mark of record.marks) {
        const moved = { ...mark, elapsedUs: mark.elapsedUs + shiftUs };
        store.documents.create('mark', { id: mark.id, burnId, body: moved, by: options.by });
      }
      const { version: expectedVersion, body: before } = findBurn(store, burnId);
      const status = before.status === 'planned' ? 'ended' : before.status;
      const startedUtcMs = before.startedUtcMs ?? (record.startedUtcMs ?? 0) - shiftUs / 1000;
      store.documents.revise('burn', burnId, {
        expectedVersion,
        by: options.by,
        body: {
          ...before,
          status,
          startedUtcMs,
          ...(before.startedUtcMs === undefined && { clockSource: 'none' as const }),
          endedElapsedUs: Math.max(before.endedElapsedUs ?? 0, lastUs + shiftUs),
          channels: [...before.channels, ...record.channels],
        },
      });
    });
  } finally {
    store.removeBurn(waiting);
  }
  await redrawSmallCurve(store, burnId);
  store.checkpoint();
  const marks = record.marks.map(({ id }) => ({ kind: 'mark' as const, id }));
  const changed = [
    { kind: 'burn' as const, id: burnId },
    { kind: 'readings' as const, id: burnId },
  ];
  return { burns: [{ ...named, state: 'changed' }], created: marks, changed };
}

async function* shifted(pages: IncomingBurns['pages'], shiftUs: number): AsyncGenerator<ScanPage> {
  for await (const { burn, boardId, ...page } of pages) {
    const columns = 'columns' in page ? page.columns : unpackBlock(page.block);
    yield { burn, boardId, columns: { ...columns, elapsedUs: columns.elapsedUs.map((us) => us + shiftUs) } };
  }
}

function shiftS(mineUtcMs: number | undefined, theirsUtcMs: number | undefined, given: number | undefined): number {
  if (given !== undefined) return given;
  return mineUtcMs !== undefined && theirsUtcMs !== undefined ? (theirsUtcMs - mineUtcMs) / 1000 : 0;
}
