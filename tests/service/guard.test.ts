import { expect, test } from 'vitest';
import { testService } from '../support/test-service.ts';

test.each([
  ['another name that was pointed at this machine', { host: 'evil.example' }, 403, 'request/host-refused'],
  ['a name that only begins like ours', { host: 'localhost.evil.example' }, 403, 'request/host-refused'],
  ['an address of the network', { host: '192.168.1.7:4280' }, 403, 'request/host-refused'],
  ['a page of another site', { origin: 'https://evil.example' }, 403, 'request/origin-refused'],
  ['a page of nowhere', { origin: 'null' }, 403, 'request/origin-refused'],
  [
    'another program on this machine',
    { host: 'localhost:4280', origin: 'http://localhost:9999' },
    403,
    'request/origin-refused',
  ],
  ['a form sent from elsewhere', { 'sec-fetch-site': 'cross-site' }, 403, 'request/origin-refused'],
])('a request from %s is refused', async (_who, headers, status, code) => {
  const { call } = await testService();
  expect(await call('POST', '/api/stoves', { name: 'Heron' }, headers)).toMatchObject({ status, body: { code } });
  expect((await call('GET', '/api/stoves')).body.stoves).toEqual([]);
});

test.each(['localhost:4280', '127.0.0.1:4280', '[::1]:4280', '127.0.0.2:4280', 'LOCALHOST'])(
  'the page is served as %s',
  async (host) => {
    const { call } = await testService();
    const own = { host, origin: `http://${host}`, 'sec-fetch-site': 'same-origin' };
    expect((await call('POST', '/api/stoves', { name: 'Heron' }, own)).status).toBe(201);
  },
);

test('requests for data from another site are refused too, while a link from there may open the page', async () => {
  const { call } = await testService();
  const foreign = { 'sec-fetch-site': 'cross-site' };
  expect((await call('GET', '/api/burns', undefined, foreign)).status).toBe(403);
  expect((await call('GET', '/', undefined, foreign)).body.code).toBe('page/not-built');
});

test('every answer forbids scripts, frames and sniffing, errors included', async () => {
  const { call } = await testService();
  for (const path of ['/api/health', '/api/kettles', '/']) {
    const { headers } = await call('GET', path);
    expect(headers['content-security-policy'], path).toContain("default-src 'none'");
    expect(headers['content-security-policy'], path).toContain("frame-ancestors 'none'");
    expect(headers['content-security-policy'], path).not.toContain('unsafe');
    expect(headers['x-content-type-options'], path).toBe('nosniff');
  }
});
