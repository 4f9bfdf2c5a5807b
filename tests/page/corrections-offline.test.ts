import { expect } from 'vitest';
import type { BurnDetail } from '../../shared/contract/burns.ts';
import { test } from '../support/browser.ts';
import { benchWithHeron } from './bench-with-page.ts';
import { patiently } from './patiently.ts';
import { weighSheet } from './weighing.ts';

const expectedErrors = [/Failed to load resource/, /net::ERR/];

test('corrections, an excluded stretch and a weigh-up wait while the service is away, and arrive once, in order; refused, they return', async ({
  openPage,
}) => {
  const { bench, records } = await benchWithHeron([4]);
  const [record] = records;
  if (!record) throw new Error('a burn was wanted');
  const path = `/burns/${record.id}`;
  const detail = () => bench.ask<BurnDetail>('GET', path);
  const marks = record.marks.toSorted((one, other) => one.elapsedUs - other.elapsedUs);
  const indices = marks.flatMap(({ kind }, index) => (kind === 'fed' ? [index] : []));
  const [first = 0, second = 0] = indices;
  const fed = async (index: number) => (await detail()).marks.find(({ mark }) => mark.id === marks[index]?.id);
  const page = await openPage(`${bench.url}#${path}`, { width: 390, expectedErrors });
  await page.setViewportSize({ width: 360, height: 600 });
  const dialog = page.locator('dialog');
  const line = (index: number) => page.locator('.log li').nth(index);
  const correct = async (index: number, mass: string) => {
    await line(index).getByRole('button').click();
    await dialog.getByLabel('Mass').fill(mass);
    await dialog.getByRole('button', { name: 'Save', exact: true }).click();
  };
  await page.getByRole('button', { name: 'Leave out a stretch' }).waitFor();
  await page.context().setOffline(true);
  await page.getByText('The service does not answer.').waitFor();

  // Corrected twice before it is sent: one entry.
  await correct(first, '0.5');
  await dialog.waitFor({ state: 'detached' });
  await line(first).getByText('waiting').waitFor();
  await correct(first, '0.6');
  await dialog.waitFor({ state: 'detached' });
  await line(first).getByText('fed 0.60').waitFor();
  await page.getByRole('button', { name: 'Leave out a stretch' }).click();
  await page.getByLabel('From minute').fill('30');
  await page.getByLabel('to minute').fill('40');
  await page.getByLabel('Why?').fill('the lead was pulled');
  await page.getByRole('button', { name: 'Leave it out' }).click();
  await page.locator('.exclusions').getByText('waiting').waitFor();
  await page.locator('.last-change').getByText('(waiting)').waitFor();
  await line(second).getByRole('button').click();
  await dialog.getByRole('button', { name: 'Take this mark back' }).click();
  await dialog.waitFor({ state: 'detached' });
  await page.getByRole('link', { name: 'Weigh what is left' }).first().click();
  await weighSheet(page).field('Ash').fill('0.3');
  await weighSheet(page).save();
  await page.locator('.weighings').getByText('0.30\u00a0kg · waiting').waitFor();
  await page.locator('.notice').getByText('It waits on this device').waitFor();
  // Content that is not available meanwhile is not shown as lost.
  await page.getByText('This is shown when it is back.').first().waitFor();
  expect([await page.getByText('nothing was changed').count(), await page.locator('canvas').count()]).toEqual([0, 0]);
  await page.getByText('4 entries waiting').waitFor();

  // The first answer is lost.
  const sent: string[] = [];
  await page.route(/\/api\/burns\/.*/, async (route) => {
    const request = route.request();
    if (request.method() === 'GET') return route.continue();
    sent.push(`${request.method()} ${new URL(request.url()).pathname.split('/')[4]}`);
    if (sent.length > 1) return route.continue();
    await route.fetch();
    await route.abort('connectionreset');
  });
  await page.context().setOffline(false);
  await page.locator('.banner').waitFor({ state: 'detached' });
  expect(sent).toEqual(['PUT marks', 'PUT marks', 'POST exclusions', 'DELETE marks', 'POST weigh-up']);
  await page.unroute(/\/api\/burns\/.*/);
  await page.locator('canvas').first().waitFor();
  await page.locator('.result').first().waitFor();
  expect(await fed(first)).toMatchObject({ version: 2, mark: { massKg: 0.6 } });
  expect(await fed(second)).toMatchObject({ version: 2, withdrawn: true });
  const after = await detail();
  expect(after.exclusions).toMatchObject([{ version: 1, exclusion: { reason: 'the lead was pulled' } }]);
  expect(after.weighings.filter(({ weighing }) => weighing.of === 'ash')).toMatchObject([
    { weighing: { massKg: 0.3 } },
  ]);
  await page.locator('.log').getByText('waiting').waitFor({ state: 'detached' });

  // Another person corrects the same mark meanwhile: it returns with both figures, and nothing is overwritten without
  // notice.
  await page.context().setOffline(true);
  await page.getByText('The service does not answer.').waitFor();
  await correct(first, '0.7');
  await line(first).getByText('fed 0.70').waitFor();
  const { mark } = (await fed(first)) ?? {};
  await bench.ask('PUT', `${path}/marks/${mark?.id}`, { mark: { ...mark, massKg: 0.8 }, expectedVersion: 2 });
  await page.context().setOffline(false);
  await page.locator('.banner.refused').getByRole('button', { name: 'Look at it' }).click();
  await dialog.getByText('Now it is: fed 0.80\u00a0kg').waitFor();
  expect([await dialog.getByLabel('Mass').inputValue(), (await fed(first))?.version]).toEqual(['0.7', 3]);
  await dialog.getByRole('button', { name: 'Save', exact: true }).click();
  await patiently(() => fed(first)).toMatchObject({ version: 4, mark: { massKg: 0.7 } });
  await page.locator('.banner').waitFor({ state: 'detached' });

  // A stretch that the service refuses returns to its form, with the reason.
  await page.route('**/exclusions', (route) =>
    route.fulfill({ status: 400, json: { code: 'mark/unknown-channel', message: 'There is no such probe.' } }),
  );
  await page.getByRole('button', { name: 'Leave out a stretch' }).click();
  await page.getByLabel('From minute').fill('50');
  await page.getByLabel('to minute').fill('52');
  await page.getByLabel('Why?').fill('steam');
  await page.getByRole('button', { name: 'Leave it out' }).click();
  await page.locator('.leave-out').getByText('There is no such probe.').waitFor();
  expect(await page.getByLabel('Why?').inputValue()).toBe('steam');
  await page.unroute('**/exclusions');
  await page.getByRole('button', { name: 'Leave it out' }).click();
  await patiently(async () => (await detail()).exclusions.length).toBe(2);
  await page.locator('.banner').waitFor({ state: 'detached' });
});
