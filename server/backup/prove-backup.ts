/** What is in the copy of a bench, with the checksums by which it is known again: it is opened once and every burn read. */
import { rmSync } from 'node:fs';
import { join } from 'node:path';
import { compute } from '../results/compute.ts';
import { createResults } from '../results/results.ts';
import { CLOSED, LOCK, NOTE } from '../store/data-folder.ts';
import { openStore } from '../store/open-store.ts';
import type { JobContext } from '../worker/job.ts';
import { type BackupList, dataFiles, describeFile } from './backup-folder.ts';
import type { ProveInput } from './backup-jobs.ts';
import { proveBurn } from './burn-proof.ts';

/** @throws AppError store/damaged */
export async function proveBackup(
  { folder, nowMs, version }: ProveInput,
  { signal, progress }: Pick<JobContext, 'signal' | 'progress'>,
): Promise<BackupList> {
  const copy = openStore(folder, { nowMs: () => nowMs });
  const burns: BackupList['burns'] = [];
  try {
    const results = createResults(copy, { do: (input) => compute(copy, input) });
    const stored = copy.documents.list('burn').filter(({ withdrawn }) => !withdrawn);
    for (const { id, body } of stored) {
      signal.throwIfAborted();
      const analysis = body.status === 'running' ? undefined : await results.analysis(id);
      burns.push(await proveBurn(copy, id, analysis));
      progress(burns.length, stored.length);
    }
  } finally {
    copy.close();
  }
  for (const name of [LOCK, NOTE, CLOSED]) rmSync(join(folder, name), { force: true });
  const files: BackupList['files'] = [];
  for (const path of dataFiles(folder)) files.push(await describeFile(folder, path));
  return { format: 'stovebench-backup', version: 1, software: version, madeAtUtcMs: nowMs, files, burns };
}
