import { closeSync, fdatasyncSync, mkdtempSync, openSync, rmSync, writeSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { buildApp } from '../../server/app.ts';
import { createRealClock } from '../../server/base/clock.ts';
import { canonicalJson } from '../../server/exports/canonical-json.ts';
import type { ImportPreview } from '../../shared/contract/imports.ts';
import { median } from '../../shared/statistics/quantile.ts';
import type { Measurement } from '../tools/measurement.ts';
import { inventedBurn } from './exports/invented-burn.ts';

const ROUNDS = 5;
/** Two hours at one scan a second, and at ten. */
const rates = [
  { name: '2 h at 1 Hz', scans: 7_200, everyUs: 1_000_000 },
  { name: '2 h at 10 Hz', scans: 72_000, everyUs: 100_000 },
] as const;

type App = Awaited<ReturnType<typeof buildApp>>['app'];

/** The record of a burn with eight channels imported, from its bytes to the saved burn, beside those bytes written and on the disk. */
export default async function measure(): Promise<Measurement[]> {
  const folder = mkdtempSync(join(tmpdir(), 'stovebench-bench-import-'));
  const { app } = await buildApp({
    folder: join(folder, 'data'),
    pageFolder: folder,
    clock: createRealClock(1),
    ports: { open: () => Promise.reject(new Error('there are no ports here')), list: async () => [] },
  });
  try {
    const rows: Measurement[] = [];
    for (const rate of rates) rows.push(...(await compare(app, folder, rate)));
    return rows;
  } finally {
    await app.close();
    rmSync(folder, { recursive: true });
  }
}

async function compare(app: App, folder: string, { name, scans, everyUs }: (typeof rates)[number]) {
  const invented = inventedBurn(scans, everyUs);
  const withNumbers = {
    ...invented,
    readings: invented.readings.map((board) => ({
      ...board,
      boot: board.elapsedUs.map(() => 7),
      sequence: board.elapsedUs.map((_, scan) => scan),
    })),
  };
  const [ours, floor]: [number[], number[]] = [[], []];
  for (let round = 0; round <= ROUNDS; round++) {
    const file = Buffer.from(canonicalJson({ ...withNumbers, id: crypto.randomUUID() }));
    ours.push(await millisecondsOf(() => importFile(app, file)));
    floor.push(await millisecondsOf(async () => writeOut(join(folder, 'bytes'), file)));
  }
  const row = (what: string, value: number): Measurement => {
    const floorMs = median(floor);
    const floorName = 'its bytes written and on the disk';
    return { name: what, value, unit: 'ms', floor: floorMs, floorName, ratio: value / floorMs };
  };
  const [first = 0, ...next] = ours;
  return [
    row(`${name} with 8 channels imported, the first of that size`, first),
    row(`${name} with 8 channels imported, the next`, median(next)),
  ];
}

/** As the page does it: the file, the look at it, then all of it saved. */
async function importFile(app: App, file: Buffer): Promise<void> {
  const received = await app.inject({
    method: 'POST',
    url: '/api/imports?name=burn.json',
    headers: { 'content-type': 'application/octet-stream' },
    payload: file,
  });
  if (received.statusCode !== 201) throw new Error(`the file was not read: ${received.body}`);
  const { id } = received.json<ImportPreview>();
  const saved = await app.inject({ method: 'POST', url: `/api/imports/${id}/keep`, payload: {} });
  if (saved.statusCode !== 200) throw new Error(`the burn was not imported: ${saved.body}`);
}

function writeOut(path: string, bytes: Buffer): void {
  const file = openSync(path, 'w');
  writeSync(file, bytes);
  fdatasyncSync(file);
  closeSync(file);
}

async function millisecondsOf(work: () => Promise<unknown>): Promise<number> {
  const startedMs = performance.now();
  await work();
  return performance.now() - startedMs;
}
