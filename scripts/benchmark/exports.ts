import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { saveRecord } from '../../server/records/save-record.ts';
import { openStore } from '../../server/store/open-store.ts';
import { median } from '../../shared/statistics/quantile.ts';
import type { Measurement } from '../tools/measurement.ts';
import { inventedBurn } from './exports/invented-burn.ts';

const CHANNELS = 8;
/** Four hours at ten scans a second, and at one. */
const SCANS = 144_000;
const FEW_SCANS = 14_400;
const ROUNDS = 2;
const files = ['readings.csv', 'readings.parquet', 'burn.xlsx', 'package.zip', 'record'] as const;

const SMALL_HEAP = ['--max-old-space-size=96', '--max-semi-space-size=4'];
/** The others are written by the same code. */
const grown = ['readings.csv', 'package.zip'] as const;

interface Cost {
  seconds: number;
  peakMb: number;
  longestStallMs: number;
}

/** What files of a long burn cost beside a plain stream of the same bytes, and what one of ten times as many scans takes more. */
export default async function measure(): Promise<Measurement[]> {
  const folder = mkdtempSync(join(tmpdir(), 'stovebench-bench-exports-'));
  try {
    const data = join(folder, 'data');
    await saveBurn(data, SCANS, 100_000);
    const few = join(folder, 'few');
    await saveBurn(few, FEW_SCANS, 1_000_000);
    return [
      ...files.flatMap((name) => compare(folder, data, name)),
      ...grown.flatMap((name) => growth(folder, { data, few }, name)),
    ];
  } finally {
    rmSync(folder, { recursive: true });
  }
}

function compare(folder: string, data: string, name: (typeof files)[number]): Measurement[] {
  const file = join(folder, name);
  const costs: Record<'ours' | 'plain', Cost[]> = { ours: [], plain: [] };
  for (let round = 0; round < ROUNDS; round++) {
    costs.ours.push(costOf(data, name, file));
    costs.plain.push(costOf('plain', file, join(folder, 'copy')));
  }
  const row = (what: string, unit: string, of: (cost: Cost) => number): Measurement => {
    const [value, floor] = [median(costs.ours.map(of)), median(costs.plain.map(of))];
    const floorName = 'stream of the same bytes';
    return { name: `${name}, ${SCANS} x ${CHANNELS}: ${what}`, value, unit, floor, floorName, ratio: value / floor };
  };
  return [
    row('time', 's', ({ seconds }) => seconds),
    row('peak memory', 'MB', ({ peakMb }) => peakMb),
    row('longest stall', 'ms', ({ longestStallMs }) => longestStallMs),
  ];
}

function growth(
  folder: string,
  { data, few }: { data: string; few: string },
  name: (typeof files)[number],
): Measurement[] {
  // Held to a small heap, so that what is not needed any more is collected and not just left lying.
  const cost = (from: string) => costOf(from, name, join(folder, 'grown'), ...SMALL_HEAP);
  const [short, long] = [cost(few), cost(data)];
  const what = `${name}, ${SCANS} x ${CHANNELS}, small heap`;
  return [
    {
      name: `${what}: peak memory`,
      value: long.peakMb,
      unit: 'MB',
      floor: short.peakMb,
      floorName: 'a tenth of the scans',
      ratio: long.peakMb / short.peakMb,
    },
    {
      name: `${what}: time a scan`,
      value: (long.seconds * 1e6) / SCANS,
      unit: 'us',
      floor: (short.seconds * 1e6) / FEW_SCANS,
      floorName: 'a tenth of the scans',
      ratio: long.seconds / SCANS / (short.seconds / FEW_SCANS),
    },
  ];
}

function costOf(what: string, from: string, to: string, ...nodeOptions: string[]): Cost {
  const script = join(import.meta.dirname, 'exports', 'one-export.ts');
  return JSON.parse(execFileSync(process.execPath, [...nodeOptions, script, what, from, to], { encoding: 'utf8' }));
}

async function saveBurn(folder: string, scans: number, everyUs: number): Promise<void> {
  const store = openStore(folder, { nowMs: Date.now });
  await saveRecord(store, inventedBurn(scans, everyUs));
  store.close();
}
