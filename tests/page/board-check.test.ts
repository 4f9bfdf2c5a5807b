import type { Page } from 'playwright-core';
import { expect, onTestFinished } from 'vitest';
import type { ChannelReading } from '../../firmware-protocol/lines.ts';
import { openPseudoTerminal } from '../../server/simulator/pseudo-terminal.ts';
import type { BoardCheck } from '../../shared/contract/board-check.ts';
import type { Board } from '../../shared/contract/boards.ts';
import { test } from '../support/browser.ts';
import { ScriptedBoard } from '../support/scripted-board.ts';
import { complaints, overflow } from './accessible.ts';
import { type BenchWithPage, benchWithPage, fillInventory, startBurn } from './bench-with-page.ts';
import { patiently } from './patiently.ts';
import { missed } from './reachable.ts';

/** A minute in the hand takes three seconds. */
const timeScale = 20;
const scanEveryMs = 1000 / timeScale;
const countsPerKelvin = 4;

/** A board with two probes at temperatures that the test sets, or disconnected. */
async function boardInHand(bench: BenchWithPage) {
  const terminal = await openPseudoTerminal();
  if (!terminal.available) throw new Error(terminal.reason);
  const scripted = new ScriptedBoard({ identity: '01890000-0000-7000-8000-0000000000b1', boot: 7 }).connect(terminal);
  const tempsC: (number | 'open')[] = [21, 21];
  let scans = 0;
  const timer = setInterval(() => {
    scans += 1;
    const readings = tempsC.map(
      (tempC, index): ChannelReading =>
        tempC === 'open' ? 'open' : Math.round(tempC * countsPerKelvin) + ((scans + index) % 3 === 0 ? 1 : 0),
    );
    scripted.scan(readings);
  }, scanEveryMs);
  onTestFinished(async () => {
    clearInterval(timer);
    await terminal.unplug();
  });
  await bench.ask('POST', '/boards', { path: terminal.path });
  await patiently(async () => (await boardNow(bench)).channels.length).toBe(2);
  return {
    path: terminal.path,
    set(index: 0 | 1, tempC: number | 'open') {
      tempsC[index] = tempC;
    },
  };
}

async function boardNow(bench: BenchWithPage): Promise<Board> {
  const { boards } = await bench.ask<{ boards: Board[] }>('GET', '/boards');
  return boards[0]!;
}

const stateOf = async (bench: BenchWithPage) =>
  (await bench.ask<{ check?: BoardCheck }>('GET', '/board-check')).check?.state;

const sheet = (page: Page) => page.locator('dialog.sheet');
const tap = (page: Page, name: string | RegExp) => page.getByRole('button', { name }).first().tap();
const inSheet = (page: Page, name: string | RegExp) => sheet(page).getByRole('button', { name }).tap();

const sizes = [
  [390, 664],
  [844, 390],
  [320, 600],
] as const;

/** Returns the parts of the sheet that cannot be reached, at each size of screen. */
async function missedAt(page: Page): Promise<string[]> {
  const all: string[] = [];
  for (const [width, height] of sizes) {
    await page.setViewportSize({ width, height });
    for (const name of await missed(sheet(page), false)) all.push(`${width}×${height}: ${name}`);
    if ((await overflow(page)) > 0) all.push(`${width}×${height} is too narrow`);
  }
  await page.setViewportSize({ width: 390, height: 664 });
  return all;
}

test('a board is checked from the screen Probes: every probe is tested, with mistakes and a reload, and calibrated', async ({
  openPage,
}) => {
  const bench = await benchWithPage({ timeScale });
  await fillInventory(bench);
  const { set } = await boardInHand(bench);
  const page = await openPage(`${bench.url}#/rig`, { width: 390 });
  await page.getByRole('link', { name: 'Check this board' }).tap();
  await tap(page, 'Begin the check');
  const probes = page.locator('.checked-probes > li');
  await probes.getByText('21.').first().waitFor();
  await page.locator('.verdict').waitFor();

  // A cancelled test leaves no finding.
  await tap(page, 'Hand: probe 1');
  await sheet(page).getByText('Hold probe 1 in your bare hand').waitFor();
  expect([await missedAt(page), await complaints(page)]).toEqual([[], []]);
  await inSheet(page, /^Cancel/);
  await sheet(page).waitFor({ state: 'detached' });
  expect(await probes.first().getByText('not tried').count()).toBe(4);

  // The other probe is in the hand: the sheet says so, and the test is repeated.
  await tap(page, 'Hand: probe 1');
  await sheet(page).getByText('Hold probe 1 in your bare hand').waitFor();
  set(1, 30);
  await sheet(page).getByText('Probe 1 (Probe 1) did not change, but probe 2 (Probe 2) did.').waitFor();
  await inSheet(page, 'Once more');

  // A reload in the middle shows the same instruction.
  await sheet(page).getByText('Hold probe 1 in your bare hand').waitFor();
  await page.reload();
  await sheet(page).getByText('Hold probe 1 in your bare hand').waitFor();
  set(0, 30);
  await sheet(page).getByText('it is alive and the right way round').waitFor();
  expect([await missedAt(page), await complaints(page)]).toEqual([[], []]);
  set(0, 21);
  set(1, 21);
  await sheet(page).getByRole('button', { name: 'Next: Hold probe 2 in your bare hand' }).waitFor();
  await inSheet(page, 'Done');

  await tap(page, 'Pull off: probe 1');
  await sheet(page).getByText('Pull probe 1 off its terminals').waitFor();
  set(0, 'open');
  await sheet(page).getByText('Put probe 1 back on its terminals').waitFor();
  set(0, 21);
  await sheet(page).getByText('It reads again: 21.').waitFor();
  await inSheet(page, 'Done');

  for (const [name, instruction, tempC] of [
    ['Ice: probe 1', 'Put probe 1 into crushed ice and water', 0.75],
    ['Boil: probe 1', 'Put probe 1 into boiling water', 98.25],
  ] as const) {
    await tap(page, name);
    await sheet(page).getByText(instruction).waitFor();
    set(0, tempC);
    await sheet(page).getByText('is right for its kind').waitFor();
    await inSheet(page, 'Done');
  }
  expect(await complaints(page)).toEqual([]);

  // The board is attached again, and is calibrated there.
  await tap(page, 'End the check');
  await page.getByText('The port is free again.').waitFor();
  await patiently(async () => (await boardNow(bench)).state).toBe('live');
  await tap(page, 'Calibrate probe 1');
  await sheet(page)
    .getByText(/Boiling point: read 98\..* at 99\./)
    .waitFor();
  await inSheet(page, 'Use this calibration');
  await patiently(async () => (await boardNow(bench)).channels[0]?.calibration?.method).toBe('icePointAndBoilingPoint');
  const { gain, offset } = (await boardNow(bench)).channels[0]!.calibration!;
  // 0.75 and 98.25 °C, a third of a step more on the average, are for ice and for water that boils under 985 hPa (99.2
  // °C).
  expect(gain * 0.83 + offset).toBeCloseTo(0, 1);
  expect(gain * 98.33 + offset).toBeCloseTo(99.2, 1);
  await inSheet(page, 'Close');

  await page.emulateMedia({ media: 'print' });
  expect(await page.locator('button:visible').count()).toBe(0);
  await page.getByText('it is alive and the right way round').waitFor();
});

test('a reading that stays without its probe is the first finding, and the French screens fit a phone of 320 px', async ({
  openPage,
}) => {
  const bench = await benchWithPage({ timeScale });
  const { path, set } = await boardInHand(bench);
  await bench.ask('POST', '/board-check', { path });
  const page = await openPage(`${bench.url}#/board-check/${encodeURIComponent(path)}`, { width: 390, language: 'fr' });
  await tap(page, 'Débrancher : la sonde 2');
  await sheet(page).getByText('Débranchez la sonde 2 de ses bornes').waitFor();
  expect([await missedAt(page), await complaints(page)]).toEqual([[], []]);
  await sheet(page).getByText('la carte a continué d’envoyer').waitFor();
  expect([await missedAt(page), await complaints(page)]).toEqual([[], []]);
  await inSheet(page, 'Terminé');
  await page.setViewportSize({ width: 320, height: 600 });
  expect(await overflow(page)).toBe(0);
  const first = page.locator('.board-findings > li').first();
  await first.getByText('Faux').waitFor();
  await first.getByText('envoie un défaut').waitFor();

  // A disconnected probe is not tested.
  set(0, 'open');
  await page.locator('.checked-probes').getByText('débranchée').waitFor();
  await tap(page, 'Main : la sonde 1');
  await inSheet(page, /^Annuler/);
  await sheet(page).waitFor({ state: 'detached' });
});

test('while a burn runs no board is checked, with a sentence, and a missing port is reported', async ({ openPage }) => {
  const bench = await benchWithPage({ timeScale });
  const { path } = await boardInHand(bench);
  const { burn } = await startBurn(bench);
  const page = await openPage(`${bench.url}#/board-check/${encodeURIComponent(path)}`, {
    width: 390,
    expectedErrors: [/409/],
  });
  await tap(page, 'Begin the check');
  await page.getByText('a board that is checked records nothing. End the burn first.').waitFor();
  expect(await complaints(page)).toEqual([]);
  expect(await stateOf(bench)).toBeUndefined();

  await bench.ask('PATCH', `/burns/${burn.id}`, { status: 'ended', expectedVersion: burn.version });
  await page.getByLabel('Speed').fill('fast');
  await tap(page, 'Begin the check');
  await page.getByText('The speed is a whole number').waitFor();
  await page.getByLabel('Speed').fill('115200');
  await page.getByLabel('Path of the port').fill('/dev/none');
  await tap(page, 'Begin the check');
  await page.getByText('There is no port /dev/none.').first().waitFor();
  await page.getByRole('button', { name: 'Check again' }).waitFor();
});
