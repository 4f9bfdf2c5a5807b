import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium } from 'playwright-core';
import { buildApp } from '../../server/app.ts';
import { createRealClock } from '../../server/base/clock.ts';
import { openStore } from '../../server/store/open-store.ts';
import type { Series } from '../../shared/contract/series.ts';
import { median } from '../../shared/statistics/quantile.ts';
import { ensurePageBuilt } from '../build/page.ts';
import { findChromium } from '../test/system-programs.ts';
import type { Measurement } from '../tools/measurement.ts';
import { saveBurns } from './overlay/twenty-burns.ts';

const BURNS = 20;
/** As many a curve as the page asks for where there are so many burns. */
const POINTS = 400;
const ROUNDS = 15;
const FRESH_PROCESSES = 3;
const FLOOR_NAME = 'the same curves parsed from JSON';
const pageFolder = join(import.meta.dirname, '..', '..', 'dist', 'web');

type App = Awaited<ReturnType<typeof buildApp>>['app'];

/** Twenty burns laid over each other: their curves out of the service, and the page's chart drawn anew, to the painted frame. */
export default async function measure(): Promise<Measurement[]> {
  const folder = mkdtempSync(join(tmpdir(), 'stovebench-bench-'));
  await ensurePageBuilt();
  const first = await firstLook();
  const service = await buildApp({
    folder,
    pageFolder,
    clock: createRealClock(1),
    ports: { open: () => Promise.reject(new Error('there are no ports here')), list: async () => [] },
  });
  try {
    const ids = await saveBurns(service.store, BURNS);
    const curves = await dataPath(service.app, ids);
    const executablePath = findChromium();
    if (executablePath) return [first, ...curves, ...(await drawing(service.app, ids, executablePath))];
    console.error('no Chromium on this machine: the drawing is not measured');
    return [first, ...curves];
  } finally {
    await service.app.close();
    rmSync(folder, { recursive: true });
  }
}

/** The curves of a bench that has been running, in a process that has just started. */
async function firstLook(): Promise<Measurement> {
  const folder = mkdtempSync(join(tmpdir(), 'stovebench-bench-'));
  try {
    const store = openStore(join(folder, 'data'), { nowMs: Date.now });
    await saveBurns(store, BURNS);
    store.close();
    // The curves of a burn are made when it ends or comes in.
    look(join(folder, 'data'));
    const looks = Array.from({ length: FRESH_PROCESSES }, () => look(join(folder, 'data')));
    const [ours, floor] = [median(looks.map(({ firstMs }) => firstMs)), median(looks.map(({ parseMs }) => parseMs))];
    return compared(`curves of ${BURNS} burns, first time in a fresh process`, ours, floor, FLOOR_NAME);
  } finally {
    rmSync(folder, { recursive: true });
  }
}

function look(folder: string): { firstMs: number; parseMs: number } {
  const script = join(import.meta.dirname, 'overlay', 'first-look.ts');
  return JSON.parse(execFileSync(process.execPath, [script, folder, `${POINTS}`], { encoding: 'utf8' }));
}

function fetchSeries(app: App, ids: readonly string[]): Promise<string[]> {
  return Promise.all(ids.map(async (id) => (await app.inject(`/api/burns/${id}/series?points=${POINTS}`)).payload));
}

async function dataPath(app: App, ids: readonly string[]): Promise<Measurement[]> {
  let texts: string[] = [];
  const firstMs = await elapsedMs(async () => {
    texts = await fetchSeries(app, ids);
  });
  const [again, floor]: [number[], number[]] = [[], []];
  for (let round = 0; round < ROUNDS; round++) {
    again.push(await elapsedMs(async () => (await fetchSeries(app, ids)).map((text) => JSON.parse(text))));
    floor.push(await elapsedMs(async () => texts.map((text) => JSON.parse(text))));
  }
  const row = (name: string, value: number) => compared(name, value, median(floor), FLOOR_NAME);
  return [
    row(`curves of ${BURNS} burns at 1 Hz, read and thinned (once in the life of a burn)`, firstMs),
    row(`curves of ${BURNS} burns, asked for again`, median(again)),
  ];
}

async function drawing(app: App, ids: readonly string[], executablePath: string): Promise<Measurement[]> {
  await app.listen({ host: '127.0.0.1', port: 0 });
  const { port } = app.server.address() as { port: number };
  const curves = (await fetchSeries(app, ids)).flatMap((text) =>
    (JSON.parse(text) as Series).curves.filter(({ id }) => id === 'water' || id === 'waterRate'),
  );
  const uPlot = readFileSync(new URL(import.meta.resolve('uplot/dist/uPlot.iife.min.js')), 'utf8');
  const inPage = readFileSync(join(import.meta.dirname, 'overlay', 'in-page.js'), 'utf8');
  const browser = await chromium.launch({ executablePath, args: ['--no-sandbox', '--disable-gpu'] });
  try {
    const page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
    await page.goto(`http://127.0.0.1:${port}/#/overlay/${ids.join('/')}`);
    // The results under the chart take the service a while, and this machine's cores with it.
    await page.locator('.beside tbody tr').first().waitFor({ timeout: 300_000 });
    await page.evaluate(`(() => { ${inPage} })()`);
    const clicks = (selector: string) =>
      page.evaluate(`clicksToPaint(${JSON.stringify(selector)}, ${ROUNDS})`) as Promise<number>;
    // Every curve is laid and drawn anew: in the lines of its burn, then in those of its revision, and back.
    const anew = await clicks('.laid-controls fieldset:last-of-type input:not(:checked)');
    const hidden = await clicks('.laid input[type=checkbox]');

    await page.setContent('');
    await page.evaluate(`(() => { ${uPlot}; globalThis.uPlot = uPlot; ${inPage} })()`);
    const floor = (await page.evaluate(`linesToPaint(${JSON.stringify(curves)}, ${ROUNDS})`)) as number;
    const row = (name: string, value: number) => compared(name, value, floor, 'uPlot, the same curves as plain lines');
    return [
      row(`${BURNS} burns laid anew, to the painted frame`, anew),
      row(`one of ${BURNS} burns hidden or shown, to the painted frame`, hidden),
    ];
  } finally {
    await browser.close();
  }
}

function compared(name: string, value: number, floor: number, floorName: string): Measurement {
  return { name, value, unit: 'ms', floor, floorName, ratio: value / floor };
}

async function elapsedMs(work: () => Promise<unknown>): Promise<number> {
  const startedMs = performance.now();
  await work();
  return performance.now() - startedMs;
}
