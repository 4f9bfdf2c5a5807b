/** Scans of a burn, wherever they lie: the finished stretches in blocks, the rest in plain rows. */
import { setImmediate as nextTurn } from 'node:timers/promises';
import type { Database } from 'better-sqlite3';
import { AppError } from '../base/app-error.ts';
import { overviewOf } from './overview.ts';
import { isSoundBlock, type PackedBlock } from './packed-block.ts';
import { type BlockHead, createPackedScans } from './packed-scans.ts';
import { createPacking } from './packing.ts';
import { createPlainScans } from './plain-scans.ts';
import { type Scan, type ScanColumns, scanAt } from './scan-columns.ts';
import { keyOfBurn, type ShortKeys } from './short-keys.ts';
import type { Scans } from './store.ts';
import {
  comparePlaces,
  FIRST_PLACE,
  joinScans,
  lastPlace,
  type Place,
  placeAt,
  type StoredScans,
  scansUpTo,
  sliceScans,
  withoutPlaces,
} from './stored-scans.ts';

/** About 2 ms of reading (packed; 10 ms plain) and 25 ms of writing at eight channels: short enough not to hold up a serial port. */
const SCANS_PER_PAGE = 16_384;
const SCANS_PER_TRANSACTION = 5_000;

export function createScans(db: Database, burns: ShortKeys, boards: ShortKeys): Scans {
  const plain = createPlainScans(db);
  const packed = createPackedScans(db);
  const packing = createPacking(db, plain, packed);
  const boardsOf = db.prepare<[{ burn: number }], { key: number; id: string }>(
    `SELECT key, id FROM board WHERE EXISTS (SELECT 1 FROM scan WHERE burn_key = @burn AND board_key = board.key)
     OR EXISTS (SELECT 1 FROM block WHERE burn_key = @burn AND board_key = board.key) ORDER BY key`,
  );
  const plainBurns = db
    .prepare<[], string>('SELECT id FROM burn WHERE EXISTS (SELECT 1 FROM scan WHERE burn_key = burn.key)')
    .pluck();

  const numbered = (burn: number, board: number, boot: number, sequence: number): StoredScans =>
    joinScans([plain.numbered(burn, board, boot, sequence), ...packed.numbered(burn, board, boot, sequence)]);

  /**
   * A number seen before is a scan sent again, unless it says something else: then the board has forgotten its boot
   * counter, and the scan is kept beside the first one rather than lost.
   */
  function save(burn: number, board: number, scan: Scan, mayBePacked: boolean): boolean {
    const inBlocks = mayBePacked ? packed.numbered(burn, board, scan.boot, scan.sequence) : [];
    if (inBlocks.length === 0 && plain.insert(burn, board, scan, 0)) return true;
    const others = joinScans([plain.numbered(burn, board, scan.boot, scan.sequence), ...inBlocks]);
    if (holdsReadings(others, scan)) return false;
    plain.insert(burn, board, scan, 1 + others.clash.reduce((most, clash) => Math.max(most, clash), 0));
    return true;
  }

  const saveOne = db.transaction(save);
  const saveSome = db.transaction((burn: number, board: number, scans: Scan[]) => {
    const mayBePacked = packed.count(burn, board) > 0;
    let stored = 0;
    for (const scan of scans) if (save(burn, board, scan, mayBePacked)) stored++;
    return stored;
  });

  const saveBlock = db.transaction((burn: number, board: number, block: PackedBlock) => {
    if (!isSoundBlock(block)) throw new AppError('store/block-damaged');
    const last = packed.last(burn, board);
    const isNext = last === undefined || comparePlaces(last.last, block.first) < 0;
    if (!isNext || plain.count(burn, board, undefined, 1) > 0) throw new Error('a block does not follow what is there');
    const key = packed.insert(burn, board, block);
    if (!packed.holds(key, block.bytes)) throw new Error('a block does not hold what was written');
  });

  /** One state of the database for all that is read, also for a process that only reads while another one packs. */
  const atOnce = <A extends unknown[], R>(read: (...args: A) => R) =>
    db.transaction(read).deferred as (...args: A) => R;

  /** Up to `limit` scans behind a place, in order. */
  const readAfter = atOnce((burn: number, board: number, place: Place, limit: number): StoredScans => {
    const parts: StoredScans[] = [];
    let count = 0;
    let last = FIRST_PLACE;
    for (const head of packed.heads(burn, board, place.elapsed)) {
      // Blocks may overlap where scans came late: it is full only when nothing of the next belongs before its end.
      if (count >= limit && comparePlaces(last, head.first) < 0) break;
      if (comparePlaces(head.last, place) <= 0) continue;
      const scans = packed.scansOf(head.key);
      const part = sliceScans(scans, scansUpTo(scans, place), head.scans);
      parts.push(part);
      count += part.elapsedUs.length;
      if (comparePlaces(head.last, last) > 0) last = head.last;
    }
    parts.push(plain.after(burn, board, place, limit, count >= limit ? last.elapsed : undefined));
    const all = joinScans(parts);
    return sliceScans(all, 0, Math.min(limit, all.elapsedUs.length));
  });

  const readAll = atOnce((burn: number, board: number): StoredScans => {
    const rest = plain.after(burn, board, FIRST_PLACE, -1);
    const heads = packed.heads(burn, board);
    if (heads.length === 0) return rest;
    const scans = packed.together(heads);
    const isInOrder = heads.every(
      (head, index) => index === 0 || comparePlaces(heads[index - 1]!.last, head.first) < 0,
    );
    if (rest.elapsedUs.length === 0 && isInOrder) return scans;
    return joinScans([...partsOf(scans, heads), rest]);
  });

  function* pages(burnId: string, boardId: string, scansPerPage = SCANS_PER_PAGE): Generator<ScanColumns> {
    const [burn, board] = [burns.find(burnId), boards.find(boardId)];
    let from = FIRST_PLACE;
    for (;;) {
      const page = readAfter(burn, board, from, scansPerPage);
      if (page.elapsedUs.length === 0) return;
      yield withoutPlaces(page);
      from = lastPlace(page);
    }
  }

  function find(burnId: string, boardId: string, boot: number, sequence: number): Scan | undefined {
    const found = numbered(burns.find(burnId), boards.find(boardId), boot, sequence);
    const highest = found.clash.reduce((best, clash, scan) => (clash > found.clash[best]! ? scan : best), 0);
    return scanIn(found, highest);
  }

  /** All of one board of another burn; of a number that is there already nothing is taken. */
  function copyBoard(from: number, burn: number, board: number): void {
    if (plain.count(burn, board) + packed.count(burn, board) === 0) {
      plain.copy(from, burn, board);
      for (const { key } of packed.heads(from, board)) packed.copy(key, burn);
      return;
    }
    let place = FIRST_PLACE;
    for (;;) {
      const page = readAfter(from, board, place, SCANS_PER_PAGE);
      if (page.elapsedUs.length === 0) return;
      for (let scan = 0; scan < page.elapsedUs.length; scan++) {
        const clash = page.clash[scan]!;
        if (numbered(burn, board, page.boot[scan]!, page.sequence[scan]!).clash.includes(clash)) continue;
        plain.insert(burn, board, scanIn(page, scan)!, clash);
      }
      place = lastPlace(page);
    }
  }

  const openGapUs = db
    .prepare<[{ burn: number; board: number }], number | null>(
      `SELECT min(from_us) FROM gap WHERE burn_key = @burn AND state = 'open'
       AND (board_id IS NULL OR board_id = (SELECT id FROM board WHERE key = @board))`,
    )
    .pluck();

  return {
    pages,
    append: (burnId, boardId, scan) =>
      saveOne.immediate(keyOfBurn(burns, burnId), boards.ensure(boardId), scan, true) ? 'kept' : 'known',

    async appendMany(burnId, boardId, scans) {
      const [burn, board] = [keyOfBurn(burns, burnId), boards.ensure(boardId)];
      let stored = 0;
      let waiting: Scan[] = [];
      for (const scan of scans) {
        waiting.push(scan);
        if (waiting.length < SCANS_PER_TRANSACTION) continue;
        stored += saveSome.immediate(burn, board, waiting);
        waiting = [];
        await nextTurn();
      }
      return stored + saveSome.immediate(burn, board, waiting);
    },

    appendBlock: (burnId, boardId, block) =>
      saveBlock.immediate(keyOfBurn(burns, burnId), boards.ensure(boardId), block),

    copyFrom: db.transaction((fromBurnId: string, burnId: string) => {
      const [from, burn] = [burns.find(fromBurnId), keyOfBurn(burns, burnId)];
      for (const { key } of boardsOf.all({ burn: from })) copyBoard(from, burn, key);
    }),

    boards: (burnId) => boardsOf.all({ burn: burns.find(burnId) }).map(({ id }) => id),
    count(burnId, boardId) {
      const [burn, board] = [burns.find(burnId), boards.find(boardId)];
      return plain.count(burn, board) + packed.count(burn, board);
    },
    columns: (burnId, boardId) => withoutPlaces(readAll(burns.find(burnId), boards.find(boardId))),

    latest(burnId, boardId) {
      const [burn, board] = [burns.find(burnId), boards.find(boardId)];
      const newest = plain.newest(burn, board);
      const block = packed.last(burn, board);
      const isPacked = block && (newest.elapsedUs.length === 0 || comparePlaces(placeAt(newest, 0), block.last) < 0);
      return isPacked ? scanIn(packed.scansOf(block.key), block.scans - 1) : scanIn(newest, 0);
    },
    find: (burnId, boardId, { boot, sequence }) => find(burnId, boardId, boot, sequence),
    around(burnId, boardId, { boot, sequence }) {
      const place = [burns.find(burnId), boards.find(boardId), boot, sequence] as const;
      const nearest = (side: 'lower' | 'higher') => {
        const found = joinScans([plain.neighbour(side, ...place), packed.neighbour(side, ...place)]);
        return scanIn(found, nearestOf(found, side));
      };
      const [before, after] = [nearest('lower'), nearest('higher')];
      return { ...(before && { before }), ...(after && { after }) };
    },
    holes(burnId, boardId) {
      const scans = readAll(burns.find(burnId), boards.find(boardId));
      return skippedNumbers(scans).map(({ boot, before, after }) => ({
        before: find(burnId, boardId, boot, before)!,
        after: find(burnId, boardId, boot, after)!,
      }));
    },
    move: db.transaction((burnId: string, fromBoardId: string, toBoardId: string, boot: number) => {
      const [burn, from, to] = [keyOfBurn(burns, burnId), boards.find(fromBoardId), boards.ensure(toBoardId)];
      for (const board of [from, to]) packing.unpack(burn, board, boot);
      const moved = plain.ofBoot(burn, from, boot);
      for (let scan = 0; scan < moved.elapsedUs.length; scan++) save(burn, to, scanIn(moved, scan)!, false);
      plain.removeBoot(burn, from, boot);
    }),

    overview(burnId, boardId, window) {
      const place = [burns.find(burnId), boards.find(boardId)] as const;
      return atOnce(() => overviewOf({ plain, packed, readAll }, ...place, window))();
    },
    plainBurns: () => plainBurns.all(),
    async pack(burnId, { isOver }) {
      const burn = burns.find(burnId);
      for (const { key: board } of boardsOf.all({ burn })) {
        const untilUs = openGapUs.get({ burn, board }) ?? undefined;
        if (await packing.pack(burn, board, { isOver, untilUs })) return true;
      }
      return false;
    },
  };
}

/** The stretches of columns that the blocks were. */
function partsOf(scans: StoredScans, heads: readonly BlockHead[]): StoredScans[] {
  let to = 0;
  return heads.map((head) => {
    to += head.scans;
    return sliceScans(scans, to - head.scans, to);
  });
}

/** With as many readings as it was sent with. */
function scanIn(scans: StoredScans, scan: number): Scan | undefined {
  return scan < scans.elapsedUs.length ? scanAt(sliceScans(scans, scan, scan + 1), 0) : undefined;
}

function holdsReadings(others: StoredScans, { uptimeMs, readings }: Scan): boolean {
  return Array.from(others.uptimeMs).some((otherMs, index) => {
    const other = scanIn(others, index)!.readings;
    const isSame = other.length === readings.length && other.every((reading, channel) => reading === readings[channel]);
    return isSame && otherMs === uptimeMs;
  });
}

/** Of two scans on one side the one with the nearer number, and of one number the one that came first. */
function nearestOf({ sequence, clash }: StoredScans, side: 'lower' | 'higher'): number {
  if (sequence.length < 2) return 0;
  const [first, second] = [sequence[0]!, sequence[1]!];
  if (first === second) return clash[0]! < clash[1]! ? 0 : 1;
  return first > second === (side === 'lower') ? 0 : 1;
}

/** Neighbouring numbers of a boot between which others are missing, boot by boot and rising. */
function skippedNumbers(scans: StoredScans): { boot: number; before: number; after: number }[] {
  const numbers = new Map<number, number[]>();
  for (let scan = 0; scan < scans.boot.length; scan++) {
    if (scans.clash[scan] !== 0) continue;
    const boot = scans.boot[scan]!;
    const ofBoot = numbers.get(boot);
    if (ofBoot) ofBoot.push(scans.sequence[scan]!);
    else numbers.set(boot, [scans.sequence[scan]!]);
  }
  return [...numbers.keys()]
    .sort((a, b) => a - b)
    .flatMap((boot) => {
      const rising = Uint32Array.from(numbers.get(boot)!).sort();
      const skipped: { boot: number; before: number; after: number }[] = [];
      for (let at = 1; at < rising.length; at++) {
        const [before, after] = [rising[at - 1]!, rising[at]!];
        if (after > before + 1) skipped.push({ boot, before, after });
      }
      return skipped;
    });
}
