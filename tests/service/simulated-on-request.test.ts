import { join } from 'node:path';
import { expect, onTestFinished, test } from 'vitest';
import { buildApp } from '../../server/app.ts';
import { createRealClock } from '../../server/base/clock.ts';
import { serialPortFactory } from '../../server/bridge/serial-port-factory.ts';
import { openEventSource } from '../support/event-source.ts';
import { PATIENCE_MS } from '../support/patience.ts';
import { freePort, startService } from '../support/service-process.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';
import { testService } from '../support/test-service.ts';

const timeScale = 60;

/** Functions to send requests to the service at an address. */
function asking(address: string) {
  const ask = async (method: string, path: string, body?: object) => {
    const sent = body && { headers: { 'content-type': 'application/json' }, body: JSON.stringify(body) };
    const response = await fetch(`${address}/api${path}`, { method, ...sent });
    const text = await response.text();
    return { status: response.status, body: text === '' ? undefined : JSON.parse(text) };
  };
  /** Waits for the only board to send its hello, and returns it. */
  const liveBoard = async () => {
    const only = async () => (await ask('GET', '/boards')).body.boards[0];
    await expect.poll(async () => (await only())?.state, { timeout: PATIENCE_MS }).toBe('live');
    return only();
  };
  return { address, ask, liveBoard };
}

/** Starts the service as a person does. */
async function startedService(folder: string) {
  const env = {
    STOVEBENCH_DATA: folder,
    STOVEBENCH_PORT: await freePort(),
    STOVEBENCH_TIME_SCALE: String(timeScale),
  };
  const service = startService(env);
  return { ...service, ...asking(await service.address) };
}

/**
 * Starts the same service inside the test, since starting a process takes a second. Its boards are still processes and
 * ports of the system.
 */
async function serviceHere(folder = temporaryFolder()) {
  const { app, resume } = await buildApp({
    folder,
    pageFolder: temporaryFolder(),
    clock: createRealClock(timeScale),
    ports: serialPortFactory,
  });
  const close = async () => void (await app.close());
  onTestFinished(close);
  resume();
  return { ...asking(await app.listen({ host: '127.0.0.1', port: 0 })), folder, close };
}

test('a simulated board is started on request, recorded like any other, and removed again', async () => {
  const { address, ask, folder, liveBoard } = await serviceHere();
  expect((await ask('GET', '/health')).body.simulatorAvailable).toBe(true);
  const page = await openEventSource(address);
  expect((await ask('POST', '/simulated-board')).status).toBe(201);
  const on = await liveBoard();
  expect(on.simulated).toBe(true);
  expect((await ask('POST', '/simulated-board')).body.id).toBe(on.id);
  const { burn } = (await ask('POST', '/burns', { title: 'Trying out', status: 'running' })).body;
  expect(burn.origin).toBe('simulated');
  await page.until('scan', ({ burnId, values }) => burnId === burn.id && Object.keys(values).length > 0);
  expect((await ask('DELETE', '/simulated-board')).body.code).toBe('simulator/burn-running');
  await ask('PATCH', `/burns/${burn.id}`, { expectedVersion: burn.version, status: 'ended' });
  expect((await ask('DELETE', '/simulated-board')).status).toBe(204);
  await page.until('boardGone', ({ boardId }) => boardId === on.id);
  expect((await ask('GET', '/boards')).body.boards).toEqual([]);
  // It can be started again, also after it was detached like any other board.
  await ask('POST', '/simulated-board');
  const again = await liveBoard();
  expect(again.path).toBe(join(folder, 'simulated-board'));
  expect((await ask('DELETE', `/boards/${again.id}`)).status).toBe(204);
  await ask('POST', '/simulated-board');
  await liveBoard();
});

test('a simulated board is started again after a restart, until it is removed', async () => {
  const folder = temporaryFolder();
  const first = await startedService(folder);
  await first.ask('POST', '/simulated-board');
  const board = await first.liveBoard();
  first.child.kill('SIGTERM');
  expect(await first.ended).toBe(0);
  const second = await serviceHere(folder);
  const page = await openEventSource(second.address);
  await page.until('scan', ({ boardId }) => boardId === board.id);
  await second.ask('DELETE', '/simulated-board');
  await second.close();
  const third = await serviceHere(folder);
  expect((await third.ask('GET', '/boards')).body.boards).toEqual([]);
});

test('the eight sample burns are made on request, labelled, and removed with the things that nothing else refers to', async () => {
  const { call } = await testService();
  expect((await call('GET', '/api/samples')).body).toEqual({ kept: 0, of: 8 });
  const [first, second] = await Promise.all([call('POST', '/api/samples'), call('POST', '/api/samples')]);
  expect([first.body, second.body]).toEqual([first.body, { kept: 8, of: 8 }]);
  const { burns } = (await call('GET', '/api/burns')).body;
  expect(burns.map(({ origin }: { origin: string }) => origin)).toEqual(Array(8).fill('simulated'));
  const [vessel] = (await call('GET', '/api/vessels')).body.vessels;
  const mine = (await call('POST', '/api/burns', { title: 'Mine', vesselId: vessel.id })).body.burn;
  expect((await call('DELETE', '/api/samples')).status).toBe(204);
  expect((await call('GET', '/api/burns')).body.burns.map(({ id }: { id: string }) => id)).toEqual([mine.id]);
  expect((await call('GET', '/api/vessels')).body.vessels).toHaveLength(1);
  for (const kind of ['stoves', 'revisions', 'places', 'scales']) {
    expect((await call('GET', `/api/${kind}`)).body[kind], kind).toEqual([]);
  }
  expect((await call('POST', '/api/samples')).body.kept).toBe(8);
  expect((await call('GET', '/api/stoves')).body.stoves).toHaveLength(1);
});

test('the demonstration, which has both already, reports that', async () => {
  const { call } = await testService({ demo: true });
  expect((await call('GET', '/api/health')).body.simulatorAvailable).toBe(false);
  expect((await call('POST', '/api/simulated-board')).body.code).toBe('simulator/not-in-demo');
  expect((await call('DELETE', '/api/samples')).body.code).toBe('simulator/not-in-demo');
});
