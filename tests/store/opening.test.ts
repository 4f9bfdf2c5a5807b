import { chmodSync, copyFileSync, existsSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { expect, test } from 'vitest';
import { type Migration, migrations } from '../../server/store/migrations.ts';
import { asOrdinaryUser } from '../support/ordinary-user.ts';
import { boardId, burnId, openTestStore, saveBurn, scanAt, testId } from '../support/temp-store.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';

const layout = migrations.at(-1)!.toVersion;
const stove = { id: testId(10), name: 'Heron' };
const fileIn = (folder: string) => join(folder, 'stovebench.db');

/** Looks into the file as a stranger would, without the store. */
function look<T>(file: string, work: (db: Database.Database) => T): T {
  const db = new Database(file);
  try {
    return work(db);
  } finally {
    db.close();
  }
}

test('a kept version and a kept reading cannot be changed, not even by hand', () => {
  const folder = temporaryFolder();
  const store = openTestStore(folder);
  saveBurn(store);
  store.scans.append(burnId, boardId, scanAt(1));
  store.close();
  look(fileIn(folder), (db) => {
    expect(() => db.exec("UPDATE document SET body = '{}'")).toThrow('a kept version never changes');
    expect(() => db.exec("UPDATE scan SET readings = x'00'")).toThrow('a kept reading never changes');
  });
});

test('a second copy of the service on the same data is refused and told where the first one answers', () => {
  const folder = temporaryFolder();
  openTestStore(folder).announce('http://127.0.0.1:4280');
  expect(() => openTestStore(folder)).toThrow(
    expect.objectContaining({
      code: 'store/in-use',
      params: { folder, address: 'http://127.0.0.1:4280', processId: String(process.pid) },
    }),
  );
});

test('a folder is free again as soon as its service has closed', () => {
  const folder = temporaryFolder();
  openTestStore(folder).close();
  expect(openTestStore(folder).documents.list('stove')).toEqual([]);
});

test('data of a newer version are refused and not touched', () => {
  const folder = temporaryFolder();
  openTestStore(folder).close();
  look(fileIn(folder), (db) => db.pragma('user_version = 99'));
  const before = readFileSync(fileIn(folder));
  expect(() => openTestStore(folder)).toThrow(
    expect.objectContaining({ code: 'store/newer', params: { folder, found: 99, known: layout } }),
  );
  expect(readFileSync(fileIn(folder)).equals(before)).toBe(true);
});

test('a damaged database is refused and not touched', () => {
  const folder = temporaryFolder();
  writeFileSync(fileIn(folder), 'this is no database, it is a letter to somebody'.repeat(200));
  const before = readFileSync(fileIn(folder));
  expect(() => openTestStore(folder)).toThrow(expect.objectContaining({ code: 'store/damaged' }));
  expect(readFileSync(fileIn(folder)).equals(before)).toBe(true);
});

test('a database with a page overwritten is refused', () => {
  const folder = temporaryFolder();
  const store = openTestStore(folder);
  saveBurn(store);
  for (let sequence = 0; sequence < 500; sequence++) store.scans.append(burnId, boardId, scanAt(sequence));
  store.close();
  const bytes = readFileSync(fileIn(folder));
  bytes.fill(0x5a, bytes.length - 8192);
  writeFileSync(fileIn(folder), bytes);
  expect(() => openTestStore(folder)).toThrow(expect.objectContaining({ code: 'store/damaged' }));
});

test('a folder that cannot be made is refused with the reason', () => {
  const parent = join(temporaryFolder(), 'a-file');
  writeFileSync(parent, '');
  expect(() => openTestStore(join(parent, 'data'))).toThrow(
    expect.objectContaining({
      code: 'store/folder-not-writable',
      params: expect.objectContaining({ raw: expect.any(String) }),
    }),
  );
});

test('a folder without the right to write is refused with the reason', () => {
  const folder = temporaryFolder();
  chmodSync(folder, 0o555);
  expect(() => asOrdinaryUser(() => openTestStore(folder))).toThrow(
    expect.objectContaining({ code: 'store/folder-not-writable', params: expect.objectContaining({ folder }) }),
  );
});

test('a database file without the right to write is refused', () => {
  const folder = temporaryFolder();
  openTestStore(folder).close();
  chmodSync(folder, 0o777);
  chmodSync(fileIn(folder), 0o444);
  chmodSync(join(folder, 'in-use.lock'), 0o666);
  expect(() => asOrdinaryUser(() => openTestStore(folder))).toThrow(
    expect.objectContaining({ code: 'store/folder-not-writable' }),
  );
});

const later: Migration = { toVersion: layout + 1, sql: 'CREATE TABLE later (x INTEGER NOT NULL) STRICT' };

test('a migration keeps a complete copy of the data as they were', () => {
  const folder = temporaryFolder();
  const before = openTestStore(folder);
  before.documents.create('stove', { id: stove.id, body: stove });
  before.close();
  const after = openTestStore(folder, { migrations: [...migrations, later] });
  expect(after.documents.list('stove')).toHaveLength(1);
  after.close();
  expect(look(fileIn(folder), (db) => db.pragma('user_version', { simple: true }))).toBe(layout + 1);

  const copy = join(folder, 'backups', `layout-${layout}-before-${layout + 1}.db`);
  const elsewhere = temporaryFolder();
  copyFileSync(copy, fileIn(elsewhere));
  expect(
    openTestStore(elsewhere)
      .documents.list('stove')
      .map(({ body }) => body),
  ).toEqual([stove]);
});

test('a migration that fails half-way leaves the data as they were and can be tried again', () => {
  const folder = temporaryFolder();
  openTestStore(folder).close();
  const broken: Migration = {
    toVersion: layout + 1,
    sql: 'CREATE TABLE later (x INTEGER); CREATE TABLE later (x INTEGER)',
  };
  expect(() => openTestStore(folder, { migrations: [...migrations, broken] })).toThrow('later already exists');
  expect(look(fileIn(folder), (db) => db.pragma('user_version', { simple: true }))).toBe(layout);
  expect(() => openTestStore(folder, { migrations: [...migrations, later] }).close()).not.toThrow();
});

test('a new folder gets no backup', () => {
  const folder = temporaryFolder();
  openTestStore(folder);
  expect(existsSync(join(folder, 'backups'))).toBe(false);
});

test('a bare copy of the database file misses its newest entries, a backup has them all', async () => {
  const folder = temporaryFolder();
  const store = openTestStore(folder);
  saveBurn(store);
  for (let sequence = 0; sequence < 50; sequence++) store.scans.append(burnId, boardId, scanAt(sequence));
  const bare = join(folder, 'bare.db');
  const backup = join(folder, 'backup.db');
  copyFileSync(fileIn(folder), bare);
  await store.backup(backup);
  const scansIn = (file: string) =>
    look(file, (db) => {
      const tables = db.prepare("SELECT count(*) AS n FROM sqlite_schema WHERE name = 'scan'").get() as { n: number };
      return tables.n === 0 ? 0 : (db.prepare('SELECT count(*) AS n FROM scan').get() as { n: number }).n;
    });
  expect(scansIn(bare)).toBeLessThan(50);
  expect(scansIn(backup)).toBe(50);
});

test('the write-ahead log is emptied when a burn ends', () => {
  const folder = temporaryFolder();
  const store = openTestStore(folder);
  saveBurn(store);
  for (let sequence = 0; sequence < 200; sequence++) store.scans.append(burnId, boardId, scanAt(sequence));
  const log = `${fileIn(folder)}-wal`;
  expect(statSync(log).size).toBeGreaterThan(0);
  store.checkpoint();
  expect(statSync(log).size).toBe(0);
});

test('data are made in a folder that was not there', () => {
  const folder = join(temporaryFolder(), 'a', 'b');
  openTestStore(folder);
  expect(existsSync(fileIn(folder))).toBe(true);
});

test.skipIf(process.platform === 'win32')('the folder is its owner’s only, one that was open before too', () => {
  const modeOf = (folder: string) => statSync(folder).mode & 0o777;
  const made = join(temporaryFolder(), 'bench');
  openTestStore(made).close();
  expect(modeOf(made)).toBe(0o700);
  chmodSync(made, 0o755);
  openTestStore(made).close();
  expect(modeOf(made)).toBe(0o700);
  const empty = temporaryFolder();
  chmodSync(empty, 0o755);
  openTestStore(empty).close();
  expect(modeOf(empty)).toBe(0o700);
  // A folder that many people write to is not ours to close.
  chmodSync(made, 0o1777);
  openTestStore(made).close();
  expect(modeOf(made)).toBe(0o777);
});
