import { setImmediate as nextTurn } from 'node:timers/promises';
import type { Store } from '../store/store.ts';
import { csv } from './csv.ts';
import type { PackagedBurn } from './data-package.ts';

/**
 * Writes a burn to nowhere, all but the bulk of its readings, which are only read: what cannot be exported shows itself before the first
 * byte of a package of many is sent, and not in the middle of it.
 * @throws whatever keeps the burn from being exported
 */
export async function tryOut(store: Store, { id, tables, record }: PackagedBurn): Promise<void> {
  for (const table of tables) {
    const chunks = csv(table)[Symbol.iterator]();
    // The head and the first page of the readings, all of the other tables.
    for (let step = chunks.next(), count = 0; !step.done; step = chunks.next()) {
      if (table.name === 'readings' && ++count > 1) break;
    }
  }
  record()[Symbol.iterator]().next();
  for (const boardId of store.scans.boards(id)) for (const _page of store.scans.pages(id, boardId)) await nextTurn();
}
