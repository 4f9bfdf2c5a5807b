import { expect, test } from 'vitest';
import { saveRecord } from '../../server/records/save-record.ts';
import { toBurnRecord } from '../../server/simulator/burn-record.ts';
import { heronBurns } from '../../server/simulator/heron.ts';
import { simulateBurn } from '../../server/simulator/simulate-burn.ts';
import { burnPageSchema } from '../../shared/contract/burns.ts';
import { listedFigures } from '../../shared/contract/listed-results.ts';
import { testId } from '../support/temp-store.ts';
import { testService } from '../support/test-service.ts';

async function serviceWithHeron() {
  const service = await testService();
  const burn = heronBurns()[4]!;
  const scenario = { ...burn.scenario, timing: { ...burn.scenario.timing, readingEveryS: 30 } };
  const record = toBurnRecord(simulateBurn(scenario, burn.seed, burn.errors), burn.description);
  await saveRecord(service.store, record);
  return { ...service, record };
}

test('a list of burns comes in consecutive pages, newest first, or in full without a page in the request', async () => {
  const { call, clock } = await testService();
  for (const number of [1, 2, 3, 4, 5]) {
    clock.advance(1000);
    await call('POST', '/api/burns', { id: testId(number), title: `Burn ${number}` });
  }
  const page = async (query: string) => burnPageSchema.parse((await call('GET', `/api/burns${query}`)).body);
  const idsOf = ({ burns }: { burns: readonly { id: string }[] }) => burns.map(({ id }) => id);
  const whole = await page('');
  expect(idsOf(whole)).toEqual([5, 4, 3, 2, 1].map(testId));
  expect(whole.next).toBeUndefined();

  const first = await page('?limit=2');
  expect([idsOf(first), first.next]).toEqual([[testId(5), testId(4)], testId(4)]);
  const second = await page(`?limit=2&after=${first.next}`);
  expect([idsOf(second), second.next]).toEqual([[testId(3), testId(2)], testId(2)]);
  const third = await page(`?limit=2&after=${second.next}`);
  expect([idsOf(third), third.next]).toEqual([[testId(1)], undefined]);
});

test('an invalid page is refused with a sentence', async () => {
  const { call } = await testService();
  for (const query of ['?limit=0', '?limit=two', '?limit=', '?after=here', '?with=photos'])
    expect([query, (await call('GET', `/api/burns${query}`)).status]).toEqual([query, 400]);
  const unknown = await call('GET', `/api/burns?after=${testId(9)}`);
  expect(unknown.body.code).toBe('burn/not-found');
});

test('a list contains curves and figures only on request, and figures once they are computed', async () => {
  const { call, record } = await serviceWithHeron();
  const first = async (query: string) => burnPageSchema.parse((await call('GET', `/api/burns${query}`)).body).burns[0]!;
  const plain = await first('');
  expect([plain.curve, plain.figures]).toEqual([[], undefined]);
  expect((await first('?with=curve')).curve.length).toBeGreaterThan(20);
  expect((await first('?with=curve,figures')).figures).toBeUndefined();

  const { results } = (await call('GET', `/api/burns/${record.id}/results`)).body;
  const { figures, curve } = await first('?with=figures');
  expect(curve).toEqual([]);
  expect(figures).toEqual(listedFigures(results));
  expect(figures?.map(({ id }) => id).sort()).toEqual(['dryWoodPerBatch', 'thermalEfficiency', 'timeToTarget']);

  // Their inputs have changed: they are not shown for a different state.
  const { burn } = (await call('GET', `/api/burns/${record.id}`)).body;
  await call('PATCH', `/api/burns/${record.id}`, {
    expectedVersion: burn.version,
    target: { kind: 'temperature', tempC: 80 },
  });
  expect((await first('?with=figures')).figures).toBeUndefined();
});

test('the list shows what is still to be weighed of an ended burn', async () => {
  const { call, record } = await serviceWithHeron();
  const { burn, weighings } = (await call('GET', `/api/burns/${record.id}`)).body;
  const toWeigh = async () => (await call('GET', '/api/burns')).body.burns[0].toWeigh;
  expect(await toWeigh()).toBeUndefined();
  const char = weighings.find(({ weighing }: { weighing: { of: string } }) => weighing.of === 'char');
  await call('DELETE', `/api/burns/${record.id}/weighings/${char.weighing.id}?expectedVersion=${char.version}`);
  await call('PATCH', `/api/burns/${record.id}`, { expectedVersion: burn.version, status: 'ended' });
  expect(await toWeigh()).toEqual(['char']);
});

test('a list can be limited to one stove', async () => {
  const { call } = await testService();
  const [stove, revision] = [testId(10), testId(11)];
  await call('POST', '/api/stoves', { id: stove, name: 'Heron' });
  await call('POST', '/api/revisions', { id: revision, stoveId: stove, label: '2' });
  await call('POST', '/api/burns', { id: testId(1), revisionId: revision });
  await call('POST', '/api/burns', { id: testId(2) });
  const { burns } = (await call('GET', `/api/burns?stove=${stove}`)).body;
  expect(burns.map(({ id }: { id: string }) => id)).toEqual([testId(1)]);
});
