import { once } from 'node:events';
import { expect, onTestFinished, test } from 'vitest';
import { createIdleThreads } from '../../server/base/idle-threads.ts';

test('a thread without work serves the next who needs one, and no more than two of them wait', async () => {
  const threads = createIdleThreads(new URL('../../server/results/analysis-worker', import.meta.url));
  const [first, second, third] = [threads.take(), threads.take(), threads.take()];
  onTestFinished(async () => void (await Promise.all([first.terminate(), second.terminate()])));
  await Promise.all([first, second, third].map((thread) => once(thread, 'online')));
  for (const thread of [first, second]) threads.giveBack(thread);
  threads.giveBack(third);
  await once(third, 'exit');
  expect(threads.take() === first && threads.take() === second).toBe(true);
});

test('a thread that has ended is not handed on', async () => {
  const threads = createIdleThreads(new URL('../../server/results/analysis-worker', import.meta.url));
  const thread = threads.take();
  threads.giveBack(thread);
  await thread.terminate();
  const next = threads.take();
  onTestFinished(async () => void (await next.terminate()));
  expect(next === thread).toBe(false);
});
