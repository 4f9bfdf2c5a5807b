import {
  cpSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { beforeAll, expect, onTestFinished, test } from 'vitest';
import { readList } from '../../server/backup/backup-folder.ts';
import { backupName, makeBackup } from '../../server/backup/make-backup.ts';
import { proveBackup } from '../../server/backup/prove-backup.ts';
import { restore } from '../../server/backup/restore.ts';
import { verify } from '../../server/backup/verify.ts';
import { saveRecord } from '../../server/records/save-record.ts';
import type { Analyst } from '../../server/results/analyst.ts';
import { compute } from '../../server/results/compute.ts';
import { openStore, openStoreToRead } from '../../server/store/open-store.ts';
import { addChecksums, type CheckedTable, checksumOf as checksumInSql } from '../../server/store/row-checksums.ts';
import type { Store } from '../../server/store/store.ts';
import { sampleRecord } from '../exports/sample-burn.ts';
import { checksumOf } from '../imports/files.ts';
import { boardId, openTestStore, saveBurn, scanAt, testId } from '../support/temp-store.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';

const nowMs = Date.UTC(2026, 4, 2, 12);

/** Computes in this process; the tests of the service cover the worker process. */
const analyst: Analyst = {
  async do(input) {
    const store = openStoreToRead(input.folder);
    return compute(store, input).finally(store.close);
  },
};

async function benchWithBurn(): Promise<{ folder: string; store: Store; burnId: string }> {
  const folder = temporaryFolder();
  const store = openTestStore(folder);
  const record = sampleRecord();
  await saveRecord(store, record);
  mkdirSync(join(folder, 'photos'));
  writeFileSync(join(folder, 'photos', 'riser.jpg'), 'a photo');
  return { folder, store, burnId: record.id };
}

const options = (store: Store) => ({
  store,
  prove: (folder: string) =>
    proveBackup({ folder, nowMs, version: '0.0.0' }, { signal: new AbortController().signal, progress: () => {} }),
});
const restoring = (replace = false) => ({ analyst, nowMs, replace });

test('a backup made while a burn is recorded contains every scan stored before it, and is restored elsewhere', async () => {
  const { store, burnId } = await benchWithBurn();
  saveBurn(store, testId(1));
  let sequence = 0;
  for (; sequence < 300; sequence++) store.scans.append(testId(1), boardId, scanAt(sequence));
  let writing = true;
  const writer = (async () => {
    for (; writing; sequence++) {
      store.scans.append(testId(1), boardId, scanAt(sequence));
      await new Promise((resolve) => setImmediate(resolve));
    }
  })();
  const backup = join(temporaryFolder(), 'backup');
  const list = await makeBackup(backup, options(store));
  writing = false;
  await writer;
  expect(list.burns.map(({ id }) => id).sort()).toEqual([testId(1), burnId].sort());

  const target = join(temporaryFolder(), 'data');
  expect(await restore(backup, target, restoring())).toEqual({ folder: target, burns: 2 });
  const restored = openTestStore(target);
  expect(await checksumOf(restored, burnId)).toBe(await checksumOf(store, burnId));
  const scans = restored.scans.count(testId(1), boardId);
  expect(scans).toBeGreaterThanOrEqual(300);
  expect(scans).toBe(list.burns.find(({ id }) => id === testId(1))!.scans);
  expect(readFileSync(join(target, 'photos', 'riser.jpg'), 'utf8')).toBe('a photo');
});

test('restoring that is cancelled leaves nothing', async () => {
  const parent = temporaryFolder();
  const cancel = new AbortController();
  const restored = restore(aBackup(), join(parent, 'data'), { ...restoring(), signal: cancel.signal });
  setImmediate(() => cancel.abort(new Error('not wanted')));
  await expect(restored).rejects.toThrow('not wanted');
  expect(readdirSync(parent)).toEqual([]);
});

test('a backup needs an empty folder, and one that fails leaves nothing', async () => {
  const { store } = await benchWithBurn();
  const taken = temporaryFolder({ 'a.txt': 'mine' });
  await expect(makeBackup(taken, options(store))).rejects.toThrow('backup/exists');
  expect(readdirSync(taken)).toEqual(['a.txt']);
  const parent = temporaryFolder();
  const broken = { ...store, backup: async () => Promise.reject(new Error('the disk is gone')) };
  await expect(makeBackup(join(parent, 'b'), { ...options(store), store: broken })).rejects.toThrow('the disk is gone');
  expect(readdirSync(parent)).toEqual([]);
});

let made: string;
beforeAll(async () => {
  const folder = mkdtempSync(join(tmpdir(), 'stovebench-backup-'));
  const store = openStore(join(folder, 'data'), { nowMs: () => nowMs });
  await saveRecord(store, sampleRecord());
  mkdirSync(join(folder, 'data', 'photos'));
  writeFileSync(join(folder, 'data', 'photos', 'riser.jpg'), 'a photo');
  made = join(folder, 'backup');
  await makeBackup(made, options(store));
  store.close();
  return () => rmSync(folder, { recursive: true });
});

/** A copy of one good backup, for this test to damage. */
function aBackup(): string {
  const backup = temporaryFolder();
  cpSync(made, backup, { recursive: true });
  return backup;
}

test.each([
  ['a database cut short', (backup: string) => truncateSync(join(backup, 'stovebench.db'), 8192), 'backup/damaged'],
  ['a missing photo', (backup: string) => rmSync(join(backup, 'photos', 'riser.jpg')), 'backup/damaged'],
  ['another photo', (backup: string) => writeFileSync(join(backup, 'photos', 'riser.jpg'), 'other'), 'backup/damaged'],
  ['no list', (backup: string) => rmSync(join(backup, 'backup.json')), 'backup/not-a-backup'],
  ['a list that is none', (backup: string) => writeFileSync(join(backup, 'backup.json'), '{}'), 'backup/not-a-backup'],
  ['a list of other results', (backup: string) => alterList(backup, 'results'), 'backup/results-differ'],
  ['a list of another record', (backup: string) => alterList(backup, 'record'), 'backup/results-differ'],
])('a backup with %s fails its verification, and nothing is restored', async (_, damage, code) => {
  const backup = aBackup();
  damage(backup);
  const parent = temporaryFolder();
  await expect(restore(backup, join(parent, 'data'), restoring())).rejects.toThrow(code);
  expect(readdirSync(parent)).toEqual([]);
});

function alterList(backup: string, what: 'results' | 'record'): void {
  const list = readList(backup);
  const other = '0'.repeat(64);
  if (what === 'record') list.burns[0]!.recordSha256 = other;
  else list.burns[0]!.results!.sha256 = other;
  writeFileSync(join(backup, 'backup.json'), JSON.stringify(list));
}

test('existing data are only replaced on request, and are moved to a folder next to them', async () => {
  const backup = aBackup();
  const parent = temporaryFolder();
  const target = join(parent, 'data');
  openTestStore(target).close();
  await expect(restore(backup, target, restoring())).rejects.toThrow('backup/in-the-way');
  const { before } = await restore(backup, target, restoring(true));
  expect(before).toBe(`${target}.before-${backupName(nowMs)}`);
  expect(existsSync(join(before!, 'stovebench.db'))).toBe(true);
  expect(openTestStore(target).documents.get('burn', sampleRecord().id)).toBeDefined();
});

test('data that a service is using are not replaced', async () => {
  const folder = temporaryFolder();
  openTestStore(folder);
  await expect(restore(aBackup(), folder, restoring(true))).rejects.toThrow('store/in-use');
  expect(existsSync(join(folder, 'stovebench.db'))).toBe(true);
});

test('undamaged data pass: the first verification seals and computes, the second compares', async () => {
  const { store } = await benchWithBurn();
  const first = await verify(store, analyst);
  expect([first.ok, first.database, first.burns[0]]).toMatchObject([true, [], { readings: 'new', results: 'new' }]);
  expect((await verify(store, analyst)).burns[0]).toMatchObject({ readings: 'same' });
});

test('one changed bit in a stored reading is found', async () => {
  const { folder, store, burnId } = await benchWithBurn();
  store.scans.append(burnId, boardId, scanAt(0));
  await verify(store, analyst);
  store.close();
  const raw = new Database(join(folder, 'stovebench.db'));
  const guard = raw.prepare("SELECT sql FROM sqlite_schema WHERE name = 'readings_never_change'").pluck().get();
  raw.exec('DROP TRIGGER readings_never_change');
  raw.exec("UPDATE scan SET readings = CAST(X'7F' || substr(readings, 2) AS BLOB)");
  raw.exec(guard as string);
  raw.close();
  const verdict = await verify(openTestStore(folder), analyst);
  expect(verdict.ok).toBe(false);
  expect(verdict.burns).toMatchObject([{ id: burnId, readings: 'changed' }]);
  expect(verdict.database).toEqual([]);
});

test('results that differ from the stored ones when recomputed are found', async () => {
  const copy = aBackup();
  const raw = new Database(join(copy, 'stovebench.db'));
  const changed = raw
    .prepare(`UPDATE derived SET value = json_set(value, '$.results[0].value', 1) WHERE name LIKE 'analysis %'`)
    .run();
  asIfWritten(raw, 'derived');
  raw.close();
  expect(changed.changes).toBe(1);
  expect((await verify(openTestStore(copy), analyst)).burns[0]!.results).toBe('changed');
});

test('results of another version of the method are reported as such, and not as damage', async () => {
  const copy = aBackup();
  const raw = new Database(join(copy, 'stovebench.db'));
  raw.exec(
    "UPDATE derived SET name = replace(name, 'analysis bench-1 ', 'analysis bench-1 0 ') WHERE name LIKE 'analysis %'",
  );
  asIfWritten(raw, 'derived');
  raw.close();
  const verdict = await verify(openTestStore(copy), analyst);
  expect([verdict.ok, verdict.burns[0]!.results]).toEqual([true, 'otherVersion']);
});

test('a row that belongs to no burn is found by the database itself', async () => {
  const { folder, store } = await benchWithBurn();
  store.close();
  const raw = new Database(join(folder, 'stovebench.db'));
  onTestFinished(() => void raw.close());
  raw.pragma('foreign_keys = OFF');
  raw.exec("INSERT INTO gap (burn_key, from_us, to_us, cause) VALUES (4711, 0, 1, 'lost')");
  asIfWritten(raw, 'gap');
  raw.close();
  const verdict = await verify(openTestStore(folder), analyst);
  expect([verdict.ok, verdict.database.length]).toEqual([false, 1]);
});

/** Gives rows that were changed by hand the checksums of their present content. */
function asIfWritten(raw: Database.Database, table: CheckedTable): void {
  addChecksums(raw);
  raw.exec(`UPDATE ${table} SET checksum = ${checksumInSql(table)}`);
}
