import { expect, test } from 'vitest';
import { burnDetailSchema, burnSummarySchema } from '../../shared/contract/burns.ts';
import { burnId, testId } from '../support/temp-store.ts';
import { testService } from '../support/test-service.ts';

test('a burn goes from planned to running, ended and complete, each step a version', async () => {
  const { call, clock } = await testService();
  const planned = await call('POST', '/api/burns', { id: burnId, title: 'Heron 2' });
  expect(planned).toMatchObject({
    status: 201,
    body: { burn: { status: 'planned', version: 1 }, summary: { curve: [] } },
  });
  const step = (expectedVersion: number, status: string) =>
    call('PATCH', `/api/burns/${burnId}`, { expectedVersion, status });

  const running = await step(1, 'running');
  expect(running.body.burn).toMatchObject({ status: 'running', startedUtcMs: clock.wallMs(), clockSource: 'machine' });
  clock.advance(90_000);
  expect((await call('GET', `/api/burns/${burnId}`)).body.elapsedUs).toBe(90_000_000);
  const ended = await step(2, 'ended');
  expect(ended.body.burn).toMatchObject({ status: 'ended', endedElapsedUs: 90_000_000 });
  expect(ended.body.elapsedUs).toBeUndefined();
  const complete = await step(3, 'complete');
  expect(burnDetailSchema.parse(complete.body).summary).toMatchObject({ status: 'complete', durationS: 90 });
});

test('the air pressure of the day is stored with its stated uncertainty', async () => {
  const { call } = await testService();
  await call('POST', '/api/burns', { id: burnId, stationPressurePa: 98_500, standardUncertaintyPa: 30 });
  const edit = (expectedVersion: number, fields: object) =>
    call('PATCH', `/api/burns/${burnId}`, { expectedVersion, ...fields });
  const another = await edit(1, { stationPressurePa: 98_700 });
  expect(another.body.burn).toMatchObject({ stationPressurePa: 98_700, standardUncertaintyPa: 30 });
  const { body } = await edit(2, { stationPressurePa: null });
  expect(body.burn).not.toHaveProperty('stationPressurePa');
  expect(body.burn).not.toHaveProperty('standardUncertaintyPa');
});

test('creating the same burn twice makes one', async () => {
  const { call, clock } = await testService();
  await call('POST', '/api/burns', { id: burnId, status: 'running' });
  clock.advance(5_000);
  const again = await call('POST', '/api/burns', { id: burnId, status: 'running' });
  expect(again).toMatchObject({ status: 200, body: { elapsedUs: 5_000_000, burn: { version: 1 } } });
  expect((await call('GET', '/api/burns')).body.burns).toHaveLength(1);
});

test('a burn without a title is named after its stove, its revision and its number', async () => {
  const { call } = await testService();
  const [stoveId, revisionId] = [testId(10), testId(11)];
  await call('POST', '/api/stoves', { id: stoveId, name: 'Heron' });
  await call('POST', '/api/revisions', { id: revisionId, stoveId, label: '2' });
  await call('POST', '/api/burns', { revisionId });
  const { body } = await call('POST', '/api/burns', { revisionId });
  expect(burnSummarySchema.parse(body.summary)).toMatchObject({
    title: 'Heron 2 · burn 2',
    stove: { id: stoveId, name: 'Heron' },
    revision: { id: revisionId, label: '2' },
  });
});

test('the list is newest first', async () => {
  const { call, clock } = await testService();
  for (const title of ['first', 'second', 'third']) {
    await call('POST', '/api/burns', { title, status: 'running' });
    clock.advance(60_000);
  }
  const { body } = await call('GET', '/api/burns');
  expect(body.burns.map(({ title }: { title: string }) => title)).toEqual(['third', 'second', 'first']);
});

test.each([
  ['planned', [], 'complete'],
  ['complete', ['running', 'complete'], 'running'],
])('a burn that is %s cannot become %s', async (from, before, to) => {
  const { call } = await testService();
  await call('POST', '/api/burns', { id: burnId });
  let version = 1;
  for (const status of before) await call('PATCH', `/api/burns/${burnId}`, { expectedVersion: version++, status });
  const refused = await call('PATCH', `/api/burns/${burnId}`, { expectedVersion: version, status: to });
  expect(refused).toMatchObject({ status: 409, body: { code: 'burn/wrong-step' } });
  expect((await call('GET', `/api/burns/${burnId}`)).body.burn).toMatchObject({ status: from, version });
});

test('a burn is set aside only with a reason, and can be restored', async () => {
  const { call } = await testService();
  await call('POST', '/api/burns', { id: burnId, status: 'running' });
  const aside = (body: object) =>
    call('PATCH', `/api/burns/${burnId}`, { expectedVersion: 1, status: 'setAside', ...body });
  expect(await aside({})).toMatchObject({ status: 400, body: { code: 'burn/reason-missing' } });
  const stored = await aside({ setAsideReason: 'probe came loose' });
  expect(stored.body.summary).toMatchObject({ status: 'setAside', setAsideReason: 'probe came loose' });
  const back = await call('PATCH', `/api/burns/${burnId}`, { expectedVersion: 2, status: 'ended' });
  expect(back.body.summary.status).toBe('ended');
  expect(back.body.summary.setAsideReason).toBeUndefined();
});

test('a burn ended by mistake continues, and the pause is a gap', async () => {
  const { call, clock } = await testService();
  await call('POST', '/api/burns', { id: burnId, status: 'running' });
  clock.advance(100_000);
  await call('POST', `/api/burns/${burnId}/marks`, { kind: 'lit' });
  await call('PATCH', `/api/burns/${burnId}`, { expectedVersion: 1, status: 'ended' });
  clock.advance(30_000);
  const { body } = await call('PATCH', `/api/burns/${burnId}`, { expectedVersion: 2, status: 'running' });
  expect(body.elapsedUs).toBe(130_000_000);
  expect(body.burn.endedElapsedUs).toBeUndefined();
  expect(body.gaps).toEqual([{ fromUs: 100_000_000, toUs: 130_000_000, cause: 'serviceStopped' }]);
});

test('a change made from an old version of a burn is refused and shows the newest', async () => {
  const { call } = await testService();
  await call('POST', '/api/burns', { id: burnId, title: 'one' });
  await call('PATCH', `/api/burns/${burnId}`, { expectedVersion: 1, title: 'two' });
  const late = await call('PATCH', `/api/burns/${burnId}`, { expectedVersion: 1, airTempC: 9 });
  expect(late).toMatchObject({ status: 409, body: { details: { newest: { version: 2, body: { title: 'two' } } } } });
});

test('a burn that refers to an unknown thing is refused', async () => {
  const { call } = await testService();
  const answer = await call('POST', '/api/burns', { vesselId: testId(9) });
  expect(answer).toMatchObject({ status: 400, body: { code: 'burn/unknown-part' } });
  expect((await call('GET', '/api/burns')).body.burns).toEqual([]);
});

test('a planned burn and a simulated one can be deleted, a measured one that ran cannot', async () => {
  const { call } = await testService();
  const ids = [testId(21), testId(22), testId(23)];
  await call('POST', '/api/burns', { id: ids[0] });
  await call('POST', '/api/burns', { id: ids[1], status: 'running', origin: 'simulated' });
  await call('POST', '/api/burns', { id: ids[2], status: 'running' });
  const responses = await Promise.all(ids.map((id) => call('DELETE', `/api/burns/${id}`)));
  expect(responses.map(({ status, body }) => [status, body?.code])).toEqual([
    [204, undefined],
    [204, undefined],
    [409, 'burn/not-removable'],
  ]);
  expect((await call('GET', '/api/burns')).body.burns.map(({ id }: { id: string }) => id)).toEqual([ids[2]]);
});

test('null clears an optional field of a burn; a field left out stays, and a required one is not cleared', async () => {
  const { call } = await testService();
  const vesselId = testId(12);
  await call('POST', '/api/vessels', { id: vesselId, name: 'vat' });
  const hold = { durationS: 2700, onDrop: 'pause' };
  const reported = { airTempC: 9, stationPressurePa: 98_500, operator: 'M', weatherNote: 'windy', startKind: 'cold' };
  await call('POST', '/api/burns', { id: burnId, title: 'noon', vesselId, hold, ...reported });
  const edit = (expectedVersion: number, body: object) =>
    call('PATCH', `/api/burns/${burnId}`, { expectedVersion, ...body });
  const emptied = { vesselId: null, hold: null, airTempC: null, stationPressurePa: null, operator: null };
  const { body } = await edit(1, { ...emptied, startKind: null });
  for (const field of [...Object.keys(emptied), 'startKind']) expect(body.burn).not.toHaveProperty(field);
  expect(body.burn).toMatchObject({ title: 'noon', weatherNote: 'windy', target: { kind: 'boil' } });
  expect(body.summary).not.toHaveProperty('operator');
  for (const field of ['title', 'target', 'fuelLotIds', 'primaryResult']) {
    expect(await edit(2, { [field]: null })).toMatchObject({ status: 400, body: { issues: [{ path: field }] } });
  }
  expect((await call('GET', `/api/burns/${burnId}`)).body.burn.version).toBe(2);
});
