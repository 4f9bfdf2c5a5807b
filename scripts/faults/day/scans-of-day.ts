/** What a burn holds, against what the boards made in it. */
import { openStoreToRead } from '../../../server/store/open-store.ts';
import type { ScanColumns } from '../../../server/store/store.ts';
import type { Gap } from '../../../shared/contract/burn-record.ts';
import { BOARDS, BOOT, boardIdOf, CHANNELS, madeMs, PERIOD_MS, readingOf } from './boards.ts';

export interface BurnSpan {
  burnId: string;
  /** ms since the day began */
  fromMs: number;
  toMs: number;
  gaps: readonly Gap[];
}

export interface BoardScans {
  /** Those that belong to the burn for sure. */
  made: number;
  stored: number;
  /** Not stored, in a gap. */
  inGaps: number;
  /** Neither: lost without a word. */
  untold: number;
  /** Stored and never made so, or twice. */
  wrong: number;
  /** The most by which the place of a scan on the burn's clock differs from the time since its start, ms. */
  worstTimeMs: number;
}

export function scansOfDay(folder: string, span: BurnSpan): BoardScans[] {
  const store = openStoreToRead(folder);
  try {
    return BOARDS.map((board) => scansOf(board, store.scans.pages(span.burnId, boardIdOf(board)), span));
  } finally {
    store.close();
  }
}

function scansOf(board: number, pages: Iterable<ScanColumns>, { fromMs, toMs, gaps }: BurnSpan): BoardScans {
  const own = gaps.filter(({ boardId }) => boardId === undefined || boardId === boardIdOf(board));
  // Within a period of either end a scan may belong to the burn or not.
  const first = Math.ceil((fromMs - madeMs(board, 0)) / PERIOD_MS) + 1;
  const end = Math.ceil((toMs - madeMs(board, 0)) / PERIOD_MS) - 1;
  const isStored = new Uint8Array(end - first + 4);
  const placeOf = (sequence: number) => sequence - first + 2;
  let [stored, wrong, worstTimeMs] = [0, 0, 0];
  for (const page of pages) {
    for (let row = 0; row < page.sequence.length; row++) {
      const sequence = page.sequence[row]!;
      if (!isAsMade(board, page, row) || isStored[placeOf(sequence)] !== 0) wrong++;
      else {
        isStored[placeOf(sequence)] = 1;
        if (sequence >= first && sequence < end) stored++;
      }
      const errorMs = page.elapsedUs[row]! / 1000 - (madeMs(board, sequence) - fromMs);
      worstTimeMs = Math.max(worstTimeMs, Math.abs(errorMs));
    }
  }
  let [inGaps, untold] = [0, 0];
  for (let sequence = first; sequence < end; sequence++) {
    if (isStored[placeOf(sequence)] === 1) continue;
    const us = (madeMs(board, sequence) - fromMs) * 1000;
    if (own.some((gap) => gap.fromUs <= us && us <= gap.toUs)) inGaps++;
    else untold++;
  }
  return { made: end - first, stored, inGaps, untold, wrong, worstTimeMs };
}

function isAsMade(board: number, page: ScanColumns, row: number): boolean {
  if (page.boot[row] !== BOOT || page.counts.length !== CHANNELS) return false;
  return page.counts.every(
    (counts, channel) =>
      page.status[channel]![row] === 0 && counts[row] === readingOf(board, channel, page.sequence[row]!),
  );
}
