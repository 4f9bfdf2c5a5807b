import { expect, test } from 'vitest';
import { burnId, testId } from '../support/temp-store.ts';
import { testService } from '../support/test-service.ts';

const url = `/api/burns/${burnId}`;
const [pileBefore, pile, char, water] = [testId(60), testId(61), testId(62), testId(63)];
const before = { id: pileBefore, of: 'fuelPile', when: 'start', massKg: 5 };
const left = { id: pile, of: 'fuelPile', when: 'end', massKg: 2, tareKg: 0.85 };
const pending = { id: char, of: 'char', when: 'end', pending: true };

async function runningBurn() {
  const service = await testService();
  await service.call('POST', '/api/burns', { id: burnId, status: 'running' });
  service.clock.advance(600_000);
  const weighUp = (body: object) => service.call('POST', `${url}/weigh-up`, body);
  const stored = async () => (await service.call('GET', url)).body;
  return { ...service, weighUp, stored };
}

test('all weighings and the end of the recording are saved in one request, which has no effect when sent again', async () => {
  const { weighUp, stored, call } = await runningBurn();
  const request = { weighings: [before, left, pending].map((weighing) => ({ weighing })), status: 'ended', by: 'M' };
  const first = await weighUp(request);
  expect(first).toMatchObject({ status: 200, body: { burn: { status: 'ended', version: 2 } } });
  expect(first.body.weighings).toEqual(
    [before, left, pending].map((weighing) => ({ weighing, version: 1, withdrawn: false })),
  );
  // Reopened meanwhile: the late second delivery does not end it again.
  await call('PATCH', url, { expectedVersion: 2, status: 'running' });
  expect((await weighUp(request)).body.burn).toMatchObject({ status: 'running', version: 3 });

  // The char is cold, and the pile was heavier than typed: both corrected at once, and the burn is complete.
  const weighed = [
    { weighing: { id: char, of: 'char', when: 'end', massKg: 0.21 }, expectedVersion: 1 },
    { weighing: { ...left, massKg: 2.5 }, expectedVersion: 1 },
  ];
  expect((await weighUp({ weighings: weighed, status: 'complete' })).body.burn.status).toBe('complete');
  await weighUp({ weighings: weighed, status: 'complete' });
  const { weighings } = await stored();
  expect(weighings.map(({ version }: { version: number }) => version)).toEqual([1, 2, 2]);
});

test('with one impossible weighing none of several is saved, nor the end, and the error names it', async () => {
  const { weighUp, stored } = await runningBurn();
  const refusal = await weighUp({
    weighings: [{ weighing: before }, { weighing: { ...left, massKg: 5.4 } }, { weighing: pending }],
    status: 'ended',
  });
  expect(refusal).toMatchObject({
    status: 400,
    body: { code: 'weighing/more-fuel-left', details: { at: { of: 'fuelPile', when: 'end' } } },
  });
  expect(await stored()).toMatchObject({ weighings: [], burn: { status: 'running', version: 1 } });
  for (const [weighings, code] of [
    [[{ weighing: { id: water, of: 'water', when: 'end' } }], 'weighing/mass-missing'],
    [[{ weighing: left, expectedVersion: 3 }], 'weighing/not-found'],
  ] as const) {
    expect(await weighUp({ weighings: [{ weighing: before }, ...weighings] })).toMatchObject({ body: { code } });
    expect((await stored()).weighings).toEqual([]);
  }
});

test('pile before and after may both grow in one request, although neither order of the two would be accepted', async () => {
  const { weighUp, stored } = await runningBurn();
  await weighUp({ weighings: [{ weighing: { ...before, massKg: 0.5 } }, { weighing: { ...left, massKg: 0.2 } }] });
  const [more, rest] = [before, left].map((weighing) => ({ weighing, expectedVersion: 1 }));
  expect((await weighUp({ weighings: [rest, more] })).status).toBe(200);
  expect((await stored()).weighings.map(({ weighing }: { weighing: { massKg: number } }) => weighing.massKg)).toEqual([
    5, 2,
  ]);
});

test('a weighing by another person meanwhile is returned and not overwritten; a weighing can be withdrawn', async () => {
  const { weighUp, stored, call } = await runningBurn();
  await weighUp({ weighings: [{ weighing: before }, { weighing: left }] });
  await call('PUT', `${url}/weighings/${pile}`, { weighing: { ...left, massKg: 1.5 }, expectedVersion: 1 });
  for (const stale of [{ weighing: { ...left, massKg: 3 }, expectedVersion: 1 }, { weighing: { ...left, massKg: 3 } }])
    expect(await weighUp({ weighings: [{ weighing: pending }, stale], status: 'complete' })).toMatchObject({
      status: 409,
      body: { code: 'store/conflict', details: { newest: { version: 2, body: { id: pile, massKg: 1.5 } } } },
    });
  expect(await stored()).toMatchObject({ burn: { status: 'running' }, weighings: [{}, { version: 2 }] });
  const takeBack = [{ id: pile, expectedVersion: 2 }];
  for (const _delivery of ['first', 'again'])
    expect((await weighUp({ weighings: [], takeBack })).body.weighings[1]).toMatchObject({
      version: 3,
      withdrawn: true,
    });
});

test('a burn that was set aside, or does not exist, is not completed by weighing', async () => {
  const { weighUp, stored, call } = await runningBurn();
  await call('PATCH', url, { expectedVersion: 1, status: 'setAside', setAsideReason: 'rain' });
  expect((await weighUp({ weighings: [{ weighing: before }], status: 'complete' })).body.code).toBe('burn/wrong-step');
  expect((await stored()).weighings).toEqual([]);
  expect((await weighUp({ weighings: [{ weighing: before }] })).status).toBe(200);
  await call('POST', '/api/burns', { id: testId(5), status: 'running' });
  expect(
    (await call('POST', `/api/burns/${testId(5)}/weigh-up`, { weighings: [{ weighing: before }] })).body.code,
  ).toBe('burn/already-there');
  expect((await call('GET', '/api/openapi.json')).body.paths['/api/burns/{id}/weigh-up'].post.summary).toBe(
    'Save everything that was weighed after a burn, or none of it',
  );
});
