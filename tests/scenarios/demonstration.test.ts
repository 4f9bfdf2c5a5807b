import { existsSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, onTestFinished, test } from 'vitest';
import { saveFinishedBurns } from '../../scripts/demo/finished-burns.ts';
import { runBurns } from '../../scripts/demo/run-burns.ts';
import { buildApp } from '../../server/app.ts';
import { createRealClock } from '../../server/base/clock.ts';
import { serialPortFactory } from '../../server/bridge/serial-port-factory.ts';
import { portsWithCables, switchOnBoard } from '../../server/simulator/start-board.ts';
import { openStore } from '../../server/store/open-store.ts';
import type { BurnDetail } from '../../shared/contract/burns.ts';
import { openEventSource } from '../support/event-source.ts';
import { PATIENCE_MS } from '../support/patience.ts';
import { freePort, startService } from '../support/service-process.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';

const script = join('scripts', 'demo.ts');

async function demonstrate(folder: string, args: readonly string[] = []) {
  const env = { STOVEBENCH_DATA: folder, STOVEBENCH_PORT: await freePort(), STOVEBENCH_TIME_SCALE: '120' };
  return startService(env, script, args);
}

test('the demonstration has eight finished burns and a running one, and can be removed', async () => {
  const folder = join(temporaryFolder(), 'demo');
  const demo = await demonstrate(folder);
  const address = await demo.address;
  expect(demo.printed.at(-1)).toBe(address);
  expect(await (await fetch(`${address}/api/health`)).json()).toMatchObject({ demo: true, timeScale: 120 });

  const page = await openEventSource(address);
  const { event } = await page.until('snapshot');
  const statuses = event.burns.map(({ status, origin }) => [status, origin].join(' '));
  expect(statuses.filter((each) => each === 'complete simulated')).toHaveLength(7);
  expect(statuses.filter((each) => each === 'setAside simulated')).toHaveLength(1);
  expect(statuses[0]).toBe('running simulated');
  expect(event.boards).toEqual([expect.objectContaining({ simulated: true, state: 'live' })]);
  // The simulated person lights the fire and feeds it, during or before this test.
  const kinds = async () => {
    const { marks } = (await (await fetch(`${address}/api/burns/${event.burns[0]?.id}`)).json()) as BurnDetail;
    return marks.map(({ mark }) => mark.kind);
  };
  await expect.poll(kinds, { timeout: PATIENCE_MS }).toEqual(expect.arrayContaining(['lit', 'fed']));
  await page.until('estimate', ({ estimate }) => (estimate.waterTempC ?? 0) > 15);

  const removing = await demonstrate(folder, ['--remove']);
  expect(await removing.ended).toBe(1);
  expect(removing.errors.at(-1)).toContain('is already using');
  demo.child.kill('SIGINT');
  expect(await demo.ended).toBe(0);
  const store = openStore(folder, { nowMs: Date.now });
  const left = store.documents.list('burn').filter(({ withdrawn }) => !withdrawn);
  store.close();
  expect(left.map(({ body }) => body.status).sort()).toEqual([...Array(7).fill('complete'), 'setAside']);

  expect(await (await demonstrate(folder, ['--remove'])).ended).toBe(0);
  expect(existsSync(folder)).toBe(false);
});

test('the demonstration does not change a folder that it did not make', async () => {
  const folder = temporaryFolder();
  writeFileSync(join(folder, 'stovebench.db'), '');
  for (const args of [[], ['--fresh'], ['--remove']]) {
    const demo = await demonstrate(folder, args);
    expect(await demo.ended).toBe(1);
    expect(demo.errors.at(-1)).toContain('holds data that the demonstration did not make');
  }
  expect(existsSync(join(folder, 'stovebench.db'))).toBe(true);
});

test('an unknown option of the demonstration is reported', async () => {
  const demo = await demonstrate(temporaryFolder(), ['--fast']);
  expect(await demo.ended).toBe(1);
  expect(demo.errors.at(-1)).toContain('does not know "--fast"');
});

test('when a burn of the demonstration ends, the next one begins on a cold stove, and is removed when it is stopped', async () => {
  // Three hours in six seconds.
  const clock = createRealClock(2000);
  const ports = portsWithCables(serialPortFactory);
  const folder = temporaryFolder();
  const { app, store } = await buildApp({
    folder,
    pageFolder: temporaryFolder(),
    clock,
    ports: ports.factory,
    demo: true,
  });
  onTestFinished(async () => void (await app.close()));
  await saveFinishedBurns(store, () => {});
  const address = await app.listen({ host: '127.0.0.1', port: 0 });
  const page = await openEventSource(address);
  const link = join(folder, 'simulated-board');
  const burns = runBurns({
    address,
    clock,
    restMs: 0,
    switchOn: (options) => switchOnBoard({ ...options, link, clock }, ports.plug),
  });
  const { event: first } = await page.until('burn', ({ burn }) => burn.status === 'running');
  await page.until('burn', ({ burn }) => burn.id === first.burn.id && burn.status === 'complete');
  const { event: second } = await page.until('burn', ({ burn }) => burn.id !== first.burn.id);
  const begun = await page.until(
    'estimate',
    ({ estimate }) => estimate.burnId === second.burn.id && estimate.waterTempC !== undefined,
  );
  expect(begun.event.estimate.waterTempC).toBeLessThan(60);
  await burns.stop();
  const kept = store.documents.list('burn').filter(({ withdrawn }) => !withdrawn);
  expect(kept.map(({ body }) => body.status).sort()).toEqual([...Array(8).fill('complete'), 'setAside']);
});
