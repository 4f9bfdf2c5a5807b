/** Checks a published folder after kills during its writing. */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { datasetTables } from '../../shared/dataset/dataset.ts';
import { query, tableSql } from '../tools/duckdb.ts';

/** What is wrong with it, a sentence each; none when every file is complete and no burn is published twice. */
export async function faultsOfFolder(folder: string): Promise<string[]> {
  const faults: string[] = [];
  for (const { name, key } of Object.values(datasetTables)) {
    if (!existsSync(join(folder, name))) continue;
    try {
      const [{ twice } = {}] = await query(
        // The hash reads every column of every row, so that a truncated file is detected.
        `SELECT count(*) - count(DISTINCT (${key.join(', ')})) AS twice, bit_xor(hash(t)) AS hash FROM ${tableSql(name)} AS t`,
        folder,
      );
      if (twice !== 0) faults.push(`${name}: ${twice} keys are there twice`);
    } catch (error) {
      // A folder without a file yet is not an error.
      if (!String(error).includes('No files found')) faults.push(`${name}: ${String(error)}`);
    }
  }
  return faults;
}
