import type { Locator, Page } from 'playwright-core';
import { expect } from 'vitest';
import type { BurnDetail } from '../../shared/contract/burns.ts';
import { type MarkKind, markSchema } from '../../shared/contract/marks.ts';
import { test } from '../support/browser.ts';
import { benchWithPage, plugInSimulatedBoard, startBurn } from './bench-with-page.ts';
import { patiently } from './patiently.ts';

const timeScale = 20;

type Tap = (page: Page) => Locator;
const other: Tap = (page) => page.getByRole('button', { name: 'Other…' });
const named =
  (name: string | RegExp): Tap =>
  (page) =>
    page.getByRole('button', { name, exact: true });
const among =
  (group: string, name: string): Tap =>
  (page) =>
    page.getByRole('region', { name: group }).getByRole('button', { name, exact: true });
const lid: Tap = (page) => page.locator('.thumb').getByRole('button', { name: /^(Take|Put) lid/ });

interface Way {
  kind: MarkKind;
  taps: readonly Tap[];
  /** Text typed after the taps, field by field; Enter then logs it. */
  typed?: Readonly<Record<string, string>>;
  /** Label of the undo button. */
  undo: string;
  /** The mark without which this one is not offered. */
  after?: MarkKind;
  holds?: object;
}

const ways: readonly Way[] = [
  { kind: 'lit', taps: [named(/^Lit/)], undo: 'Lit' },
  { kind: 'relit', taps: [other, named('Relit')], undo: 'Relit', after: 'lit' },
  { kind: 'nudged', taps: [named('Poked the fire')], undo: 'Poked the fire' },
  { kind: 'lidOff', taps: [lid], undo: 'Lid off' },
  { kind: 'lidOn', taps: [lid], undo: 'Lid on', after: 'lidOff' },
  { kind: 'fed', taps: [named(/^Fed/), named('Not weighed')], undo: 'fed, not weighed' },
  { kind: 'potOff', taps: [other, named('Pot off')], undo: 'Pot off' },
  { kind: 'potOn', taps: [other, named('Pot on')], undo: 'Pot on', after: 'potOff' },
  { kind: 'logOut', taps: [other, named('Log pulled out')], undo: 'Log pulled out' },
  {
    kind: 'logOut',
    taps: [other, named('Log pulled out, weighed…')],
    typed: { Mass: '0.4' },
    undo: 'Log pulled out, 0.40\u00a0kg',
    holds: { massKg: 0.4 },
  },
  { kind: 'targetReached', taps: [other, named('Target reached')], undo: 'Target reached' },
  { kind: 'holdStart', taps: [other, named('Hold starts')], undo: 'Hold starts' },
  { kind: 'holdEnd', taps: [other, named('Hold ends')], undo: 'Hold ends' },
  { kind: 'wind', taps: [other, among('Wind', 'strong')], undo: 'wind: strong', holds: { step: 2 } },
  { kind: 'rain', taps: [other, among('Rain', 'some')], undo: 'rain: some', holds: { step: 1 } },
  { kind: 'probeMoved', taps: [other, among('Probe moved', 'riser')], undo: 'probe moved: riser' },
  { kind: 'away', taps: [other, named('Left the fire')], undo: 'Left the fire' },
  { kind: 'back', taps: [other, named('Back at the fire')], undo: 'Back at the fire', after: 'away' },
  ...(['waterIn', 'waterOut', 'goodsIn'] as const).map((kind) => ({
    kind,
    taps: [other, named({ waterIn: 'Water in', waterOut: 'Water out', goodsIn: 'Put in' }[kind])],
    typed: { Mass: '1.5', Temperature: '16' },
    undo: `${{ waterIn: 'water in', waterOut: 'water out', goodsIn: 'put in' }[kind]}, 1.50\u00a0kg at 16\u00a0°C`,
    holds: { massKg: 1.5, tempC: 16 },
  })),
  {
    kind: 'goodsOut',
    taps: [other, named('Taken out')],
    typed: { 'Water carried out with it': '0.7', Mass: '2', Temperature: '95' },
    undo: 'taken out, 2.00\u00a0kg at 95\u00a0°C',
    holds: { massKg: 2, waterCarriedOutKg: 0.7 },
  },
  { kind: 'note', taps: [named('Note')], typed: { 'What do you want to remember?': 'damp log' }, undo: 'damp log' },
  { kind: 'fireOut', taps: [other, named('Fire out')], undo: 'Fire out' },
];

test('every mark is made in at most two taps, without its figures, and withdrawn by a button that names it', async ({
  openPage,
}) => {
  const bench = await benchWithPage({ timeScale });
  await plugInSimulatedBoard(bench, timeScale);
  const { burn } = await startBurn(bench);
  const stored = async () =>
    (await bench.ask<BurnDetail>('GET', `/burns/${burn.id}`)).marks
      .filter(({ withdrawn }) => !withdrawn)
      .map(({ mark }) => mark);
  const page = await openPage(bench.url, { width: 390 });
  await page.locator('.number .figure').waitFor();
  for (const { kind, taps, typed, undo, after, holds } of ways) {
    if (after) {
      await bench.ask('POST', `/burns/${burn.id}/marks`, { kind: after });
      await patiently(() => page.locator('.undo').textContent()).toMatch(
        /^Undo “(Lit|Lid off|Pot off|Left the fire)”$/,
      );
    }
    // By identity, since the clocks of phone and service, twenty times too fast, may differ by a second of the burn.
    const before = new Set((await stored()).map(({ id }) => id));
    const fresh = async () => (await stored()).filter(({ id }) => !before.has(id));
    expect(taps.length, kind).toBeLessThanOrEqual(2);
    for (const tap of taps) await tap(page).tap();
    for (const [label, text] of Object.entries(typed ?? {})) {
      const field = page.locator('dialog').getByLabel(label, { exact: true });
      await field.fill(text);
      // A note may have several lines; the last field of figures logs with the Enter key of the phone.
      if (kind === 'note') await page.getByRole('button', { name: 'Save', exact: true }).tap();
      else if (label === Object.keys(typed ?? {}).at(-1)) await field.press('Enter');
    }
    const button = page.getByRole('button', { name: `Undo “${undo}”` });
    await button.waitFor();
    await patiently(fresh).toMatchObject([{ kind, ...holds }]);
    await button.tap();
    await page.getByText(`Taken back: ${undo}`).first().waitFor();
    await patiently(fresh).toEqual([]);
  }
  // An action some minutes ago is logged as such, for every kind.
  await other(page).tap();
  await page.getByRole('radio', { name: '5 min ago' }).check();
  await page.locator('dialog').getByRole('button', { name: 'Relit' }).tap();
  const relit = async () => (await stored()).filter(({ kind }) => kind === 'relit');
  await patiently(relit).toMatchObject([{ standardUncertaintyS: 60 }]);
  const { elapsedUs = 0 } = await bench.ask<BurnDetail>('GET', `/burns/${burn.id}`);
  expect((elapsedUs - (await relit())[0]!.elapsedUs) / 1e6).toBeGreaterThan(300);

  // The photo has a test of its own; a probe read by hand is not on a board.
  const tried = new Set<string>([...ways.map(({ kind }) => kind), 'photo', 'reading']);
  const known = markSchema.options.map(({ shape }) => shape.kind.value);
  expect(known.filter((kind) => !tried.has(kind))).toEqual([]);
});
