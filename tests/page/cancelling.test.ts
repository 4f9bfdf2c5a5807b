import { expect } from 'vitest';
import type { Work } from '../../shared/contract/work.ts';
import { test } from '../support/browser.ts';
import { holdWorker } from '../support/held-worker.ts';
import { benchWithPage, saveHeronBurns } from './bench-with-page.ts';
import { expectSound } from './import-files.ts';

test('a comparison of burns not worked out yet says how far it is on every screen, and ends when it is cancelled', async ({
  openPage,
}) => {
  const bench = await benchWithPage();
  const records = await saveHeronBurns(bench, [0, 1, 4, 5]);
  const [before, after] = ['1', '2'].map(
    (name) => records.find(({ revision }) => revision?.label === name)?.revision?.id,
  );
  const page = await openPage(`${bench.url}#/compare/revisions/${before}/${after}`, {
    width: 390,
    expectedErrors: [/503/],
  });
  await holdWorker(
    () => bench.ask<{ work: Work[] }>('GET', '/work'),
    ({ kind, done }) => kind === 'comparing' && done > 0,
  );
  const line = page.locator('.work .banner');
  await line.getByText(/^Comparing burns: [1-3]\sof\s4$/).waitFor();
  const cancel = line.getByRole('button', { name: 'Cancel' });
  const { width = 0, height = 0 } = (await cancel.boundingBox()) ?? {};
  expect(Math.min(width, height)).toBeGreaterThanOrEqual(44);
  await expectSound(page, 'comparing');

  await page.getByRole('link', { name: 'Burns', exact: true }).tap();
  await cancel.tap();
  await page.getByRole('status').getByText('Cancelled. Nothing was changed.').waitFor();
  await line.waitFor({ state: 'detached' });
  expect(await bench.ask('GET', '/work')).toEqual({ work: [] });
});
