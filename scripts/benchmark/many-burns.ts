import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setImmediate as nextTurn, setTimeout as pause } from 'node:timers/promises';
import { type Browser, chromium, type Page } from 'playwright-core';
import { buildApp } from '../../server/app.ts';
import { createRealClock } from '../../server/base/clock.ts';
import { storedAnalysis } from '../../server/results/stored-analysis.ts';
import type { App } from '../../server/routes/validation.ts';
import { createInProcessPorts } from '../../server/simulator/in-process-ports.ts';
import type { Store } from '../../server/store/store.ts';
import { median } from '../../shared/statistics/quantile.ts';
import { ensurePageBuilt } from '../build/page.ts';
import { findChromium } from '../test/system-programs.ts';
import type { Measurement } from '../tools/measurement.ts';
import { childrenOf, commandOf } from '../tools/resident-memory.ts';
import { makeBench } from './many-burns/make-bench.ts';

const pageFolder = join(import.meta.dirname, '..', '..', 'dist', 'web');
const MANY = 1000;
const FEW = 10;
const COMPARED = 130;
const ROUNDS = 15;
const STARTS = 7;

interface Bench {
  app: App;
  resume(): void;
  store: Store;
  /** Oldest first. */
  ids: string[];
}

/** What a person waits for on a bench of a thousand burns beside one of ten: the same work, in turns, in one process. */
export default async function measure(): Promise<Measurement[]> {
  const folder = mkdtempSync(join(tmpdir(), 'stovebench-bench-'));
  const [manyFolder, fewFolder] = [join(folder, 'many'), join(folder, 'few')];
  const [manyIds, fewIds] = [await makeBench(manyFolder, MANY), await makeBench(fewFolder, FEW)];
  const rows: Measurement[] = [];
  try {
    for (const [name, isResumed] of [
      ['start', false],
      ['start, what ran resumed', true],
    ] as const) {
      rows.push(
        row(
          name,
          await inTurns(
            () => startAndClose(manyFolder, isResumed),
            () => startAndClose(fewFolder, isResumed),
            STARTS,
          ),
        ),
      );
    }
    const many = await open(manyFolder, manyIds);
    const few = await open(fewFolder, fewIds);
    for (const [name, path] of requests) {
      rows.push(
        row(
          name,
          await inTurns(
            () => ask(many.app, path(many)),
            () => ask(few.app, path(few)),
            ROUNDS,
          ),
        ),
      );
    }
    rows.push(...(await searchRows(many, few)));
    const chosen = many.ids.slice(-COMPARED);
    const all = comparisonOf(chosen);
    const known = await inTurns(
      () => ask(many.app, all),
      async () => readStored(many.store, chosen),
      5,
    );
    const inNewWorker: number[] = [];
    for (let round = 0; round < 5; round++) {
      await endWorker();
      inNewWorker.push(await millisecondsOf(() => ask(many.app, all)));
    }
    for (const [when, value] of [
      ['', known.value] as const,
      [', in a new worker process', median(inNewWorker)] as const,
    ]) {
      rows.push({
        ...row(`comparison of ${COMPARED} burns whose results are known${when}`, { ...known, value }),
        floorName: 'their results read from the database',
      });
    }
    await many.app.close();
    await few.app.close();
    return rows;
  } finally {
    rmSync(folder, { recursive: true });
  }
}

const requests: [string, (bench: Bench) => string][] = [
  ['a page of ten burns of the list, with curves and figures', () => `/api/burns?limit=${FEW}&with=curve,figures`],
  ['a burn', ({ ids }) => `/api/burns/${ids.at(-1)}`],
  ['comparison of ten burns', ({ ids }) => comparisonOf(ids.slice(-FEW))],
];

/** From a word typed into the search of the list to the frame that shows what it left. */
async function searchRows(many: Bench, few: Bench): Promise<Measurement[]> {
  const executablePath = findChromium();
  if (!executablePath) {
    console.error('no Chromium on this machine: the search is not measured');
    return [];
  }
  await ensurePageBuilt();
  const browser = await chromium.launch({ executablePath, args: ['--no-sandbox', '--disable-gpu'] });
  try {
    const [manyPage, fewPage] = [await listOf(browser, many), await listOf(browser, few)];
    return [
      row(
        'search in the list, to its frame',
        await inTurns(
          () => search(manyPage),
          () => search(fewPage),
          ROUNDS,
        ),
      ),
    ];
  } finally {
    await browser.close();
  }
}

async function listOf(browser: Browser, { app }: Bench): Promise<Page> {
  const page = await (await browser.newContext()).newPage();
  await page.goto(`${await app.listen({ host: '127.0.0.1', port: 0 })}/#/burns`);
  await page.locator('.burn-search input').first().waitFor();
  return page;
}

/** A word that every burn contains, or nothing, in turns. */
async function search(page: Page): Promise<void> {
  await page.bringToFront();
  await page.evaluate(`(async () => {
    const field = document.querySelector('.burn-search input');
    field.value = field.value === '' ? 'a' : '';
    field.dispatchEvent(new Event('input', { bubbles: true }));
    await new Promise(requestAnimationFrame);
    await new Promise((resolve) => setTimeout(resolve));
  })()`);
}

const comparisonOf = (ids: readonly string[]) =>
  `/api/comparison?a=${ids.slice(0, ids.length / 2).join(',')}&b=${ids.slice(ids.length / 2).join(',')}`;

async function open(folder: string, ids: string[]): Promise<Bench> {
  const { app, store, resume } = await buildApp({
    folder,
    pageFolder,
    clock: createRealClock(),
    ports: createInProcessPorts().factory,
  });
  return { app, store, resume, ids };
}

async function startAndClose(folder: string, isResumed: boolean): Promise<void> {
  const { app, resume } = await open(folder, []);
  await app.ready();
  if (isResumed) resume();
  await app.close();
}

async function ask(app: App, url: string): Promise<void> {
  const { statusCode, body } = await app.inject({ method: 'GET', url });
  if (statusCode !== 200) throw new Error(`${url.slice(0, 60)}: ${statusCode} ${body.slice(0, 200)}`);
}

function readStored(store: Store, ids: readonly string[]): void {
  for (const id of ids) if (!storedAnalysis(store, id)) throw new Error(`no results of ${id}`);
}

/** The next question starts another one. */
async function endWorker(): Promise<void> {
  const isWorker = (id: number) => commandOf(id).includes('worker-process');
  for (const id of childrenOf(process.pid).filter(isWorker)) {
    process.kill(id, 'SIGKILL');
    while (isWorker(id)) await nextTurn();
  }
  // For the service to see it.
  await pause(50);
}

/** Medians, ms: of the first on many burns, of the second as the floor. */
async function inTurns(work: () => Promise<unknown>, floor: () => Promise<unknown>, rounds: number) {
  const taken: [number, number][] = [];
  for (let round = 0; round <= rounds; round++) taken.push([await millisecondsOf(work), await millisecondsOf(floor)]);
  // The first round warms both up.
  const later = taken.slice(1);
  return { value: median(later.map(([ms]) => ms)), floor: median(later.map(([, ms]) => ms)) };
}

async function millisecondsOf(work: () => Promise<unknown>): Promise<number> {
  const startedMs = performance.now();
  await work();
  return performance.now() - startedMs;
}

function row(what: string, { value, floor }: { value: number; floor: number }): Measurement {
  const name = `${MANY} burns: ${what}`;
  return { name, value, unit: 'ms', floor, floorName: `the same on a bench of ${FEW}`, ratio: value / floor };
}
