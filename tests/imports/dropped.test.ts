import { Readable } from 'node:stream';
import { expect, test } from 'vitest';
import { createImports } from '../../server/imports/imports.ts';
import { createStagedFiles } from '../../server/imports/staged-files.ts';
import { createWorkUnderWay } from '../../server/live/work-under-way.ts';
import type { Worker, WorkOptions } from '../../server/worker/worker.ts';
import { createFakeClock } from '../support/fake-clock.ts';
import { tempStore, testId } from '../support/temp-store.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';

test('dropping a file cancels the import of it that runs, and nothing of it is saved', async () => {
  const store = tempStore();
  const begun = Promise.withResolvers<AbortSignal>();
  const worker = {
    do: async () => ({ kind: 'burns', items: [] }),
    async stream(_job: unknown, _input: unknown, { signal }: WorkOptions) {
      begun.resolve(signal!);
      return new Promise((_, reject) => signal!.addEventListener('abort', () => reject(signal!.reason)));
    },
  } as unknown as Worker;
  const staged = createStagedFiles(temporaryFolder(), () => testId(1));
  const imports = createImports({ store, clock: createFakeClock(), worker, staged, zone: 'UTC', onChanged: () => {} });
  const work = createWorkUnderWay({ show: () => {} }, () => testId(2)).begin('importing');
  const { id } = await imports.receive({ content: Readable.from(['{}']), bytes: 2, name: 'burn.json' }, work);
  const saved = imports.save(id, {}, work);
  await begun.promise;
  imports.drop(id);
  await expect(saved).rejects.toThrow('worker/cancelled');
  expect(store.documents.list('burn')).toEqual([]);
});
