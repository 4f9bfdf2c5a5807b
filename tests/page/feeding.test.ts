import { expect, onTestFinished } from 'vitest';
import { openPseudoTerminal } from '../../server/simulator/pseudo-terminal.ts';
import type { Board } from '../../shared/contract/boards.ts';
import type { BurnDetail } from '../../shared/contract/burns.ts';
import { test } from '../support/browser.ts';
import { type BenchWithPage, benchWithPage, startBurn } from './bench-with-page.ts';
import { patiently } from './patiently.ts';

/** Plugs in a scale under the wood pile that prints its mass. */
async function plugInScale(bench: BenchWithPage, massKg: () => number): Promise<void> {
  const terminal = await openPseudoTerminal();
  if (!terminal.available) throw new Error(terminal.reason);
  const printing = setInterval(() => terminal.write(`${massKg().toFixed(3)};14.2\r\n`), 50);
  onTestFinished(async () => {
    clearInterval(printing);
    await terminal.unplug();
  });
  const plain = {
    separator: 'semicolon',
    decimal: 'point',
    headerLines: 0,
    columns: [
      { column: 0, name: 'pile', unit: 'kg' },
      { column: 1, name: 'water', unit: 'Cel' },
    ],
  };
  const { id } = await bench.ask<Board>('POST', '/boards', { path: terminal.path, plain });
  const channels = async () =>
    (await bench.ask<{ boards: Board[] }>('GET', '/boards')).boards.find((board) => board.id === id)?.channels ?? [];
  await patiently(async () => (await channels()).length).toBe(2);
  const roles = { pile: 'fuelScale', water: 'water' } as const;
  for (const { id: channelId, name } of await channels())
    await bench.ask('PATCH', `/boards/${id}/channels/${channelId}`, { name, role: roles[name as keyof typeof roles] });
}

test('wood is logged from the scale, unweighed, some minutes late, by another person and from another lot', async ({
  openPage,
}) => {
  const bench = await benchWithPage({ timeScale: 20 });
  let pileKg = 9.5;
  await plugInScale(bench, () => pileKg);
  const kindling = await bench.ask<{ id: string }>('POST', '/fuel-lots', { name: 'Kindling', kind: 'kindling' });
  const started = await startBurn(bench);
  const { burn } = await bench.ask<BurnDetail>('PATCH', `/burns/${started.burn.id}`, {
    expectedVersion: started.burn.version,
    fuelLotIds: [...started.burn.fuelLotIds, kindling.id],
  });
  await bench.ask('POST', `/burns/${burn.id}/marks`, { kind: 'lit' });
  await bench.ask('POST', `/burns/${burn.id}/marks`, { kind: 'fed', massKg: 0.8 });
  const fed = async () => {
    const { marks, elapsedUs = 0 } = await bench.ask<BurnDetail>('GET', `/burns/${burn.id}`);
    return marks.flatMap(({ mark }) =>
      mark.kind === 'fed' ? [{ ...mark, agoS: (elapsedUs - mark.elapsedUs) / 1e6 }] : [],
    );
  };
  const page = await openPage(bench.url, { width: 390 });
  const feed = page.locator('.thumb').getByRole('button', { name: /^Fed/ });
  await page.locator('.number .figure').waitFor();
  pileKg = 8.3;

  await feed.tap();
  await page.getByRole('button', { name: 'From the scale: 1.20\u00a0kg' }).tap();
  await patiently(async () => (await fed()).at(-1)).toMatchObject({ massKg: 1.2, fuelLotId: burn.fuelLotIds[0] });

  await feed.tap();
  await page.getByRole('radio', { name: '10 min ago' }).check();
  await page.getByRole('button', { name: 'Not weighed' }).tap();
  // With an uncertainty of about a minute, and in order of time, before the one from the scale.
  await patiently(async () => (await fed()).find(({ massKg }) => massKg === undefined)).toMatchObject({
    standardUncertaintyS: 60,
  });
  const late = (await fed()).find(({ massKg }) => massKg === undefined);
  expect(late?.agoS).toBeGreaterThan(600);
  expect(late?.agoS).toBeLessThan(700);

  await feed.tap();
  await page.locator('.feed-more summary').tap();
  await page.getByLabel('By', { exact: true }).fill('second');
  await page.getByLabel('From', { exact: true }).selectOption({ label: 'Kindling' });
  await page.getByRole('button', { name: '0.80\u00a0kg', exact: true }).tap();
  await patiently(async () => (await fed()).filter(({ massKg }) => massKg === 0.8).length).toBe(2);
  expect((await fed()).find(({ by }) => by !== undefined)).toMatchObject({
    massKg: 0.8,
    by: 'second',
    fuelLotId: kindling.id,
  });
  await page.locator('.log').getByText('by second').waitFor();

  // The lot is corrected like everything else; a minute before the burn gives a question.
  await page.getByRole('button', { name: 'Correct “fed 1.20\u00a0kg”' }).tap();
  const dialog = page.locator('dialog');
  await dialog.getByLabel('From', { exact: true }).selectOption({ label: 'Kindling' });
  const minutes = dialog.getByLabel('Minutes from lighting');
  const was = await minutes.inputValue();
  await minutes.fill('-30');
  await dialog.getByText('min before recording began. Is it right?').waitFor();
  await minutes.fill(was);
  await dialog.getByText('before recording began').waitFor({ state: 'detached' });
  await dialog.getByRole('button', { name: 'Save', exact: true }).tap();
  await patiently(async () => (await fed()).find(({ massKg }) => massKg === 1.2)?.fuelLotId).toBe(kindling.id);
});
