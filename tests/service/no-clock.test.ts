import { expect, test } from 'vitest';
import { createFakeClock } from '../support/fake-clock.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';
import { type TestServiceOptions, testService } from '../support/test-service.ts';

// The date at which a single-board computer without a battery starts: in 1970, or that of its system's image.
const WITHOUT = Date.UTC(1970, 0, 1, 0, 2);
const OF_ITS_IMAGE = Date.UTC(2025, 10, 18);
const NOW = Date.UTC(2026, 4, 2, 7, 0, 0);

const start = (options: TestServiceOptions = {}) => testService({ clock: createFakeClock(WITHOUT), ...options });
const newBurn = { title: 'Heron 2', status: 'running' };

test.each([
  ['1970', WITHOUT, 'none'],
  ['the date of its image', OF_ITS_IMAGE, 'none'],
  ['today', NOW, 'machine'],
])('the clock of a machine at %s is recognised as right or not', async (_what, wallMs, clockSource) => {
  const { call } = await start({ clock: createFakeClock(wallMs) });
  expect((await call('GET', '/api/health')).body).toMatchObject({ clockSource });
});

test('a burn begun without a clock keeps its elapsed times, and is dated when a phone offers its time', async () => {
  const clock = createFakeClock(WITHOUT);
  const { call } = await start({ clock });
  const { burn } = (await call('POST', '/api/burns', newBurn)).body;
  expect(burn.clockSource).toBe('none');
  clock.advance(600_000);
  await call('POST', `/api/burns/${burn.id}/marks`, { kind: 'lit' });
  expect((await call('POST', '/api/clock', { utcMs: NOW })).body).toEqual({ serviceUtcMs: NOW, clockSource: 'phone' });
  const detail = (await call('GET', `/api/burns/${burn.id}`)).body;
  expect(detail.burn).toMatchObject({ clockSource: 'phone', startedUtcMs: NOW - 600_000 });
  expect(detail).toMatchObject({ elapsedUs: 600e6, marks: [{ mark: { elapsedUs: 600e6 } }] });
  clock.advance(60_000);
  expect((await call('GET', '/api/health')).body.serviceUtcMs).toBe(NOW + 60_000);
  const next = (await call('POST', '/api/burns', newBurn)).body.burn;
  expect(next).toMatchObject({ clockSource: 'phone', startedUtcMs: NOW + 60_000 });
  expect((await call('GET', `/api/burns/${next.id}/record`)).body.clockSource).toBe('phone');
});

test('when the machine gets the time by itself, it takes precedence over that of a phone, and dates the burn at its end', async () => {
  const clock = createFakeClock(WITHOUT);
  const { call } = await start({ clock });
  const { burn } = (await call('POST', '/api/burns', newBurn)).body;
  clock.advance(300_000);
  clock.stepWall(NOW - clock.wallMs());
  expect((await call('GET', '/api/health')).body).toMatchObject({ clockSource: 'machine', serviceUtcMs: NOW });
  expect((await call('POST', '/api/clock', { utcMs: NOW })).body.code).toBe('clock/not-needed');
  await call('PATCH', `/api/burns/${burn.id}`, { expectedVersion: burn.version, status: 'ended' });
  const ended = (await call('GET', `/api/burns/${burn.id}`)).body.burn;
  expect(ended).toMatchObject({ clockSource: 'machine', startedUtcMs: NOW - 300_000, endedElapsedUs: 300e6 });
});

test('an impossible time is refused', async () => {
  const { call } = await start();
  expect((await call('POST', '/api/clock', { utcMs: WITHOUT })).body.code).toBe('clock/implausible');
  expect((await call('POST', '/api/clock', { utcMs: NOW * 10 })).body.code).toBe('clock/implausible');
  expect((await call('POST', '/api/clock', { utcMs: 'now' })).body.code).toBe('request/invalid');
});

test('a power cut with no clock before or after it does not stretch the burn by half a century', async () => {
  const folder = temporaryFolder();
  const first = await start({ folder });
  const { burn } = (await first.call('POST', '/api/burns', newBurn)).body;
  first.clock.advance(60_000);
  await first.call('POST', `/api/burns/${burn.id}/marks`, { kind: 'lit' });
  await first.close();
  const again = await start({ folder, clock: createFakeClock(NOW) });
  const { elapsedUs } = (await again.call('GET', `/api/burns/${burn.id}`)).body;
  expect(elapsedUs).toBe(61e6);
});
