import type { Page } from 'playwright-core';
import { expect } from 'vitest';
import type { BurnRecord } from '../../shared/contract/burn-record.ts';
import type { Comparison } from '../../shared/contract/comparison.ts';
import { test as base } from '../support/browser.ts';
import { complaints, looksOf, overflow } from './accessible.ts';
import { type BenchWithPage, benchWithPage, saveHeronBurns } from './bench-with-page.ts';
import { patiently } from './patiently.ts';

/** Two burns of each revision of the Heron to the boil, one spoilt by a loose probe, one to 90 °C. */
const indices = [0, 1, 4, 5, 2, 6];

/**
 * One bench for the whole file, since most of the time would go into simulating and analysing the same burns again.
 * Tests that change it come after those that depend on its state.
 */
// biome-ignore lint/correctness/noEmptyPattern: vitest reads from the pattern which fixtures this one needs: none
const test = base.extend('heron', { scope: 'file' }, async ({}, { onCleanup }) => {
  const ends: (() => void | Promise<void>)[] = [];
  onCleanup(async () => {
    for (const end of ends.reverse()) await end();
  });
  const bench = await benchWithPage({ endsWith: (end) => ends.push(end) });
  const records = await saveHeronBurns(bench, indices, declaredTwoDays);
  const idsOf = (label: string) => records.filter(({ revision }) => revision?.label === label).map(({ id }) => id);
  const revisionOf = (label: string) => records.find(({ revision }) => revision?.label === label)?.revision?.id;
  return {
    bench,
    records,
    ids: { a: idsOf('1'), b: idsOf('2') },
    hash: `#/compare/revisions/${revisionOf('1')}/${revisionOf('2')}`,
  };
});

/** Plans as many days as there are here, so that this is the planned look and its interval is drawn. */
function declaredTwoDays(record: BurnRecord): BurnRecord {
  const { revision } = record;
  if (!revision?.plannedDays) return record;
  return { ...record, revision: { ...revision, plannedDays: { ...revision.plannedDays, days: 2 } } };
}

function asked(bench: BenchWithPage, { a, b }: { a: string[]; b: string[] }, more = ''): Promise<Comparison> {
  return bench.ask<Comparison>('GET', `/comparison?a=${a.join(',')}&b=${b.join(',')}&ladder=yes${more}`);
}

const verdictOf = (page: Page) => page.locator('.verdict-sentence').textContent();

test('two revisions chosen from the list are compared by one sentence, with every burn as a point and every reason', async ({
  openPage,
  heron,
}) => {
  const { bench, ids, hash } = heron;
  const comparison = await asked(bench, ids);
  const page = await openPage(`${bench.url}#/compare`);
  // The newest change is shown at once: one sentence, every burn that counts, all revisions, and why the others do not
  // count.
  await page.locator('.verdict-sentence').waitFor();
  expect(await verdictOf(page)).toBe(comparison.sentence);
  const counted = comparison.burns.a.length + comparison.burns.b.length;
  expect(await page.locator('.points-plot .burn-dot').count()).toBe(counted);
  expect(await page.locator('.ladder-plot .likely').count()).toBe(2);
  const howMany = `${counted} of ${indices.length} burns count`;
  await page.getByText(howMany).waitFor();
  for (const { sentence } of comparison.setAside) await page.locator('.set-aside').getByText(sentence).waitFor();
  // The same number on the other screens.
  for (const screen of ['level', 'cost', 'design']) {
    await page.goto(`${bench.url}#/compare/${screen}`);
    await page.getByText(howMany).waitFor();
  }
  await page.goto(`${bench.url}#/compare`);
  await page.getByRole('link', { name: 'Heron: revision 2 against 1' }).click();
  await page.locator('.also-different').waitFor();
  expect(page.url()).toContain(hash);

  expect(await verdictOf(page)).toBe(comparison.sentence);
  await page.getByText('Dry wood per batch was chosen before these burns to carry the verdict.').waitFor();
  for (const { sentence } of comparison.alsoDiffered)
    expect(await page.locator('.also-different').textContent()).toContain(sentence);

  // Rings and lozenges: the burns that count, on one axis with the interval.
  expect(await page.locator('.points-plot .burn-dot.a').count()).toBe(comparison.burns.a.length);
  expect(await page.locator('.points-plot .burn-dot.b').count()).toBe(comparison.burns.b.length);
  expect(await page.locator('.points-plot .interval').count()).toBe(1);
  expect(comparison.setAside.length).toBe(2);
  for (const { sentence } of comparison.setAside) await page.locator('.key-why').getByText(sentence).waitFor();

  // Other results: each unfolds into its sentence, with a warning that many results raise false alarms.
  const seen = comparison.differences.slice(1);
  const sentences = await page.locator('.seen-line .difference-detail > p:first-child').allTextContents();
  expect(sentences.sort()).toEqual(seen.map(({ sentence }) => sentence).sort());
  await page.getByText(comparison.otherResults?.sentence ?? 'no warning').waitFor();

  // In print all of them are present, folded ones included.
  await page.emulateMedia({ media: 'print' });
  for (const line of await page.locator('.seen-line').all()) expect(await line.isVisible()).toBe(true);
  await page.emulateMedia({ media: 'screen' });

  // The ladder: a level for each revision, the step between them with the same interval, what was changed.
  expect(await page.locator('.ladder-plot .likely').count()).toBe(2);
  expect(await page.locator('.ladder-plot .interval').count()).toBe(
    comparison.ladder?.steps[0]?.deciding?.interval ? 1 : 0,
  );
  await page.locator('.ladder-steps').getByText('sleeve thickness: – → 5.0 cm').waitFor();
  expect(await page.locator('.verdict-plan').first().textContent()).toBe(comparison.stopping?.sentence);

  // A line unfolds into every burn and its unadjusted figures.
  const time = comparison.differences.find(({ id }) => id === 'timeToTarget');
  await page.locator('.seen-line', { hasText: 'Time to target' }).locator('summary').click();
  const rows = page.locator('.seen-line[open] .every-burn tbody tr');
  expect(await rows.count()).toBe(time?.points.length);
  await page.locator('.seen-line[open] .raw').getByText('As burnt, nothing brought to common conditions').waitFor();
});

test('another result, blocks and unadjusted burns change the verdict, the address and the sentence about the choice', async ({
  openPage,
  heron,
}) => {
  const { bench, ids, hash } = heron;
  const page = await openPage(bench.url + hash);
  await page.getByText('How it is compared').click();
  await page.getByRole('radio', { name: 'as burnt' }).check();
  const raw = await asked(bench, ids, '&adjust=no');
  await patiently(() => verdictOf(page)).toBe(raw.sentence);
  expect(await page.locator('.verdict .raw').count()).toBe(0);

  await page.getByRole('radio', { name: 'same day' }).check();
  const inBlocks = await asked(bench, ids, '&adjust=no&blocks=day');
  await patiently(() => verdictOf(page)).toBe(inBlocks.sentence);

  await page.getByLabel('Verdict on').selectOption('timeToTarget');
  const time = await asked(bench, ids, '&adjust=no&blocks=day&primary=timeToTarget');
  await patiently(() => verdictOf(page)).toBe(time.sentence);
  expect(time.sentence).toContain('Time to target was chosen after the first burn to carry the verdict');
  // A reload shows the same comparison.
  expect(page.url()).toContain('?blocks=day&adjust=no&primary=timeToTarget');
  await page.reload();
  await patiently(() => verdictOf(page)).toBe(time.sentence);
});

test('burns are assigned to two sides by hand, and one burn per side has no verdict', async ({ openPage, heron }) => {
  const { bench, records } = heron;
  const [bare, , sleeved] = records;
  if (!bare || !sleeved) throw new Error('two burns were wanted');
  const page = await openPage(`${bench.url}#/compare/by-hand`, { width: 390 });
  const compare = page.getByRole('button', { name: /^Compare B/ });
  await compare.waitFor();
  expect(await compare.isDisabled()).toBe(true);
  await page
    .getByRole('group', { name: `Side of ${bare.title}` })
    .first()
    .getByRole('radio')
    .nth(1)
    .check();
  await page
    .getByRole('group', { name: `Side of ${sleeved.title}` })
    .first()
    .getByRole('radio')
    .nth(2)
    .check();
  await compare.tap();
  await page.getByText('at least two days of each are needed').first().waitFor();
  expect(await page.locator('.points-plot').count()).toBe(0);
  expect(await overflow(page)).toBe(0);
});

test('the comparison is in French, in pounds, and its report in the language and on the paper chosen', async ({
  openPage,
  heron,
}) => {
  const { bench, hash } = heron;
  const page = await openPage(`${bench.url}#/settings`, { language: 'fr' });
  await page.getByRole('radio', { name: /américaines/ }).check();
  await page.goto(bench.url + hash);
  await page.locator('.points-plot').waitFor();
  expect(await verdictOf(page)).toMatch(/révision 2/i);
  expect(await page.locator('.points-plot').textContent()).toMatch(/\d,\d\d\u00a0lb/);
  await page.getByRole('radio', { name: 'A4' }).check();
  const link = await page.getByRole('link', { name: 'PDF' }).getAttribute('href');
  expect(link).toMatch(/language=fr&paper=a4$/);
  const pdf = await fetch(new URL(link ?? '', bench.url), { headers: { 'accept-language': 'en' } });
  expect(pdf.headers.get('content-type')).toBe('application/pdf');
  const html = await page.getByRole('link', { name: 'HTML' }).getAttribute('href');
  expect(
    await (await fetch(new URL(html ?? '', bench.url), { headers: { 'accept-language': 'en' } })).text(),
  ).toContain('<html lang="fr"');
});

test('in French on the smallest phone the five tabs are in one row, and no screen is wider than its display', async ({
  openPage,
  heron,
}) => {
  const { bench, hash } = heron;
  const page = await openPage(bench.url, { width: 390, language: 'fr' });
  await page.setViewportSize({ width: 320, height: 600 });
  const found: Record<string, number[]> = {};
  const ready = {
    '#/compare/load': '.load-page form',
    '#/compare/level': '.level-plot',
    '#/compare/cost': '.cost-plot',
  };
  const screens = { '#/compare': '.ladder-plot', [hash]: '.key-groups', ...ready, '#/compare/design': '.level-plot' };
  for (const [address, shown] of Object.entries(screens)) {
    await page.goto(bench.url + address);
    await page.locator(shown).first().waitFor();
    const tops = await page
      .locator('.compare-nav a')
      .evaluateAll((all) => [...new Set(all.map((each) => each.getBoundingClientRect().top))]);
    const last = await page.locator('.compare-nav a').last().boundingBox();
    found[address] = [tops.length, await overflow(page), Math.max(0, (last?.x ?? 0) + (last?.width ?? 0) - 320)];
  }
  expect(found).toEqual(Object.fromEntries(Object.keys(screens).map((address) => [address, [1, 0, 0]])));
});

test('no comparing screen violates WCAG 2.2 AA or is wider than its display, on a phone in the dark theme and a laptop in the light one', async ({
  openPage,
  heron,
}) => {
  const { bench, hash, ids } = heron;
  const page = await openPage(bench.url, { width: 390, theme: 'dark' });
  const look = await looksOf(page);
  const screens: [hash: string, ready: string][] = [
    ['#/compare', '.any-pair'],
    ['#/compare/by-hand', '.sorting li'],
    [hash, '.key-groups'],
    [`#/overlay/${[...ids.a, ...ids.b].join('/')}`, '.beside tbody tr'],
    ['#/compare/load', '.load-page form'],
    ['#/compare/level', '.level-plot'],
    ['#/compare/cost', '.cost-plot'],
    ['#/compare/design', '.level-plot'],
  ];
  const found: Record<string, string[]> = {};
  for (const [address, ready] of screens) {
    await look('phone', 'dark');
    await page.goto(bench.url + address);
    await page.locator(ready).first().waitFor();
    await unfoldAll(page);
    for (const [device, theme] of [
      ['phone', 'dark'],
      ['laptop', 'light'],
    ] as const) {
      await look(device, theme);
      const wide = (await overflow(page)) > 0 ? ['wider than the screen'] : [];
      found[`${address}, ${device}`] = [...(await complaints(page)), ...wide];
    }
  }
  expect(Object.entries(found).filter(([, list]) => list.length > 0)).toEqual([]);
});

/** Unfolds everything, including what unfolds within it; content that is made on opening exists afterwards. */
function unfoldAll(page: Page): Promise<void> {
  return page.evaluate(async () => {
    const all = () => [...document.querySelectorAll<HTMLDetailsElement>('main details')];
    while (all().some((each) => !each.open || each.children.length < 2)) {
      for (const each of all()) each.open = true;
      await new Promise((done) => requestAnimationFrame(done));
    }
  });
}

test('an idea gets its days, its confounding and a schedule, and is added to the inventory with the planned days', async ({
  openPage,
  heron,
}) => {
  const { bench, hash } = heron;
  const page = await openPage(bench.url + hash, { width: 390 });
  await page.getByLabel('What would you change?').fill('secondary air');
  await page.getByLabel('Everything that would change').fill('air hole\nthroat');
  await page.getByLabel('Wood you have').fill('oak: 4');
  await page.getByRole('button', { name: 'What would it take?' }).tap();
  await page.getByText('2 things would change at once (air hole, throat)').waitFor();
  const rows = page.locator('.found-test .card tbody tr');
  expect((await rows.allTextContents()).slice(0, 2)).toEqual(['1revision 2oak', '2secondary airoak']);
  expect(await overflow(page)).toBe(0);
  await page.getByRole('button', { name: /^Add it as a revision/ }).tap();
  await page.getByText('Added as a revision').waitFor();
  const { revisions } = await bench.ask<{ revisions: { label: string; plannedDays?: object }[] }>('GET', '/revisions');
  expect(revisions.find(({ label }) => label === 'secondary air')?.plannedDays).toMatchObject({
    days: (await rows.count()) / 2,
    setAtUtcMs: expect.any(Number),
  });
});

test('a burn set aside on its own page is left out of the comparison with its reason', async ({ openPage, heron }) => {
  const { bench, ids, hash } = heron;
  const page = await openPage(bench.url + hash);
  await page.locator('.points-plot').waitFor();
  const dots = page.locator('.points-plot .burn-dot.b');
  expect(await dots.count()).toBe(2);
  const { burn } = await bench.ask<{ burn: { version: number } }>('GET', `/burns/${ids.b[0]}`);
  await bench.ask('PATCH', `/burns/${ids.b[0]}`, {
    expectedVersion: burn.version,
    status: 'setAside',
    setAsideReason: 'The wood was wet.',
  });
  // One day of it is left: figures, but no verdict and no drawing of one.
  await patiently(() => verdictOf(page)).toContain('Still to burn: 1 more day of revision 2.');
  expect(await dots.count()).toBe(0);
  await page.locator('.key-why').getByText('Not counted: The wood was wet.').waitFor();
});
