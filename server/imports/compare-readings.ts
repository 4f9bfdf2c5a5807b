import { setImmediate as nextTurn } from 'node:timers/promises';
import type { BoardReadings } from '../records/board-readings.ts';
import { rising } from '../records/burn-record.ts';
import { NOTHING, type ScanColumns } from '../store/scan-columns.ts';
import type { Store } from '../store/store.ts';

/** How the scans of a file stand to those kept here of the same burn. */
export interface ReadingsComparison {
  mine: number;
  theirs: number;
  /** Scans that only the file has. */
  onlyTheirs: number;
  onlyMine: number;
  /** Scans of one moment that say different things. */
  contradicting: number;
}

/** Goes through both in the order of time, page by page, with a turn for everything else after each. */
export async function compareReadings(
  store: Store,
  burnId: string,
  boards: readonly BoardReadings[],
): Promise<ReadingsComparison> {
  const sum: ReadingsComparison = { mine: 0, theirs: 0, onlyTheirs: 0, onlyMine: 0, contradicting: 0 };
  const theirs = new Map(boards.map(({ boardId, columns }) => [boardId, columns]));
  for (const boardId of new Set([...store.scans.boards(burnId), ...theirs.keys()])) {
    await compareBoard(store.scans.pages(burnId, boardId), theirs.get(boardId), sum);
  }
  return sum;
}

async function compareBoard(
  pages: Iterable<ScanColumns>,
  theirs: ScanColumns | undefined,
  sum: ReadingsComparison,
): Promise<void> {
  const theirCount = theirs?.elapsedUs.length ?? 0;
  sum.theirs += theirCount;
  const rise = rising();
  let at = 0;
  for (const page of pages) {
    const elapsedUs = rise(page.elapsedUs);
    sum.mine += elapsedUs.length;
    for (let scan = 0; scan < elapsedUs.length; scan++) {
      while (at < theirCount && theirs!.elapsedUs[at]! < elapsedUs[scan]!) {
        sum.onlyTheirs++;
        at++;
      }
      if (at < theirCount && theirs!.elapsedUs[at] === elapsedUs[scan]) {
        if (!sameScan(page, scan, theirs!, at)) sum.contradicting++;
        at++;
      } else sum.onlyMine++;
    }
    await nextTurn();
  }
  sum.onlyTheirs += theirCount - at;
}

function sameScan(mine: ScanColumns, scan: number, theirs: ScanColumns, at: number): boolean {
  if (mine.boot[scan] !== theirs.boot[at] || mine.sequence[scan] !== theirs.sequence[at]) return false;
  const width = Math.max(mine.counts.length, theirs.counts.length);
  for (let index = 0; index < width; index++) {
    if ((mine.status[index]?.[scan] ?? NOTHING) !== (theirs.status[index]?.[at] ?? NOTHING)) return false;
    if ((mine.counts[index]?.[scan] ?? 0) !== (theirs.counts[index]?.[at] ?? 0)) return false;
  }
  return true;
}
