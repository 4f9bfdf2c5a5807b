import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import type { AddressInfo } from 'node:net';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { strFromU8, unzipSync } from 'fflate';
import { expect, test } from 'vitest';
import { openStore } from '../../server/store/open-store.ts';
import sample from '../../shared/contract/sample-burn-record.json' with { type: 'json' };
import { burnId, saveBurn, testId } from '../support/temp-store.ts';
import { repositoryRoot, temporaryFolder } from '../support/temporary-folder.ts';
import { testService } from '../support/test-service.ts';
import { stovebench, stovebenchProcess } from './run-command.ts';

const sampleFile = join(repositoryRoot, 'shared/contract/sample-burn-record.json');
const id = sample.id;

test('a burn is copied from one bench to another with the same results; a second import changes nothing', async () => {
  const folder = temporaryFolder();
  const [mine, theirs] = [join(folder, 'mine'), join(folder, 'theirs')];
  const first = await stovebench(['import', sampleFile], mine);
  expect([first.code, first.answer.burns[0].state]).toEqual([0, 'new']);

  const file = join(folder, 'heron.zip');
  const written = await stovebench(['export', 'latest', '--output', file], mine);
  expect(written.answer).toEqual({ file, burns: [{ id, title: sample.title }] });
  const inTheWay = await stovebench(['export', 'latest', '--output', file], mine);
  expect([inTheWay.code, inTheWay.stderr]).toEqual([2, expect.stringContaining('is there already')]);

  const whole = await stovebench(['verify', file], theirs);
  expect([whole.code, whole.answer]).toEqual([0, { ok: true, burns: [{ id, title: sample.title }] }]);
  const bytes = readFileSync(file);
  bytes[Math.floor(bytes.length / 2)]! ^= 1;
  const brokenFile = join(folder, 'broken.zip');
  writeFileSync(brokenFile, bytes);
  const broken = await stovebench(['verify', brokenFile], theirs);
  expect([broken.code, broken.answer]).toEqual([3, { ok: false, faults: [expect.any(String)] }]);

  const second = await stovebench(['import', file], theirs);
  expect(second.answer.burns[0].state).toBe('new');
  const again = await stovebench(['import', file], theirs);
  expect(again.answer).toEqual({ burns: [{ id, title: sample.title, state: 'same' }], created: [], changed: [] });

  const record = (data: string) => stovebench(['export', id, '--format', 'record', '--output', '-'], data);
  const here = await record(mine);
  expect((await record(theirs)).stdout).toBe(here.stdout);
  writeFileSync(join(folder, 'record.json'), here.stdout);
  const results = await stovebench(['analyse', join(folder, 'record.json')]);
  expect(results.answer.burnId).toBe(id);
});

test('a burn that cannot be exported does not stop the others, and is listed with its reason', async () => {
  const folder = temporaryFolder();
  const data = join(folder, 'data');
  await stovebench(['import', sampleFile], data);
  const store = openStore(data, { nowMs: Date.now });
  saveBurn(store);
  store.documents.create('mark', { id: testId(20), burnId, body: null as never });
  store.close();
  const file = join(folder, 'all.zip');
  const { code, answer, stderr } = await stovebench(['export', '--all', '--output', file], data);
  const leftOut = [{ id: burnId, title: 'A burn', reason: expect.stringMatching(/\.$/) }];
  expect([code, answer.leftOut, stderr]).toEqual([3, leftOut, expect.stringContaining('left out: A burn')]);
  const files = unzipSync(readFileSync(file));
  expect(JSON.parse(strFromU8(files['datapackage.json']!)).leftOut).toEqual(leftOut);
  const theirs = await stovebench(['import', file], join(folder, 'theirs'));
  expect(theirs.answer.burns).toMatchObject([{ id, state: 'new' }]);
  const alone = await stovebench(['export', burnId, '--output', join(folder, 'one.zip')], data);
  expect(alone.code).not.toBe(0);
});

test('where two benches differ the import ends with 3 and prints both; with a choice it is imported', async () => {
  const data = join(temporaryFolder(), 'data');
  await stovebench(['import', sampleFile], data);
  const file = join(data, 'friend.json');
  writeFileSync(file, JSON.stringify({ ...sample, weatherNote: 'windy, said the friend' }));
  const differs = await stovebench(['import', file], data);
  expect(differs.code).toBe(3);
  expect(differs.answer.items).toMatchObject([{ kind: 'burn', id, theirs: { weatherNote: 'windy, said the friend' } }]);
  expect(differs.stderr).toContain('1 thing is here already and different');
  const stored = await stovebench(['import', file, '--keep', 'theirs'], data);
  expect([stored.code, stored.answer.burns[0].state]).toEqual([0, 'changed']);
  expect(readdirSync(join(data, 'imports'))).toEqual([]);
});

test('notes piped in from a notebook are previewed, then imported', async () => {
  const data = join(temporaryFolder(), 'data');
  const input = '10:05 23,5\n10:15 30\n';
  const preview = await stovebenchProcess(['import', '-', '--as', 'notes', '--preview'], { data, input });
  expect(preview.answer.notes.lines.map(({ elapsedS }: { elapsedS: number }) => elapsedS)).toEqual([0, 600]);
  const file = join(data, 'notes.txt');
  writeFileSync(file, input);
  const stored = await stovebench(['import', file, '--as', 'notes', '--title', 'by hand'], data);
  expect(stored.answer.burns[0]).toMatchObject({ title: 'by hand', state: 'new' });
});

test('the command line prints what each remark of notes becomes, and accepts a choice instead', async () => {
  const folder = temporaryFolder();
  const [file, reading, data] = ['notes.txt', 'reading.json', 'data'].map((name) => join(folder, name));
  writeFileSync(file!, '10:00 lit\n10:05 23,5\n10:10 log pulled out\n10:20 2 kg\n10:30 30\n');
  const preview = await stovebench(['import', file!, '--as', 'notes', '--preview'], data!);
  expect(preview.stderr).toContain('line 1: lit (“lit”)');
  expect(preview.stderr).toContain('line 3: note (“log pulled out”)');
  expect(preview.stderr).toContain('Names a mass that is not kept as a number.');
  const marks = [{ line: 4, mark: 'fed', massKg: 2 }];
  writeFileSync(reading!, JSON.stringify({ ...preview.answer.notes.format, marks }));
  const stored = await stovebench(['import', file!, '--as', 'notes', '--reading', reading!], data!);
  expect([stored.code, stored.stderr]).toEqual([0, expect.stringContaining('line 4: fed 2.00\u00a0kg (“2 kg”)')]);
});

test('while a service runs on the data, commands list, export, back up and verify through it', async () => {
  const folder = temporaryFolder();
  const data = join(folder, 'data');
  await stovebench(['import', sampleFile], data);
  const service = await testService({ folder: data });
  await service.app.listen({ host: '127.0.0.1', port: 0 });
  const { port } = service.app.server.address() as AddressInfo;
  service.store.announce(`http://127.0.0.1:${port}`);

  const list = await stovebench(['export', '--list'], data);
  expect([list.code, list.answer.burns[0].id]).toEqual([0, id]);
  expect(list.stderr).toContain(`asking the service at http://127.0.0.1:${port}`);
  const backup = await stovebench(['backup', join(folder, 'backup')], data);
  expect([backup.code, backup.answer.burns]).toEqual([0, 1]);
  expect(existsSync(join(folder, 'backup', 'backup.json'))).toBe(true);
  const verdict = await stovebench(['verify'], data);
  expect([verdict.code, verdict.answer.ok]).toEqual([0, true]);
  expect(readdirSync(join(data, 'backups'))).toEqual([]);

  const watched = await stovebench(['watch', '--count', '1'], data);
  expect([watched.code, watched.answer.type]).toEqual([0, 'snapshot']);
  const restored = await stovebench(['restore', join(folder, 'backup'), '--replace'], data);
  expect([restored.code, restored.stderr]).toEqual([1, expect.stringContaining('already using')]);
});

test('damaged data end verify with 3 and are named', async () => {
  const data = join(temporaryFolder(), 'data');
  await stovebench(['import', sampleFile], data);
  await stovebench(['verify'], data);
  const file = join(data, 'stovebench.db');
  const bytes = readFileSync(file);
  // A bit of the packed readings, found by their first bytes.
  const database = new Database(file, { readonly: true });
  const packed = database.prepare<[], Buffer>('SELECT columns FROM block').pluck().get()!;
  database.close();
  const at = bytes.indexOf(packed.subarray(0, 100)) + 50;
  expect(at).toBeGreaterThan(50);
  bytes[at] = bytes[at]! ^ 1;
  writeFileSync(file, bytes);
  const verdict = await stovebench(['verify'], data);
  console.log(verdict.code, verdict.stderr);
  expect([verdict.code, verdict.answer.ok, verdict.answer.burns[0].readings]).toEqual([3, false, 'changed']);

  const rescued = join(data, '..', 'rescued');
  const salvaged = await stovebench(['verify', '--salvage', rescued], data);
  const { burns, salvaged: report } = salvaged.answer;
  expect([salvaged.code, burns[0].readings, report.folder, report.leftOut]).toEqual([3, 'changed', rescued, []]);
});

test('an invalid database ends verify with 3, and a folder without one with 2, and nothing is created', async () => {
  const folder = temporaryFolder({ 'stovebench.db': 'not a database, and long enough to be looked at'.repeat(100) });
  const damaged = await stovebench(['verify'], folder);
  expect([damaged.code, damaged.stderr]).toEqual([3, expect.stringContaining('is damaged')]);
  const nowhere = join(folder, 'nowhere');
  const none = await stovebench(['verify'], nowhere);
  expect([none.code, none.stderr]).toEqual([2, expect.stringContaining(`There is no bench in ${nowhere}`)]);
  expect(existsSync(nowhere)).toBe(false);
});

test('a record is imported and exported by the streams of a process, and a reader that closes early is not a failure', async () => {
  const data = join(temporaryFolder(), 'data');
  const input = readFileSync(sampleFile, 'utf8');
  expect((await stovebenchProcess(['analyse', '-'], { input })).answer.burnId).toBe(id);
  const page = await stovebenchProcess(['report', '-', '--format', 'html', '--output', '-'], { input });
  expect([page.code, page.stdout]).toEqual([0, expect.stringContaining(sample.title)]);
  await stovebench(['import', sampleFile], data);
  const cut = await stovebenchProcess(['export', 'latest', '--format', 'record', '--output', '-'], {
    data,
    readsOnce: true,
  });
  expect([cut.code, cut.stderr]).toEqual([0, '']);
});

test('a report of a record needs no data of its own', async () => {
  const file = join(temporaryFolder(), 'report.html');
  const { code, answer } = await stovebench(['report', sampleFile, '--format', 'html', '--output', file]);
  expect([code, answer.file]).toEqual([0, file]);
  expect(readFileSync(file, 'utf8')).toContain(sample.title);
});
