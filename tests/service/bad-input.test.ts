import { expect, test } from 'vitest';
import { burnId, testId } from '../support/temp-store.ts';
import { testService } from '../support/test-service.ts';

test.each([
  [
    'a number written as text with a decimal comma',
    { massKg: '3,2' },
    'massKg',
    'write the number with a point and without quotation marks: 3.2, not "3,2"',
  ],
  ['a blank where a number belongs', { massKg: '' }, 'massKg', 'should be number'],
  ['null where a number belongs', { massKg: null }, 'massKg', 'should be number'],
  ['a negative mass', { massKg: -1 }, 'massKg', 'must be more than 0'],
  ['a field that nobody knows', { weight: 3 }, '', 'is not known here: weight'],
  ['an empty name', { name: '  ' }, 'name', 'must not be empty'],
])('%s is refused with its field and what to do', async (_what, change, path, message) => {
  const { call } = await testService();
  const answer = await call('POST', '/api/vessels', { name: 'vat', ...change });
  expect(answer).toMatchObject({ status: 400, body: { code: 'request/invalid', issues: [{ path, message }] } });
  expect((await call('GET', '/api/vessels')).body.vessels).toEqual([]);
});

test('a missing field is reported by name', async () => {
  const { call } = await testService();
  const { body } = await call('POST', '/api/vessels', {});
  expect(body.issues).toEqual([{ path: 'name', message: 'is missing' }]);
});

test('an unknown kind of mark gets the list of kinds', async () => {
  const { call } = await testService();
  await call('POST', '/api/burns', { id: burnId, status: 'running' });
  const { status, body } = await call('POST', `/api/burns/${burnId}/marks`, { kind: 'poked' });
  expect(status).toBe(400);
  expect(body.issues[0].path).toBe('kind');
});

test('errors are in the language of the reader', async () => {
  const { call } = await testService();
  const { body } = await call(
    'POST',
    '/api/vessels',
    { name: 'cuve', massKg: '3,2' },
    { 'accept-language': 'fr-FR,fr;q=0.9' },
  );
  expect(body.issues).toEqual([
    {
      path: 'massKg',
      message: 'écrivez le nombre avec un point et sans guillemets\u202f: 3.2, et non «\u202f3,2\u202f»',
    },
  ]);
});

test('what is not JSON is refused', async () => {
  const { app } = await testService();
  const send = (payload: string, type: string) =>
    app.inject({ method: 'POST', url: '/api/vessels', payload, headers: { 'content-type': type } });
  const cut = await send('{"name":', 'application/json');
  expect([cut.statusCode, cut.json().code]).toEqual([400, 'request/unreadable']);
  const form = await send('name=vat', 'application/x-www-form-urlencoded');
  expect([form.statusCode, form.json().code]).toEqual([400, 'request/unreadable']);
  const text = await send('{"name":"vat"}', 'text/plain');
  expect([text.statusCode, text.json().code]).toEqual([400, 'request/unreadable']);
});

test('an oversized body is refused', async () => {
  const { call } = await testService();
  const answer = await call('POST', '/api/vessels', { name: 'x'.repeat(1_100_000) });
  expect(answer).toMatchObject({ status: 413, body: { code: 'request/too-large' } });
});

test('an unsupported method gets the list of those supported', async () => {
  const { app } = await testService();
  const answer = await app.inject({ method: 'PUT', url: `/api/burns/${testId(8)}/marks` });
  expect([answer.statusCode, answer.headers.allow, answer.json()]).toMatchObject([
    405,
    'POST',
    { code: 'request/method-refused', message: expect.stringContaining('Possible: POST') },
  ]);
});

test('an unknown address gets an answer of the same form', async () => {
  const { call } = await testService();
  expect(await call('GET', '/api/kettles')).toMatchObject({ status: 404, body: { code: 'request/not-found' } });
  expect(await call('GET', '/api/burns/42')).toMatchObject({ status: 400, body: { code: 'request/invalid' } });
  expect(await call('GET', `/api/burns/${testId(8)}`)).toMatchObject({ status: 404, body: { code: 'burn/not-found' } });
});

test('a misspelt query parameter is reported, with those that the address takes', async () => {
  const { call } = await testService();
  expect(await call('GET', '/api/stoves?limti=2')).toMatchObject({
    status: 400,
    body: {
      code: 'request/unknown-query',
      message: 'Behind the question mark of this address nothing is called limti. It takes nothing there.',
    },
  });
  const { message } = (await call('GET', `/api/burns/${testId(1)}/series?pionts=9&points=9`)).body;
  expect(message).toContain('nothing is called pionts. It takes: points, from, to.');
});
