import { expect, test } from 'vitest';
import { isAppError } from '../../server/base/app-error.ts';
import { type BurnFileName, burnFileTypes } from '../../server/exports/burn-file-types.ts';
import { burnFile } from '../../server/exports/burn-files.ts';
import { openFile } from '../../server/imports/open-file.ts';
import { recordWithoutReadings } from '../../server/records/record-without-readings.ts';
import { saveRecord } from '../../server/records/save-record.ts';
import { analyse } from '../../shared/analysis/analyse.ts';
import { type BurnRecord, burnRecordSchema } from '../../shared/contract/burn-record.ts';
import { exportedBurn, recordOf, sampleRecord, whole } from '../exports/sample-burn.ts';
import { hostileTexts } from '../exports/tables.ts';
import fc from '../support/properties.ts';
import { tempStore, testId } from '../support/temp-store.ts';
import { bytesOf, checksumOf, importFile, markOf, packageOf, recordFileOf } from './files.ts';

async function benchWith(record: BurnRecord) {
  const store = tempStore();
  await saveRecord(store, record);
  return store;
}

test('a burn that went to another bench as a package has the same checksum and the same results there, to the last bit', async () => {
  const { store: mine, record: draft } = await exportedBurn();
  const theirs = tempStore();
  const outcome = await importFile(theirs, await packageOf(mine, draft.id));
  expect(outcome.burns).toEqual([{ id: draft.id, title: draft.title, state: 'new' }]);
  expect(await checksumOf(theirs, draft.id)).toBe(await checksumOf(mine, draft.id));
  expect(analyse(recordOf(theirs, draft.id), { draws: 500 })).toEqual(
    analyse(recordOf(mine, draft.id), { draws: 500 }),
  );
});

test('a burn gives the same bytes in every file on the bench to which it went', async () => {
  const mine = await exportedBurn();
  const theirs = tempStore();
  await importFile(theirs, await packageOf(mine.store, mine.record.id));
  // The bench that writes a file stands in its rows, so it is given the same here.
  const there = { ...mine, store: theirs, record: recordWithoutReadings(theirs, mine.record.id) };
  for (const name of Object.keys(burnFileTypes) as BurnFileName[]) {
    const [own, imported] = [await burnFile(name, mine), await burnFile(name, there)];
    expect(whole(imported.chunks).equals(whole(own.chunks)), name).toBe(true);
  }
});

test('corrections, withdrawals and their trail go along, and so does what was done about them on the other bench', async () => {
  const record = sampleRecord();
  const mine = await benchWith(record);
  const [lit, note] = [markOf(record, 'lit'), record.marks.at(-1)!];
  const corrected = { ...lit, elapsedUs: lit.elapsedUs + 5e6 };
  mine.documents.revise('mark', lit.id, { expectedVersion: 1, body: corrected, by: 'first' });
  mine.documents.withdraw('mark', note.id, { expectedVersion: 1, by: 'second' });

  const theirs = tempStore();
  await importFile(theirs, recordFileOf(mine, record.id));
  expect(await checksumOf(theirs, record.id)).toBe(await checksumOf(mine, record.id));
  const edits = recordOf(theirs, record.id).edits!;
  expect(edits.map(({ by, after }) => [by, after === null])).toEqual([
    ['first', false],
    ['second', true],
  ]);

  theirs.documents.revise('mark', lit.id, { expectedVersion: 1, body: lit, by: 'third' });
  expect(recordOf(theirs, record.id).edits!.map(({ by }) => by)).toEqual(['first', 'second', 'third']);
});

test('bringing the same file in again changes nothing, on the bench it came from and on any other', async () => {
  const { store: mine, record: draft } = await exportedBurn();
  const file = await packageOf(mine, draft.id);
  const theirs = tempStore();
  await importFile(theirs, file);
  for (const store of [mine, theirs]) {
    const before = await checksumOf(store, draft.id);
    const stamp = store.documents.stampOfBurn(draft.id);
    const outcome = await importFile(store, file);
    expect(outcome).toEqual({
      burns: [{ id: draft.id, title: draft.title, state: 'same' }],
      created: [],
      changed: [],
    });
    expect(store.documents.stampOfBurn(draft.id)).toBe(stamp);
    expect(await checksumOf(store, draft.id)).toBe(before);
  }
});

test('the usual pressure of a place and that of the day arrive as they were', async () => {
  const record = sampleRecord();
  record.place = { ...record.place!, stationPressurePa: 97_650, standardUncertaintyPa: 30 };
  const mine = await benchWith(record);
  const { body, version } = mine.documents.get('place', record.place.id)!;
  mine.documents.revise('place', record.place.id, {
    expectedVersion: version,
    body: { ...body, stationPressurePa: 90_000 },
  });
  const theirs = tempStore();
  await importFile(theirs, recordFileOf(mine, record.id));
  expect(recordOf(theirs, record.id).place).toEqual(record.place);
  expect((await importFile(mine, recordFileOf(theirs, record.id))).changed).toEqual([]);
});

test('a package with any one byte changed on the way is refused in words, or brings exactly what was sent', async () => {
  const { store, record: draft } = await exportedBurn();
  const sent = await packageOf(store, draft.id);
  const whole = openFile(sent, 'sent.zip');
  fc.assert(
    fc.property(fc.nat(sent.length - 1), fc.integer({ min: 1, max: 255 }), (index, change) => {
      const arrived = Uint8Array.from(sent);
      arrived[index]! ^= change;
      const opened = (() => {
        try {
          return openFile(arrived, 'arrived.zip');
        } catch (error) {
          if (!isAppError(error)) throw error;
          return error.code;
        }
      })();
      if (typeof opened === 'string') expect(opened).toMatch(/^import\//);
      else expect(opened).toEqual(whole);
    }),
    { numRuns: 60 },
  );
});

const text = fc
  .oneof(fc.string({ unit: 'grapheme', minLength: 1, maxLength: 40 }), fc.constantFrom(...hostileTexts, 'a\u0000b'))
  .map((written) => written.trim())
  .filter((written) => written !== '');

test('whatever people write arrives as they wrote it: quotes, lines, right-to-left, emoji, formulas, NUL', async () => {
  await fc.assert(
    fc.asyncProperty(fc.array(text, { minLength: 4, maxLength: 4 }), async ([title, note, name, reason]) => {
      const record = sampleRecord({ title: title!.slice(0, 100), weatherNote: note! });
      record.readings = record.readings.map((board) => ({
        ...board,
        elapsedUs: board.elapsedUs.slice(0, 5),
        ...(board.sequence && { sequence: board.sequence.slice(0, 5) }),
        ...(board.boot && { boot: board.boot.slice(0, 5) }),
        columns: board.columns.map(({ channelId, counts }) => ({ channelId, counts: counts.slice(0, 5) })),
      }));
      record.channels[0]!.name = name!.slice(0, 100);
      markOf(record, 'lit').note = note!;
      record.exclusions = [{ id: testId(9), channelId: record.channels[0]!.id, fromUs: 0, toUs: 5, reason: reason! }];
      const parsed = burnRecordSchema.parse(record);
      const mine = await benchWith(parsed);
      const theirs = tempStore();
      await importFile(theirs, await packageOf(mine, record.id));
      expect(await checksumOf(theirs, record.id)).toBe(await checksumOf(mine, record.id));
      const arrived = recordOf(theirs, record.id);
      expect([
        arrived.title,
        markOf(arrived, 'lit').note,
        arrived.channels[0]!.name,
        arrived.exclusions![0]!.reason,
      ]).toEqual([parsed.title, note, parsed.channels[0]!.name, reason]);
    }),
    { numRuns: 8 },
  );
});

test('whatever readings and faults a record has, they arrive', async () => {
  // At least a millisecond apart, the step of a board's own clock: one number within it is one scan sent twice.
  const scan = fc.tuple(fc.integer({ min: 1000, max: 5_000_000 }), fc.nat(3), fc.nat(9));
  const cell = fc.oneof(
    fc.integer({ min: -(2 ** 31), max: 2 ** 31 - 1 }),
    fc.constant(null),
    fc.constant('open' as const),
  );
  const table = fc.array(fc.tuple(scan, fc.array(cell, { minLength: 3, maxLength: 3 })), { maxLength: 30 });
  const placed = fc.record({
    boardId: fc.boolean(),
    index: fc.array(fc.option(fc.nat(4)), { minLength: 3, maxLength: 3 }),
  });
  await fc.assert(
    fc.asyncProperty(table, placed, async (rows, { boardId, index }) => {
      const sample = sampleRecord();
      const board = '0190f5fe-0000-7000-8000-000000000001';
      const channels = sample.channels.slice(0, 3).map(({ boardId: _b, index: _i, ...channel }, at) => ({
        ...channel,
        ...(boardId && { boardId: board }),
        ...(index[at] !== null && { index: index[at]! }),
      }));
      let elapsedUs = 0;
      const readings: BurnRecord['readings'][number] = {
        ...(boardId && { boardId: board }),
        elapsedUs: rows.map(([[step]]) => (elapsedUs += step)),
        boot: rows.map(([[, boot]]) => boot),
        sequence: rows.map(([[, , sequence]]) => sequence),
        columns: channels.map(({ id }, at) => {
          const faults = rows.flatMap(([, cells], index) =>
            cells[at] === 'open' ? [[index, 'open'] as [number, 'open']] : [],
          );
          const counts = rows.map(([, cells]) => (typeof cells[at] === 'number' ? (cells[at] as number) : null));
          return { channelId: id, counts, ...(faults.length > 0 && { faults }) };
        }),
      };
      const record = { ...sample, channels, readings: [readings], marks: [], weighings: [] };
      const store = tempStore();
      await importFile(store, bytesOf(JSON.stringify(record)));
      const [arrived] = recordOf(store, record.id).readings;
      if (rows.length === 0) return;
      const sorted = (columns: typeof readings.columns) =>
        columns.toSorted((a, b) => (a.channelId < b.channelId ? -1 : 1));
      expect({ ...arrived!, columns: sorted(arrived!.columns) }).toEqual({
        ...readings,
        boardId: arrived!.boardId,
        columns: sorted(readings.columns),
      });
      expect((await importFile(store, recordFileOf(store, record.id))).changed).toEqual([]);
      expect((await importFile(store, bytesOf(JSON.stringify(record)))).changed).toEqual([]);
    }),
    { numRuns: 25 },
  );
});
