import { expect, test } from 'vitest';
import { recordWithoutReadings } from '../../server/records/record-without-readings.ts';
import { saveRecord } from '../../server/records/save-record.ts';
import { storedSeries } from '../../server/results/stored-series.ts';
import { toBurnRecord } from '../../server/simulator/burn-record.ts';
import { heronBurns } from '../../server/simulator/heron.ts';
import { simulateBurn } from '../../server/simulator/simulate-burn.ts';
import type { Series } from '../../shared/contract/series.ts';
import { packAll } from '../support/temp-store.ts';
import { testService } from '../support/test-service.ts';

type Curve = Series['curves'][number];

/** Values of a curve within a time, and whether it is broken there. */
function near({ t, v }: Curve, atS: number, withinS: number) {
  const there = v.filter((_, index) => Math.abs(t[index]! - atS) <= withinS);
  const values = there.filter((value) => value !== null);
  return { lowest: Math.min(...values), highest: Math.max(...values), isBroken: there.includes(null) };
}

/** Every reading that one curve shows lies between the extremes of the other within a column, and every gap is one of both. */
function expectSameToTheEye(curve: Curve, other: Curve, columnS: number, toleranceK: number): void {
  for (const [index, value] of curve.v.entries()) {
    const there = near(other, curve.t[index]!, columnS);
    if (value === null) expect(there.isBroken, `${curve.name} at ${curve.t[index]} s`).toBe(true);
    else {
      expect(there.lowest, `${curve.name} at ${curve.t[index]} s`).toBeLessThanOrEqual(value + toleranceK);
      expect(there.highest, `${curve.name} at ${curve.t[index]} s`).toBeGreaterThanOrEqual(value - toleranceK);
    }
  }
}

test('the curves of a long burn show the extremes and gaps that its scans have', async () => {
  const { store } = await testService();
  const [burn] = heronBurns();
  if (!burn) throw new Error('the Heron has burns');
  const timing = { ...burn.scenario.timing, stepS: 0.5, readingEveryS: 0.5 };
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
  // A minute without a scan, one without a reading of a single probe, one high reading, and a probe that drops out often.
  const [scans] = made.readings;
  const isThere = scans!.elapsedUs.map((us) => us < 2000e6 || us > 2060e6);
  const kept = <T>(values: readonly T[]) => values.filter((_, scan) => isThere[scan]);
  const probes = made.channels.filter(({ role, unit }) => role !== 'water' && unit === 'Cel').map(({ id }) => id);
  const columns = scans!.columns.map((column) => {
    const place = probes.indexOf(column.channelId);
    const counts = column.counts.map((count, scan) => {
      if (place === 0 && scan >= 6000 && scan < 6120) return null;
      if (place === 2 && scan === 5000 && count !== null) return count + 2000;
      return place === 1 && scan % 60 < 30 ? null : count;
    });
    return { channelId: column.channelId, counts: kept(counts) };
  });
  const { sequence: _sequence, boot: _boot, ...board } = scans!;
  const readings = [{ ...board, elapsedUs: kept(scans!.elapsedUs), columns }];
  const changed = { ...made, readings, marks: [...made.marks, ...marks] as typeof made.marks };
  await saveRecord(store, changed);
  await packAll(store, made.id);
  const stated = recordWithoutReadings(store, made.id);
  const record = { ...stated, channels: [...stated.channels, byHand as never, never] };
  expect(made.channels.some(({ unit }) => unit === 'uV')).toBe(true);
  const dense = await storedSeries(store, record, { points: 20_000 });
  for (const request of [{ points: 100 }, { points: 60, fromS: 1500, toS: 4500 }]) {
    const whole = await storedSeries(store, record, request);
    const coarse = await storedSeries(store, record, request, 1);
    expect(coarse.curves.map(({ id, name, unit }) => [id, name, unit])).toEqual(
      whole.curves.map(({ id, name, unit }) => [id, name, unit]),
    );
    expect(whole.curves.map(({ name }) => name)).not.toContain('never');
    const lastS = Math.max(...whole.curves.flatMap(({ t }) => t));
    const columnS = ((request.toS ?? lastS) - (request.fromS ?? 0)) / (request.points / 2);
    for (const [index, curve] of whole.curves.entries()) {
      const other = coarse.curves[index]!;
      if (curve.id === probes[1] || curve.name === 'dial') expect(other).toEqual(curve);
      expectSameToTheEye(curve, other, 2 * columnS, 1);
      // At the edge of a stretch a row has scans of both sides.
      expectSameToTheEye(other, dense.curves[index]!, 2 * columnS, 1);
    }
  }
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
