import { expect, test } from 'vitest';
import { readingsTable } from '../../server/exports/readings-table.ts';
import { recordWithoutReadings } from '../../server/records/record-without-readings.ts';
import { saveRecord } from '../../server/records/save-record.ts';
import type { BurnRecord } from '../../shared/contract/burn-record.ts';
import { tempStore, testId } from '../support/temp-store.ts';
import { sampleRecord } from './sample-burn.ts';
import { allRows } from './tables.ts';

const start = Date.UTC(2026, 4, 2);

/** Two boards with alternating scans, the second calibrated and with one fault. Invented. */
function twoBoards(): BurnRecord {
  const sample = sampleRecord();
  const [first, second] = sample.channels as [(typeof sample.channels)[number], (typeof sample.channels)[number]];
  const channel = { unit: 'Cel' as const, role: 'other' as const, scale: 0.1 };
  return {
    ...sample,
    startedUtcMs: start,
    marks: [],
    weighings: [],
    channels: [
      { ...channel, id: first.id, name: 'pot', boardId: testId(1), index: 0 },
      {
        ...channel,
        id: second.id,
        name: 'flue',
        boardId: testId(2),
        index: 0,
        calibration: { version: 1, method: 'byHand', offset: -1, gain: 1, standardUncertainty: 0.1 },
      },
    ],
    readings: [
      { boardId: testId(1), elapsedUs: [0, 2e6, 4e6], columns: [{ channelId: first.id, counts: [201, 202, 203] }] },
      {
        boardId: testId(2),
        elapsedUs: [1e6, 3e6],
        columns: [{ channelId: second.id, counts: [1500, null], faults: [[1, 'open']] }],
      },
    ],
  };
}

test('rows of several boards are in order of time, each with the columns of its own board', async () => {
  const store = tempStore();
  const record = twoBoards();
  await saveRecord(store, record);
  const table = readingsTable(store, recordWithoutReadings(store, record.id));
  expect(table.columns.slice(5).map(({ name }) => name)).toEqual([
    'pot',
    'pot fault',
    'flue',
    'flue fault',
    'flue corrected',
  ]);
  expect(
    allRows(table).map(([elapsed, utc, source, , sequence, ...own]) => [elapsed, utc, source, sequence, ...own]),
  ).toEqual([
    [0, start, testId(1), 0, 20.1, null, null, null, null],
    [1, start + 1000, testId(2), 0, null, null, 150, null, 149],
    [2, start + 2000, testId(1), 1, 20.2, null, null, null, null],
    [3, start + 3000, testId(2), 1, null, null, null, 'open', null],
    [4, start + 4000, testId(1), 2, 20.3, null, null, null, null],
  ]);
});
