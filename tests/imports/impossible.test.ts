import { expect, test } from 'vitest';
import { isAppError } from '../../server/base/app-error.ts';
import { columnsToBurn, previewColumns } from '../../server/imports/columns/columns-file.ts';
import { openFile } from '../../server/imports/open-file.ts';
import { sampleRecord } from '../exports/sample-burn.ts';
import { openTestStore } from '../support/temp-store.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';
import { testService } from '../support/test-service.ts';
import { bytesOf, importFile, recordFileOf } from './files.ts';

const recordWith = (change: object) => bytesOf(JSON.stringify({ ...sampleRecord(), ...change }));

/** What a refused file says: the places of its issues. */
function refusal(work: () => unknown): { code: string; places: string[] } | undefined {
  try {
    work();
  } catch (error) {
    if (!isAppError(error)) throw error;
    return { code: error.code, places: (error.issues ?? []).map(({ path }) => path) };
  }
  return undefined;
}

test.each([
  ['the year 1', { startedUtcMs: Date.UTC(2001, 0) - 2000 * 365.25 * 86_400_000 }, 'startedUtcMs'],
  ['the end of 1989', { startedUtcMs: Date.UTC(1990, 0) - 1 }, 'startedUtcMs'],
  ['the year 2200', { startedUtcMs: Date.UTC(2200, 0) }, 'startedUtcMs'],
  ['a date beyond all calendars', { startedUtcMs: 8.7e15 }, 'startedUtcMs'],
  ['a zone that nobody knows', { zone: 'Mars/Olympus' }, 'zone'],
  ['air colder than anything', { airTempC: -300 }, 'airTempC'],
  ['a stove body hotter than any steel', { bodyStartTempC: 5000 }, 'bodyStartTempC'],
])('a record of %s is refused by its place, line and column', (_what, change, place) => {
  const refused = refusal(() => openFile(recordWith(change), 'burn.json'));
  expect(refused).toMatchObject({
    code: 'import/record-wrong',
    places: [expect.stringMatching(new RegExp(`^${place} \\(1:\\d+\\)$`))],
  });
});

test.each([0, 8.7e15])(
  'a record made without a clock is taken with a date of %s, leaves again, and its files name no date',
  async (startedUtcMs) => {
    const store = openTestStore(temporaryFolder());
    await importFile(store, recordWith({ startedUtcMs, clockSource: 'none' }));
    const [burn] = store.documents.list('burn');
    const again = openFile(recordFileOf(store, burn!.id), 'burn.json');
    expect(again.kind === 'burns' && again.records).toHaveLength(1);

    const service = await testService();
    await importFile(service.store, recordWith({ startedUtcMs, clockSource: 'none' }));
    for (const file of ['marks.csv', 'readings.parquet', 'burn.xlsx', 'package.zip', 'report.pdf', 'report.html']) {
      const answer = await service.call('GET', `/api/burns/${burn!.id}/${file}`);
      expect([file, answer.status]).toEqual([file, 200]);
      // A report carries pictures and letters of any kind; what it says of the date is in its own tests.
      if (file.startsWith('report')) continue;
      expect(/1970|\+2\d{5}-/.test(answer.text), file).toBe(false);
    }
    expect((await service.call('GET', '/api/package.zip')).status).toBe(200);
  },
);

test('a table of a year that no burn is of is refused by line and column', () => {
  const bytes = bytesOf('when,Water (°C)\n1066-10-14 08:00:00,20\n1066-10-14 08:00:10,21\n1066-10-14 08:00:20,22\n');
  const { format, problems } = previewColumns(bytes, 'old.csv');
  expect(format.time.kind === 'dateTime' ? problems : 'guessed otherwise').not.toEqual([]);
  const as = { title: 'old', startedUtcMs: Date.UTC(2026, 4, 2, 8), zone: 'Europe/Paris' };
  const stated = { ...format, time: { kind: 'dateTime', column: 0, order: 'ymd' } } as typeof format;
  try {
    columnsToBurn(bytes, 'old.csv', stated, as);
    expect.unreachable();
  } catch (error) {
    expect(error).toMatchObject({ code: 'import/cell-wrong', params: { line: 2, column: 1 } });
  }
});

test('what somebody types is held to the same, and said by its field', async () => {
  const { call } = await testService();
  const heavy = await call('POST', '/api/vessels', { name: 'vat', massKg: 20_000 });
  expect(heavy.body.issues).toEqual([{ path: 'massKg', message: 'must be at most 10000' }]);
  const nowhere = await call('POST', '/api/burns', { zone: 'Mars/Olympus' });
  expect(nowhere.body.issues).toEqual([
    { path: 'zone', message: 'must be a time zone of the IANA list, such as Europe/Paris, or left out' },
  ]);
  const cold = await call('POST', '/api/burns', { airTempC: -300 });
  expect(cold.body.issues).toEqual([{ path: 'airTempC', message: 'must be at least -273.15' }]);
});
