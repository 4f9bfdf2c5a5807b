/** The worker process of this test's own program held in the middle of its work, so that the end of it can be waited for. */
import { readFileSync } from 'node:fs';
import { onTestFinished, vi } from 'vitest';
import type { Work } from '../../shared/contract/work.ts';
import { PATIENCE_MS } from './patience.ts';

/** Stops the process once a work is as far as it has to be. */
export async function holdWorker(
  underWay: () => Promise<{ work: Work[] }>,
  isFar: (work: Work) => boolean,
): Promise<Work> {
  const work = await vi.waitFor(
    async () => {
      const found = (await underWay()).work.find(isFar);
      if (!found) throw new Error('The work is not as far yet.');
      return found;
    },
    { timeout: PATIENCE_MS, interval: 5 },
  );
  const children = readFileSync(`/proc/self/task/${process.pid}/children`, 'latin1').trim().split(' ').map(Number);
  const held = children.filter((id) => readFileSync(`/proc/${id}/cmdline`, 'latin1').includes('worker-process'));
  for (const id of held) process.kill(id, 'SIGSTOP');
  onTestFinished(() => {
    for (const id of held) {
      try {
        process.kill(id, 'SIGCONT');
      } catch {
        // It was ended with its work.
      }
    }
  });
  return work;
}
