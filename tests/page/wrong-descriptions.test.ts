import { expect } from 'vitest';
import { test } from '../support/browser.ts';
import { benchWithPage } from './bench-with-page.ts';
import { expectRefused, sentences, type WrongEntries } from './wrong-entries.ts';

const forms: readonly { add: string; rounds: readonly WrongEntries[] }[] = [
  { add: 'Add a stove', rounds: [{ Name: ['  ', sentences.text] }] },
  {
    add: 'Add a pot',
    rounds: [
      {
        Name: ['', sentences.text],
        'Mass, empty, without lid': ['-3', sentences.notPositive],
        'Inner diameter': ['36 cm', sentences.noNumber],
      },
      {
        Name: ['', sentences.text],
        'Mass, empty, without lid': ['1.234,5', sentences.mixed],
        'Inner diameter': ['3600', 'At most 500.0\u00a0cm.'],
      },
    ],
  },
  {
    add: 'Add a lot',
    rounds: [
      {
        Name: ['', sentences.text],
        'Heating value of the dry wood (net)': ['1', 'At least 5.0\u00a0MJ/kg.'],
        'Heating value of its char': ['60', 'At most 40.0\u00a0MJ/kg.'],
        'Readings, one after another': ['18 dry', sentences.noNumber],
      },
      { 'Readings, one after another': ['18 -2', 'At least 0 %.'] },
      { 'Readings, one after another': ['18 250', 'At most 200 %.'] },
    ],
  },
  {
    add: 'Add a place',
    rounds: [
      {
        Name: ['', sentences.text],
        'Air pressure at the place': ['29.92', 'At least 400\u00a0hPa.'],
        Altitude: ['9500', 'At most 9000\u00a0m.'],
      },
      { 'Air pressure at the place': ['1,013', sentences.thousand], Altitude: ['-600', 'At least −500\u00a0m.'] },
    ],
  },
  {
    add: 'Add a scale',
    rounds: [{ Name: ['', sentences.text], 'One reading is good to': ['0', sentences.notPositive] }],
  },
];

test('every form of the inventory shows at each field what is wrong, preserves what was typed and saves nothing', async ({
  openPage,
}) => {
  const bench = await benchWithPage();
  const page = await openPage(`${bench.url}#/shelf`);
  const dialog = page.locator('dialog');
  const save = () => dialog.getByRole('button', { name: 'Save', exact: true }).click();
  for (const { add, rounds } of forms) {
    await page.getByRole('button', { name: add }).click();
    for (const round of rounds) await expectRefused(dialog, round, save);
    await dialog.getByRole('button', { name: 'Close' }).click();
    await dialog.waitFor({ state: 'detached' });
  }
  // Wet wood is never water only, and a figure without its basis is not a moisture.
  await page.getByRole('button', { name: 'Add a lot' }).click();
  await dialog.getByLabel('Readings, one after another').fill('99.5 101');
  await save();
  await dialog.getByText(sentences.choose).waitFor();
  await dialog.getByRole('radio', { name: '% of the wet weight' }).check();
  await save();
  await dialog.getByText('At most 99 %.').waitFor();
  await dialog.getByRole('button', { name: 'Close' }).click();

  for (const name of ['Heron', 'Plover']) await bench.ask('POST', '/stoves', { name });
  await page.reload();
  await page.getByRole('button', { name: 'Add a revision' }).click();
  await dialog.getByLabel('What', { exact: true }).fill('riser');
  await dialog.getByRole('button', { name: 'Add a length' }).click();
  await expectRefused(
    dialog,
    {
      'Short name, as said aloud': ['', sentences.text],
      'Mass of the stove body': ['8O', sentences.noNumber],
      riser: ['6400', 'At most 2000.0\u00a0cm.'],
    },
    save,
  );
  await dialog.getByText(sentences.choose).waitFor();
  for (const path of ['vessels', 'revisions', 'places', 'scales', 'fuel-lots'])
    expect(Object.values(await bench.ask<Record<string, unknown[]>>('GET', `/${path}`))).toEqual([[]]);
});

test('the form of a burn shows what is wrong with goods and temperatures, and creates no burn', async ({
  openPage,
}) => {
  const bench = await benchWithPage();
  const page = await openPage(`${bench.url}#/new`, { width: 390 });
  const form = page.locator('.burn-form');
  const send = () => page.getByRole('button', { name: 'Keep for later' }).click();
  await expectRefused(
    form,
    {
      'Water temperature': ['140', 'At most 110.0\u00a0°C.'],
      'Stove body': ['cold', sentences.noNumber],
      'Outside air': ['75', 'At most 60.0\u00a0°C.'],
      'Air pressure today': ['1,013', sentences.thousand],
      'Minutes to hold': ['0', sentences.notPositive],
    },
    send,
  );
  await page.getByRole('button', { name: 'Add contents' }).click();
  const goods = form.locator('.group', { has: page.getByText('Contents') });
  await expectRefused(
    goods,
    {
      Name: ['', sentences.text],
      Mass: ['-1', sentences.notPositive],
      'Specific heat': ['4000', 'At most 4.5\u00a0kJ/(kg K).'],
      'At the start': ['x', sentences.noNumber],
    },
    send,
  );
  expect(await bench.ask('GET', '/burns')).toEqual({ burns: [] });
});
