import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { type Browser, type CDPSession, chromium, type Page } from 'playwright-core';
import { fitLine } from '../../shared/statistics/line-fit.ts';
import { median } from '../../shared/statistics/quantile.ts';
import { firstLoadGzipBytes } from '../build/first-load.ts';
import { ensurePageBuilt } from '../build/page.ts';
import { findChromium } from '../test/system-programs.ts';
import type { Measurement } from '../tools/measurement.ts';
import { longBurn } from './live-page/long-burn.ts';
import { type ScriptedService, scriptedService } from './live-page/scripted-service.ts';

const pageFolder = join(import.meta.dirname, '..', '..', 'dist', 'web');
const inPage = readFileSync(join(import.meta.dirname, 'live-page', 'in-page.js'), 'utf8');
const beforePage = readFileSync(join(import.meta.dirname, 'live-page', 'before-page.js'), 'utf8');
const uPlot = readFileSync(new URL(import.meta.resolve('uplot/dist/uPlot.iife.min.js')), 'utf8');

/** The most that the first screen may cost. */
const FIRST_LOAD_KB = 120;
const POINTS = 2000;
/** Scans this far apart, the page's pause before it draws one included, are each drawn in a stretch of their own. */
const SCAN_EVERY_MS = 600;
const STRETCHES = 6;
const ROUNDS = 5;
const SCANS_AN_HOUR = 3600;
/** The page is weighed after each of these; at the end of the first everything that is made once has been made. */
const WEIGHED = { times: 4, afterScans: 600 };
const TIMERS_FASTER = 50;

/** The page of a running burn: what it costs to fetch, to draw a scan, and to keep open for hours. */
export default async function measure(): Promise<Measurement[]> {
  await ensurePageBuilt();
  const rows = [firstLoadRow()];
  const executablePath = findChromium();
  if (!executablePath) {
    console.error('no Chromium on this machine: neither drawing nor memory is measured');
    return rows;
  }
  const browser = await chromium.launch({ executablePath, args: ['--no-sandbox', '--disable-gpu'] });
  try {
    return [...rows, ...(await drawing(browser)), await memory(browser)];
  } finally {
    await browser.close();
  }
}

function firstLoadRow(): Measurement {
  return compared({
    name: 'script and style before the first screen, compressed',
    value: firstLoadGzipBytes(pageFolder) / 1000,
    unit: 'kB',
    floor: FIRST_LOAD_KB,
    floorName: 'the most they may be',
  });
}

interface Cost {
  /** Slowest frame of each stretch in which something is drawn once, median. */
  readonly frameMs: number;
  /** How long the page's main thread was at work, a stretch, in time of the processor. */
  readonly busyMs: number;
}

/** Eight channels of 2,000 points each, drawn when a scan comes: the page, uPlot, and a page on which nothing is drawn, in turns. */
async function drawing(browser: Browser): Promise<Measurement[]> {
  const record = longBurn(3);
  const service = await scriptedService(record, { pageFolder, scans: 2 * SCANS_AN_HOUR, points: POINTS });
  const costs: Record<'page' | 'uPlot' | 'empty', Cost[]> = { page: [], uPlot: [], empty: [] };
  try {
    const page = await openLive(browser, service);
    const box = (await page.locator('.strip canvas').boundingBox())!;
    const drawn = service.series(POINTS).curves.filter(({ id, role }) => id.startsWith('water') || role !== 'water');
    const plot = await (await browser.newContext({ viewport })).newPage();
    await plot.evaluate(`(() => { ${uPlot}; globalThis.uPlot = uPlot; ${inPage} })()`);
    const empty = await (await browser.newContext({ viewport })).newPage();
    for (let round = 0; round < ROUNDS; round++) {
      costs.empty.push(await costOf(empty));
      const size = `${SCAN_EVERY_MS}, ${Math.round(box.width)}, ${Math.round(box.height)}`;
      await plot.evaluate(`drawWithUPlot(${JSON.stringify(drawn)}, ${size})`);
      costs.uPlot.push(await costOf(plot));
      await plot.evaluate('stopDrawing()');
      const scans = setInterval(() => service.nextScan(), SCAN_EVERY_MS);
      costs.page.push(await costOf(page));
      clearInterval(scans);
    }
  } finally {
    await service.close();
  }
  for (const what of ['frameMs', 'busyMs'] as const)
    console.error(`  ${what}: ${JSON.stringify(everyRound(costs, what))}`);
  const of = (who: keyof typeof costs, what: keyof Cost) => median(costs[who].map((cost) => cost[what]));
  // Watching the frames is work too: an empty page tells how much.
  const workMs = (who: 'page' | 'uPlot') => of(who, 'busyMs') - of('empty', 'busyMs');
  const name = `a scan drawn, 8 channels of ${POINTS} points`;
  const uPlotFloor = { unit: 'ms', floorName: 'uPlot, the same curves as plain lines' };
  const frame = { name: `${name}: its frame`, value: of('page', 'frameMs'), unit: 'ms' };
  return [
    compared({ ...frame, floor: of('empty', 'frameMs'), floorName: 'slowest frame of an empty page' }),
    compared({ ...frame, ...uPlotFloor, floor: of('uPlot', 'frameMs') }),
    compared({ ...uPlotFloor, name: `${name}: work of the page`, value: workMs('page'), floor: workMs('uPlot') }),
  ];
}

/** The noise: medians alone hide it. */
function everyRound(costs: Record<string, Cost[]>, what: keyof Cost): Record<string, string[]> {
  return Object.fromEntries(
    Object.entries(costs).map(([who, rounds]) => [who, rounds.map((cost) => cost[what].toFixed(1))]),
  );
}

const viewport = { width: 1280, height: 800 };

async function openLive(browser: Browser, service: ScriptedService, before = ''): Promise<Page> {
  const page = await (await browser.newContext({ viewport })).newPage();
  if (before) await page.addInitScript(before);
  await page.goto(service.url);
  await page.locator('.strip canvas').waitFor();
  await page.evaluate(`(() => { ${inPage} })()`);
  return page;
}

async function costOf(page: Page): Promise<Cost> {
  await page.bringToFront();
  await page.evaluate(`(() => { ${inPage} })()`);
  const session = await page.context().newCDPSession(page);
  // Time of the processor, so that what else the machine does is not counted.
  await session.send('Performance.enable', { timeDomain: 'threadTicks' });
  // A page that was behind another paints everything once.
  await page.evaluate(`slowestFrames(${SCAN_EVERY_MS}, 1)`);
  const before = await metric(session, 'TaskDuration');
  const frameMs = (await page.evaluate(`slowestFrames(${SCAN_EVERY_MS}, ${STRETCHES})`)) as number;
  const busyMs = (((await metric(session, 'TaskDuration')) - before) * 1000) / STRETCHES;
  await session.detach();
  return { frameMs, busyMs };
}

/** What the page grows by while it stays open and a scan comes every second. */
async function memory(browser: Browser): Promise<Measurement> {
  const record = longBurn(1);
  const service = await scriptedService(record, { pageFolder, scans: 60 });
  try {
    const page = await openLive(browser, service, `globalThis.timersFaster = ${TIMERS_FASTER}; ${beforePage}`);
    const session = await page.context().newCDPSession(page);
    await session.send('Performance.enable');
    const weights: { heapMB: number; nodes: number; listeners: number }[] = [];
    for (let time = 1; time <= WEIGHED.times; time++) {
      const before = (await page.evaluate('drawingsSoFar()')) as number;
      for (let scan = 0; scan < WEIGHED.afterScans; scan++) {
        service.nextScan();
        await page.evaluate('drawnAgain()');
      }
      const drawings = ((await page.evaluate('drawingsSoFar()')) as number) - before;
      if (drawings < 0.99 * WEIGHED.afterScans)
        throw new Error(`only ${drawings} of ${WEIGHED.afterScans} scans were drawn`);
      await session.send('HeapProfiler.collectGarbage');
      await session.send('HeapProfiler.collectGarbage');
      weights.push({
        heapMB: (await metric(session, 'JSHeapUsedSize')) / 1e6,
        nodes: await metric(session, 'Nodes'),
        listeners: await metric(session, 'JSEventListeners'),
      });
      console.error(
        `  after ${time * WEIGHED.afterScans} scans: ${JSON.stringify(weights.at(-1))}, ${drawings} drawings`,
      );
    }
    return compared({
      name: 'memory that the live page grows by in an hour at 1 Hz',
      value: fitLine(
        weights.map((_, time) => (time * WEIGHED.afterScans) / SCANS_AN_HOUR),
        weights.map(({ heapMB }) => heapMB),
      ).slope,
      unit: 'MB',
      // Eight channels and their time, as numbers of eight bytes.
      floor: (SCANS_AN_HOUR * 9 * 8) / 1e6,
      floorName: 'the readings alone, were they all kept',
    });
  } finally {
    await service.close();
  }
}

async function metric(session: CDPSession, name: string): Promise<number> {
  const { metrics } = await session.send('Performance.getMetrics');
  return metrics.find((each) => each.name === name)!.value;
}

function compared(row: Omit<Measurement, 'ratio'>): Measurement {
  return { ...row, ratio: row.value / row.floor };
}
