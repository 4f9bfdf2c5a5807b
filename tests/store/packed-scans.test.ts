import { join } from 'node:path';
import Database from 'better-sqlite3';
import { expect, test } from 'vitest';
import { packColumns, unpackBlock } from '../../server/store/packed-block.ts';
import { readScans } from '../../server/store/scan-columns.ts';
import type { Scan, ScanColumns, Store } from '../../server/store/store.ts';
import { faultCodes } from '../../shared/contract/burn-record.ts';
import fc from '../support/properties.ts';
import { boardId, burnId, openTestStore, packAll, saveBurn, scanAt, tempStore, testId } from '../support/temp-store.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';

const otherBoardId = testId(3);
/** Written by the version of the store that knew no other form. */
const BLOCK_OF_FIRST_FORM =
  'AQAAAACQAQAAAgAAAAIAAAAAAAB5QAAAAAAAQI9AAAAAAAABAQAAAAAAahjBAQAAAAACOwAAACi1L/1gkACNAQCEAgANGicMGSYLGCUKFyQJFiMIFSIHFC' +
  'EGEyAFEh8EER4DEB0CDxwBDhsBAChbqioDAQEAAAAAAHCLQAIAAAAAAo0BAAAotS/9YJAAHQwAhBcWrELYulDmpF70smwCwFYQzmQe3HII6oAW1I4k4pwy' +
  '8IZA/pRODKI4GrBGAL5U6sxi+LZwBsR+FNJoIuB2MO6EGvySKOagNvSuRAKYUhCmYB60SgTCWBLQZvzedArIghjWkCbkejTyiEIAliwOpDocskgGwFYUqm' +
  'QiuHIIxlwW1Gok4ngO8IYc2pQq6KI49oxGBJpUEqg+ILZMLsRaGNJoJrx2DMqEGthuKOZ8NvSKIAKYLhCmPPq0SgieWBasZiS6UDLIXkDWbCrkehDOiB7c' +
  'lizqgDr4jkgGnDIUqkAiuE4MxlwasGoovng2zGJE2nBS6H4U9owi4Jow7qg+/JJMCqBaGK5EJrxSNMpgHthuLMJ8OtCKSN50VuyCPPqQJgieNBasQgC6UA' +
  '6kXhyybCrAVjjOZEbccjDqgD7UjkzinFoovlQSzGIgtnAuxH480mhK4HZY7oRC/JJQCqBeLMJYOtBmJN50MsiCQNaQTuR6XPKIagCWVA6kAgAA5wSVcGsK' +
  'Al4AAAAotS/9YJAApQIA8AABAwQAAgMFAQIBAwUAAgQFBAACAwQFBAACAwUBAhoAwANwAK4DP8AG4AOQAPgANgACAAzgA8APDAE+gA0AP0AESADwgTaqOs' +
  'ApDgCO8KRGWkECAgAAAAAAABxAAAAAAAAAAAAAAAAAAAIAAAAAAAAAAAAAAAAAAPA/AAAAAAACAAAAAAAAAAAAAAAAAAAAAAAAAAAAAgAAAAAAAABAAAAA' +
  'AAAAAAAAAAAAAAAAAgAAAAAAcJdAAAAAAAAA8L8BAAAAAAIWAAAAKLUv/WCQAGUAABgAFgACAIEuCmhgCAIYAAAAKLUv/WCQAHUAACABAQEAAgAsZFCBTo' +
  'AIAgAAAAAAAAAAAAAAAAAARMABAAAAAAIgAAAAKLUv/WCQALUAAFAAUFCfAFBQUO8AAwBLMlAgwaRzAloErvqF';
const reading = fc.oneof(
  fc.integer({ min: 1500, max: 1520 }),
  fc.integer({ min: -(2 ** 31), max: 2 ** 31 - 1 }),
  fc.constantFrom(...faultCodes, null),
);
/** Few numbers and moments, so that scans come twice, out of order, and beside each other. */
const scan: fc.Arbitrary<Scan> = fc.record({
  boot: fc.constantFrom(7, 8, 2 ** 33),
  sequence: fc.oneof(fc.integer({ min: 0, max: 40 }), fc.integer({ min: 2 ** 32 - 3, max: 2 ** 32 - 1 })),
  uptimeMs: fc.oneof(fc.constant(900), fc.integer({ min: 0, max: 2 ** 32 - 1 })),
  elapsedUs: fc.oneof(fc.integer({ min: 0, max: 50 }), fc.maxSafeInteger()),
  arrivedUs: fc.maxSafeInteger(),
  readings: fc.array(reading, { minLength: 0, maxLength: 4 }),
});
const board = fc.constantFrom(boardId, otherBoardId);
const step = fc.oneof(
  {
    weight: 6,
    arbitrary: fc.record({ kind: fc.constant('append' as const), board, scans: fc.array(scan, { maxLength: 12 }) }),
  },
  { weight: 3, arbitrary: fc.record({ kind: fc.constant('pack' as const) }) },
  { weight: 1, arbitrary: fc.record({ kind: fc.constant('move' as const), board, boot: fc.constantFrom(7, 8) }) },
  { weight: 1, arbitrary: fc.record({ kind: fc.constant('copy' as const) }) },
);

/** Everything that the store has of the scans of a burn. */
function everythingOf({ scans }: Store, id: string, pageSize: number) {
  return scans.boards(id).map((each) => ({
    board: each,
    count: scans.count(id, each),
    columns: scans.columns(id, each),
    pages: [...scans.pages(id, each, pageSize)],
    latest: scans.latest(id, each),
    holes: scans.holes(id, each),
    found: [7, 8].flatMap((boot) =>
      [0, 1, 20, 2 ** 32 - 2].map((sequence) => [
        scans.find(id, each, { boot, sequence }),
        scans.around(id, each, { boot, sequence }),
      ]),
    ),
  }));
}

test('any history of scans, packed at any moment, reads back as it does from plain rows', async () => {
  const [packed, plain] = [tempStore(), tempStore()];
  let number = 1000;
  await fc.assert(
    fc.asyncProperty(fc.array(step, { maxLength: 14 }), fc.integer({ min: 1, max: 9 }), async (steps, pageSize) => {
      const [id, other] = [testId(number++), testId(number++)];
      for (const store of [packed, plain]) for (const each of [id, other]) saveBurn(store, each);
      for (const each of steps) {
        if (each.kind === 'pack') await packAll(packed, id);
        if (each.kind === 'append')
          for (const sent of each.scans)
            expect(packed.scans.append(id, each.board, sent)).toBe(plain.scans.append(id, each.board, sent));
        for (const { scans } of [packed, plain]) {
          if (each.kind === 'copy') scans.copyFrom(id, other);
          if (each.kind === 'move')
            scans.move(id, each.board, each.board === boardId ? otherBoardId : boardId, each.boot);
        }
      }
      for (const each of [id, other])
        expect(everythingOf(packed, each, pageSize)).toEqual(everythingOf(plain, each, pageSize));
    }),
    { numRuns: 40 },
  );
});

test('columns saved as blocks read back as they do from plain rows, whatever numbers are in them', async () => {
  const [packed, plain] = [tempStore(), tempStore()];
  let number = 1000;
  const save = async (columns: ScanColumns) => {
    const id = testId(number++);
    for (const store of [packed, plain]) store.expectBurn(id);
    const blocks = packColumns(columns);
    if (blocks) for (const block of blocks) packed.scans.appendBlock(id, boardId, block);
    else await packed.scans.appendMany(id, boardId, readScans(columns));
    await plain.scans.appendMany(id, boardId, readScans(columns));
    expect(everythingOf(packed, id, 5000)).toEqual(everythingOf(plain, id, 5000));
    return blocks !== undefined;
  };
  const forms = new Set<boolean>();
  await fc.assert(
    fc.asyncProperty(fc.array(scan, { maxLength: 14 }), async (scans) => {
      const id = testId(number++);
      plain.expectBurn(id);
      for (const each of scans) plain.scans.append(id, boardId, each);
      forms.add(await save(plain.scans.columns(id, boardId)));
    }),
    { numRuns: 40 },
  );
  expect([...forms].sort()).toEqual([false, true]);
  await saveScans(plain, 17_000, false);
  expect(await save(plain.scans.columns(burnId, boardId))).toBe(true);
});

test('a block of the first form, whose planes are compressed one by one, reads as what it was made of', () => {
  const scans = Array.from({ length: 400 }, (_, scan) => scan);
  const isOpen = (scan: number) => scan % 97 < 3;
  const columns: ScanColumns = {
    elapsedUs: Float64Array.from(scans, (scan) => scan * 1e6 + ((scan * 13) % 40)),
    arrivedUs: Float64Array.from(scans, (scan) => scan * 1e6 + 900 + ((scan * 7919) % 1500)),
    uptimeMs: Float64Array.from(scans, (scan) => scan * 1000 + 400),
    boot: new Float64Array(scans.length).fill(7),
    sequence: Uint32Array.from(scans),
    counts: [
      Int32Array.from(scans, (scan) => 1500 + ((scan * 7919) % 11)),
      Int32Array.from(scans, (scan) => (isOpen(scan) ? 0 : -40 * scan)),
    ],
    status: [new Uint8Array(scans.length), Uint8Array.from(scans, (scan) => (isOpen(scan) ? 1 : 0))],
  };
  const [block] = packColumns(columns) ?? [];
  expect(unpackBlock(block!)).toEqual(columns);
  const bytes = { ...block!.bytes, columns: Buffer.from(BLOCK_OF_FIRST_FORM, 'base64') };
  expect(unpackBlock({ ...block!, bytes })).toEqual(columns);
});

test('a block that changed on its way, or does not follow what is there, is refused', () => {
  const store = tempStore();
  saveBurn(store);
  store.scans.append(burnId, otherBoardId, scanAt(3));
  const [block] = packColumns(store.scans.columns(burnId, otherBoardId)) ?? [];
  expect(() => store.scans.appendBlock(burnId, otherBoardId, block!)).toThrow('does not follow');
  const rowsOf32 = block!.bytes.rowsOf32.map((byte, at) => (at === 9 ? byte ^ 1 : byte));
  const changed = { ...block!, bytes: { ...block!.bytes, rowsOf32 } };
  expect(() => store.scans.appendBlock(burnId, boardId, changed)).toThrow(
    expect.objectContaining({ code: 'store/block-damaged' }),
  );
  expect(store.scans.boards(burnId)).toEqual([otherBoardId]);
});

/** A burn of `count` scans, a gap of a minute in its middle, each channel at other counts. */
async function saveScans(store: Store, count: number, isPacked = true): Promise<void> {
  saveBurn(store);
  const scans = Array.from({ length: count }, (_, sequence) =>
    scanAt(sequence, {
      elapsedUs: sequence * 1_000_000 + (sequence < count / 2 ? 0 : 60_000_000),
      readings: [sequence === 8500 ? 2 ** 31 - 1 : (sequence * 7919) % 613, sequence % 50 === 3 ? 'open' : -sequence],
    }),
  );
  await store.scans.appendMany(burnId, boardId, scans);
  if (isPacked) await packAll(store, burnId);
}

/** Looks into the file as a stranger would, without the store. */
function look<T>(folder: string, work: (db: Database.Database) => T): T {
  const db = new Database(join(folder, 'stovebench.db'));
  try {
    db.pragma('foreign_keys = ON');
    return work(db);
  } finally {
    db.close();
  }
}

test('what comes to a stretch, or leaves it, while it is being packed is neither lost nor there twice', async () => {
  const [packed, plain] = [tempStore(), tempStore()];
  for (const store of [packed, plain]) {
    const pack = async (meanwhile: () => void) => {
      const packing = store === packed ? store.scans.pack(burnId, { isOver: true }) : undefined;
      meanwhile();
      await packing;
      if (packing) await packAll(store, burnId);
    };
    await saveScans(store, 300, false);
    await pack(() => store.scans.append(burnId, boardId, scanAt(1000, { elapsedUs: 55_500_000 })));
    for (let sequence = 301; sequence < 400; sequence++) store.scans.append(burnId, boardId, scanAt(sequence));
    // The block before is about to take these in, and is made rows of.
    await pack(() => store.scans.move(burnId, boardId, otherBoardId, 7));
  }
  expect(everythingOf(packed, burnId, 7)).toEqual(everythingOf(plain, burnId, 7));
  expect(packed.scans.plainBurns()).toEqual([]);
});

test('a reading goes only with its burn, packed or not, not even by hand', async () => {
  const folder = temporaryFolder();
  const store = openTestStore(folder);
  await saveScans(store, 300);
  store.scans.append(burnId, boardId, scanAt(1000));
  store.close();
  look(folder, (db) => {
    expect(() => db.exec('DELETE FROM scan')).toThrow('a kept reading never goes');
    expect(() => db.exec('DELETE FROM block')).toThrow('a kept reading never goes');
    expect(() => db.exec("UPDATE block SET columns = x'00'")).toThrow('a kept reading never changes');
    db.exec('DELETE FROM burn');
    for (const table of ['scan', 'block', 'block_numbers', 'proven_stretch'])
      expect(db.prepare(`SELECT count(*) FROM ${table}`).pluck().get(), table).toBe(0);
  });
});

test('the newest scans of a burn that runs, and those behind an open gap, stay plain rows', async () => {
  const store = tempStore();
  await saveScans(store, 20_000, false);
  const left = () => look(store.folder, (db) => db.prepare('SELECT count(*) FROM scan').pluck().get());
  store.gaps.add(burnId, { boardId, fromUs: 100_000_000, toUs: 101_000_000, cause: 'silent', isOpen: true });
  await packAll(store, burnId);
  expect(left()).toBe(19_900);
  store.gaps.replace(store.gaps.open(burnId)[0]!, []);
  await packAll(store, burnId, false);
  expect(left()).toBe(19_900 - 4 * 4096);
  await packAll(store, burnId);
  expect(store.scans.plainBurns()).toEqual([]);
});

test('a bit changed in a block is found when it is read', async () => {
  const folder = temporaryFolder();
  const store = openTestStore(folder);
  await saveScans(store, 300);
  store.close();
  look(folder, (db) => {
    const guard = db.prepare("SELECT sql FROM sqlite_schema WHERE name = 'blocks_never_change'").pluck().get();
    db.exec('DROP TRIGGER blocks_never_change');
    const bytes = db.prepare<[], Buffer>('SELECT columns FROM block').pluck().get()!;
    bytes[bytes.length >> 1]! ^= 4;
    db.prepare('UPDATE block SET columns = ?').run(bytes);
    db.exec(guard as string);
  });
  const { scans } = openTestStore(folder);
  for (const read of [() => scans.columns(burnId, boardId), () => [...scans.pages(burnId, boardId)]])
    expect(read).toThrow(expect.objectContaining({ code: 'store/block-damaged' }));
});

test.each([
  ['packed', 20_000, 90],
  ['packed, rows as fine as scans', 20_000, 4000],
  ['plain rows', 3000, 50],
])('a chart of %s has every extreme and every gap', async (form, count, columns) => {
  const store = tempStore();
  await saveScans(store, count, form !== 'plain rows');
  const scans = store.scans.columns(burnId, boardId);
  const window = { fromUs: 2_000_000_000, toUs: scans.elapsedUs.at(-1)! - 500_000_000, columns };
  const rows = store.scans.overview(burnId, boardId, window);
  expect(rows.fromUs.length).toBeGreaterThan(columns / 3);
  expect(rows.fromUs.length).toBeLessThanOrEqual(columns);
  const [firstUs, lastUs] = [rows.fromUs[0]!, rows.toUs.at(-1)!];
  expect(firstUs).toBeLessThanOrEqual(window.fromUs + 1_000_000);
  expect(lastUs).toBeGreaterThanOrEqual(window.toUs - 1_000_000);
  for (const [row, fromUs] of rows.fromUs.entries()) {
    const inside = scans.elapsedUs.indexOf(fromUs);
    const behind = scans.elapsedUs.findIndex((each) => each > rows.toUs[row]!);
    const end = behind < 0 ? count : behind;
    for (const [channel, counts] of scans.counts.entries()) {
      const there = counts.subarray(inside, end).filter((_, scan) => scans.status[channel]![inside + scan] === 0);
      const place = channel * rows.fromUs.length + row;
      expect(rows.readings[place]).toBe(there.length);
      if (there.length === 0) continue;
      expect(rows.lowest[place]).toBe(Math.min(...there));
      expect(rows.highest[place]).toBe(Math.max(...there));
      const mean = there.reduce((sum, each) => sum + each, 0) / there.length;
      expect(Math.abs(rows.meanSixteenths[place]! / 16 - mean)).toBeLessThan(0.1);
    }
    const steps = scans.elapsedUs
      .subarray(inside, end)
      .map((each, scan, all) => (scan === 0 ? 0 : each - all[scan - 1]!));
    expect(rows.longestStepUs[row]).toBe(Math.max(...steps));
  }
});
