import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { z } from 'zod';
import { isAppError } from '../../server/base/app-error.ts';
import { readPackageFile } from '../../server/imports/package-file.ts';
import { importOutcomeSchema, importPreviewSchema } from '../../shared/contract/imports.ts';
import { problemSchema } from '../../shared/contract/problem.ts';
import { exportedBurn, sampleRecord } from '../exports/sample-burn.ts';
import fc from '../support/properties.ts';
import { testId } from '../support/temp-store.ts';
import { type TestService, testService } from '../support/test-service.ts';
import { bytesOf, packageOf } from './files.ts';

async function send(service: TestService, bytes: Uint8Array, query = 'name=file') {
  const response = await service.app.inject({
    method: 'POST',
    url: `/api/imports?${query}`,
    headers: { 'content-type': 'application/octet-stream' },
    payload: Buffer.from(bytes),
  });
  return { status: response.statusCode, body: response.json() };
}

async function received(service: TestService, bytes: Uint8Array, query?: string) {
  const { status, body } = await send(service, bytes, query);
  expect(status, JSON.stringify(body)).toBe(201);
  return importPreviewSchema.parse(body);
}

const stored = z.object({ status: z.literal(200), body: importOutcomeSchema });
const table = 'Time (s);Pot (°C)\n0;20,5\n10;21,5\n20;22,5\n';

test('a package is looked at, kept, and its burn is there with the files it can leave as', async () => {
  const { store, record: draft } = await exportedBurn();
  const service = await testService();
  const preview = await received(service, await packageOf(store, draft.id), 'name=heron.zip');
  expect(preview.kind === 'burns' && preview.items.every(({ state }) => state === 'new')).toBe(true);
  expect((await service.call('GET', '/api/burns')).body.burns).toEqual([]);
  const outcome = stored.parse(await service.call('POST', `/api/imports/${preview.id}/keep`, {}));
  expect(outcome.body.burns).toEqual([{ id: draft.id, title: draft.title, state: 'new' }]);

  const detail = await service.call('GET', `/api/burns/${draft.id}`);
  expect(detail.body.summary.curve.length).toBeGreaterThan(10);
  const record = await service.call('GET', `/api/burns/${draft.id}/record`);
  expect(record.headers['content-disposition']).toContain('record.json');
  expect(record.body.readings).toEqual(sampleRecord().readings);
  for (const file of ['readings.csv', 'marks.csv', 'weighings.csv', 'burn.xlsx', 'readings.parquet']) {
    const answer = await service.call('GET', `/api/burns/${draft.id}/${file}`);
    expect([file, answer.status, answer.text.length > 100]).toEqual([file, 200, true]);
  }
  expect(readdirSync(join(service.folder, 'imports'))).toEqual([]);
  expect((await service.call('POST', `/api/imports/${preview.id}/keep`, {})).body.code).toBe('import/not-found');
});

test('a table is guessed, corrected by the person and becomes a burn; the same table again changes nothing', async () => {
  const service = await testService();
  const preview = await received(service, bytesOf(table), 'name=pot.csv');
  if (preview.kind !== 'columns') throw new Error(preview.kind);
  expect(preview.columns.read[1]).toEqual({ line: 3, elapsedS: 10, values: [21.5] });
  const { format } = preview.columns;
  const corrected = {
    columns: { ...format, columns: [{ ...format.columns[0]!, name: 'bath', unit: '[degF]' as const }] },
  };
  const again = await service.call('POST', `/api/imports/${preview.id}/preview`, corrected);
  expect(again.body.columns.read[1].values[0]).toBeCloseTo(-5.8333, 4);

  const outcome = stored.parse(
    await service.call('POST', `/api/imports/${preview.id}/keep`, { title: 'from a logger' }),
  );
  const { id } = outcome.body.burns[0]!;
  const { burn } = (await service.call('GET', `/api/burns/${id}`)).body;
  expect([burn.title, burn.origin, burn.clockSource]).toEqual(['from a logger', 'imported', 'none']);
  // What was last shown is what is kept.
  expect(burn.channels[0].name).toBe('bath');

  service.clock.advance(3_600_000);
  const second = await received(service, bytesOf(table), 'name=pot.csv');
  const unchanged = stored.parse(await service.call('POST', `/api/imports/${second.id}/keep`, corrected));
  expect(unchanged.body).toMatchObject({ burns: [{ id, state: 'same' }], created: [], changed: [] });
});

test('what the person says of a table is kept while the rest is guessed again, and the new burn is lit and aims as said', async () => {
  const service = await testService();
  const ambiguous = 'heure;eau\n10:00;20,5\n10:30;60\n11:00;97\n';
  const preview = await received(service, bytesOf(ambiguous), 'name=pot.csv');
  const guess = { separator: 'semicolon', decimal: 'point' };
  const again = await service.call('POST', `/api/imports/${preview.id}/preview`, { guess });
  expect(again.body.columns.format).toMatchObject({ ...guess, time: { kind: 'clock', column: 0 }, firstRow: 3 });
  expect(again.body.columns.startClockS).toBe(10.5 * 3600);
  const blanks = await service.call('POST', `/api/imports/${preview.id}/preview`, { guess: { separator: 'pipe' } });
  expect([blanks.status, blanks.body.code]).toEqual([400, 'import/no-columns']);

  const body = {
    columns: preview.kind === 'columns' ? preview.columns.format : undefined,
    litElapsedS: -120,
    target: { kind: 'temperature', tempC: 90 },
    hold: { durationS: 2700, onDrop: 'pause' },
  };
  const outcome = stored.parse(await service.call('POST', `/api/imports/${preview.id}/keep`, body));
  const detail = (await service.call('GET', `/api/burns/${outcome.body.burns[0]!.id}`)).body;
  expect(detail.burn).toMatchObject({ target: body.target, hold: body.hold });
  expect(detail.marks.map(({ mark }: { mark: object }) => mark)).toMatchObject([{ kind: 'lit', elapsedUs: -120e6 }]);
});

test('readings of another logger and notes go into a burn that is described already', async () => {
  const service = await testService();
  const { burn } = (await service.call('POST', '/api/burns', { title: 'by hand' })).body;
  const preview = await received(service, bytesOf('10:00 lit\n10:05 20\n11:05 97,5'), 'name=notes&as=notes');
  expect(preview.kind).toBe('notes');
  const body = { into: burn.id };
  stored.parse(await service.call('POST', `/api/imports/${preview.id}/keep`, body));
  const detail = (await service.call('GET', `/api/burns/${burn.id}`)).body;
  expect([detail.burn.status, detail.burn.channels.length]).toEqual(['ended', 1]);
  expect(
    detail.marks.map(({ mark }: { mark: { kind: string; elapsedUs: number } }) => [mark.kind, mark.elapsedUs]),
  ).toEqual([['lit', -300e6]]);
  const lines = (await service.call('GET', `/api/burns/${burn.id}/readings.csv`)).text.trim().split('\r\n');
  expect(lines.length).toBe(3);

  const second = await received(service, bytesOf('10:00 lit\n10:05 20\n11:05 97,5'), 'name=notes&as=notes');
  const unchanged = stored.parse(await service.call('POST', `/api/imports/${second.id}/keep`, body));
  expect(unchanged.body.burns[0]!.state).toBe('same');
});

test('what each line of notes becomes is shown, changed and kept as the person says', async () => {
  const service = await testService();
  const notes = bytesOf('10:00 lit\n10:05 20\n10:20 log pulled out\n10:30 ran out of kindling\n11:05 97,5');
  const preview = await received(service, notes, 'name=notes&as=notes');
  if (preview.kind !== 'notes') throw new Error(preview.kind);
  const { lines, format } = preview.notes;
  expect(lines.map(({ mark, doubts }) => [mark, doubts])).toEqual([
    ['lit', undefined],
    [undefined, undefined],
    ['note', ['unsure']],
    ['note', undefined],
    [undefined, undefined],
  ]);
  const marks = [
    { line: 3, mark: 'logOut', massKg: 0.4 },
    { line: 4, mark: 'none' },
  ];
  const reported = { notes: { ...format, marks } };
  const wrong = { notes: { ...format, marks: [{ line: 3, mark: 'lidOn', massKg: 1 }] } };
  expect((await service.call('POST', `/api/imports/${preview.id}/preview`, wrong)).status).toBe(400);
  const again = await service.call('POST', `/api/imports/${preview.id}/preview`, reported);
  expect(again.body.notes.lines[2]).toMatchObject({ mark: 'logOut', massKg: 0.4 });
  const outcome = stored.parse(await service.call('POST', `/api/imports/${preview.id}/keep`, reported));
  const detail = (await service.call('GET', `/api/burns/${outcome.body.burns[0]!.id}`)).body;
  expect(detail.marks.map(({ mark }: { mark: { kind: string; massKg?: number } }) => [mark.kind, mark.massKg])).toEqual(
    [
      ['lit', undefined],
      ['logOut', 0.4],
    ],
  );
});

test.each(['utf-16le', 'utf-16be', 'utf-16le without its mark', 'utf-16be without its mark'])(
  'a record in %s is a record',
  async (encoding) => {
    const service = await testService();
    const mark = encoding.endsWith('mark') ? '' : '\ufeff';
    const bytes = Buffer.from(`${mark}${JSON.stringify(sampleRecord())}`, 'utf16le');
    const preview = await received(service, encoding.startsWith('utf-16be') ? bytes.swap16() : bytes);
    expect(preview.kind).toBe('burns');
  },
);

test('several burns go in one package, and an empty file or one sent as something else is refused', async () => {
  const service = await testService();
  for (const number of [1, 2]) {
    const record = sampleRecord({ id: testId(number), marks: [], weighings: [], title: `burn ${number}` });
    const { id } = await received(service, bytesOf(JSON.stringify(record)));
    await service.call('POST', `/api/imports/${id}/keep`, {});
  }
  const archive = await service.app.inject({ method: 'GET', url: '/api/package.zip' });
  const other = await testService();
  const { id } = await received(other, archive.rawPayload);
  const outcome = stored.parse(await other.call('POST', `/api/imports/${id}/keep`, {}));
  expect(outcome.body.burns.map(({ title, state }) => [title, state]).sort()).toEqual([
    ['burn 1', 'new'],
    ['burn 2', 'new'],
  ]);
  expect((await send(other, new Uint8Array())).body.code).toBe('import/empty');
  expect((await other.call('POST', '/api/imports?name=a', { a: 1 })).status).toBe(400);
});

test.each([
  ['{"format": "stovebench-burn-record", "version": 1, }', 'import/json-broken', 'line 1, column 52'],
  ['{"format": "something"}', 'import/not-a-record', 'stovebench-burn-record'],
  ['{"format": "stovebench-burn-record", "version": 2}', 'import/newer-record', 'version 2'],
  ['{\n"format": "stovebench-burn-record",\n"version": 1}', 'import/record-wrong', 'line 1, column 1'],
  ['dear friend', 'import/no-columns', 'numbers in columns'],
  ['PK\u0003\u0004 no archive', 'import/package-broken', 'archive'],
  [' \n\n', 'import/empty', 'nothing in wrong'],
  [
    '\u0089PNG\r\n\u001a\n\u0000\u0000\u0000\rIHDR\u0002\u0003\u0010 12.5 13.5\n14.5 15.5',
    'import/no-text',
    'line 3, column 9',
  ],
])('a wrong file (%j) is refused as %s, says where, and leaves nothing', async (text, code, where) => {
  const service = await testService();
  const { status, body } = await send(service, bytesOf(text), 'name=wrong');
  const problem = problemSchema.parse(body);
  expect(status).toBeGreaterThanOrEqual(400);
  expect(status).toBeLessThan(500);
  expect(problem.code).toBe(code);
  expect(problem.message).toContain(where);
  expect(readdirSync(join(service.folder, 'imports'))).toEqual([]);
  expect(service.troubles).toEqual([]);
});

test('every wrong field of a record is listed with its line, its column and what was expected', async () => {
  const service = await testService();
  const record = sampleRecord();
  const text = JSON.stringify(record, null, 1)
    .replace(`"massKg": ${record.weighings[0]!.massKg}`, '"massKg": "12,5"')
    .replace('"kind": "lit"', '"kind": "lighted"');
  const line = text.split('\n').findIndex((one) => one.includes('"12,5"')) + 1;
  const { body } = await send(service, bytesOf(text));
  const problem = problemSchema.parse(body);
  expect(problem.code).toBe('import/record-wrong');
  expect(problem.issues).toContainEqual({
    path: `weighings.0.massKg (${line}:14)`,
    message: 'write the number with a point and without quotation marks: 12.5, not "12,5"',
  });
});

test('a record whose parts do not fit together is refused, in the language of the reader', async () => {
  const service = await testService();
  const record = sampleRecord();
  record.readings[0]!.columns[0]!.counts.pop();
  const response = await service.app.inject({
    method: 'POST',
    url: '/api/imports?name=a.json',
    headers: { 'content-type': 'application/octet-stream', 'accept-language': 'fr' },
    payload: JSON.stringify(record),
  });
  expect(response.json().issues[0].message).toContain('relevés');
  expect((await service.call('GET', '/api/stoves')).body.stoves).toEqual([]);
});

test('a package changed on the way is refused by its checksum, whichever of its files it is', async () => {
  const { store, record: draft } = await exportedBurn();
  const { zip } = await import('../../server/exports/zip.ts');
  const { unzipSync } = await import('fflate');
  const files = unzipSync(await packageOf(store, draft.id));
  const service = await testService();
  for (const changed of ['record.json', 'marks.csv', 'schemas/burn-record.json']) {
    const entries = Object.entries(files).map(([path, bytes]) => ({
      path,
      chunks: () => [path === changed ? Buffer.concat([bytes, Buffer.from(' ')]) : bytes],
    }));
    const { body } = await send(service, Buffer.concat([...zip(entries)]));
    expect([changed, body.code]).toEqual([changed, 'import/checksum-wrong']);
  }
});

test('a package with two records of one burn is refused where they differ, and read once where they do not', async () => {
  const { zip } = await import('../../server/exports/zip.ts');
  const record = sampleRecord();
  const packed = (second: typeof record) => {
    const paths = ['a/record.json', 'b/record.json'];
    const resources = paths.map((path, index) => ({ name: `record-${index + 1}`, path }));
    const contents = [{ resources }, record, second].map((content) => Buffer.from(JSON.stringify(content)));
    const names = ['datapackage.json', ...paths];
    return Buffer.concat([
      ...zip(contents.map((content, index) => ({ path: names[index]!, chunks: () => [content] }))),
    ]);
  };
  expect(readPackageFile(packed(record), 'two.zip').map(({ record: { id } }) => id)).toEqual([record.id]);
  const { status, body } = await send(await testService(), packed({ ...record, title: 'Another' }), 'name=two.zip');
  expect([status, body.code]).toEqual([400, 'import/record-twice']);
  for (const named of ['two.zip', 'Another', 'a/record.json', 'b/record.json']) expect(body.message).toContain(named);
});

test('no bit of what a package says changes unnoticed', async () => {
  const { store, record: draft } = await exportedBurn();
  const sound = Buffer.from(await packageOf(store, draft.id));
  const [intact] = readPackageFile(sound, 'heron.zip');
  fc.assert(
    fc.property(fc.integer({ min: 0, max: sound.length - 1 }), fc.integer({ min: 0, max: 7 }), (at, bit) => {
      const damaged = Buffer.from(sound);
      damaged[at]! ^= 1 << bit;
      let read: unknown;
      try {
        [read] = readPackageFile(damaged, 'heron.zip');
      } catch (error) {
        expect(isAppError(error)).toBe(true);
        return;
      }
      // In what the archive says besides, such as its dates.
      expect(read).toEqual(intact);
    }),
    { numRuns: 30 },
  );
});

test('only the newest few files wait, and one that is dropped waits no longer', async () => {
  const service = await testService();
  const first = await received(service, bytesOf(table));
  for (let more = 0; more < 2; more++) await received(service, bytesOf(table));
  const gone = await service.call('POST', `/api/imports/${first.id}/preview`, {});
  expect([gone.status, gone.body.code]).toEqual([404, 'import/not-found']);
  const last = await received(service, bytesOf(table));
  expect((await service.call('DELETE', `/api/imports/${last.id}`)).status).toBe(204);
  expect((await service.call('POST', `/api/imports/${last.id}/keep`, {})).status).toBe(404);
});
