import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { cpSync } from 'node:fs';
import { join } from 'node:path';
import { text } from 'node:stream/consumers';
import { expect, test } from 'vitest';
import { faultsOfFolder } from '../../scripts/faults/published-folder.ts';
import { openStore } from '../../server/store/open-store.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';
import { publisherHere, publishHere } from './publish-here.ts';
import { burnOf, correctWeighing, publishingBench } from './published-bench.ts';
import { contentOf } from './published-files.ts';

const MAY = Date.UTC(2026, 4, 2, 7);
const KILLS = 6;
const child = join(import.meta.dirname, 'children', 'publish-and-die.ts');

async function publishAndDie(data: string, folder: string, at: number) {
  const started = spawn(process.execPath, [child, data, folder, String(at)], { stdio: ['ignore', 'pipe', 'inherit'] });
  const [printed, [code, signal]] = await Promise.all([text(started.stdout), once(started, 'exit')]);
  return { printed, code, signal };
}

test('killed before any operation on a file, a run leaves whole files, and the next completes the dataset', async () => {
  const data = temporaryFolder();
  const bench = await publishingBench([burnOf(1, MAY), burnOf(2, MAY + 1000)], data);
  const folder = temporaryFolder();
  await bench.publish(folder);
  // A correction, a removed burn, and a new one.
  correctWeighing(bench, burnOf(1, MAY).id);
  bench.store.removeBurn(burnOf(2, MAY + 1000).id);
  await bench.save(burnOf(3, Date.UTC(2026, 5, 2)));
  bench.store.close();
  const copies = Array.from({ length: KILLS + 1 }, () => ({ data: temporaryFolder(), folder: temporaryFolder() }));
  for (const copy of copies) {
    cpSync(data, copy.data, { recursive: true });
    cpSync(folder, copy.folder, { recursive: true });
  }
  const [undisturbed, ...killed] = copies;
  const things = Number((await publishAndDie(undisturbed!.data, undisturbed!.folder, 0)).printed);
  expect(things).toBeGreaterThan(40);
  const expected = contentOf(undisturbed!.folder);

  await Promise.all(
    killed.map(async (copy, number) => {
      const at = Math.round(((number + 0.5) * things) / KILLS);
      expect(await publishAndDie(copy.data, copy.folder, at)).toMatchObject({
        printed: '',
        code: null,
        signal: 'SIGKILL',
      });
      expect(await faultsOfFolder(copy.folder)).toEqual([]);
      const store = openStore(copy.data, { nowMs: Date.now });
      await publishHere(publisherHere(store), copy.folder);
      store.close();
      expect(contentOf(copy.folder)).toEqual(expected);
    }),
  );
});
