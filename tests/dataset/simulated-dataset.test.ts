import { expect, test } from 'vitest';
import { faultsOfFolder } from '../../scripts/faults/published-folder.ts';
import { writeSimulatedDataset } from '../../scripts/study/dataset/simulated-benches.ts';
import { query, tableSql } from '../../scripts/tools/duckdb.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';
import { contentOf } from './published-files.ts';

test('a dataset of simulated benches is valid, marked as simulated and the same each time', async () => {
  const extent = { benches: 3, burns: 7, withReadings: 1 };
  const [folder, again] = [temporaryFolder(), temporaryFolder()];
  const { readingRows, files } = writeSimulatedDataset(folder, extent);
  writeSimulatedDataset(again, { ...extent, withReadings: 0 });
  expect(contentOf(folder)).toMatchObject(contentOf(again));
  expect(Object.keys(contentOf(folder))).toHaveLength(files);
  expect(await faultsOfFolder(folder)).toEqual([]);
  const counted = await query(
    `SELECT count(*) AS n, count(DISTINCT bench) AS benches, bool_and(simulated) AS simulated FROM ${tableSql('burns')}`,
    folder,
  );
  expect(counted).toEqual([{ n: 7, benches: 3, simulated: true }]);
  expect(await query(`SELECT count(*) AS n FROM ${tableSql('readings')}`, folder)).toEqual([{ n: readingRows }]);
  expect(readingRows).toBeGreaterThan(40_000);
});
