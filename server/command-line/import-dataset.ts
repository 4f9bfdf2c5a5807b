import { statSync } from 'node:fs';
import type { ImportOutcome, ImportPreview, SaveImport } from '../../shared/contract/imports.ts';
import { AppError } from '../base/app-error.ts';
import { printProgress, word } from '../base/command-options.ts';
import { publishedRecords } from '../dataset/read-back.ts';
import { canonicalJson } from '../exports/canonical-json.ts';
import { answered, type Client } from './client.ts';
import { saveImport } from './save-import.ts';

/** Whether the path to be imported is a folder; a missing file is reported when it is read. */
export function isFolder(path: string): boolean {
  return statSync(path, { throwIfNoEntry: false })?.isDirectory() ?? false;
}

/**
 * Imports every burn published in a folder, one after another: a new bench then has all of them again.
 * @throws AppError dataset/no-burns, and any error of an invalid record; the burns before it are imported then
 */
export async function importDataset(
  client: Client,
  folder: string,
  how: Pick<SaveImport, 'otherwise'>,
): Promise<ImportOutcome> {
  const outcome: ImportOutcome = { burns: [], created: [], changed: [] };
  for await (const record of publishedRecords(folder)) {
    const name = encodeURIComponent(`${record.id}.json`);
    const bytes = Buffer.from(canonicalJson(record));
    const { id } = await answered<ImportPreview>(client.request('POST', `/api/imports?name=${name}`, { bytes }));
    const { burns, created, changed } = await saveImport(client, id, how);
    outcome.burns.push(...burns);
    outcome.created.push(...created);
    outcome.changed.push(...changed);
    printProgress(word('importing', { done: outcome.burns.length }));
  }
  if (outcome.burns.length === 0) throw new AppError('dataset/no-burns', { folder });
  return outcome;
}
