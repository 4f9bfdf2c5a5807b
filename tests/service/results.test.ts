import { expect, test } from 'vitest';
import { saveRecord } from '../../server/records/save-record.ts';
import { toBurnRecord } from '../../server/simulator/burn-record.ts';
import { heronBurns } from '../../server/simulator/heron.ts';
import { simulateBurn } from '../../server/simulator/simulate-burn.ts';
import { methodSets } from '../../shared/contract/burn-record.ts';
import { hasValue } from '../../shared/contract/has-value.ts';
import { analysisSchema, resultIds } from '../../shared/contract/results.ts';
import { burnId } from '../support/temp-store.ts';
import { testService } from '../support/test-service.ts';

async function withFinishedBurn() {
  const service = await testService();
  const { scenario, seed, errors, description } = heronBurns()[4]!;
  const sparse = { ...scenario, timing: { ...scenario.timing, readingEveryS: 10 } };
  await saveRecord(service.store, toBurnRecord(simulateBurn(sparse, seed, errors), description));
  return { ...service, url: `/api/burns/${description.id}` };
}

test('a burn without readings has for every result the reason why it is missing', async () => {
  const { call } = await testService();
  await call('POST', '/api/burns', { id: burnId });
  const analysis = analysisSchema.parse((await call('GET', `/api/burns/${burnId}/results`)).body);
  expect(analysis.results.map(({ id }) => id)).toEqual([...resultIds]);
  expect(analysis.results.filter(hasValue)).toEqual([]);
});

test('a burn has results by any requested method set, also while the disk is full', async () => {
  const { call, url, store } = await withFinishedBurn();
  store.derived.put = () => {
    throw Object.assign(new Error('database or disk is full'), { code: 'SQLITE_FULL' });
  };
  for (const method of methodSets) {
    const analysis = analysisSchema.parse((await call('GET', `${url}/results?method=${method}`)).body);
    expect(analysis.method).toBe(method);
    expect(analysis.results.find(({ id }) => id === 'thermalEfficiency')).toHaveProperty('value');
  }
});

test('an unknown method is refused with the list of known ones', async () => {
  const { call, url } = await withFinishedBurn();
  const { status, body } = await call('GET', `${url}/results?method=mine`);
  expect([status, body.issues[0].path]).toEqual([400, 'method']);
  expect(body.issues[0].message).toContain('bench-1');
});

test('a corrected weighing changes the results at once, and the same state is computed once', async () => {
  const { call, url, store } = await withFinishedBurn();
  let computed = 0;
  const { put } = store.derived;
  store.derived.put = (...stored) => {
    if (stored[1].startsWith('analysis')) computed++;
    put(...stored);
  };
  const efficiency = async () => {
    const { results } = analysisSchema.parse((await call('GET', `${url}/results`)).body);
    const result = results.find(({ id }) => id === 'thermalEfficiency')!;
    return hasValue(result) ? result.value : undefined;
  };
  const [before, siblings] = await Promise.all([efficiency(), efficiency()]);
  expect(siblings).toBe(before);
  expect(await efficiency()).toBe(before);
  expect(computed).toBe(1);

  const { weighings } = (await call('GET', url)).body;
  const { weighing, version } = weighings.find(
    ({ weighing: each }: { weighing: { of: string; when: string } }) => each.of === 'water' && each.when === 'end',
  );
  const corrected = { ...weighing, massKg: weighing.massKg - 1 };
  await call('PUT', `${url}/weighings/${weighing.id}`, { weighing: corrected, expectedVersion: version });
  expect(await efficiency()).toBeGreaterThan(before!);
  expect(computed).toBe(2);
});
