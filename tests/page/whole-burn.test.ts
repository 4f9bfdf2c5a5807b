import type { Page } from 'playwright-core';
import { expect, onTestFinished } from 'vitest';
import { createRealClock } from '../../server/base/clock.ts';
import { createBoardOnCable } from '../../server/simulator/board-on-cable.ts';
import { exactMasses } from '../../server/simulator/exact-masses.ts';
import { heronScenario } from '../../server/simulator/heron-setup.ts';
import type { Action } from '../../server/simulator/operator.ts';
import { openPseudoTerminal } from '../../server/simulator/pseudo-terminal.ts';
import { simulateBurn } from '../../server/simulator/simulate-burn.ts';
import type { BurnDetail, BurnSummary } from '../../shared/contract/burns.ts';
import type { Analysis } from '../../shared/contract/results.ts';
import { test } from '../support/browser.ts';
import { benchWithPage } from './bench-with-page.ts';
import { patiently } from './patiently.ts';
import { headerForSecureAddresses, serviceByName } from './service-by-name.ts';
import { weighSheet } from './weighing.ts';

const timeScale = 60;
const seed = 'a small pot, warmed and held';
const expectedErrors = [/Failed to load resource/, /net::ERR/, headerForSecureAddresses];

/**
 * A small pot heated to 40 °C with a hold of one minute: twelve minutes from lit to fire out, twelve seconds on this
 * clock.
 */
function smallBurn() {
  const usual = heronScenario('2', 'M');
  return {
    ...usual,
    load: { waterKg: 2, startTempC: 14 },
    plan: {
      ...usual.plan,
      target: { kind: 'temperature' as const, tempC: 40 },
      holdS: 60,
      litAtS: 240,
      nudges: false,
      firstChargeKg: 0.3,
      chargeKg: 0.25,
    },
    timing: { ...usual.timing, readingEveryS: 5 },
  };
}

/** Makes one mark on the phone for each action of the simulated person. */
async function follow(page: Page, action: Action): Promise<void> {
  switch (action.kind) {
    case 'lit':
      return page.getByRole('button', { name: /^Lit/ }).tap();
    case 'fed': {
      await page.locator('.thumb').getByRole('button', { name: /^Fed/ }).tap();
      const lot = page.locator('.feed-more');
      await lot.locator('summary').tap();
      await lot.getByLabel('From').selectOption({ label: action.wood === 'wood' ? 'Beech' : 'Kindling' });
      for (const key of action.massKg.toFixed(2)) await page.locator('.keypad').getByText(key, { exact: true }).tap();
      return page.getByRole('button', { name: /^Save / }).tap();
    }
    case 'lidOff':
    case 'lidOn':
      return page
        .locator('.thumb')
        .getByRole('button', { name: /^(Take|Put) lid/ })
        .tap();
    case 'fireOut':
      await page.getByRole('button', { name: 'Other…' }).tap();
      return page.getByRole('button', { name: 'Fire out', exact: true }).tap();
    default:
  }
}

test('a whole burn runs from an empty database to its results, on a phone whose network is cut twice', async ({
  openPage,
}) => {
  const bench = await benchWithPage({ timeScale });
  const scenario = smallBurn();
  const { truth } = simulateBurn(scenario, seed);
  for (const [name, kind] of [
    ['Beech', 'wood'],
    ['Kindling', 'kindling'],
  ] as const)
    await bench.ask('POST', '/fuel-lots', {
      name,
      kind,
      moisture: { fraction: scenario[kind].moistureWet, basis: 'wet', how: 'ovenDry' },
      heatingValue: { MJPerKg: scenario[kind].netDryMJPerKg, basis: 'netDry' },
    });

  // Described before the board is plugged in, and saved for later. The phone connects as phones do: by the name of the
  // bench machine, over plain http.
  const page = await openPage(`${await serviceByName(bench)}#/new`, { width: 390, expectedErrors });
  for (const name of ['Beech', 'Kindling']) await page.getByLabel(name).check();
  await page.getByLabel('Water in the pot').fill('2');
  await page.getByLabel('Water temperature', { exact: true }).fill('14');
  await page.getByLabel('Wood set out: Beech').fill('5');
  await page.getByRole('radio', { name: 'a temperature' }).check();
  await page.getByLabel('Temperature to reach').fill('40');
  await page.getByLabel('Minutes to hold').fill('1');
  await page.getByLabel('Air pressure today').fill('984');
  await page.getByRole('button', { name: 'Keep for later' }).tap();
  // The form has a button of that name too: the test waits for the screen that follows.
  await page.getByRole('button', { name: 'Keep for later' }).waitFor({ state: 'detached' });
  await page.getByRole('button', { name: 'Start recording' }).waitFor();

  const terminal = await openPseudoTerminal();
  if (!terminal.available) throw new Error(terminal.reason);
  const actions: Action[] = [];
  const litAt = { board: 0, thumb: 0 };
  const board = createBoardOnCable({
    scenario,
    seed,
    clock: createRealClock(timeScale),
    onAction: (action) => {
      actions.push(action);
      if (action.kind === 'lit') litAt.board = Date.now();
    },
    settings: { identity: '0190f0a2-7c3a-7d4e-9b1f-3c5d7e9f1a2b' },
  });
  board.plugInto(terminal);
  onTestFinished(() => board.switchOff());
  board.board.switchOn();
  await page.getByRole('link', { name: 'Probes' }).tap();
  await page.getByLabel('Path of the port').fill(terminal.path);
  await page.getByRole('button', { name: 'Attach', exact: true }).tap();
  await page.locator('.channels tbody tr').first().waitFor();
  await page.getByRole('link', { name: 'Now' }).tap();
  await page.getByRole('button', { name: 'Start recording' }).tap();
  await page.locator('.number .figure').waitFor();

  // Marks follow until the fire is out; after the second and the fourth mark the network is lost for a while.
  let marked = 0;
  for (let done = false; !done; ) {
    await patiently(() => actions.length > marked || 'nothing to mark yet').toBe(true);
    const action = actions[marked] as Action;
    await follow(page, action);
    if (action.kind === 'lit') litAt.thumb = Date.now();
    marked += 1;
    if (marked === 2 || marked === 4) {
      await page.context().setOffline(true);
      await page.getByText('The service does not answer.').waitFor();
    } else if (marked === 3 || marked === 5) await page.context().setOffline(false);
    done = action.kind === 'fireOut';
  }
  await page.context().setOffline(false);
  await page.locator('.banner').waitFor({ state: 'detached' });

  await page.getByRole('button', { name: 'Stop recording' }).tap();
  await page.getByRole('alertdialog').getByRole('button', { name: 'Stop recording' }).tap();
  await page.getByRole('heading', { name: 'Weigh what is left' }).waitFor();
  const { waterKg, waterMeanC } = board.bench.model;
  const masses = exactMasses(scenario, actions, { massKg: waterKg, tempC: waterMeanC });
  const fedKg = (wood: string) =>
    actions.reduce((sum, action) => sum + (action.kind === 'fed' && action.wood === wood ? action.massKg : 0), 0);
  const { field, save } = weighSheet(page);
  await field('Half-burnt wood').fill(masses.brandsKg.toFixed(3));
  await field('Char').fill(masses.charKg.toFixed(3));
  await field('Wood pile: Beech').fill((5 - fedKg('wood')).toFixed(3));
  await field('Water', 'Mass').fill(masses.waterEndKg.toFixed(2));
  await field('Water', 'Temperature when weighed').fill(masses.waterEndTempC.toFixed(0));
  expect(await page.getByRole('radio', { name: 'is complete, all is weighed' }).isChecked()).toBe(true);
  await save();
  await page.locator('.result').first().waitFor();

  const { burns } = await bench.ask<{ burns: BurnSummary[] }>('GET', '/burns');
  const id = burns[0]?.id;
  const { marks } = await bench.ask<BurnDetail>('GET', `/burns/${id}`);
  const expected = actions.filter(({ kind }) => ['lit', 'fed', 'lidOn', 'lidOff', 'fireOut'].includes(kind));
  // All marks arrive, in order, and none twice.
  expect(marks.map(({ mark }) => mark.kind)).toEqual(expected.map(({ kind }) => kind));

  const { results } = await bench.ask<Analysis>('GET', `/burns/${id}/results`);
  const value = (wanted: string) => {
    const result = results.find((each) => each.id === wanted);
    return result && 'value' in result ? result.value : Number.NaN;
  };
  // On a clock sixty times too fast the mark "lit" is late by a minute or more, which shortens the time to target.
  const lateS = ((litAt.thumb - litAt.board) / 1000) * timeScale;
  const shortS = (truth.moments.target ?? 0) - truth.moments.lit - value('timeToTarget');
  expect(shortS).toBeGreaterThan(-45);
  expect(shortS).toBeLessThan(lateS + 45);
  expect(value('equivalentDryFuel') / (truth.equivalentDryFuel ?? 0)).toBeCloseTo(1, 0);
  expect(await page.locator('.result-list').textContent()).toContain('Thermal efficiency');
});
