import type { Locator, Page } from 'playwright-core';
import { expect, onTestFinished } from 'vitest';
import { openPseudoTerminal } from '../../server/simulator/pseudo-terminal.ts';
import type { BurnDetail } from '../../shared/contract/burns.ts';
import { test } from '../support/browser.ts';
import { benchWithPage, fillInventory, litBurn, plugInSimulatedBoard } from './bench-with-page.ts';
import { patiently } from './patiently.ts';

const dialog = (page: Page): Locator => page.locator('dialog');

test('a phone that reloads in the middle of a sheet reopens it with everything typed', async ({ openPage }) => {
  const { bench, marks } = await litBurn(20);
  const page = await openPage(bench.url, { width: 390 });

  await page.locator('.thumb').getByRole('button', { name: /^Fed/ }).tap();
  for (const key of ['1', '.', '2']) await page.locator('.keypad').getByText(key, { exact: true }).tap();
  await page.getByRole('radio', { name: '5 min ago' }).check();
  await page.reload();
  await dialog(page).waitFor();
  expect(await page.getByRole('radio', { name: '5 min ago' }).isChecked()).toBe(true);
  await page.locator('.keypad').getByText('7', { exact: true }).tap();
  await page.getByRole('button', { name: 'Save 1.27\u00a0kg' }).tap();
  await patiently(marks).toContainEqual(expect.objectContaining({ kind: 'fed', massKg: 1.27 }));
  // After logging, the next sheet starts empty.
  await page.locator('.thumb').getByRole('button', { name: /^Fed/ }).tap();
  expect(await page.locator('.feed-mass').textContent()).toContain('0.00');
  await page.getByRole('button', { name: 'Close' }).tap();
  await page.reload();
  await page.locator('.number .figure').waitFor();
  expect(await dialog(page).count()).toBe(0);

  await page.getByRole('button', { name: 'Other…' }).tap();
  await page.getByRole('button', { name: 'Water in', exact: true }).tap();
  await dialog(page).getByLabel('Mass').fill('2,5');
  await page.reload();
  await dialog(page).getByLabel('Temperature').fill('15');
  expect(await dialog(page).getByLabel('Mass').inputValue()).toBe('2,5');
  await page.getByRole('button', { name: 'Save', exact: true }).tap();
  await patiently(async () => (await marks()).find(({ kind }) => kind === 'waterIn')).toMatchObject({ massKg: 2.5 });

  await page.getByRole('button', { name: 'Note' }).tap();
  await dialog(page).getByLabel('What do you want to remember?').fill('smoke from the left');
  await page.reload();
  await page.getByRole('button', { name: 'Save', exact: true }).tap();
  await page.locator('.log').getByText('smoke from the left').waitFor();

  await page.getByRole('button', { name: 'Correct “fed 1.27\u00a0kg”' }).tap();
  await dialog(page).getByLabel('Mass').fill('1.72');
  await page.reload();
  await dialog(page).waitFor();
  expect(await dialog(page).getByLabel('Mass').inputValue()).toBe('1.72');
  await dialog(page).getByRole('button', { name: 'Save', exact: true }).tap();
  await page.locator('.log').getByText('fed 1.72').waitFor();
});

test('a reload on the screen Probes preserves a half-described probe, a calibration point and mapped columns', async ({
  openPage,
}) => {
  const terminal = await openPseudoTerminal();
  if (!terminal.available) throw new Error(terminal.reason);
  let printed = 0;
  const printing = setInterval(() => {
    printed += 1;
    terminal.write(`${printed * 250};21,4;98,6 °C\r\n`);
  }, 100);
  onTestFinished(async () => {
    clearInterval(printing);
    await terminal.unplug();
  });
  const bench = await benchWithPage();
  const board = await plugInSimulatedBoard(bench, 30);
  const shade = board.channels.find(({ role }) => role === 'ambient');
  const page = await openPage(`${bench.url}#/rig`);
  await page.getByRole('button', { name: `Set up ${shade?.name}` }).click();
  await dialog(page).getByLabel('Name', { exact: true }).fill('shade, north');
  await page.getByRole('button', { name: 'Ice point' }).click();
  await page.getByLabel('True value here').fill('10');
  await page.reload();
  await page.getByText('steady', { exact: true }).waitFor();
  expect(await page.getByLabel('True value here').inputValue()).toBe('10');
  await page.getByRole('button', { name: 'Take this point' }).click();
  await page.getByRole('button', { name: 'Use this calibration' }).waitFor();
  await page.reload();
  await page.getByRole('button', { name: 'Use this calibration' }).waitFor();
  expect(await dialog(page).getByLabel('Name', { exact: true }).inputValue()).toBe('shade, north');
  await dialog(page).getByRole('button', { name: 'Close' }).click();

  await page.getByLabel('Path of the port').fill(terminal.path);
  await page.getByLabel('This board only prints numbers').check();
  await page.getByRole('button', { name: 'Look at its lines' }).click();
  await page.getByLabel('Column 2').selectOption({ label: 'temperature, °C' });
  await page.locator('.raw-lines th').nth(1).getByLabel('Name').fill('pot low');
  await page.reload();
  await page.getByText('columns become probes').or(page.getByText('column becomes a probe')).first().waitFor();
  await page.getByRole('button', { name: 'Attach', exact: true }).click();
  await page.getByRole('button', { name: 'Set up pot low' }).waitFor();
});

test('a reload preserves a description, a sheet within a form included, and why a burn is set aside', async ({
  openPage,
}) => {
  const bench = await benchWithPage();
  await fillInventory(bench);
  const page = await openPage(`${bench.url}#/new`, { width: 390 });
  await page.getByLabel('Water in the pot').fill('29,5');
  await page.getByRole('button', { name: 'Add a revision' }).tap();
  await dialog(page).getByLabel('Short name, as said aloud').fill('3');
  await dialog(page).getByLabel('What', { exact: true }).fill('riser height');
  await dialog(page).getByRole('button', { name: 'Add a length' }).tap();
  await dialog(page).getByLabel('riser height').fill('66,5');
  await dialog(page)
    .getByLabel('Take or choose a photo')
    .setInputFiles({ name: 'yard.png', mimeType: 'image/png', buffer: await page.screenshot() });
  await dialog(page).locator('.photo img').waitFor();
  await page.reload();
  await dialog(page).locator('.photo img').waitFor();
  expect(await dialog(page).getByLabel('riser height').inputValue()).toBe('66,5');
  await dialog(page).getByRole('button', { name: 'Save', exact: true }).tap();
  await dialog(page).waitFor({ state: 'detached' });
  expect(await page.getByLabel('Water in the pot').inputValue()).toBe('29,5');
  const { revisions } = await bench.ask<{ revisions: { label: string }[] }>('GET', '/revisions');
  expect(revisions.find(({ label }) => label === '3')).toMatchObject({ dimensionsM: { 'riser height': 0.665 } });

  const { burn } = await bench.ask<BurnDetail>('POST', '/burns', { status: 'running', target: { kind: 'boil' } });
  await bench.ask('PATCH', `/burns/${burn.id}`, { status: 'ended', expectedVersion: burn.version });
  await page.goto(`${bench.url}#/burns/${burn.id}`);
  await page.getByRole('button', { name: 'Don’t count this burn' }).tap();
  await dialog(page).getByRole('button', { name: 'Don’t count this burn' }).tap();
  await dialog(page).getByText('Write something here.').waitFor();
  await dialog(page).getByLabel('Why does this burn not count?').fill('the probe came loose');
  await page.reload();
  await dialog(page).getByRole('button', { name: 'Don’t count this burn' }).tap();
  await page.getByText('Not counted: the probe came loose').waitFor();
});
