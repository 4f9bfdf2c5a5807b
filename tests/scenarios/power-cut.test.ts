import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { expect, onTestFinished, test } from 'vitest';
import type { Board } from '../../shared/contract/boards.ts';
import type { BurnRecord } from '../../shared/contract/burn-record.ts';
import type { BurnDetail } from '../../shared/contract/burns.ts';
import { openEventSource } from '../support/event-source.ts';
import { PATIENCE_MS } from '../support/patience.ts';
import { freePort, startService } from '../support/service-process.ts';
import { repositoryRoot, temporaryFolder } from '../support/temporary-folder.ts';

/**
 * The board stores a quarter of an hour of its own time: three minutes for a busy machine to start the service again.
 */
const TIME_SCALE = '5';

/** Starts a simulated board in a process of its own, which a kill of the service does not affect. */
async function boardOfItsOwn(): Promise<string> {
  const link = join(temporaryFolder(), 'board');
  const script = join(repositoryRoot, 'server', 'simulator', 'board-process.ts');
  const child = spawn(process.execPath, [script, '--link', link], {
    env: { PATH: process.env.PATH, STOVEBENCH_TIME_SCALE: TIME_SCALE },
    stdio: ['pipe', 'pipe', 'inherit'],
  });
  onTestFinished(() => void child.kill('SIGKILL'));
  const [line] = await once(createInterface({ input: child.stdout }), 'line');
  expect(JSON.parse(line)).toMatchObject({ event: 'plugged' });
  return link;
}

test('a service killed in the middle of a burn resumes it by itself, and the board sends the missed scans again', async () => {
  const path = await boardOfItsOwn();
  const env = {
    STOVEBENCH_DATA: temporaryFolder(),
    STOVEBENCH_PORT: await freePort(),
    STOVEBENCH_TIME_SCALE: TIME_SCALE,
  };
  const first = startService(env);
  const address = await first.address;
  const ask = async <T>(method: string, to: string, body?: object): Promise<T> => {
    const sent = body && { headers: { 'content-type': 'application/json' }, body: JSON.stringify(body) };
    return (await (await fetch(`${address}/api${to}`, { method, ...sent })).json()) as T;
  };
  const board = await ask<Board>('POST', '/boards', { path });
  const { burn } = await ask<BurnDetail>('POST', '/burns', { title: 'Heron 2', status: 'running' });
  await ask('POST', `/burns/${burn.id}/marks`, { kind: 'lit' });
  const page = await openEventSource(address);
  const seen = await page.until('scan', ({ burnId, elapsedUs = 0 }) => burnId === burn.id && elapsedUs > 5e6);
  first.child.kill('SIGKILL');
  await page.ended;
  expect(await first.ended).toBe(null);

  const second = startService(env);
  await second.address;
  // As a browser does: with the id of the last event of the killed service.
  const again = await openEventSource(address, seen.id);
  const { event } = await again.until('snapshot');
  expect(event.burns).toEqual([expect.objectContaining({ id: burn.id, status: 'running' })]);
  const lastUs = seen.event.elapsedUs!;
  await again.until('scan', ({ burnId, elapsedUs = 0 }) => burnId === burn.id && elapsedUs > lastUs + 5e6);
  const repairs = async () => (await ask<BurnDetail>('GET', `/burns/${burn.id}`)).repairs;
  await expect.poll(repairs, { timeout: PATIENCE_MS }).toEqual([]);

  const { marks, gaps } = await ask<BurnDetail>('GET', `/burns/${burn.id}`);
  expect(marks.map(({ mark }) => mark.kind)).toEqual(['lit']);
  expect(gaps).toEqual([]);
  const { readings } = await ask<BurnRecord>('GET', `/burns/${burn.id}/record`);
  const [own] = readings.filter(({ boardId }) => boardId === board.id);
  const steps = own!.sequence!.slice(1).map((sequence, index) => sequence - own!.sequence![index]!);
  // The board has its last quarter of an hour stored: no scan is missing.
  expect(new Set(steps)).toEqual(new Set([1]));
  expect(second.errors).toEqual([]);
});
