import { expect, test } from 'vitest';
import { seriesOf } from '../../server/curves/series.ts';
import { recordWithoutReadings } from '../../server/records/record-without-readings.ts';
import { saveRecord } from '../../server/records/save-record.ts';
import { storedSeries } from '../../server/results/stored-series.ts';
import { toBurnRecord } from '../../server/simulator/burn-record.ts';
import { heronBurns } from '../../server/simulator/heron.ts';
import { simulateBurn } from '../../server/simulator/simulate-burn.ts';
import { testService } from '../support/test-service.ts';

test('the curves of a burn are the same whether its channels are read together or one by one', async () => {
  const { store } = await testService();
  const [burn] = heronBurns();
  if (!burn) throw new Error('the Heron has burns');
  const timing = { ...burn.scenario.timing, stepS: 2, readingEveryS: 4 };
  const made = toBurnRecord(simulateBurn({ ...burn.scenario, timing }, burn.seed, burn.errors), burn.description);
  // A dial read twice, and a channel of the board that its scans do not have.
  const [water] = made.channels.filter(({ role }) => role === 'water');
  const dial = { ...water!, id: '00000000-0000-7000-8000-00000000d1a1', name: 'dial', scale: 0.5, handRead: true };
  const { boardId: _board, index: _index, calibration: _calibration, ...byHand } = dial;
  const never = { ...water!, id: '00000000-0000-7000-8000-00000000d1a2', name: 'never', index: 40 };
  const reading = { kind: 'reading' as const, channelId: dial.id, source: 'person' as const };
  const marks = [60e6, 900e6].map((elapsedUs, at) => ({
    ...reading,
    id: `00000000-0000-7000-8000-00000000d1b${at}`,
    elapsedUs,
    value: 20 + at,
  }));
  const readings = made.readings;
  await saveRecord(store, { ...made, readings, marks: [...made.marks, ...marks] as typeof made.marks });
  const stated = recordWithoutReadings(store, made.id);
  const record = { ...stated, channels: [...stated.channels, byHand as never, never] };
  const whole = await storedSeries(store, record, { points: 400 });
  expect(made.channels.some(({ unit }) => unit === 'uV')).toBe(true);
  expect(whole.curves.map(({ name }) => name)).toContain('dial');
  expect(whole.curves.map(({ name }) => name)).not.toContain('never');
  for (const request of [{ points: 400 }, { points: 60, fromS: 600, toS: 1500 }]) {
    expect(await storedSeries(store, record, request, 1)).toEqual(await storedSeries(store, record, request));
  }
  const { curves, ...rest } = seriesOf(made, { points: 400 });
  expect({ ...whole, curves: whole.curves.filter(({ name }) => name !== 'dial') }).toEqual({ ...rest, curves });
});

test('a stretch excluded by the person changes the curves that are served next', async () => {
  const { store, call } = await testService();
  const [burn] = heronBurns();
  if (!burn) throw new Error('the Heron has burns');
  const timing = { ...burn.scenario.timing, stepS: 2, readingEveryS: 20 };
  const record = toBurnRecord(simulateBurn({ ...burn.scenario, timing }, burn.seed, burn.errors), burn.description);
  await saveRecord(store, record);
  const water = async () =>
    (await call('GET', `/api/burns/${record.id}/series?points=200`)).body.curves.find(
      ({ id }: { id: string }) => id === 'water',
    );
  const before = await water();
  expect(await water()).toEqual(before);
  const probes = record.channels.filter(({ role }) => role === 'water');
  for (const { id } of probes) {
    const exclusion = { channelId: id, fromUs: 1200e6, toUs: 1800e6, reason: 'lifted out' };
    expect((await call('POST', `/api/burns/${record.id}/exclusions`, exclusion)).status).toBe(201);
  }
  expect(await water()).not.toEqual(before);
});
