import { expect, test } from 'vitest';
import { burnId, testId } from '../support/temp-store.ts';
import { type TestService, testService } from '../support/test-service.ts';

const url = `/api/burns/${burnId}`;

async function runningBurn(): Promise<TestService> {
  const service = await testService();
  await service.call('POST', '/api/burns', { id: burnId, status: 'running' });
  service.clock.advance(600_000);
  return service;
}

test('a mark without a moment gets the present one of the service, less its stated age', async () => {
  const { call } = await runningBurn();
  const now = await call('POST', `${url}/marks`, { kind: 'nudged' });
  expect(now).toMatchObject({ status: 201, body: { mark: { elapsedUs: 600_000_000 }, version: 1, withdrawn: false } });
  const earlier = await call('POST', `${url}/marks`, { kind: 'fed', massKg: 0.8, agoS: 180 });
  expect(earlier.body.mark).toMatchObject({ kind: 'fed', massKg: 0.8, elapsedUs: 420_000_000 });
});

test('a mark delivered twice is stored once, also when the second delivery is late', async () => {
  const { call, clock } = await runningBurn();
  const mark = { id: testId(30), kind: 'fed', massKg: 0.8 };
  await call('POST', `${url}/marks`, mark);
  clock.advance(60_000);
  const again = await call('POST', `${url}/marks`, mark);
  expect(again).toMatchObject({ status: 200, body: { mark: { elapsedUs: 600_000_000 }, version: 1 } });
  expect((await call('GET', url)).body.marks).toHaveLength(1);
});

test('a burn has the heaviest feed of other burns of its stove, also after it ended, and none of another stove', async () => {
  const { call } = await testService();
  const revisions = [testId(41), testId(42), testId(43)];
  for (const [at, stoveId] of [testId(51), testId(51), testId(52)].entries()) {
    if (at !== 1) await call('POST', '/api/stoves', { id: stoveId, name: 'Heron' });
    await call('POST', '/api/revisions', { id: revisions[at], stoveId, label: String(at) });
  }
  const feeds = [1.2, 9, 20];
  for (const [at, revisionId] of revisions.entries()) {
    await call('POST', '/api/burns', { id: testId(61 + at), revisionId, status: 'running' });
    await call('POST', `/api/burns/${testId(61 + at)}/marks`, { kind: 'fed', massKg: feeds[at] });
    await call('PATCH', `/api/burns/${testId(61 + at)}`, { status: 'ended', expectedVersion: 1 });
  }
  const reported = async (at: number) => (await call('GET', `/api/burns/${testId(61 + at)}`)).body.largestFeedKg;
  expect([await reported(0), await reported(1), await reported(2)]).toEqual([9, 1.2, undefined]);
});

test('a mark is corrected, withdrawn and restored, and all of it is in the history', async () => {
  const { call } = await runningBurn();
  const id = testId(30);
  await call('POST', `${url}/marks`, { id, kind: 'fed', massKg: 8, elapsedUs: 1_000_000, by: 'first' });
  const mark = { id, kind: 'fed', massKg: 0.8, elapsedUs: 1_000_000 };
  const corrected = await call('PUT', `${url}/marks/${id}`, { mark, expectedVersion: 1, by: 'second' });
  expect(corrected.body).toEqual({ mark, version: 2, withdrawn: false });
  expect((await call('DELETE', `${url}/marks/${id}?expectedVersion=2`)).body).toEqual({
    mark,
    version: 3,
    withdrawn: true,
  });
  expect((await call('PUT', `${url}/marks/${id}`, { mark, expectedVersion: 3 })).body.withdrawn).toBe(false);

  const { body } = await call('GET', `${url}/edits`);
  expect(body.edits.map(({ what, by, before, after }: Record<string, unknown>) => [what, by, before, after])).toEqual([
    ['mark fed', 'second', { ...mark, massKg: 8, by: 'first' }, mark],
    ['mark fed', undefined, mark, null],
    ['mark fed', undefined, null, mark],
  ]);
});

test('two people who correct the same mark do not overwrite each other', async () => {
  const { call } = await runningBurn();
  const mark = { id: testId(30), kind: 'lit', elapsedUs: 0 };
  await call('POST', `${url}/marks`, mark);
  const correct = (elapsedUs: number) =>
    call('PUT', `${url}/marks/${mark.id}`, { mark: { ...mark, elapsedUs }, expectedVersion: 1 });
  expect((await correct(5)).status).toBe(200);
  expect(await correct(7)).toMatchObject({ status: 409, body: { details: { newest: { body: { elapsedUs: 5 } } } } });
});

test('a mark before the burn started, in the future or on an unknown probe is refused', async () => {
  const { call } = await runningBurn();
  await call('POST', '/api/burns', { id: testId(5) });
  expect(await call('POST', `/api/burns/${testId(5)}/marks`, { kind: 'lit' })).toMatchObject({
    status: 409,
    body: { code: 'mark/not-started' },
  });
  expect(await call('POST', `${url}/marks`, { kind: 'lit', elapsedUs: 700_000_000 })).toMatchObject({
    status: 400,
    body: { code: 'mark/in-the-future', message: 'This mark lies 100 s in the future. Give a moment that has passed.' },
  });
  expect(await call('POST', `${url}/marks`, { kind: 'probeMoved', channelId: testId(9) })).toMatchObject({
    body: { code: 'mark/unknown-channel' },
  });
  expect((await call('GET', url)).body.marks).toEqual([]);
});

test('a mark of another burn is not found in this burn', async () => {
  const { call } = await runningBurn();
  const mark = { id: testId(30), kind: 'lit', elapsedUs: 0 };
  await call('POST', `${url}/marks`, mark);
  await call('POST', '/api/burns', { id: testId(5), status: 'running' });
  const elsewhere = await call('PUT', `/api/burns/${testId(5)}/marks/${mark.id}`, { mark, expectedVersion: 1 });
  expect(elsewhere).toMatchObject({ status: 404, body: { code: 'mark/not-found' } });
});

const pile = { of: 'fuelPile', when: 'start', massKg: 5 };

test.each([
  ['more wood left than brought', [pile], { of: 'fuelPile', when: 'end', massKg: 5.4 }, 'weighing/more-fuel-left'],
  [
    'less wood brought than is left',
    [{ of: 'fuelPile', when: 'end', massKg: 1 }],
    { ...pile, massKg: 0.5 },
    'weighing/more-fuel-left',
  ],
  [
    'brands and pile together above what was brought',
    [pile, { of: 'fuelPile', when: 'end', massKg: 4 }],
    { of: 'brands', when: 'end', massKg: 1.5 },
    'weighing/more-fuel-left',
  ],
  [
    'more water left than put in',
    [{ of: 'water', when: 'start', massKg: 29 }],
    { of: 'water', when: 'end', massKg: 29.5 },
    'weighing/more-water-left',
  ],
  [
    'more litres left than kilograms put in',
    [{ of: 'water', when: 'start', massKg: 20 }],
    { of: 'water', when: 'end', volumeL: 30 },
    'weighing/more-water-left',
  ],
  ['neither mass nor pending', [], { of: 'char', when: 'end' }, 'weighing/mass-missing'],
  [
    'both a mass and pending',
    [],
    { of: 'char', when: 'end', massKg: 0.1, pending: true },
    'weighing/pending-with-mass',
  ],
  [
    'moisture of char',
    [],
    { of: 'char', when: 'end', massKg: 1, moisture: { fraction: 0.1, basis: 'wet', how: 'meter' } },
    'weighing/moisture-not-brands',
  ],
  ['wood by volume', [], { of: 'fuelPile', when: 'start', volumeL: 12 }, 'weighing/volume-not-water'],
  ['water by mass and volume', [], { of: 'water', when: 'start', massKg: 20, volumeL: 20 }, 'weighing/two-amounts'],
  ['a scale nobody knows', [], { ...pile, scaleId: testId(9) }, 'burn/unknown-part'],
])('a weighing with %s is refused and the earlier one stays', async (_what, before, impossible, code) => {
  const { call } = await runningBurn();
  for (const weighing of before) expect((await call('POST', `${url}/weighings`, weighing)).status).toBe(201);
  expect(await call('POST', `${url}/weighings`, impossible)).toMatchObject({ status: 400, body: { code } });
  expect((await call('GET', url)).body.weighings).toHaveLength(before.length);
});

test('the sentence about too much wood contains both masses', async () => {
  const { call } = await runningBurn();
  await call('POST', `${url}/weighings`, pile);
  const { body } = await call(
    'POST',
    `${url}/weighings`,
    { of: 'fuelPile', when: 'end', massKg: 5.4 },
    { 'accept-language': 'fr' },
  );
  expect(body.message).toBe(
    'Il reste plus que ce qui a été apporté\u202f: 5,40\u00a0kg sur 5,00\u00a0kg. Vérifiez les deux pesées, et que le contenant a été déduit chaque fois.',
  );
});

test('water added during the burn, and wood fed from a pile that was not weighed, count as put in', async () => {
  const { call } = await runningBurn();
  await call('POST', `${url}/weighings`, { of: 'water', when: 'start', massKg: 29 });
  await call('POST', `${url}/marks`, { kind: 'waterIn', massKg: 2, tempC: 15 });
  expect((await call('POST', `${url}/weighings`, { of: 'water', when: 'end', massKg: 30.5 })).status).toBe(201);

  const lot = testId(40);
  await call('POST', '/api/fuel-lots', { id: lot, name: 'Spruce', kind: 'kindling' });
  await call('POST', `${url}/weighings`, { ...pile, massKg: 1 });
  await call('POST', `${url}/marks`, { kind: 'fed', massKg: 0.5, fuelLotId: lot });
  expect((await call('POST', `${url}/weighings`, { of: 'brands', when: 'end', massKg: 1.2 })).status).toBe(201);
});

test('withdrawing water that the balance still needs is refused', async () => {
  const { call } = await runningBurn();
  const added = { id: testId(31), kind: 'waterIn', massKg: 2, tempC: 15, elapsedUs: 0 };
  await call('POST', `${url}/weighings`, { of: 'water', when: 'start', massKg: 29 });
  await call('POST', `${url}/marks`, added);
  await call('POST', `${url}/weighings`, { of: 'water', when: 'end', massKg: 30.5 });
  const smaller = await call('PUT', `${url}/marks/${added.id}`, { mark: { ...added, massKg: 1 }, expectedVersion: 1 });
  expect(smaller).toMatchObject({ status: 400, body: { code: 'weighing/more-water-left' } });
});

test('a pending weighing is completed by its next version', async () => {
  const { call } = await runningBurn();
  const id = testId(32);
  await call('POST', `${url}/weighings`, { id, of: 'char', when: 'end', pending: true });
  const weighing = { id, of: 'char', when: 'end', massKg: 0.21 };
  const { body } = await call('PUT', `${url}/weighings/${id}`, { weighing, expectedVersion: 1, by: 'first' });
  expect(body).toEqual({ weighing, version: 2, withdrawn: false });
});

test('an excluded stretch needs a probe of this burn and the right order of its ends', async () => {
  const { call } = await runningBurn();
  const channel = { id: testId(50), name: 'water low', role: 'water', unit: 'Cel', scale: 0.25 };
  await call('PATCH', url, { expectedVersion: 1, channels: [channel] });
  const stretch = { id: testId(33), channelId: channel.id, fromUs: 5, toUs: 9, reason: 'lifted out' };
  const exclude = (change: object) => call('POST', `${url}/exclusions`, { ...stretch, ...change });
  expect((await exclude({ channelId: testId(9) })).body.code).toBe('mark/unknown-channel');
  expect((await exclude({ fromUs: 10 })).body.code).toBe('exclusion/backwards');
  expect(await exclude({})).toMatchObject({ status: 201, body: { exclusion: stretch, version: 1 } });
  expect((await call('DELETE', `${url}/exclusions/${stretch.id}?expectedVersion=1`)).body.withdrawn).toBe(true);
});

test('a correction or a withdrawal delivered twice is stored once, even after another correction', async () => {
  const { call } = await runningBurn();
  const mark = { id: testId(30), kind: 'fed', massKg: 8, elapsedUs: 0 };
  await call('POST', `${url}/marks`, mark);
  const correct = (massKg: number, expectedVersion: number) =>
    call('PUT', `${url}/marks/${mark.id}`, { mark: { ...mark, massKg }, expectedVersion });
  expect((await correct(0.8, 1)).body.version).toBe(2);
  expect((await correct(0.8, 1)).body.version).toBe(2);
  expect((await correct(0.9, 2)).body.version).toBe(3);
  expect(await correct(0.8, 1)).toMatchObject({ status: 200, body: { mark: { massKg: 0.9 }, version: 3 } });
  expect((await correct(0.7, 1)).status).toBe(409);
  for (const _delivery of ['first', 'again'])
    expect(await call('DELETE', `${url}/marks/${mark.id}?expectedVersion=3`)).toMatchObject({
      status: 200,
      body: { version: 4, withdrawn: true },
    });
});
