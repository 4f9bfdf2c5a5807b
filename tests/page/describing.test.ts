import type { Page } from 'playwright-core';
import { expect } from 'vitest';
import type { BurnDetail, BurnSummary } from '../../shared/contract/burns.ts';
import { test } from '../support/browser.ts';
import { complaints, overflow } from './accessible.ts';
import { benchWithPage, fillInventory, plugInSimulatedBoard } from './bench-with-page.ts';
import { patiently } from './patiently.ts';

const refused = [/status of 4\d\d/];

async function burnsOf(bench: { ask<T>(method: string, path: string): Promise<T> }): Promise<BurnSummary[]> {
  return (await bench.ask<{ burns: BurnSummary[] }>('GET', '/burns')).burns;
}

/** Fills in the sheet that adds a thing to the inventory. */
async function fill(page: Page, entries: Readonly<Record<string, string>>): Promise<void> {
  for (const [label, text] of Object.entries(entries)) await page.locator('dialog').getByLabel(label).fill(text);
}

test('an empty bench shows in three sentences what to do next', async ({ openPage }) => {
  const bench = await benchWithPage();
  const page = await openPage(bench.url, { width: 390 });
  await page.getByRole('heading', { name: 'The bench is empty.' }).waitFor();
  expect(await page.locator('.three li').count()).toBe(3);
  await page.getByText('carbon monoxide has no smell').waitFor();
  await page.locator('.three').getByRole('link', { name: 'New burn' }).tap();
  await page.getByRole('heading', { name: 'New burn' }).waitFor();
});

test('a burn is described from an empty inventory on a phone, lit, and shown live', async ({ openPage }) => {
  const bench = await benchWithPage();
  await plugInSimulatedBoard(bench, 1);
  const page = await openPage(`${bench.url}#/shelf`, { width: 390 });
  await page.goto(`${bench.url}#/new`);
  await page.getByRole('button', { name: 'Add a revision' }).tap();
  // A revision needs a stove first.
  await page.getByText('Add a stove first.').waitFor();
  await fill(page, { Name: 'Heron' });
  await page.locator('dialog').getByRole('button', { name: 'Save', exact: true }).tap();
  await page.locator('dialog').getByLabel('Short name, as said aloud').waitFor();
  await fill(page, { 'Short name, as said aloud': '2', 'What was changed': 'Riser inside a sleeve' });
  await page.locator('dialog').getByRole('button', { name: 'Save', exact: true }).tap();
  await page.locator('dialog').waitFor({ state: 'detached' });

  await page.getByRole('button', { name: 'Add a lot' }).tap();
  await fill(page, { Name: 'Beech, split', 'Readings, one after another': '19 21 20' });
  await page.locator('dialog').getByText('mean 20.0').waitFor();
  await page.locator('dialog').getByRole('radio', { name: '% of the dry weight' }).check();
  await page.locator('dialog').getByRole('button', { name: 'Save', exact: true }).tap();
  await page.locator('dialog').waitFor({ state: 'detached' });

  await page.getByLabel('Water in the pot').fill('29.5');
  // One pile with one lot; with two lots, each has its own, and the figure stays with the first.
  await page.getByLabel('Wood set out').fill('6.2');
  await page.getByRole('button', { name: 'Add a lot' }).tap();
  await fill(page, { Name: 'Spruce' });
  await page.locator('dialog').getByRole('button', { name: 'Save', exact: true }).tap();
  await page.locator('dialog').waitFor({ state: 'detached' });
  expect(await page.getByLabel('Wood set out: Beech, split').inputValue()).toBe('6.2');
  await page.getByLabel('Wood set out: Spruce').fill('0,4');
  await page.getByLabel('Air pressure today').fill('985');
  await page.getByText('Without the pot its heat cannot be shown.').waitFor();
  await page.getByRole('button', { name: 'Start recording' }).tap();
  await page.getByRole('heading', { name: 'Heron 2 · burn 1' }).waitFor();
  await page.locator('.number .figure').waitFor();

  const [burn] = await burnsOf(bench);
  expect(burn).toMatchObject({ status: 'running', title: 'Heron 2 · burn 1', revision: { label: '2' } });
  await patiently(async () =>
    (await bench.ask<BurnDetail>('GET', `/burns/${burn?.id}`)).weighings.map(({ weighing }) => weighing.massKg),
  ).toEqual([29.5, 6.2, 0.4]);
  const { fuelLots } = await bench.ask<{ fuelLots: { moisture: { fraction: number; basis: string } }[] }>(
    'GET',
    '/fuel-lots',
  );
  expect(fuelLots[0]?.moisture).toMatchObject({ basis: 'dry' });
  expect(fuelLots[0]?.moisture.fraction).toBeCloseTo(0.2, 12);
  // Going back leads to where the form was opened, not into it.
  await page.goBack();
  await patiently(() => page.evaluate(() => location.hash)).toBe('#/shelf');
});

test('text that is not a number is refused at its field, with a reason, and nothing typed is lost', async ({
  openPage,
}) => {
  const bench = await benchWithPage();
  const inventory = await fillInventory(bench);
  const page = await openPage(`${bench.url}#/new`, { width: 390 });
  await page.setViewportSize({ width: 360, height: 600 });
  for (const [label, id] of [
    ['Stove, revision', inventory.revision],
    ['Pot', inventory.vessel],
    ['Place', inventory.place],
  ] as const)
    await page.getByLabel(label, { exact: true }).selectOption(id);
  await page.getByRole('checkbox', { name: 'Beech, split' }).check();
  await page.getByLabel('Water in the pot').fill('1,234.5');
  await page.getByLabel('Wood set out').fill('-3');
  await page.getByLabel('Minutes to hold').fill('three quarters of an hour');
  await page.getByLabel('Air pressure today').fill('29.92');
  await page.getByLabel('Outside air').fill('1e3');
  await page.getByRole('radio', { name: 'a temperature' }).check();
  await page.getByRole('button', { name: 'Start recording' }).tap();
  const problemOf = (label: string) =>
    page
      .locator('.field.wrong', { has: page.getByLabel(label) })
      .locator('.problem')
      .textContent();
  expect(await problemOf('Water in the pot')).toBe('Use either a point or a comma, not both.');
  expect(await problemOf('Wood set out')).toBe('More than 0.');
  expect(await problemOf('Minutes to hold')).toBe('This is not a number. Write it like 12.5 or 12,5.');
  expect(await problemOf('Air pressure today')).toBe('At least 400\u00a0hPa.');
  expect(await problemOf('Outside air')).toBe('This is not a number. Write it like 12.5 or 12,5.');
  expect(await problemOf('Temperature to reach')).toBe('Type a number.');
  expect(await page.getByLabel('Water in the pot').inputValue()).toBe('1,234.5');
  expect(await burnsOf(bench)).toEqual([]);

  // Every wrong field is listed, and the first is in view with the focus.
  const named = page.locator('.wrong-fields button');
  const names = ['Water in the pot', 'Wood set out', 'Temperature to reach', 'Minutes to hold', 'Outside air'];
  expect(await named.allTextContents()).toEqual([...names, 'Air pressure today']);
  const isReady = (label: string) =>
    page.getByLabel(label).evaluate((field) => {
      const { left, top, width, height } = field.getBoundingClientRect();
      const seen = document.elementFromPoint(left + width / 2, top + height / 2);
      return field === document.activeElement && field === seen;
    });
  await patiently(() => isReady('Water in the pot')).toBe(true);
  // Nothing is missing, but a form with mistakes does not state that.
  expect(await page.getByText('Nothing: everything the results need').count()).toBe(0);
  await page.getByLabel('Water in the pot').fill('29.5');
  await named.getByText('Water in the pot').waitFor({ state: 'detached' });
  expect(await page.locator('.field.wrong', { has: page.getByLabel('Water in the pot') }).count()).toBe(0);
  await named.getByText('Outside air').tap();
  await patiently(() => isReady('Outside air')).toBe(true);
  expect([await complaints(page), await overflow(page)]).toEqual([[], 0]);
  await page.getByLabel('Water in the pot').fill('1,234.5');

  // A reload in the middle of the form preserves it as well.
  await page.reload();
  await page.getByLabel('Water in the pot').waitFor();
  expect(await page.getByLabel('Water in the pot').inputValue()).toBe('1,234.5');
  expect(await page.getByLabel('Minutes to hold').inputValue()).toBe('three quarters of an hour');
});

test('a moisture without its basis is not guessed', async ({ openPage }) => {
  const bench = await benchWithPage();
  const page = await openPage(`${bench.url}#/shelf`);
  await page.getByRole('button', { name: 'Add a lot' }).click();
  await fill(page, { Name: 'Oak', 'Readings, one after another': '18,5' });
  await page.locator('dialog').getByRole('button', { name: 'Save', exact: true }).click();
  await page.locator('dialog').getByText('Choose one.').waitFor();
  await page.locator('dialog').getByRole('radio', { name: '% of the wet weight' }).check();
  await page.locator('dialog').getByRole('button', { name: 'Save', exact: true }).click();
  await page.getByText('moisture 18.5 % (% of the wet weight)').waitFor();
});

test('a new burn starts from the last one: changing the revision and lighting takes three taps', async ({
  openPage,
}) => {
  const bench = await benchWithPage();
  const inventory = await fillInventory(bench);
  const last = await bench.ask<BurnDetail>('POST', '/burns', {
    title: 'before',
    status: 'running',
    revisionId: inventory.revision,
    vesselId: inventory.vessel,
    placeId: inventory.place,
    fuelLotIds: [inventory.wood],
    scaleIds: [inventory.scale],
    target: { kind: 'temperature', tempC: 90 },
    hold: { durationS: 1800, onDrop: 'restart' },
    operator: 'second',
  });
  await bench.ask('PATCH', `/burns/${last.burn.id}`, { status: 'ended', expectedVersion: last.burn.version });
  const { stoves } = await bench.ask<{ stoves: { id: string }[] }>('GET', '/stoves');
  const next = await bench.ask<{ id: string }>('POST', '/revisions', {
    stoveId: stoves[0]?.id,
    label: '3',
    parentId: inventory.revision,
  });

  const page = await openPage(`${bench.url}#/new`, { width: 390 });
  await page.getByText('Filled in as for “before”.').waitFor();
  await page.getByLabel('Stove, revision').selectOption({ label: 'Heron 3' });
  await page.getByRole('button', { name: 'Start recording' }).tap();
  await page.getByRole('heading', { name: 'Heron 3 · burn 1' }).waitFor();
  const running = (await burnsOf(bench)).find(({ status }) => status === 'running');
  const { burn } = await bench.ask<BurnDetail>('GET', `/burns/${running?.id}`);
  expect(burn).toMatchObject({
    revisionId: next.id,
    vesselId: inventory.vessel,
    fuelLotIds: [inventory.wood],
    target: { kind: 'temperature', tempC: 90 },
    hold: { durationS: 1800, onDrop: 'restart' },
    operator: 'second',
  });
});

test('two people describing one thing: both values are shown, and an untouched field does not overwrite what was saved', async ({
  openPage,
}) => {
  const bench = await benchWithPage();
  const inventory = await fillInventory(bench);
  const page = await openPage(`${bench.url}#/shelf`, { width: 390, expectedErrors: refused });
  await page.setViewportSize({ width: 360, height: 600 });
  const dialog = page.locator('dialog');
  const save = () => dialog.getByRole('button', { name: 'Save', exact: true }).tap();
  const vat = () => bench.ask<{ version: number }>('GET', `/vessels/${inventory.vessel}`);
  const massField = dialog.getByRole('textbox', { name: 'Mass, empty, without lid' });
  await page.getByRole('button', { name: 'Edit 30-litre vat' }).tap();
  await massField.fill('3.4');
  // Another screen corrects the same mass, the diameter, and adds a material.
  const theirs = { name: '30-litre vat', massKg: 3.3, innerDiameterM: 0.38, material: 'stainless steel' };
  await bench.ask('PUT', `/vessels/${inventory.vessel}`, { ...theirs, expectedVersion: 1 });
  await save();
  const row = (name: string) => page.locator('.meanwhile').getByRole('group', { name });
  await row('Inner diameter').waitFor();
  const shown = async (name: string) => row(name).getByRole('button').allTextContents();
  expect((await shown('Mass, empty, without lid')).map((each) => each.replace(/\s+/g, ' '))).toEqual([
    'here 3.4 kg',
    'saved there 3.3 kg',
  ]);
  expect(await row('Inner diameter').getByRole('button', { pressed: true }).textContent()).toMatch(/saved there\s+38/);
  expect(await row('Material').getByRole('button', { name: 'here nothing' }).count()).toBe(1);
  expect(await massField.inputValue()).toBe('3.4');
  expect([await vat(), await complaints(page), await overflow(page)]).toMatchObject([{ massKg: 3.3 }, [], 0]);
  // A reload in between does not change it.
  await page.reload();
  await row('Material').waitFor();
  await save();
  await dialog.waitFor({ state: 'detached' });
  expect(await vat()).toMatchObject({ ...theirs, massKg: 3.4, version: 3 });

  // The same when the other figure is chosen.
  await page.getByRole('button', { name: 'Edit 30-litre vat' }).tap();
  await massField.fill('3.9');
  await bench.ask('PUT', `/vessels/${inventory.vessel}`, { ...theirs, massKg: 3.35, expectedVersion: 3 });
  await save();
  await row('Mass, empty, without lid').getByRole('button', { name: 'saved there' }).tap();
  expect(await massField.inputValue()).toBe('3.35');
  await save();
  await dialog.waitFor({ state: 'detached' });
  expect(await vat()).toMatchObject({ massKg: 3.35, version: 5 });

  // The same for the description of a burn.
  const { burn } = await bench.ask<BurnDetail>('POST', '/burns', {
    title: 'Noon',
    vesselId: inventory.vessel,
    operator: 'M',
  });
  await page.goto(`${bench.url}#/burns/${burn.id}/describe`);
  await page.getByLabel('Weather').fill('windy');
  await page.getByLabel('Operator').fill('second');
  await bench.ask('PATCH', `/burns/${burn.id}`, { operator: 'R', airTempC: 11.234, expectedVersion: burn.version });
  await page.getByRole('button', { name: 'Save', exact: true }).tap();
  await row('Outside air').waitFor();
  await row('Operator').getByRole('button', { name: 'saved there R' }).waitFor();
  expect([await complaints(page), await overflow(page)]).toEqual([[], 0]);
  await page.getByRole('button', { name: 'Save', exact: true }).tap();
  await page.locator('.meanwhile').waitFor({ state: 'detached' });
  await patiently(async () => (await bench.ask<BurnDetail>('GET', `/burns/${burn.id}`)).burn).toMatchObject({
    operator: 'second',
    weatherNote: 'windy',
    airTempC: 11.234,
    vesselId: inventory.vessel,
  });

  // An emptied field is removed.
  await page.goto(`${bench.url}#/burns/${burn.id}/describe`);
  for (const label of ['Weather', 'Outside air']) await page.getByLabel(label).fill('');
  await page.getByLabel('Pot', { exact: true }).selectOption('');
  await page.getByRole('button', { name: 'Save', exact: true }).tap();
  const described = async () => Object.keys((await bench.ask<BurnDetail>('GET', `/burns/${burn.id}`)).burn);
  await patiently(async () => (await described()).filter((field) => /weather|airTemp|vessel/.test(field))).toEqual([]);
  expect(await described()).toContain('operator');
});
