import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { expect } from 'vitest';
import { query, tableSql } from '../../scripts/tools/duckdb.ts';
import { test } from '../support/browser.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';
import { benchWithHeron } from './bench-with-page.ts';
import { expectSound } from './import-files.ts';

test('the burns are published into a folder from the settings, and a missing folder is refused there', async ({
  openPage,
}) => {
  const { bench, records } = await benchWithHeron([4, 5]);
  const page = await openPage(`${bench.url}#/settings`, { width: 390 });
  const folder = page.getByLabel('Folder on the bench machine');
  expect(await folder.inputValue()).toBe(join(bench.folder, 'dataset'));
  const chosen = temporaryFolder();
  await folder.fill(join(chosen, 'no', 'disk'));
  await page.getByRole('button', { name: 'Publish' }).tap();
  await page.getByText('See that the disk or the share is there').waitFor();
  await expectSound(page, 'refused');

  await folder.fill(chosen);
  await page.getByLabel('Name of this bench').fill('Dye workshop');
  await page.getByRole('button', { name: 'Publish' }).tap();
  await page.getByText('Published: 2 burns').waitFor();
  await expectSound(page, 'published');
  const burns = await query(`SELECT burn, bench_name FROM ${tableSql('burns')} ORDER BY burn`, chosen);
  expect(burns).toEqual(records.map(({ id }) => ({ burn: id, bench_name: 'Dye workshop' })));
  expect(existsSync(join(bench.folder, 'dataset'))).toBe(false);

  await page.getByRole('button', { name: 'Publish' }).tap();
  await page.getByText('All is there already: 2 burns').waitFor();
  await page.reload();
  await page.getByRole('heading', { name: 'Publish the burns' }).waitFor();
  expect([await folder.inputValue(), await page.getByLabel('Name of this bench').inputValue()]).toEqual([
    chosen,
    'Dye workshop',
  ]);
});
