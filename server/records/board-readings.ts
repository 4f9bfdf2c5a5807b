import { setImmediate as nextTurn } from 'node:timers/promises';
import { joinColumns } from '../store/scan-columns.ts';
import type { ScanColumns, Store } from '../store/store.ts';

export interface BoardReadings {
  boardId: string;
  columns: ScanColumns;
}

/** All readings of a burn as columns, board by board, in an order that is the same on every bench. */
export function readBoards(store: Store, burnId: string): BoardReadings[] {
  return store.scans
    .boards(burnId)
    .sort()
    .map((boardId) => ({ boardId, columns: store.scans.columns(burnId, boardId) }));
}

/** The same, yielding to the event loop after each page: all scans of a day at once would take a second. */
export async function readBoardsInTurns(store: Store, burnId: string): Promise<BoardReadings[]> {
  const boards: BoardReadings[] = [];
  for (const boardId of store.scans.boards(burnId).sort()) {
    const pages: ScanColumns[] = [];
    for (const page of store.scans.pages(burnId, boardId)) {
      pages.push(page);
      await nextTurn();
    }
    boards.push({ boardId, columns: joinColumns(pages) });
  }
  return boards;
}
