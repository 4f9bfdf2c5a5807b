import { expect } from 'vitest';
import type { BurnDetail } from '../../shared/contract/burns.ts';
import { test } from '../support/browser.ts';
import { benchWithHeron, benchWithPage, litBurn, startBurn } from './bench-with-page.ts';
import { patiently } from './patiently.ts';
import { undoOf } from './undo-of.ts';
import { weighSheet } from './weighing.ts';

const timeScale = 20;
/** The browser logs a refusal, as expected. */
const refused = [/status of 409/, /Failed to load resource/, /net::ERR/];

test('two phones on one burn: marks of both on both, an undo of both at once, and late entries of one that was away', async ({
  openPage,
}) => {
  const { bench, burn } = await litBurn(timeScale);
  const stored = async () =>
    (await bench.ask<BurnDetail>('GET', `/burns/${burn.id}`)).marks
      .filter(({ withdrawn }) => !withdrawn)
      .map(({ mark }) => mark.kind);
  const [mine, yours] = [
    await openPage(bench.url, { width: 390, expectedErrors: refused }),
    await openPage(bench.url, { width: 390, expectedErrors: refused }),
  ];
  const both = [mine, yours];
  for (const page of both) await page.locator('.number .figure').waitFor();

  // An answer of the service that was under way while a mark was made does not hide the mark.
  const [answered, seen] = [Promise.withResolvers<void>(), Promise.withResolvers<void>()];
  await mine.route(`**/api/burns/${burn.id}`, async (route) => {
    const response = await route.fetch();
    answered.resolve();
    await seen.promise;
    await route.fulfill({ response });
  });
  await bench.ask('PATCH', `/burns/${burn.id}`, { title: 'in the rain', expectedVersion: burn.version });
  await answered.promise;
  await mine.getByRole('button', { name: 'Poked the fire', exact: true }).tap();
  await mine.locator('.log').getByText('Poked the fire').waitFor();
  seen.resolve();
  await mine.getByRole('heading', { name: 'in the rain' }).waitFor();
  expect(await mine.locator('.log').getByText('Poked the fire').count()).toBe(1);
  await mine.unrouteAll();
  await yours
    .locator('.thumb')
    .getByRole('button', { name: /^(Take|Put) lid/ })
    .tap();
  for (const page of both) {
    await page.locator('.log').getByText('Poked the fire').waitFor();
    await page.locator('.log').getByText('Lid off').waitFor();
  }
  await patiently(async () => (await stored()).sort()).toEqual(['lidOff', 'lit', 'nudged']);

  // Both correct the same mark: the second sees what the first saved, and decides.
  await bench.ask('POST', `/burns/${burn.id}/marks`, { kind: 'fed', massKg: 9.6 });
  for (const page of both) {
    await page.getByRole('button', { name: 'Correct “fed 9.60\u00a0kg”' }).tap();
    await page.locator('dialog').getByLabel('Mass').waitFor();
  }
  await mine.locator('dialog').getByLabel('Mass').fill('0.96');
  await mine.locator('dialog').getByRole('button', { name: 'Save', exact: true }).tap();
  await mine.locator('.log').getByText('fed 0.96').waitFor();
  await yours.locator('dialog').getByLabel('Mass').fill('0.69');
  await yours.locator('dialog').getByRole('button', { name: 'Save', exact: true }).tap();
  const fedKg = async () =>
    (await bench.ask<BurnDetail>('GET', `/burns/${burn.id}`)).marks.flatMap(({ mark }) =>
      mark.kind === 'fed' ? [mark.massKg] : [],
    );
  await yours.locator('dialog').getByText('Somebody changed this on another screen meanwhile').waitFor();
  await yours.locator('dialog').getByText('Now it is: fed 0.96\u00a0kg, at').waitFor();
  expect(await fedKg()).toEqual([0.96]);
  expect(await yours.locator('dialog').getByLabel('Mass').inputValue()).toBe('0.69');
  await yours.locator('dialog').getByRole('button', { name: 'Save', exact: true }).tap();
  await patiently(fedKg).toEqual([0.69]);
  await mine.locator('.log').getByText('fed 0.69').waitFor();

  // Both withdraw the same mark, one of them while the service is out of reach: it is withdrawn once, without an error.
  await bench.ask('POST', `/burns/${burn.id}/marks`, { kind: 'away' });
  for (const page of both) await undoOf(page, 'Left the fire').waitFor();
  await mine.context().setOffline(true);
  await mine.getByText('The service does not answer.').waitFor();
  await undoOf(mine, 'Left the fire').tap();
  await undoOf(yours, 'Left the fire').tap();
  await patiently(stored).not.toContain('away');
  await mine.context().setOffline(false);
  await mine.locator('.banner').waitFor({ state: 'detached' });
  expect(await mine.locator('.log').getByText('Left the fire').count()).toBe(0);
  await patiently(async () => (await stored()).sort()).toEqual(['fed', 'lidOff', 'lit', 'nudged']);
});

test('two people weighing the same thing: the second sees the first before anything is overwritten', async ({
  openPage,
}) => {
  const bench = await benchWithPage();
  const { burn } = await startBurn(bench);
  await bench.ask('PATCH', `/burns/${burn.id}`, { status: 'ended', expectedVersion: burn.version });
  await bench.ask('POST', `/burns/${burn.id}/weighings`, { of: 'ash', when: 'end', massKg: 0.2 });
  const ashKg = async () =>
    (await bench.ask<BurnDetail>('GET', `/burns/${burn.id}`)).weighings.map(({ weighing }) => weighing.massKg);
  const pages = [];
  for (const width of [390, 1280] as const)
    pages.push(await openPage(`${bench.url}#/burns/${burn.id}/wrap-up`, { width, expectedErrors: refused }));
  const [my, your] = pages;
  if (!my || !your) throw new Error('two pages were wanted');
  const [mine, yours] = [weighSheet(my), weighSheet(your)];
  await mine.field('Ash').fill('0.25');
  await yours.field('Ash').fill('0.35');
  await mine.save();
  await patiently(ashKg).toEqual([0.25]);
  await your.locator('.weigh-up').waitFor();
  await yours.save();
  await your.getByText('Somebody changed this on another screen meanwhile').waitFor();
  // The value that the first saved is shown at the field, which still contains what the second typed.
  await your.getByText('They saved: 0.25\u00a0kg.').waitFor();
  expect([await ashKg(), await yours.field('Ash').inputValue()]).toEqual([[0.25], '0.35']);
  await yours.save();
  await patiently(ashKg).toEqual([0.35]);
  await my.locator('.weighings').getByText('0.35').waitFor();
});

test('a stretch excluded on one screen is excluded on the other, and used again on both', async ({ openPage }) => {
  const { bench, records } = await benchWithHeron([4]);
  const [record] = records;
  const phone = await openPage(`${bench.url}#/burns/${record?.id}`, { width: 390 });
  const laptop = await openPage(`${bench.url}#/burns/${record?.id}`);
  for (const page of [phone, laptop]) await page.locator('.result.primary').waitFor();
  await bench.ask('POST', `/burns/${record?.id}/exclusions`, {
    channelId: record?.channels[0]?.id,
    fromUs: 1200e6,
    toUs: 1500e6,
    reason: 'stirred',
  });
  for (const page of [phone, laptop]) await page.locator('.exclusions').getByText('stirred').first().waitFor();
  await laptop.getByRole('button', { name: /^Use .* again \(stirred\)$/ }).click();
  for (const page of [phone, laptop]) await page.locator('.exclusions').waitFor({ state: 'detached' });
});
