import type { Page } from 'playwright-core';
import { expect } from 'vitest';
import type { BurnDetail } from '../../shared/contract/burns.ts';
import { hasValue } from '../../shared/contract/has-value.ts';
import type { Analysis } from '../../shared/contract/results.ts';
import { sampleRecord } from '../exports/sample-burn.ts';
import { test } from '../support/browser.ts';
import { type BenchWithPage, benchWithPage } from './bench-with-page.ts';
import { chooseFile, expectSound, loggerTable, notebook } from './import-files.ts';
import { patiently } from './patiently.ts';

const refused = [/status of 400/];

async function burnsOf(bench: BenchWithPage): Promise<{ id: string; title: string }[]> {
  return (await bench.ask<{ burns: { id: string; title: string }[] }>('GET', '/burns')).burns;
}

/** Returns the only burn. */
async function theBurn(bench: BenchWithPage) {
  const [burn, ...others] = await burnsOf(bench);
  expect([burn !== undefined, others]).toEqual([true, []]);
  return bench.ask<BurnDetail>('GET', `/burns/${burn?.id}`);
}

const columnOf = (page: Page, index: number) => page.locator('.one-column').nth(index - 1);

test('a table of another logger is guessed, corrected on a phone in French and becomes a burn with results', async ({
  openPage,
}) => {
  const bench = await benchWithPage();
  const page = await openPage(`${bench.url}#/bring-in`, { width: 390, language: 'fr', expectedErrors: refused });
  await page.getByRole('heading', { name: 'Importer des données' }).waitFor();
  await expectSound(page, 'choosing');
  await chooseFile(page, 'logger.csv', loggerTable());

  // The timer is guessed as the clock: its cells are listed, and nothing can be saved like this.
  await page.getByText('Ligne 5, colonne 1 : attendu un temps qui ne précède pas celui du dessus').waitFor();
  await page.getByRole('button', { name: 'Importer comme essai' }).tap();
  await page.locator('.form-end').getByText('ligne 5, colonne 1').waitFor();
  expect(await burnsOf(bench)).toEqual([]);
  await expectSound(page, 'cells that are wrong');
  await page.getByLabel('dans la colonne').selectOption({ label: '2' });
  await page.locator('.cell-problems').waitFor({ state: 'detached' });
  await page.getByText('24 mesures sur 23 min.').waitFor();

  // A separator that is not in the file is refused, and the previous one stays.
  await page.getByLabel('Les cases sont séparées par').selectOption('pipe');
  await page.locator('.form-end').getByText('n’a de nombres en colonnes').waitFor();
  await patiently(() => page.getByLabel('Les cases sont séparées par').inputValue()).toBe('semicolon');
  // A voltage is not shown as a temperature.
  expect(await columnOf(page, 5).getByLabel('Unité').inputValue()).toBe('1');
  await columnOf(page, 5).getByLabel('Quoi').selectOption('');
  expect(await columnOf(page, 3).getByLabel('Où').inputValue()).toBe('low');
  await columnOf(page, 3).getByLabel('Nom').fill('');
  await page.getByRole('button', { name: 'Importer comme essai' }).tap();
  await page.locator('.form-end').getByText('a besoin d’un nom').waitFor();
  await patiently(() =>
    columnOf(page, 3)
      .getByLabel('Nom')
      .evaluate((field) => field === document.activeElement),
  ).toBe(true);
  await columnOf(page, 3).getByLabel('Nom').fill('bain');
  const asStored = page.getByRole('table').last();
  await asStored.getByText('24,0\u00a0°C').first().waitFor();

  await page.getByLabel('Titre').fill('d’un autre banc');
  await page.getByLabel('Allumé, minutes après').fill('1,5');
  await page.getByRole('radio', { name: 'une température' }).check();
  await page.getByLabel('Température à atteindre').fill('61,5');
  await expectSound(page, 'table put right');
  await page.getByRole('button', { name: 'Importer comme essai' }).tap();
  await page.getByRole('heading', { name: 'Importé', exact: true }).waitFor();
  await expectSound(page, 'kept');

  const { burn, marks } = await theBurn(bench);
  expect([burn.title, burn.origin, burn.target]).toEqual([
    'd’un autre banc',
    'imported',
    { kind: 'temperature', tempC: 61.5 },
  ]);
  expect(burn.channels.map(({ name, role, position, unit }) => [name, role, position, unit])).toEqual([
    ['bain', 'water', 'low', 'Cel'],
    ['fumées (°C)', 'flue', undefined, 'Cel'],
  ]);
  expect(marks.map(({ mark }) => [mark.kind, mark.elapsedUs])).toEqual([['lit', 90e6]]);

  // 18 °C until minute 2, then 6 K a minute: 61.5 °C at minute 9.25, 465 s after it was lit.
  const { results } = await bench.ask<Analysis>('GET', `/burns/${burn.id}/results`);
  const reached = results.find(({ id }) => id === 'timeToTarget');
  expect(reached && hasValue(reached) && Math.abs(reached.value - 465)).toBeLessThan(10);
  await page.getByRole('link', { name: 'd’un autre banc' }).tap();
  await page.locator('.result').first().waitFor();
  await page.getByText('Temps jusqu’à la cible').first().waitFor();
});

test('the choices for a table survive a reload, another screen and a restarted service', async ({ openPage }) => {
  const bench = await benchWithPage();
  const page = await openPage(`${bench.url}#/bring-in`, {
    hasTestClock: true,
    expectedErrors: [/status of 404/, /Failed to load resource/, /net::ERR/],
  });
  await chooseFile(page, 'barn.csv', 'time,T1,T2\n0,60,10\n60,150,11\n120,205,12\n180,212,13\n');
  await page.getByText('about where water boils in °F').waitFor();
  await page.getByText('Which probe hung in the water?').waitFor();
  await columnOf(page, 2).getByLabel('What').selectOption('water');
  await columnOf(page, 2).getByLabel('Name').fill('copper');
  // One question is answered, the other is open.
  await page.getByText('Which probe hung in the water?').waitFor({ state: 'detached' });
  await page.getByText('about where water boils in °F').waitFor();
  await columnOf(page, 2).getByLabel('Unit').selectOption('[degF]');
  await page.getByText('about where water boils in °F').waitFor({ state: 'detached' });
  await page.getByLabel('Title').fill('barn burn');
  const asBefore = async () => {
    await page.getByText('4 readings over').waitFor();
    expect(await columnOf(page, 2).getByLabel('Name').inputValue()).toBe('copper');
    expect(await columnOf(page, 2).getByLabel('Unit').inputValue()).toBe('[degF]');
    expect(await page.getByLabel('Title').inputValue()).toBe('barn burn');
    await page.getByRole('table').last().getByText('15.6\u00a0°C').waitFor();
  };
  await expectSound(page, 'table with doubts answered');
  await page.reload();
  await asBefore();
  await page.getByRole('link', { name: 'Burns' }).click();
  await page.getByRole('link', { name: 'Import' }).click();
  await asBefore();

  // After the reload the page no longer has the file. When the service does not have it either, the page shows what to
  // do.
  for (const name of ['a.csv', 'b.csv']) {
    const body = Buffer.from('time (s),pot\n0,20\n10,21\n');
    const headers = { 'content-type': 'application/octet-stream' };
    expect((await fetch(`${bench.url}api/imports?name=${name}`, { method: 'POST', headers, body })).status).toBe(201);
  }
  await page.getByRole('button', { name: 'Import it as a burn' }).click();
  await page.getByText('Choose the file again; nothing was imported.').waitFor();
  expect(await burnsOf(bench)).toEqual([]);

  await page.getByRole('button', { name: 'Cancel, import nothing' }).click();
  await chooseFile(page, 'barn.csv', 'time,copper (°F)\n0,60\n60,150\n120,205\n180,212\n');
  await page.getByText('4 readings over').waitFor();
  await page.getByLabel('Title').fill('barn burn');
  // A file chosen since the page was opened is uploaded once more without a question.
  await bench.stop();
  await page.getByText('The service does not answer.').waitFor();
  await page.getByRole('button', { name: 'Import it as a burn' }).click();
  await page.locator('.form-end .problem').first().waitFor();
  await bench.start();
  // Longest pause, ms, before it tries again.
  await page.clock.fastForward(8_000);
  await page.locator('.banner').waitFor({ state: 'detached' });
  await page.getByRole('button', { name: 'Import it as a burn' }).click();
  await page.getByRole('heading', { name: 'Imported', exact: true }).waitFor();
  const { burn } = await theBurn(bench);
  expect([burn.title, burn.channels.map(({ name }) => name)]).toEqual(['barn burn', ['copper (°F)']]);

  // Importing the same table again changes nothing.
  await page.getByRole('button', { name: 'Import something else' }).click();
  await chooseFile(page, 'barn.csv', 'time,copper (°F)\n0,60\n60,150\n120,205\n180,212\n');
  await page.getByRole('button', { name: 'Import it as a burn' }).click();
  await page.getByRole('heading', { name: 'Nothing has changed: all of it was here already.' }).waitFor();
  expect((await theBurn(bench)).burn).toEqual(burn);
});

test('a line of notes that cannot be read is listed; corrected, they become a burn entered by hand', async ({
  openPage,
}) => {
  const bench = await benchWithPage();
  const page = await openPage(`${bench.url}#/bring-in`, { width: 390, language: 'fr', expectedErrors: refused });
  await page.getByRole('button', { name: 'Regarder ces notes' }).tap();
  await page.getByText('Collez ou tapez d’abord les notes.').waitFor();
  await page.getByLabel('Ou coller les notes').fill(`${notebook}\nzut 12`);
  await page.getByRole('button', { name: 'Regarder ces notes' }).tap();
  await page.getByText('Ligne 7 : pas de temps au début, comme 10:05, 10h05 ou 5 min.').waitFor();
  await expectSound(page, 'notes with a wrong line');
  await page.getByRole('button', { name: 'Importer comme essai' }).tap();
  await page.locator('.form-end').getByText('La ligne 7 des notes').waitFor();
  expect(await burnsOf(bench)).toEqual([]);

  await page.getByRole('textbox', { name: 'Les notes' }).fill(`${notebook}\n11:05 97 240`);
  await page.reload();
  // Text that was typed and not reviewed yet is restored, and reviewed.
  await page.getByText('7 lignes, comprises ainsi.').waitFor();
  await page.getByText('Ligne 7').waitFor({ state: 'detached' });
  expect(await page.getByRole('textbox', { name: 'Les notes' }).inputValue()).toContain('11:05 97 240');
  await page.getByLabel('Sonde 2').fill('conduit');
  await page.getByRole('button', { name: 'Importer comme essai' }).tap();
  await page.getByRole('heading', { name: 'Importé', exact: true }).waitFor();

  const { burn, marks } = await theBurn(bench);
  expect([burn.origin, burn.channels.map(({ name, role }) => [name, role])]).toEqual([
    'enteredByHand',
    [
      ['eau', 'water'],
      ['conduit', 'other'],
    ],
  ]);
  // Minutes after the first reading, at 10:05.
  expect(
    marks.map(({ mark }) => [mark.kind, mark.elapsedUs / 60e6, mark.kind === 'fed' ? mark.massKg : undefined]),
  ).toEqual([
    ['lit', -3, undefined],
    ['fed', 10, 1.2],
    ['lidOff', 47, undefined],
  ]);
});

/** Expects that a tap on the centre of each of them hits it. */
async function expectWithinReach(page: Page, selector: string): Promise<void> {
  const missed = await page.locator(selector).evaluateAll((all) =>
    all.flatMap((each) => {
      each.scrollIntoView({ block: 'center' });
      const { left, top, width, height } = each.getBoundingClientRect();
      return each.contains(document.elementFromPoint(left + width / 2, top + height / 2)) ? [] : [each.textContent];
    }),
  );
  expect(missed).toEqual([]);
}

const SMALL = { width: 360, height: 600 };

test('on a small phone every remark shows what it becomes, and is changed or refused before anything is saved', async ({
  openPage,
}) => {
  const bench = await benchWithPage();
  const page = await openPage(`${bench.url}#/bring-in`, { width: 390, language: 'fr' });
  await page.setViewportSize(SMALL);
  const notes = [
    '10:02 allumé',
    '10:05 21,5',
    '10:10 bûche sortie du feu',
    '10:15 38 rechargé 1,2 kg, fumée par la porte',
    '10:30 66,5 plus de petit bois',
    '10:45 93',
    '10:50 2 kg',
  ];
  await page.getByLabel('Ou coller les notes').fill(notes.join('\n'));
  await page.getByRole('button', { name: 'Regarder ces notes' }).tap();
  const remark = (line: number) => page.locator('.note-remarks > li', { hasText: `Ligne ${line},` });
  await remark(1).waitFor();
  const becomes = () =>
    page.getByLabel('devient').evaluateAll((all) => all.map((each) => (each as HTMLSelectElement).value));
  expect(await becomes()).toEqual(['lit', 'note', 'fed', 'note', 'note']);
  expect(await remark(4).getByLabel('masse').inputValue()).toBe('1,2');
  await remark(7).getByText('Nomme une masse qui n’est pas gardée').waitFor();
  await page.getByText('3 remarques sont à regarder.').waitFor();
  await expectWithinReach(page, '.note-remarks select, .note-remarks input, .form-end button');
  await expectSound(page, 'remarks');

  await remark(3).getByLabel('devient').selectOption({ label: 'Bûche retirée' });
  await remark(5).getByLabel('devient').selectOption({ label: 'laissée de côté' });
  await remark(7).getByLabel('devient').selectOption({ label: 'Rechargé' });
  await remark(7).getByText('Nomme une masse').waitFor({ state: 'detached' });
  await remark(7).getByLabel('masse').fill('2 bûches');
  await page.getByRole('button', { name: 'Importer comme essai' }).tap();
  await patiently(() =>
    remark(7)
      .getByLabel('masse')
      .evaluate((field) => field === document.activeElement),
  ).toBe(true);
  expect(await burnsOf(bench)).toEqual([]);
  await remark(7).getByLabel('masse').fill('2');
  await page.reload();
  await remark(7).waitFor();
  expect(await becomes()).toEqual(['lit', 'logOut', 'fed', 'none', 'fed']);
  await page.getByRole('button', { name: 'Importer comme essai' }).tap();
  await page.getByRole('heading', { name: 'Importé', exact: true }).waitFor();
  const { marks } = await theBurn(bench);
  expect(
    marks.map(({ mark }) => [mark.kind, mark.elapsedUs / 60e6, 'massKg' in mark ? mark.massKg : undefined]),
  ).toEqual([
    ['lit', -3, undefined],
    ['logOut', 5, undefined],
    ['fed', 10, 1.2],
    ['fed', 45, 2],
  ]);
});

test('a table shows its open questions: thousands, a clock that was set, a quotation mark, row numbers', async ({
  openPage,
}) => {
  const bench = await benchWithPage();
  const page = await openPage(`${bench.url}#/bring-in`, { width: 390 });
  await page.setViewportSize(SMALL);
  const rows = Array.from({ length: 30 }, (_, row) => {
    const minute = 110 + row + (row < 10 ? 0 : 60);
    const time = `0${Math.floor(minute / 60)}:${String(minute % 60).padStart(2, '0')}`;
    return [row + 1, time, 20 + row * 2, row === 0 ? '1,052' : `${1000 - row}.5`, row === 4 ? '"gusts' : ''].join(';');
  });
  await chooseFile(page, 'night.csv', ['No;time;pot (°C);pile (g);note', ...rows, ''].join('\n'));
  await page.getByText('30 readings over 29 min.').waitFor();
  for (const doubt of ['set thousands apart', 'seems to have been set', 'It is opened in line 6', 'numbers the rows']) {
    await page.locator('.remarks li').getByText(doubt).waitFor();
  }
  expect(await columnOf(page, 1).getByLabel('What').inputValue()).toBe('');
  await page.getByRole('table').last().getByText('1.052\u00a0kg').waitFor();
  await expectWithinReach(page, '.bring-form select');
  await expectSound(page, 'doubts of a table');
  await page.getByLabel('Before line 12').selectOption({ label: 'an hour passed without a row' });
  await page.getByText('30 readings over 89 min.').waitFor();
  await page.getByText('seems to have been set').waitFor({ state: 'detached' });
  await page.getByLabel('Before line 12').selectOption({ label: 'the clock was put forward by an hour' });
  await page.getByText('30 readings over 29 min.').waitFor();
  await page.getByRole('button', { name: 'Import it as a burn' }).tap();
  await page.getByRole('heading', { name: 'Imported', exact: true }).waitFor();
  const { burn } = await theBurn(bench);
  expect(burn.channels.map(({ name }) => name)).toEqual(['pot (°C)', 'pile (g)']);
});

const broken: readonly (readonly [string, string | Buffer, string])[] = [
  ['empty.csv', '', 'There is nothing in empty.csv.'],
  // The signature of PNG (ISO/IEC 15948:2004, 5.2) and the length of its first chunk.
  [
    'photo.png',
    Buffer.from('89504e470d0a1a0a0000000d494844520102030405060708', 'hex'),
    'photo.png looks like a picture',
  ],
  ['cut.json', '{\n "format": "stovebench-burn-record",\n', 'line 3, column 1 should have a name in quotation marks'],
  ['newer.json', JSON.stringify({ ...sampleRecord(), version: 9 }), 'of version 9, written by newer software'],
  ['damaged.zip', 'PK\u0003\u0004 no archive', 'damaged.zip is a damaged or incomplete archive'],
];

test('a wrong file is refused with what was expected and what to do, and nothing of it is saved', async ({
  openPage,
}) => {
  const bench = await benchWithPage();
  const page = await openPage(`${bench.url}#/bring-in`, { expectedErrors: refused });
  for (const [name, content, sentence] of broken) {
    await chooseFile(page, name, content);
    await page.locator('.trouble').getByText(sentence).waitFor();
    expect(await page.locator('.trouble .problem').textContent()).toContain('nothing was imported');
  }
  const record = JSON.stringify(sampleRecord(), null, 1).replace('"kind": "lit"', '"kind": "lighted"');
  const line = record.split('\n').findIndex((text) => text.includes('"lighted"')) + 1;
  await chooseFile(page, 'mine.json', record);
  await page
    .locator('.trouble li')
    .getByText(new RegExp(`\\(${line}:\\d+\\)`))
    .waitFor();
  await expectSound(page, 'refused');
  expect(await burnsOf(bench)).toEqual([]);
  expect((await bench.ask<{ stoves: unknown[] }>('GET', '/stoves')).stoves).toEqual([]);
});
