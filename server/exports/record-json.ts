/** A burn record as a JSON file, written while it is read: column after column, never whole in memory. */
import { createHash } from 'node:crypto';
import type { Channel } from '../../shared/contract/burn-record.ts';
import { readBoardsInTurns } from '../records/board-readings.ts';
import { assembleRecord, rising } from '../records/burn-record.ts';
import type { RecordWithoutReadings } from '../records/record-without-readings.ts';
import { faultOf, NOTHING, pagesOf, type ScanColumns } from '../store/scan-columns.ts';
import type { Store } from '../store/store.ts';
import { canonicalJson } from './canonical-json.ts';

/** A page is turned into text in one go, and the service waits for that long. */
const SCANS_PER_PAGE = 4096;

/** Scans that are read once and held while their columns are written, 11 MB with eight channels; more are read again for each column. */
const MOST_HELD_SCANS = 150_000;

/** One board's scans, which may be gone through any number of times. */
export interface PagedBoard {
  boardId: string;
  pages(): Iterable<ScanColumns>;
}

/**
 * The record in its canonical form (RFC 8785), so that the SHA-256 of the file is the checksum of the record: the same on
 * every bench that has the same burn.
 */
export function* recordJson(record: RecordWithoutReadings, boards: readonly PagedBoard[]): Generator<string> {
  const given = { ...withoutEmpty(record), readings: [] };
  const before = canonicalJson(keysBelow(given, (key) => key < 'readings'));
  const after = canonicalJson(keysBelow(given, (key) => key > 'readings'));
  yield `${before.slice(0, -1)},"readings":[`;
  let isFirst = true;
  for (const board of boards) {
    if (!isFirst) yield ',';
    isFirst = false;
    yield* boardJson(board, record.channels);
  }
  // Few enough to be written in one go.
  for (const typed of assembleRecord(record, []).readings) {
    yield isFirst ? canonicalJson(typed) : `,${canonicalJson(typed)}`;
    isFirst = false;
  }
  yield `],${after.slice(1)}`;
}

export function pagedBoards(store: Store, burnId: string): PagedBoard[] {
  return store.scans
    .boards(burnId)
    .sort()
    .map((boardId) => ({ boardId, pages: () => store.scans.pages(burnId, boardId, SCANS_PER_PAGE) }));
}

/**
 * The same for a burn that may be running: its scans are read once and held, since between two passes more would come.
 */
export async function steadyBoards(store: Store, { id, status }: RecordWithoutReadings): Promise<PagedBoard[]> {
  if (status !== 'running') return pagedBoards(store, id);
  const boards = await readBoardsInTurns(store, id);
  return boards.map(({ boardId, columns }) => ({ boardId, pages: () => pagesOf(columns, SCANS_PER_PAGE) }));
}

/** SHA-256 of the record as it would be written, in hexadecimal. Breathes between pages. */
export async function recordChecksum(chunks: Iterable<string>): Promise<string> {
  const hash = createHash('sha256');
  for (const chunk of chunks) {
    hash.update(chunk);
    await new Promise((resolve) => setImmediate(resolve));
  }
  return hash.digest('hex');
}

/** Lists a record may leave out say the same when they are empty. */
function withoutEmpty(record: RecordWithoutReadings): RecordWithoutReadings {
  const optional = ['contents', 'scales', 'gaps', 'exclusions', 'edits'];
  return Object.fromEntries(
    Object.entries(record).filter(([key, value]) => !(optional.includes(key) && (value as unknown[]).length === 0)),
  ) as RecordWithoutReadings;
}

function keysBelow(value: object, chosen: (key: string) => boolean): object {
  return Object.fromEntries(Object.entries(value).filter(([key]) => chosen(key)));
}

function* boardJson(board: PagedBoard, channels: readonly Channel[]): Generator<string> {
  const { boardId } = board;
  const pages = heldPages(board.pages);
  const numbers = (of: (page: ScanColumns) => ArrayLike<number>) => listed(pages(), (page) => Array.from(of(page)));
  yield `{"boardId":${JSON.stringify(boardId)},"boot":[`;
  let width = 0;
  yield* numbers((page) => {
    width = Math.max(width, page.counts.length);
    return page.boot;
  });
  yield '],"columns":[';
  const own = channels.filter(({ boardId: of, index }) => of === boardId && index !== undefined && index < width);
  for (const [number, channel] of own.entries()) {
    if (number > 0) yield ',';
    yield* columnJson(pages, channel);
  }
  yield '],"elapsedUs":[';
  const rise = rising();
  yield* numbers((page) => rise(page.elapsedUs));
  yield '],"sequence":[';
  yield* numbers((page) => page.sequence);
  yield ']}';
}

function* columnJson(pages: PagedBoard['pages'], { id, index = 0 }: Channel): Generator<string> {
  // Few, or those of one dead probe; a pass of their own through all pages would stand still for most of them.
  const faults: string[] = [];
  let place = 0;
  yield `{"channelId":${JSON.stringify(id)},"counts":[`;
  yield* listed(pages(), (page) => {
    const [counts, status] = [page.counts[index], page.status[index]];
    const named: string[] = [];
    const written = Array.from(page.elapsedUs, (_, scan) => {
      const state = status?.[scan] ?? NOTHING;
      if (state === 0) return counts![scan]!;
      const fault = faultOf(state);
      if (fault) named.push(`[${place + scan},"${fault}"]`);
      return 'null';
    });
    place += page.elapsedUs.length;
    if (named.length > 0) faults.push(named.join(','));
    return written;
  });
  yield ']';
  for (const [number, some] of faults.entries()) yield number === 0 ? `,"faults":[${some}` : `,${some}`;
  yield faults.length > 0 ? ']}' : '}';
}

/** The same pages, held from the first pass on where they are few. */
function heldPages(pages: PagedBoard['pages']): PagedBoard['pages'] {
  let held: ScanColumns[] | undefined;
  return function* () {
    if (held) return yield* held;
    const read: ScanColumns[] = [];
    let scans = 0;
    for (const page of pages()) {
      scans += page.elapsedUs.length;
      if (scans <= MOST_HELD_SCANS) read.push(page);
      yield page;
    }
    if (scans <= MOST_HELD_SCANS) held = read;
  };
}

/** What each page gives, with commas between all of it. */
function* listed(
  pages: Iterable<ScanColumns>,
  of: (page: ScanColumns) => readonly (string | number)[],
): Generator<string> {
  let first = true;
  for (const page of pages) {
    const entries = of(page);
    if (entries.length === 0) continue;
    yield first ? entries.join(',') : `,${entries.join(',')}`;
    first = false;
  }
}
