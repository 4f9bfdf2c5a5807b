import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { openStore } from '../../server/store/open-store.ts';
import { readScans } from '../../server/store/scan-columns.ts';
import type { Store } from '../../server/store/store.ts';
import { median } from '../../shared/statistics/quantile.ts';
import type { Measurement } from '../tools/measurement.ts';
import { openDuckdb } from './readings/duckdb-readings.ts';
import { entropyBytes, extremes, readRaw, writeRaw } from './readings/floors.ts';
import { simulatedScans } from './readings/simulated-scans.ts';

const CHANNELS = 8;
const HZ = 10;
const CHART_COLUMNS = 2000;
const ROUNDS = 7;
const boardId = '00000000-0000-7000-8000-000000000002';
const burnIdOf = (burn: number) => `00000000-0000-7000-8000-${String(100 + burn).padStart(12, '0')}`;
/** Half an hour less six minutes, ten times as much, and a hundred times. */
const LONG = [0.4, 4, 40] as const;

/** What the readings of a burn cost to read whole, to draw, and on the disk: ten scans a second and eight channels. */
export default async function measure(): Promise<Measurement[]> {
  const folder = mkdtempSync(join(tmpdir(), 'stovebench-bench-readings-'));
  try {
    const burns = [];
    for (const [index, hours] of LONG.entries()) burns.push(await saveBurn(join(folder, `${index}`), hours, HZ));
    const slow = await saveBurn(join(folder, 'slow'), 4, 1);
    const four = burns[1]!;
    const duckdb = await openDuckdb(join(folder, 'duckdb'), four.columns);
    const rows = [
      ...(await wholeBurns(burns, folder, duckdb)),
      ...(await charts(burns, duckdb)),
      ...onDisk(four, 'at 10 Hz', duckdb.bytes),
      ...onDisk(slow, 'at 1 Hz'),
    ];
    duckdb.close();
    for (const { store } of [...burns, slow]) store.close();
    return rows;
  } finally {
    rmSync(folder, { recursive: true });
  }
}

type Duckdb = Awaited<ReturnType<typeof openDuckdb>>;
type Burn = Awaited<ReturnType<typeof saveBurn>>;

async function saveBurn(folder: string, hours: number, hz: number) {
  const store = openStore(folder, { nowMs: Date.now });
  const burnId = burnIdOf(1);
  store.expectBurn(burnId);
  const emptyBytes = bytesOf(store);
  await store.scans.appendMany(burnId, boardId, simulatedScans(hours, hz));
  const plainBytes = bytesOf(store) - emptyBytes;
  while (await store.scans.pack(burnId, { isOver: true }));
  const bytes = bytesOf(store) - emptyBytes;
  return { store, burnId, hours, columns: store.scans.columns(burnId, boardId), plainBytes, bytes };
}

/** Without the pages that the next scans will fill. */
function bytesOf(store: Store): number {
  store.checkpoint();
  const db = new Database(join(store.folder, 'stovebench.db'), { readonly: true });
  const number = (name: string) => db.pragma(name, { simple: true }) as number;
  const bytes = (number('page_count') - number('freelist_count')) * number('page_size');
  db.close();
  return bytes;
}

/** The burn once more, in plain rows. */
async function plainCopy({ store, burnId, columns }: Burn): Promise<string> {
  const copyId = burnIdOf(2);
  store.expectBurn(copyId);
  for (const board of store.scans.boards(burnId)) await store.scans.appendMany(copyId, board, readScans(columns));
  return copyId;
}

async function wholeBurns(burns: readonly Burn[], folder: string, duckdb: Duckdb): Promise<Measurement[]> {
  const rows: Measurement[] = [];
  const plainId = await plainCopy(burns[1]!);
  for (const { store, burnId, hours, columns } of burns) {
    const file = join(folder, 'raw');
    writeRaw(file, columns);
    const ways: Ways = {
      floor: () => readRaw(file, CHANNELS + 1),
      [`${hours} h read as columns`]: () => store.scans.columns(burnId, boardId),
      ...(hours === 4 && {
        '4 h read as columns, from plain rows': () => store.scans.columns(plainId, boardId),
        '4 h read as columns, by DuckDB': duckdb.columns,
      }),
    };
    rows.push(...compared(await inTurns(ways), 'ms', 'typed arrays from a raw file'));
  }
  return rows;
}

async function charts(burns: readonly Burn[], duckdb: Duckdb): Promise<Measurement[]> {
  const chart = ({ store, burnId, columns }: Burn) =>
    store.scans.overview(burnId, boardId, { fromUs: 0, toUs: columns.elapsedUs.at(-1)!, columns: CHART_COLUMNS });
  const [, four, forty] = burns as [Burn, Burn, Burn];
  const name = (hours: number) => `${hours} h to ${CHART_COLUMNS} columns with extremes`;
  const times = await inTurns({
    floor: () => extremes(four.columns, CHART_COLUMNS),
    [name(4)]: () => chart(four),
    [`${name(4)}, by DuckDB`]: () => duckdb.extremes(CHART_COLUMNS),
  });
  const long = await inTurns({ floor: () => chart(four), [name(40)]: () => chart(forty) });
  return [...compared(times, 'ms', 'minimum and maximum of typed arrays'), ...compared(long, 'ms', 'the same of 4 h')];
}

function onDisk({ columns, bytes, plainBytes }: Burn, which: string, duckdbBytes?: number): Measurement[] {
  const readings = columns.elapsedUs.length * CHANNELS;
  return compared(
    {
      floor: entropyBytes(columns),
      [`bytes a reading on the disk ${which}, all in`]: bytes / readings,
      'the same in plain rows': plainBytes / readings,
      ...(duckdbBytes !== undefined && { 'the same in DuckDB': duckdbBytes / readings }),
    },
    'B',
    'order-0 entropy of differences',
  );
}

type Ways = Record<string, () => unknown>;

/** Median milliseconds of each, a round of all after another. */
async function inTurns(ways: Ways): Promise<Record<string, number>> {
  const times = new Map(Object.keys(ways).map((name) => [name, [] as number[]]));
  for (let round = 0; round <= ROUNDS; round++) {
    for (const [name, work] of Object.entries(ways)) {
      const start = performance.now();
      await work();
      // The first round compiles.
      if (round > 0) times.get(name)!.push(performance.now() - start);
    }
  }
  return Object.fromEntries([...times].map(([name, each]) => [name, median(each)]));
}

function compared({ floor, ...values }: Record<string, number>, unit: string, floorName: string): Measurement[] {
  return Object.entries(values).map(([name, value]) => ({
    name,
    value,
    unit,
    floor: floor!,
    floorName,
    ratio: value / floor!,
  }));
}
