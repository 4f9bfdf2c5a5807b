/**
 * Data that the disk changed are refused, or opened and reported, and never made worse. Damage is planted by hand, no
 * published source.
 */

import { createHash } from 'node:crypto';
import {
  copyFileSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { expect, onTestFinished, test } from 'vitest';
import { createIdleCheck } from '../../server/backup/idle-check.ts';
import { checkSeal } from '../../server/backup/readings-seal.ts';
import { salvage } from '../../server/backup/salvage.ts';
import { isAppError } from '../../server/base/app-error.ts';
import { rememberClosed } from '../../server/store/inspect-database.ts';
import { openStore } from '../../server/store/open-store.ts';
import { readable } from '../../server/store/sqlite-errors.ts';
import type { Store } from '../../server/store/store.ts';
import { createFakeClock } from '../support/fake-clock.ts';
import fc from '../support/properties.ts';
import { boardId, burnId, openTestStore, saveBurn, scanAt, testId } from '../support/temp-store.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';
import { testService } from '../support/test-service.ts';

const fileIn = (folder: string) => join(folder, 'stovebench.db');
const nowMs = () => Date.UTC(2026, 4, 2);

/** Returns the bytes of every file of a folder. */
function bytesOf(folder: string): Record<string, string> {
  return Object.fromEntries(
    readdirSync(folder).map((name) => {
      const path = join(folder, name);
      return [
        name,
        statSync(path).isDirectory() ? 'a folder' : createHash('sha256').update(readFileSync(path)).digest('hex'),
      ];
    }),
  );
}

/** Makes a small bench, closed properly: an ended burn that is sealed, with documents of every kind. */
async function smallBench(): Promise<string> {
  const folder = temporaryFolder();
  const store = openTestStore(folder);
  const stove = { id: testId(10), name: 'Heron' };
  store.documents.create('stove', { id: stove.id, body: stove });
  store.documents.create('revision', { id: testId(11), body: { id: testId(11), stoveId: stove.id, label: '1' } });
  saveBurn(store);
  const { body } = store.documents.get('burn', burnId)!;
  const ended = { ...body, status: 'ended' as const, revisionId: testId(11), endedElapsedUs: 120_000_000 };
  store.documents.revise('burn', burnId, { expectedVersion: 1, body: ended });
  store.documents.create('mark', { id: testId(20), burnId, body: { id: testId(20), kind: 'lit', elapsedUs: 0 } });
  store.gaps.add(burnId, { boardId, fromUs: 5, toUs: 6, cause: 'lost' });
  for (let sequence = 0; sequence < 120; sequence++) store.scans.append(burnId, boardId, scanAt(sequence));
  await checkSeal(store, burnId);
  store.close();
  return folder;
}

test.each([
  [
    'a header of other bytes',
    (folder: string) => overwrite(fileIn(folder), 0, 'a letter to somebody'),
    'store/damaged',
  ],
  [
    'a header with a byte of another page size',
    (folder: string) => overwrite(fileIn(folder), 16, '\x07'),
    'store/damaged',
  ],
  ['an empty database beside a full log', logAlone, 'store/log-alone'],
  ['no database beside a full log', withoutDatabase, 'store/log-alone'],
  ['a folder for the note', (folder: string) => void mkdirSync(join(folder, 'in-use.json')), 'store/folder-for-file'],
  ['a folder for the lock', folderForLock, 'store/folder-for-file'],
])('%s is refused with a sentence, and every file is unchanged', async (_, damage, code) => {
  const folder = await smallBench();
  damage(folder);
  const before = bytesOf(folder);
  expect(() => openStore(folder, { nowMs })).toThrow(expect.objectContaining({ code }));
  expect(bytesOf(folder)).toEqual(before);
});

function overwrite(file: string, at: number, text: string): void {
  const bytes = readFileSync(file);
  bytes.write(text, at, 'latin1');
  writeFileSync(file, bytes);
}

/** Makes the state that a power cut can leave: the log is written, the database file is not. */
function logAlone(folder: string): void {
  const open = new Database(fileIn(folder));
  onTestFinished(() => void open.close());
  open.exec('CREATE TABLE later (x)');
  const log = readFileSync(`${fileIn(folder)}-wal`);
  open.close();
  writeFileSync(`${fileIn(folder)}-wal`, log);
  truncateSync(fileIn(folder), 0);
}

function withoutDatabase(folder: string): void {
  logAlone(folder);
  rmSync(fileIn(folder));
}

function folderForLock(folder: string): void {
  rmSync(join(folder, 'in-use.lock'));
  mkdirSync(join(folder, 'in-use.lock'));
}

/** Returns all content of the store. */
function contentOf(store: Store): string {
  const kinds = ['stove', 'revision', 'burn', 'mark'] as const;
  const { elapsedUs, arrivedUs, counts, status } = store.scans.columns(burnId, boardId);
  return JSON.stringify([
    kinds.map((kind) => store.documents.list(kind)),
    store.gaps.list(burnId),
    [elapsedUs, arrivedUs, ...counts, ...status].map((column) => [...column]),
  ]);
}

const errorCode = (error: unknown): string => (isAppError(error) ? error.code : String(error));

/** Returns the findings of the check during idle time, or the code of a refusal. */
async function idleFindings(store: Store): Promise<string[]> {
  const clock = createFakeClock();
  const troubles: string[] = [];
  const onTrouble = (error: unknown) => void troubles.push(errorCode(error));
  const check = createIdleCheck({ store, clock, isRecording: () => false, onFound: () => {}, onTrouble });
  await clock.advanceAsync(60_000);
  await check.close();
  return [...(check.changesOf(burnId) ?? []), ...troubles];
}

test('a bit that flips anywhere in the file is refused, found, or harmless, whether the file was written to or not', async () => {
  const folder = await smallBench();
  const whole = readFileSync(fileIn(folder));
  const reference = openStore(folder, { nowMs });
  const content = contentOf(reference);
  reference.close();
  const place = fc.record({
    offset: fc.oneof(fc.nat(whole.length - 1), fc.nat(99)),
    bit: fc.nat(7),
    byItself: fc.boolean(),
  });
  const property = fc.asyncProperty(place, async ({ offset, bit, byItself }) => {
    const flipped = Buffer.from(whole);
    flipped[offset]! ^= 1 << bit;
    for (const name of readdirSync(folder)) rmSync(join(folder, name), { recursive: true });
    writeFileSync(fileIn(folder), flipped);
    if (byItself) rememberClosed(folder);
    const before = bytesOf(folder);
    let store: Store | undefined;
    try {
      store = openStore(folder, { nowMs });
    } catch (error) {
      expect(errorCode(error)).toMatch(/^store\//);
      expect(bytesOf(folder)).toEqual(before);
      const { content: rescued, isReported } = await rescue(folder);
      expect(bytesOf(folder)).toEqual(before);
      expect(isReported || rescued === content).toBe(true);
      return;
    }
    try {
      if (contentOf(store) === content) return;
      expect([...(await idleFindings(store)), ...store.faults()]).not.toEqual([]);
      expect(await idleFindings(store)).not.toEqual([]);
    } catch (error) {
      expect(errorCode(readable(error, folder))).toBe('store/damaged');
    } finally {
      store.close();
    }
  });
  await fc.assert(property, { numRuns: 100 });
}, 60_000);

/** Returns the content of a salvage of the folder, and whether it reports that something is missing or changed. */
async function rescue(folder: string): Promise<{ content: string; isReported: boolean }> {
  const target = join(temporaryFolder(), 'rescued');
  const { leftOut } = salvage(folder, target);
  const store = openStore(target, { nowMs });
  try {
    const isReported =
      leftOut.length > 0 || store.faults().length > 0 || (await checkSeal(store, burnId)) === 'changed';
    return { content: isReported ? '' : contentOf(store), isReported };
  } finally {
    store.close();
  }
}

test.each([
  ['a header of other bytes', (folder: string) => overwrite(fileIn(folder), 0, 'a letter to somebody')],
  ['a first page of other bytes', (folder: string) => overwrite(fileIn(folder), 0, 'x'.repeat(4096))],
  ['one bit of a text changed', (folder: string) => overwrite(fileIn(folder), lastOf(folder, '"A burn"'), '"C burn"')],
])('%s: a salvage has everything, and the damaged files are unchanged', async (_, damage) => {
  const folder = await smallBench();
  const reference = openStore(folder, { nowMs });
  const content = contentOf(reference);
  reference.close();
  damage(folder);
  const before = bytesOf(folder);
  expect(() => openStore(folder, { nowMs })).toThrow('store/damaged');
  expect(await rescue(folder)).toEqual({ content, isReported: false });
  expect(bytesOf(folder)).toEqual(before);
});

const lastOf = (folder: string, text: string) => readFileSync(fileIn(folder)).lastIndexOf(text);

test('a log without its database is recovered to a bench', async () => {
  const folder = temporaryFolder();
  const store = openTestStore(folder);
  saveBurn(store);
  for (let sequence = 0; sequence < 50; sequence++) store.scans.append(burnId, boardId, scanAt(sequence));
  const damaged = temporaryFolder();
  writeFileSync(fileIn(damaged), '');
  copyFileSync(`${fileIn(folder)}-wal`, `${fileIn(damaged)}-wal`);
  expect(await rescue(damaged)).toEqual({ content: contentOf(store), isReported: false });
});

test('of a database with an overwritten page the rest is rescued, and the missing part is reported', async () => {
  const folder = temporaryFolder();
  const store = openTestStore(folder);
  for (const id of [burnId, testId(3)]) {
    saveBurn(store, id);
    for (let sequence = 0; sequence < 3000; sequence++) store.scans.append(id, boardId, scanAt(sequence));
    await checkSeal(store, id);
  }
  store.close();
  const bytes = readFileSync(fileIn(folder));
  // The page that contains row 1500 of one burn.
  const page = Math.floor(bytes.lastIndexOf(packed(1500)) / 4096);
  bytes.fill(0x5a, page * 4096, (page + 1) * 4096);
  writeFileSync(fileIn(folder), bytes);
  const target = join(temporaryFolder(), 'rescued');
  expect(salvage(folder, target).leftOut).not.toEqual([]);
  const rescued = openTestStore(target);
  const [damaged, sound] = [burnId, testId(3)]
    .map((id) => ({ id, scans: rescued.scans.count(id, boardId) }))
    .toSorted((a, b) => a.scans - b.scans);
  expect([damaged!.scans > 2900, damaged!.scans < 3000, sound!.scans]).toEqual([true, true, 3000]);
  expect([await checkSeal(rescued, damaged!.id), await checkSeal(rescued, sound!.id)]).toEqual(['changed', 'same']);
});

/** Returns the counts of `scanAt` as stored in their row. */
function packed(sequence: number): Buffer {
  const counts = Buffer.alloc(12);
  [sequence, -sequence, 1600].forEach((count, index) => void counts.writeInt32LE(count, index * 4));
  return counts;
}

test('a changed reading is found when nothing is recorded, never during a burn, and shown in the list and the burn', async () => {
  const folder = await smallBench();
  changeReading(folder);
  const service = await testService({ folder });
  const listed = async () => (await service.call('GET', '/api/burns')).body.burns;
  const running = await service.call('POST', '/api/burns', { status: 'running' });
  await service.clock.advanceAsync(120_000);
  expect((await listed()).some((burn: { changedOnDisk?: string[] }) => burn.changedOnDisk)).toBe(false);

  const { id, version } = running.body.burn;
  await service.call('PATCH', `/api/burns/${id}`, { expectedVersion: version, status: 'ended' });
  await service.clock.advanceAsync(60_000);
  const changed = (await listed()).filter((burn: { changedOnDisk?: string[] }) => burn.changedOnDisk);
  expect(changed).toMatchObject([{ id: burnId, changedOnDisk: ['readings'] }]);
  expect((await service.call('GET', `/api/burns/${burnId}`)).body.summary.changedOnDisk).toEqual(['readings']);
  expect(service.troubles.map((error) => errorCode(error))).toContain('store/damaged');
});

/** Changes one bit of one reading, as a disk might: only the seal shows it. */
function changeReading(folder: string): void {
  const raw = new Database(fileIn(folder));
  const guard = raw.prepare("SELECT sql FROM sqlite_schema WHERE name = 'readings_never_change'").pluck().get();
  raw.exec('DROP TRIGGER readings_never_change');
  raw.exec("UPDATE scan SET readings = CAST(X'67' || substr(readings, 2) AS BLOB) WHERE sequence = 99");
  raw.exec(guard as string);
  raw.close();
}
