import { expect, test } from 'vitest';
import { saveRecord } from '../../server/records/save-record.ts';
import { toBurnRecord } from '../../server/simulator/burn-record.ts';
import { heronBurns } from '../../server/simulator/heron.ts';
import { simulateBurn } from '../../server/simulator/simulate-burn.ts';
import { testService } from '../support/test-service.ts';

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
