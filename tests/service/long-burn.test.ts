import { setImmediate as nextTurn } from 'node:timers/promises';
import { expect, test } from 'vitest';
import { createLiveEstimates } from '../../server/recording/live-estimates.ts';
import { waterScans } from '../../server/recording/water-scans.ts';
import { readBoards } from '../../server/records/board-readings.ts';
import { assembleRecord, readStoredRecord } from '../../server/records/burn-record.ts';
import { recordWithoutReadings } from '../../server/records/record-without-readings.ts';
import type { AnalysisInput } from '../../server/results/analyst.ts';
import { compute } from '../../server/results/compute.ts';
import type { Store } from '../../server/store/store.ts';
import { createLiveBurn } from '../../shared/analysis/live/live-burn.ts';
import type { Channel } from '../../shared/contract/burn-record.ts';
import { boardId, burnId, packAll, plannedBurn, scanAt, tempStore, testId } from '../support/temp-store.ts';

const SCANS = 30_000;
const PERIOD_US = 200_000;
const water = {
  id: testId(11),
  boardId,
  index: 0,
  name: 'water',
  role: 'water',
  unit: 'Cel',
  scale: 0.0625,
} as Channel;

/** Water that warms by 1.2 K a minute to 90 °C and stays there, with three counts of noise. */
const countOf = (scan: number) =>
  Math.round(Math.min(90, 20 + (scan * PERIOD_US * 0.02) / 1e6) / 0.0625) + ((scan * 7919) % 7) - 3;

async function longBurn(): Promise<Store> {
  const store = tempStore();
  const body = {
    ...plannedBurn(),
    target: { kind: 'temperature' as const, tempC: 85 },
    hold: { durationS: 3000, atLeastC: 85 },
    channels: [water],
  };
  store.documents.create('burn', { id: burnId, body: body as never });
  const scans = Array.from({ length: SCANS }, (_, scan) => {
    const moment = {
      elapsedUs: scan * PERIOD_US,
      arrivedUs: scan * PERIOD_US + 900,
      uptimeMs: (scan * PERIOD_US) / 1000,
    };
    return scanAt(scan, { ...moment, readings: [countOf(scan)] });
  });
  await store.scans.appendMany(burnId, boardId, scans);
  await packAll(store, burnId, false);
  return store;
}

test('an estimate after a restart in a long burn is the one that all of its scans give', async () => {
  const store = await longBurn();
  const record = recordWithoutReadings(store, burnId);
  const whole = createLiveBurn(record);
  for (let scan = 0; scan <= SCANS; scan++)
    whole.scan({ elapsedUs: scan * PERIOD_US, values: { [water.id]: countOf(scan) * water.scale } });
  const wanted = whole.estimate();
  expect([...waterScans(store, record)].length).toBeLessThan(SCANS / 3);

  const troubles: unknown[] = [];
  const estimates = createLiveEstimates(store, (error) => troubles.push(error));
  estimates.begin(burnId);
  // Those that come meanwhile wait for those that are stored.
  const last = { elapsedUs: SCANS * PERIOD_US, values: { [water.id]: countOf(SCANS) * water.scale } };
  let found = estimates.scan(burnId, last);
  expect(found).toBeUndefined();
  for (; !found; found = estimates.pass(burnId, 0)) await nextTurn();
  expect(troubles).toEqual([]);
  expect(found.waterTempC).toBeCloseTo(wanted.waterTempC!, 2);
  expect(found.rateKPerMin).toBeCloseTo(wanted.rateKPerMin!, 2);
  expect(found.elapsedUs).toBe(wanted.elapsedUs);
  expect(found.hold?.state).toBe(wanted.hold?.state);
  expect(wanted.hold!.countedS).toBeGreaterThan(1000);
  expect(Math.abs(found.hold!.countedS - wanted.hold!.countedS)).toBeLessThan(20);
});

test('readings that are read page by page make the record that all of them make at once', async () => {
  const store = tempStore();
  const channels = [0, 1, 2].map((index) => ({ ...water, id: testId(11 + index), index }));
  store.documents.create('burn', { id: burnId, body: { ...plannedBurn(), channels } as never });
  // The second channel is there from the middle on, the third never; a fault every hundred scans.
  const scans = Array.from({ length: 20_000 }, (_, scan) => {
    const first = scan % 100 === 99 ? 'open' : scan;
    return scanAt(scan, {
      elapsedUs: scan * 1e6 - (scan % 50 === 0 ? 1e6 : 0),
      readings: scan < 18_000 ? [first] : [first, null],
    });
  });
  await store.scans.appendMany(burnId, boardId, scans);
  await packAll(store, burnId);
  const record = recordWithoutReadings(store, burnId);
  const read = await readStoredRecord(store, record);
  expect([...store.scans.pages(burnId, boardId)].length).toBeGreaterThan(1);
  expect(read).toEqual(assembleRecord(record, readBoards(store, burnId)));
  const [{ columns, elapsedUs } = { columns: [], elapsedUs: [] }] = read.readings;
  expect(columns.map(({ channelId, counts }) => [channelId, counts.length])).toEqual([
    [testId(11), 20_000],
    [testId(12), 20_000],
  ]);
  expect(columns[0]!.faults).toHaveLength(200);
  expect(elapsedUs.every((moment, index) => index === 0 || moment > elapsedUs[index - 1]!)).toBe(true);
});

test('results that the memory of the bench cannot hold are refused before their readings are read', async () => {
  const scans = { boards: () => [boardId], count: () => 1e9 };
  const computation = { kind: 'analyse', method: 'bench-1' };
  const input = { folder: '', record: { id: burnId, channels: [water] }, computation } as unknown as AnalysisInput;
  await expect(compute({ scans } as unknown as Store, input)).rejects.toMatchObject({
    code: 'burn/too-many-readings',
    params: { millions: 1000, memoryMb: 56_200 },
  });
});
