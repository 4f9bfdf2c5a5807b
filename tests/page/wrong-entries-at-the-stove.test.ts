import { expect } from 'vitest';
import type { Board } from '../../shared/contract/boards.ts';
import type { BurnDetail } from '../../shared/contract/burns.ts';
import { test } from '../support/browser.ts';
import { benchWithPage, litBurn, plugInSimulatedBoard, startBurn } from './bench-with-page.ts';
import { patiently } from './patiently.ts';
import { weighSheet } from './weighing.ts';
import { expectRefused, sentences } from './wrong-entries.ts';

test('sheets at the stove refuse impossible entries, show why and log nothing', async ({ openPage }) => {
  const { bench, burn } = await litBurn(20);
  await bench.ask('POST', `/burns/${burn.id}/marks`, { kind: 'fed', massKg: 0.8 });
  const before = (await bench.ask<BurnDetail>('GET', `/burns/${burn.id}`)).marks;
  const page = await openPage(bench.url, { width: 390 });
  const dialog = page.locator('dialog');
  const log = () => dialog.getByRole('button', { name: 'Save', exact: true }).tap();
  const close = () => dialog.getByRole('button', { name: 'Close' }).tap();

  await page.locator('.thumb').getByRole('button', { name: /^Fed/ }).tap();
  const press = async (keys: string) => {
    for (const key of keys) await page.locator('.keypad').getByText(key, { exact: true }).tap();
  };
  expect(await dialog.getByRole('button', { name: 'Type the mass' }).isDisabled()).toBe(true);
  await press('0');
  await dialog.getByText(sentences.notPositive).waitFor();
  await press('96');
  await dialog.getByText('At most 20.00\u00a0kg.').waitFor();
  expect(await dialog.getByRole('button', { name: 'Type the mass' }).isDisabled()).toBe(true);
  await close();

  const other = async (name: string) => {
    await page.getByRole('button', { name: 'Other…' }).tap();
    await page.getByRole('button', { name, exact: true }).tap();
  };
  await other('Taken out');
  await expectRefused(
    dialog,
    {
      Mass: ['0', sentences.notPositive],
      Temperature: ['', sentences.blank],
      'Water carried out with it': ['-1', 'At least 0.00\u00a0kg.'],
    },
    log,
  );
  await expectRefused(
    dialog,
    { Mass: ['250', 'At most 200.00\u00a0kg.'], Temperature: ['1e2', sentences.noNumber] },
    log,
  );
  await close();
  await other('Log pulled out, weighed…');
  await expectRefused(dialog, { Mass: ['heavy', sentences.noNumber] }, log);
  await close();
  await page.getByRole('button', { name: 'Note' }).tap();
  await expectRefused(dialog, { 'What do you want to remember?': ['  ', sentences.text] }, log);
  await close();
  await page.getByRole('button', { name: 'Correct “fed 0.80\u00a0kg”' }).tap();
  await expectRefused(
    dialog,
    { 'Minutes from lighting': ['soon', sentences.noNumber], Mass: ['-2', sentences.notPositive] },
    () => dialog.getByRole('button', { name: 'Save', exact: true }).tap(),
  );
  expect((await bench.ask<BurnDetail>('GET', `/burns/${burn.id}`)).marks).toEqual(before);
});

test('weighing what is left refuses impossible entries, for each way of measuring the water', async ({ openPage }) => {
  const bench = await benchWithPage();
  const { burn } = await startBurn(bench, { vesselId: undefined });
  await bench.ask('PATCH', `/burns/${burn.id}`, { status: 'ended', expectedVersion: burn.version });
  const page = await openPage(`${bench.url}#/burns/${burn.id}/wrap-up`);
  const { group, save } = weighSheet(page);
  await expectRefused(
    page.locator('section:has(#after-title)'),
    { Char: ['-0.1', 'At least 0.00\u00a0kg.'], 'Wood pile': ['600', 'At most 500.00\u00a0kg.'] },
    save,
  );
  await group('Wood pile').getByRole('checkbox', { name: 'in the bucket' }).check();
  await expectRefused(
    page.locator('section:has(#after-title)'),
    { 'Empty bucket': ['a bucket', sentences.noNumber] },
    save,
  );
  const water = group('Water');
  await expectRefused(
    water,
    { Mass: ['27,1 kg', sentences.noNumber], 'Temperature when weighed': ['212', 'At most 110.0\u00a0°C.'] },
    save,
  );
  await water.getByRole('radio', { name: 'As litres' }).check();
  await expectRefused(water, { 'As litres': ['0', sentences.notPositive] }, save);
  await water.getByRole('radio', { name: 'By dipstick' }).check();
  await expectRefused(
    water,
    { Depth: ['265', 'The inner diameter of the pot must be known: enter it under Stoves.'] },
    save,
  );
  expect((await bench.ask<BurnDetail>('GET', `/burns/${burn.id}`)).weighings).toEqual([]);
});

test('a probe and its calibration points are not saved with impossible entries', async ({ openPage }) => {
  const bench = await benchWithPage();
  const board = await plugInSimulatedBoard(bench, 30);
  const page = await openPage(`${bench.url}#/rig`, { width: 390 });
  const probes = async () =>
    (await bench.ask<{ boards: Board[] }>('GET', '/boards')).boards[0]?.channels.map(({ name, calibration }) => ({
      name,
      calibration,
    }));
  await patiently(async () => (await probes())?.length).toBe(board.channels.length);
  const before = await probes();
  await page.locator('.channel-name').first().tap();
  const dialog = page.locator('dialog');
  const [uncertainty = '', step = '', lag = ''] = await dialog.locator('.field:has(.unit) label').allTextContents();
  await expectRefused(
    dialog,
    {
      Name: ['', sentences.text],
      [uncertainty]: ['0', sentences.notPositive],
      [step]: ['0', sentences.notPositive],
      [lag]: ['-4', sentences.notPositive],
    },
    () => dialog.getByRole('button', { name: 'Save', exact: true }).tap(),
  );
  await page.getByRole('button', { name: 'Ice point' }).tap();
  await expectRefused(dialog, { 'True value here': ['zero', sentences.noNumber] }, async () => undefined);
  expect(await page.getByRole('button', { name: 'Take this point' }).isDisabled()).toBe(true);
  expect(await probes()).toEqual(before);
});
