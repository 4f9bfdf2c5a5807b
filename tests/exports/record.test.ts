import { createHash } from 'node:crypto';
import { expect, test } from 'vitest';
import { burnFile } from '../../server/exports/burn-files.ts';
import { canonicalJson } from '../../server/exports/canonical-json.ts';
import { pagedBoards, recordChecksum, recordJson, steadyBoards } from '../../server/exports/record-json.ts';
import { recordWithoutReadings } from '../../server/records/record-without-readings.ts';
import { burnRecordSchema } from '../../shared/contract/burn-record.ts';
import fc from '../support/properties.ts';
import { scanAt } from '../support/temp-store.ts';
import { exportedBurn, recordOf, sampleRecord, whole } from './sample-burn.ts';

test('the record written in pieces equals the record that the analysis reads', async () => {
  const burn = await exportedBurn();
  const text = whole((await burnFile('record', burn)).chunks).toString();
  const { gaps, exclusions, edits, ...record } = recordOf(burn.store, burn.record.id);
  expect([gaps, exclusions, edits]).toEqual([[], [], []]);
  expect(text).toBe(canonicalJson(record));
  expect(() => burnRecordSchema.parse(JSON.parse(text))).not.toThrow();
});

test('faults have their index when a board is read in many pages', async () => {
  const record = sampleRecord();
  const [board] = record.readings;
  const column = board!.columns[0]!;
  for (const index of [0, 5, 17, 18]) column.counts[index] = null;
  column.faults = [
    [0, 'open'],
    [5, 'shortToGround'],
    [18, 'open'],
  ];
  const { store, record: draft } = await exportedBurn(record);
  const paged = store.scans.boards(draft.id).map((boardId) => ({
    boardId,
    pages: () => store.scans.pages(draft.id, boardId, 6),
  }));
  const text = [...recordJson(draft, paged)].join('');
  expect(text).toBe([...recordJson(draft, pagedBoards(store, draft.id))].join(''));
  const read = burnRecordSchema.parse(JSON.parse(text)).readings[0]!.columns;
  expect(read.find(({ channelId }) => channelId === column.channelId)).toEqual(column);
});

test('the record of a running burn is that of one moment, whatever arrives meanwhile', async () => {
  const { store, record: draft } = await exportedBurn();
  const { body, version } = store.documents.get('burn', draft.id)!;
  store.documents.revise('burn', draft.id, { expectedVersion: version, body: { ...body, status: 'running' } });
  const running = recordWithoutReadings(store, draft.id);
  const [boardId] = store.scans.boards(draft.id) as [string];
  const scans = store.scans.count(draft.id, boardId);
  const boards = await steadyBoards(store, running);
  let text = '';
  let sequence = 100_000;
  for (const chunk of recordJson(running, boards)) {
    text += chunk;
    // A late scan, and one that was fetched again and belongs much earlier.
    for (const elapsedUs of [sequence * 1e6, 500_000]) {
      store.scans.append(draft.id, boardId, scanAt(sequence++, { elapsedUs, readings: [1] }));
    }
  }
  const [board] = burnRecordSchema.parse(JSON.parse(text)).readings;
  const lengths = [board!.elapsedUs, board!.boot!, board!.sequence!, ...board!.columns.map(({ counts }) => counts)];
  expect(new Set(lengths.map(({ length }) => length))).toEqual(new Set([scans]));
});

test('the checksum of a record is the SHA-256 of its file', async () => {
  const { store, record: draft } = await exportedBurn();
  const text = [...recordJson(draft, pagedBoards(store, draft.id))].join('');
  expect(await recordChecksum(recordJson(draft, pagedBoards(store, draft.id)))).toBe(
    createHash('sha256').update(text).digest('hex'),
  );
});

test('canonical JSON is the same for any order of keys, and is JSON', () => {
  fc.assert(
    fc.property(fc.dictionary(fc.string(), fc.jsonValue()), (object) => {
      const turned = Object.fromEntries(Object.entries(object).reverse());
      expect(canonicalJson(turned)).toBe(canonicalJson(object));
      expect(JSON.parse(canonicalJson(object))).toEqual(JSON.parse(JSON.stringify(object)));
    }),
  );
});

/** RFC 8785, section 3.2.3: the order of these keys, and section 3.2.2.3: numbers as ECMAScript writes them. */
test('canonical JSON sorts keys and writes numbers as in RFC 8785', () => {
  const keys = { '\u20ac': 'Euro Sign', '\r': 'Carriage Return', '1': 'One', '\u0080': 'Control', '\u00f6': 'o' };
  expect(canonicalJson(keys)).toBe('{"\\r":"Carriage Return","1":"One","\u0080":"Control","ö":"o","€":"Euro Sign"}');
  expect(canonicalJson([Number('333333333.33333329'), 1e30, 4.5, 2e-3, 1e-27])).toBe(
    '[333333333.3333333,1e+30,4.5,0.002,1e-27]',
  );
});
