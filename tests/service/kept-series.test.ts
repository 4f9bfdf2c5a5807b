import { expect, test } from 'vitest';
import { keepRecord } from '../../server/burns/keep-record.ts';
import { createKeptSeries } from '../../server/burns/kept-series.ts';
import { toBurnRecord } from '../../server/simulator/burn-record.ts';
import { heronBurns } from '../../server/simulator/heron.ts';
import { simulateBurn } from '../../server/simulator/simulate-burn.ts';
import type { Series } from '../../shared/contract/api.ts';
import { testService } from '../support/test-service.ts';

const series = (burnId: string): Series => ({ burnId, curves: [] });

test('curves are kept for the state of the burn they were made from, and for the window they were asked in', () => {
  const kept = createKeptSeries();
  kept.put('one', { points: 800 }, 'as it was', series('one'));
  expect(kept.get('one', { points: 800 }, 'as it was')).toEqual(series('one'));
  expect(kept.get('one', { points: 800 }, 'as it is now')).toBeUndefined();
  expect(kept.get('one', { points: 400 }, 'as it was')).toBeUndefined();
  expect(kept.get('one', { points: 800, fromS: 60 }, 'as it was')).toBeUndefined();
});

test('when there are too many, those longest out of use make room', () => {
  const kept = createKeptSeries(2);
  kept.put('one', { points: 1 }, 's', series('one'));
  kept.put('two', { points: 1 }, 's', series('two'));
  kept.get('one', { points: 1 }, 's');
  kept.put('three', { points: 1 }, 's', series('three'));
  expect(['one', 'two', 'three'].filter((id) => kept.get(id, { points: 1 }, 's'))).toEqual(['one', 'three']);
});

test('a stretch left out by the person changes the curves that are served next', async () => {
  const { store, call } = await testService();
  const [burn] = heronBurns();
  if (!burn) throw new Error('the Heron has burns');
  const timing = { ...burn.scenario.timing, stepS: 2, readingEveryS: 20 };
  const record = toBurnRecord(simulateBurn({ ...burn.scenario, timing }, burn.seed, burn.errors), burn.description);
  await keepRecord(store, record);
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
