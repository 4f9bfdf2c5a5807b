import { setImmediate as nextTurn } from 'node:timers/promises';
import type { Channel } from '../../shared/contract/burn-record.ts';
import { joinColumns, selectColumns } from '../store/scan-columns.ts';
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

/**
 * The readings of some channels of a burn, and the channels with their places in these readings: without those of which
 * no scan has anything. Yields to the event loop after each page.
 */
export async function readChannels(
  store: Store,
  burnId: string,
  wanted: readonly Channel[],
): Promise<{ boards: BoardReadings[]; channels: Channel[] }> {
  const boards: BoardReadings[] = [];
  const channels = wanted.filter(({ boardId }) => boardId === undefined);
  for (const boardId of store.scans.boards(burnId).sort()) {
    const ofBoard = wanted.filter((channel) => channel.boardId === boardId && channel.index !== undefined);
    if (ofBoard.length === 0) continue;
    const pages: ScanColumns[] = [];
    let width = 0;
    for (const page of store.scans.pages(burnId, boardId)) {
      width = Math.max(width, page.counts.length);
      pages.push(
        selectColumns(
          page,
          ofBoard.map(({ index }) => index!),
        ),
      );
      await nextTurn();
    }
    boards.push({ boardId, columns: joinColumns(pages) });
    for (const [place, channel] of ofBoard.entries()) {
      if (channel.index! < width) channels.push({ ...channel, index: place });
    }
  }
  return { boards, channels: wanted.flatMap(({ id }) => channels.find((channel) => channel.id === id) ?? []) };
}
