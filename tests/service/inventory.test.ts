import { expect, test } from 'vitest';
import { testId } from '../support/temp-store.ts';
import { testService } from '../support/test-service.ts';

const stoveId = testId(10);

const things = [
  ['stoves', 'stoves', { name: 'Heron' }, { name: 'Heron, raised' }],
  [
    'revisions',
    'revisions',
    { stoveId, label: '2', change: 'sleeve' },
    { stoveId, label: '2', change: 'longer sleeve' },
  ],
  ['vessels', 'vessels', { name: '30-litre vat', massKg: 3.2 }, { name: '30-litre vat', massKg: 3.3 }],
  ['fuel-lots', 'fuelLots', { name: 'Beech', kind: 'wood' }, { name: 'Beech, split', kind: 'wood' }],
  ['places', 'places', { name: 'Dye yard', altitudeM: 240 }, { name: 'Dye yard', altitudeM: 241 }],
  ['scales', 'scales', { name: 'Yard scale' }, { name: 'Yard scale', standardUncertaintyKg: 0.005 }],
] as const;

test.each(things)('%s are created, listed and changed, with their history', async (path, key, first, second) => {
  const { call } = await testService();
  await call('POST', '/api/stoves', { id: stoveId, name: 'Heron' });
  const id = path === 'stoves' ? stoveId : testId(11);
  if (path !== 'stoves') {
    expect(await call('POST', `/api/${path}`, { id, ...first })).toMatchObject({
      status: 201,
      body: { id, version: 1 },
    });
  }
  const list = await call('GET', `/api/${path}`);
  expect(list.body).toEqual({ [key]: [{ id, ...first, version: 1 }] });
  const changed = await call('PUT', `/api/${path}/${id}`, { ...second, expectedVersion: 1, by: 'second' });
  expect(changed).toMatchObject({ status: 200, body: { ...second, version: 2 } });
  expect((await call('GET', `/api/${path}/${id}`)).body).toEqual({ id, ...second, version: 2 });
  const { body } = await call('GET', `/api/${path}/${id}/history`);
  expect(body.versions.map(({ item, by }: { item: object; by?: string }) => [item, by])).toEqual([
    [{ id, ...first, version: 1 }, undefined],
    [{ id, ...second, version: 2 }, 'second'],
  ]);
});

test('a thing without an identifier gets one', async () => {
  const { call } = await testService();
  const { status, body } = await call('POST', '/api/vessels', { name: 'vat' });
  expect(status).toBe(201);
  expect(body.id).toMatch(/^[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab]/);
});

test('creating the same thing twice stores one', async () => {
  const { call } = await testService();
  const stove = { id: stoveId, name: 'Heron' };
  await call('POST', '/api/stoves', stove);
  expect(await call('POST', '/api/stoves', stove)).toMatchObject({ status: 200, body: { ...stove, version: 1 } });
  expect((await call('GET', '/api/stoves')).body.stoves).toHaveLength(1);
});

test('of two people who change the same thing the slower one gets both versions', async () => {
  const { call } = await testService();
  await call('POST', '/api/stoves', { id: stoveId, name: 'Heron' });
  await call('PUT', `/api/stoves/${stoveId}`, { name: 'Heron A', expectedVersion: 1, by: 'first' });
  const late = await call('PUT', `/api/stoves/${stoveId}`, { name: 'Heron B', expectedVersion: 1 });
  expect(late.status).toBe(409);
  expect(late.body).toMatchObject({
    code: 'store/conflict',
    details: { newest: { version: 2, by: 'first', body: { name: 'Heron A' } } },
  });
});

test('an unknown thing is reported as missing', async () => {
  const { call } = await testService();
  expect(await call('GET', `/api/vessels/${testId(9)}`)).toMatchObject({
    status: 404,
    body: { code: 'shelf/not-found' },
  });
  expect((await call('GET', `/api/vessels/${testId(9)}/history`)).status).toBe(404);
  const change = { name: 'vat', expectedVersion: 1 };
  expect((await call('PUT', `/api/vessels/${testId(9)}`, change)).status).toBe(404);
});

test('a revision of an unknown stove is refused', async () => {
  const { call } = await testService();
  const answer = await call('POST', '/api/revisions', { stoveId: testId(9), label: '1' });
  expect(answer).toMatchObject({ status: 404, body: { code: 'shelf/not-found' } });
});
