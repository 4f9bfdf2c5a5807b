import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { expect, test } from 'vitest';
import { boardId, burnId, openTestStore, saveBurn } from '../support/temp-store.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';

test.each([40, 150, 400])(
  'a writer killed after %i scans has lost none that it had acknowledged',
  async (scansFirst) => {
    const folder = temporaryFolder();
    const before = openTestStore(folder);
    saveBurn(before);
    before.close();

    const script = join(import.meta.dirname, 'children', 'endless-writer.ts');
    const child = spawn(process.execPath, [script, folder, burnId, boardId], { stdio: ['ignore', 'pipe', 'inherit'] });
    const closed = once(child, 'close');
    let acknowledged = -1;
    for await (const line of createInterface({ input: child.stdout })) {
      acknowledged = Number(line);
      if (acknowledged === scansFirst) child.kill('SIGKILL');
    }
    await closed;

    // Opening checks the whole file and takes the lock that the killed process held.
    const columns = openTestStore(folder).scans.columns(burnId, boardId);
    expect(columns.sequence.length).toBeGreaterThan(acknowledged);
    expect(Array.from(columns.sequence)).toEqual(Array.from(columns.sequence, (_, index) => index));
    expect(Array.from(columns.counts[2]!)).toEqual(Array.from(columns.sequence, (sequence) => sequence + 2));
  },
);
