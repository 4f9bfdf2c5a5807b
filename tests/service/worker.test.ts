import { expect, onTestFinished, test } from 'vitest';
import { createWorker } from '../../server/worker/worker.ts';
import { createWorkerHost } from '../../server/worker/worker-host.ts';
import { echo, grow, hang, numbers, slow } from './children/trial-jobs.ts';

const MB = 1024 ** 2;

function trial() {
  const host = createWorkerHost({
    script: new URL('./children/trial-worker', import.meta.url),
    mostBytes: () => 300 * MB,
    heapMb: 100,
    idleMs: 60_000,
  });
  const worker = createWorker(host);
  onTestFinished(async () => {
    await worker.close();
    const processId = host.processId();
    if (processId !== undefined) process.kill(processId, 'SIGKILL');
  });
  return { host, worker };
}

/** Resolves once the work has begun. */
function begun(worker: ReturnType<typeof createWorker>, signal?: AbortSignal) {
  const { promise, resolve } = Promise.withResolvers<void>();
  const work = worker.do(slow, null, { signal, onProgress: () => resolve() });
  // Its end is looked at where the test says so.
  work.catch(() => {});
  return { work, started: promise };
}

test('a process that dies in the middle of a work is told in a sentence, and the next work has a new one', async () => {
  const { host, worker } = trial();
  const { work, started } = begun(worker);
  await started;
  const first = host.processId()!;
  process.kill(first, 'SIGKILL');
  await expect(work).rejects.toThrow('worker/ended');
  expect((await worker.do(echo, 'next')).processId).not.toBe(first);
});

test('who looks at a burn while somebody else kills the process has the answer all the same', async () => {
  const { host, worker } = trial();
  const { processId } = await worker.do(echo, 'first');
  const look = worker.do(echo, 'second');
  process.kill(processId, 'SIGKILL');
  expect((await look).order.at(-1)).toBe('second');
  expect(host.processId()).toBeDefined();
});

test('a file that takes more memory than is lent is refused in a sentence, and short work goes on', async () => {
  const { worker } = trial();
  const refused = expect(worker.do(grow, null)).rejects.toThrow('worker/memory');
  const look = await worker.do(echo, 'looked at meanwhile');
  await refused;
  expect(look.order).toContain('looked at meanwhile');
  expect((await worker.do(echo, 'after')).order).toEqual(['after']);
});

test('a file that would be read for ever stops when nobody waits for it, and what others do is not disturbed', async () => {
  const { worker } = trial();
  const { head: processId, pieces } = await worker.stream(numbers, 10);
  const abandon = new AbortController();
  const file = worker.do(hang, null, { signal: abandon.signal });
  // The queue of files waits for it, that of others does not.
  const { processId: same } = await worker.do(echo, 'meanwhile');
  abandon.abort();
  await expect(file).rejects.toThrow('worker/cancelled');
  const seen: number[] = [];
  for await (const number of pieces) seen.push(number as number);
  expect([seen.length, processId]).toEqual([10, same]);
});

test('short work passes long work that is waiting, and waiting work that is cancelled is never begun', async () => {
  const { worker } = trial();
  const abandon = new AbortController();
  await begun(worker, abandon.signal).started;
  const gone = new AbortController();
  const waiting = worker.do(slow, null, { signal: gone.signal });
  gone.abort();
  await expect(waiting).rejects.toThrow('worker/cancelled');
  const last = worker.do(echo, 'long', { queue: 'long' });
  expect((await worker.do(echo, 'short')).order).toEqual(['short']);
  abandon.abort();
  expect((await last).order).toEqual(['short', 'long']);
});

test('what nobody waits for begins when there has been nothing else to do for a while', async () => {
  const { worker } = trial();
  await worker.do(echo, 'first');
  const unasked = worker.do(echo, 'unasked', { queue: 'idle' });
  for (const name of ['second', 'third']) await worker.do(echo, name, { queue: 'long' });
  expect((await unasked).order).toEqual(['first', 'second', 'third', 'unasked']);
});

test('a stream is made at the pace of its reader, and a reader that goes away ends it', async () => {
  const { worker } = trial();
  const { pieces } = await worker.stream(numbers, 1e9);
  for await (const number of pieces) if (number === 1000) break;
  expect(pieces.destroyed).toBe(true);
  expect((await worker.do(echo, 'free', { queue: 'long' })).order).toEqual(['free']);
});

test('work that comes after closing is refused', async () => {
  const { worker } = trial();
  const { work, started } = begun(worker);
  await started;
  await worker.close();
  await expect(work).rejects.toThrow('request/closing');
  await expect(worker.do(echo, 'late')).rejects.toThrow('request/closing');
});
