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
    boards.push({ boardId, columns: await readInTurns(store, burnId, boardId) });
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
    let width = 0;
    const places = ofBoard.map(({ index }) => index!);
    const columns = await readInTurns(store, burnId, boardId, (page) => {
      width = Math.max(width, page.counts.length);
      return selectColumns(page, places);
    });
    boards.push({ boardId, columns });
    for (const [place, channel] of ofBoard.entries()) {
      if (channel.index! < width) channels.push({ ...channel, index: place });
    }
  }
  return { boards, channels: wanted.flatMap(({ id }) => channels.find((channel) => channel.id === id) ?? []) };
}

async function readInTurns(
  store: Store,
  burnId: string,
  boardId: string,
  take: (page: ScanColumns) => ScanColumns = (page) => page,
): Promise<ScanColumns> {
  const pages: ScanColumns[] = [];
  for (const page of store.scans.pages(burnId, boardId)) {
    pages.push(take(page));
    await nextTurn();
  }
  return joinColumns(pages);
}

/** Some channels with what their temperatures need: a thermocouple its cold junction, which may be on another board. */
export function withColdJunctions(all: readonly Channel[], channels: readonly Channel[]): Channel[] {
  const wanted = new Set(channels.flatMap(({ id, coldJunctionChannelId }) => [id, coldJunctionChannelId ?? id]));
  return all.filter(({ id }) => wanted.has(id));
}
