import { expect, onTestFinished } from 'vitest';
import { openPseudoTerminal } from '../../server/simulator/pseudo-terminal.ts';
import type { Board } from '../../shared/contract/boards.ts';
import { test } from '../support/browser.ts';
import { complaints, overflow } from './accessible.ts';
import { benchWithPage, plugInSimulatedBoard } from './bench-with-page.ts';
import { patiently } from './patiently.ts';

async function boardsOf(bench: { ask<T>(method: string, path: string): Promise<T> }): Promise<Board[]> {
  return (await bench.ask<{ boards: Board[] }>('GET', '/boards')).boards;
}

test('a board plugged in appears with its live values; a probe gets its position and its name', async ({
  openPage,
}) => {
  const bench = await benchWithPage();
  const page = await openPage(`${bench.url}#/rig`, { width: 390 });
  await page.getByText('No board is attached.').waitFor();
  // The service serves the build guide as well, pictures included.
  await page.getByRole('link', { name: 'How to build a board' }).tap();
  await page.getByRole('link', { name: 'Français' }).tap();
  await page.getByRole('heading', { name: 'Construire une carte de banc' }).waitFor();
  await page.locator('img').last().scrollIntoViewIfNeeded();
  const widths = () =>
    page.locator('img').evaluateAll((all) => all.map((each) => (each as HTMLImageElement).naturalWidth));
  await patiently(async () => (await widths()).filter((width) => width > 0).length).toBe(4);
  expect([await complaints(page), await overflow(page)]).toEqual([[], 0]);
  await page.getByRole('link', { name: 'Retour au banc' }).tap();
  await page.getByText('No board is attached.').waitFor();
  await plugInSimulatedBoard(bench, 1);
  await page.locator('.channels tbody tr').nth(7).waitFor();
  await patiently(() => page.locator('.now-value').first().textContent()).toMatch(/^\d+\.\d\s°C$/);

  await page.getByRole('button', { name: 'Set up flue' }).tap();
  await page.getByLabel('Where it sits').selectOption({ label: 'riser' });
  await page.locator('dialog').getByLabel('Name', { exact: true }).fill('upper riser');
  await page.locator('dialog').getByRole('button', { name: 'Save', exact: true }).tap();
  await page.getByRole('button', { name: 'Set up upper riser' }).waitFor();
  await patiently(
    async () => (await boardsOf(bench))[0]?.channels.find(({ name }) => name === 'upper riser')?.role,
  ).toBe('riser');
});

test('calibration waits until the reading is steady, and the service stores a correction by the ice point', async ({
  openPage,
}) => {
  const bench = await benchWithPage();
  // Cold water replaces the ice bath: only a steady reading matters here.
  const board = await plugInSimulatedBoard(bench, 30);
  const shade = board.channels.find(({ role }) => role === 'ambient');
  const page = await openPage(`${bench.url}#/rig`);
  await page.getByRole('button', { name: `Set up ${shade?.name}` }).click();
  await page.getByRole('button', { name: 'Ice point' }).click();
  const take = page.getByRole('button', { name: 'Take this point' });
  expect(await take.isDisabled()).toBe(true);
  await page.getByText('steady', { exact: true }).waitFor();
  await page.getByLabel('True value here').fill('10');
  await take.click();
  await page.getByRole('button', { name: 'Use this calibration' }).click();
  await patiently(
    async () => (await boardsOf(bench))[0]?.channels.find(({ id }) => id === shade?.id)?.calibration,
  ).toMatchObject({
    method: 'icePoint',
    gain: 1,
    version: 1,
  });
});

test('the columns of a board that only prints numbers are mapped to probes, with its lines in view', async ({
  openPage,
}) => {
  const terminal = await openPseudoTerminal();
  if (!terminal.available) throw new Error(terminal.reason);
  let printed = 0;
  const printing = setInterval(() => {
    printed += 1;
    terminal.write(`${printed * 250};21,4;209,5 °F\r\n`);
  }, 100);
  onTestFinished(async () => {
    clearInterval(printing);
    await terminal.unplug();
  });
  const bench = await benchWithPage();
  const page = await openPage(`${bench.url}#/rig`, { width: 390 });
  await page.getByLabel('Path of the port').fill(terminal.path);
  await page.getByLabel('Speed').fill('250000');
  await page.getByLabel('This board only prints numbers').check();
  await page.getByRole('button', { name: 'Look at its lines' }).click();
  await page.locator('.raw-lines tbody tr').first().waitFor();
  expect(await page.getByLabel('Columns separated by').inputValue()).toBe('semicolon');
  expect(await page.getByLabel('Decimal mark').inputValue()).toBe('comma');
  expect(await page.getByLabel('Column 1').inputValue()).toBe('timeMs');
  // A printed unit is used, with its origin; a missing one is a question, and the board is not attached meanwhile.
  expect(await page.getByLabel('Column 3').inputValue()).toBe('[degF]');
  await page.getByText('Printed behind the number: temperature, °F.').waitFor();
  await page.getByText(/^\d+ values, all 209.5$/).waitFor();
  expect(await overflow(page)).toBe(0);
  await page.getByRole('button', { name: 'Attach', exact: true }).click();
  await page.getByText('The board prints no unit for Column 2.').waitFor();
  await page.getByLabel('Column 2').selectOption({ label: 'temperature, °C' });
  await page.locator('.raw-lines th').nth(1).getByLabel('Name').fill('pot low');
  await page.locator('.raw-lines th').nth(2).getByLabel('Name').fill('pot high');
  await page.getByText('2 columns become probes').waitFor();
  await page.getByRole('button', { name: 'Attach', exact: true }).click();
  await page.getByRole('button', { name: 'Set up pot high' }).waitFor();
  await patiently(async () => (await boardsOf(bench))[0]?.channels.map(({ latest }) => latest?.value)).toEqual([
    expect.closeTo(21.4, 9),
    expect.closeTo(98.611, 3),
  ]);
});

test('a missing port is reported in one sentence with what to do, and searched for until it exists', async ({
  openPage,
}) => {
  const bench = await benchWithPage();
  const page = await openPage(`${bench.url}#/rig`);
  await page.getByRole('button', { name: 'Attach', exact: true }).click();
  await page.getByText('Write something here.').waitFor();
  await page.getByLabel('Path of the port').fill('/dev/no-such-board');
  await page.getByRole('button', { name: 'Attach', exact: true }).click();
  const board = page.getByRole('region', { name: '/dev/no-such-board' });
  await board.getByText('looking for the port').waitFor();
  expect(await board.locator('.problem').first().textContent()).toMatch(/no-such-board.*\.$/);
  await board.getByRole('button', { name: 'Detach' }).click();
  await page.locator('dialog').getByRole('button', { name: 'Detach' }).click();
  await page.getByText('No board is attached.').waitFor();

  // Flashing uses the same port, and shows what is missing, its progress, and its outcome.
  await page.getByRole('button', { name: 'Put the firmware on the board' }).click();
  await page.getByText('Choose the port of the board first').waitFor();
  await page.getByLabel('Path of the port').fill('/dev/no-such-board');
  const put = page.getByRole('button', { name: 'Put the firmware on /dev/no-such-board' });
  await put.click();
  await page.locator('.put-firmware .problem', { hasText: /no-such-board/ }).waitFor();
  let phase = 'writing';
  await page.route('**/api/flashing', (route) =>
    route.fulfill({ json: { phase, doneBytes: 4000, totalBytes: 10_000, mayFlash: true } }),
  );
  await put.click();
  await page.getByText('Writing', { exact: true }).waitFor();
  expect(await page.locator('.put-firmware progress').evaluate((bar: HTMLProgressElement) => bar.position)).toBe(0.4);
  expect(await put.isDisabled()).toBe(true);
  phase = 'done';
  await page.getByText('The firmware is on the board').waitFor();
});
