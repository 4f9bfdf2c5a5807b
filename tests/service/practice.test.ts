import { cpSync } from 'node:fs';
import { join } from 'node:path';
import { expect, onTestFinished, test } from 'vitest';
import { buildApp } from '../../server/app.ts';
import { createRealClock } from '../../server/base/clock.ts';
import { serialPortFactory } from '../../server/bridge/serial-port-factory.ts';
import type { BurnDetail } from '../../shared/contract/burns.ts';
import { openEventSource } from '../support/event-source.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';
import { testService } from '../support/test-service.ts';

/**
 * Starts the service with ports of the system: the board of a practice is a process on a pseudo-terminal where the
 * system has them.
 */
async function bench(folder = temporaryFolder()) {
  const clock = createRealClock();
  const { app, resume } = await buildApp({ folder, pageFolder: temporaryFolder(), clock, ports: serialPortFactory });
  const close = async () => void (await app.close());
  onTestFinished(close);
  resume();
  const address = await app.listen({ host: '127.0.0.1', port: 0 });
  const ask = async (method: string, path: string, body?: object) => {
    const sent = body && { headers: { 'content-type': 'application/json' }, body: JSON.stringify(body) };
    const response = await fetch(`${address}/api${path}`, { method, ...sent });
    const text = await response.text();
    return { status: response.status, body: text === '' ? undefined : JSON.parse(text) };
  };
  const detail = async (id: string): Promise<BurnDetail> => (await ask('GET', `/burns/${id}`)).body;
  return { folder, clock, ask, detail, close, page: await openEventSource(address) };
}

test('a practice waits for its lighting at the chosen speed, responds to feeding, returns the readings of the scales, and leaves nothing behind', async () => {
  const { clock, ask, detail, page } = await bench();
  const begun = await ask('POST', '/practice', { speed: 30 });
  expect(begun).toMatchObject({ status: 201, body: { timeScale: 30 } });
  const id: string = begun.body.burnId;
  const { burn, marks, weighings } = await detail(id);
  expect(burn).toMatchObject({ status: 'running', origin: 'simulated', title: 'Practice, simulated' });
  expect(marks.map(({ mark }) => mark.kind)).toEqual(['fed']);
  expect(weighings.map(({ weighing }) => weighing.of).sort()).toEqual(['fuelPile', 'fuelPile', 'water']);
  const riser = burn.channels.find(({ role }) => role === 'riser')?.id ?? '';
  const reads = (isSo: (tempC: number) => boolean) =>
    page.until('scan', ({ burnId, values }) => burnId === id && isSo(values[riser] ?? Number.NaN));
  // A minute and a half of the stove passes without a fire.
  await page.until('scan', ({ burnId, elapsedUs = 0 }) => burnId === id && elapsedUs > 90e6);
  await reads((tempC) => tempC < 30);
  expect((await ask('POST', '/boards', { path: '/dev/none' })).body.code).toBe('practice/burn-running');
  await ask('POST', `/burns/${id}/marks`, { kind: 'lit' });
  await ask('POST', `/burns/${id}/marks`, { kind: 'fed', massKg: 0.9, fuelLotId: burn.fuelLotIds[0] });
  await reads((tempC) => tempC > 100);
  await ask('POST', `/burns/${id}/marks`, { kind: 'fireOut' });
  const { event } = await page.until('practice', ({ practice }) => practice.scales !== undefined);
  expect(event.practice.scales?.woodKg).toBeCloseTo(10 - 0.9, 6);
  expect(event.practice.scales?.waterKg).toBeGreaterThan(28);
  await ask('PATCH', `/burns/${id}`, { expectedVersion: burn.version, status: 'ended' });
  await page.until('practice', ({ practice }) => practice.timeScale === 1);
  expect(clock.scale).toBe(1);
  expect((await ask('GET', '/boards')).body.boards).toEqual([]);
  // The readings of the scales stay available until they are weighed.
  expect((await ask('GET', '/practice')).body.scales.woodKg).toBeCloseTo(9.1, 6);
  expect((await ask('DELETE', `/burns/${id}`)).status).toBe(204);
  expect((await ask('GET', '/stoves')).body.stoves).toEqual([]);
});

test('stopping the service in the middle of a practice leaves nothing half done', async () => {
  const first = await bench();
  const { burnId } = (await first.ask('POST', '/practice', { speed: 10 })).body;
  await first.page.until('scan', (scan) => scan.burnId === burnId);
  await first.close();
  const second = await bench(first.folder);
  expect((await second.ask('GET', '/burns')).body.burns).toEqual([]);
  expect((await second.ask('GET', '/boards')).body.boards).toEqual([]);
});

test('a practice that was killed is removed at the next start', async () => {
  const first = await bench();
  const { burnId } = (await first.ask('POST', '/practice', { speed: 1 })).body;
  await first.page.until('scan', (scan) => scan.burnId === burnId);
  // The state that a power cut would leave.
  const left = temporaryFolder();
  cpSync(first.folder, left, { recursive: true });
  const second = await bench(left);
  expect((await second.ask('GET', '/burns')).body.burns).toEqual([]);
  expect((await second.ask('GET', '/boards')).body.boards).toEqual([]);
});

test('no practice begins during a running burn, or with a real board', async () => {
  const { call } = await testService();
  const { burn } = (await call('POST', '/api/burns', { title: 'Mine', status: 'running' })).body;
  expect((await call('POST', '/api/practice', { speed: 10 })).body.code).toBe('practice/burn-running');
  await call('PATCH', `/api/burns/${burn.id}`, { expectedVersion: burn.version, status: 'ended' });
  await call('POST', '/api/boards', { path: join('/dev', 'none') });
  expect((await call('POST', '/api/practice', { speed: 10 })).body.code).toBe('practice/board-attached');
  expect((await call('POST', '/api/practice', { speed: 7 })).status).toBe(400);
});
