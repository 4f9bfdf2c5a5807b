import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { saveRecord } from '../../server/records/save-record.ts';
import { openStore } from '../../server/store/open-store.ts';
import type { BurnRecord } from '../../shared/contract/burn-record.ts';
import type { Measurement } from '../tools/measurement.ts';

const CHANNELS = 8;
/** Four hours at ten scans a second, and a whole day of it. */
const SCANS = 144_000;
const SCANS_OF_A_DAY = 864_000;
const files = ['readings.csv', 'readings.parquet', 'burn.xlsx', 'package.zip', 'record'] as const;

const SMALL_HEAP = ['--max-old-space-size=96', '--max-semi-space-size=4'];
/** The others are written by the same code. */
const grown = ['readings.csv', 'package.zip'] as const;

interface Cost {
  seconds: number;
  peakMb: number;
  longestStallMs: number;
}

/** What files of a long burn cost beside a plain stream of the same bytes, and whether a longer burn takes more memory. */
export default async function measure(): Promise<Measurement[]> {
  const folder = mkdtempSync(join(tmpdir(), 'stovebench-bench-exports-'));
  try {
    const data = join(folder, 'data');
    await saveBurn(data, SCANS);
    const rows = files.flatMap((name) => compare(folder, data, name));
    const day = join(folder, 'day');
    await saveBurn(day, SCANS_OF_A_DAY);
    return [...rows, ...grown.map((name) => growth(folder, { data, day }, name))];
  } finally {
    rmSync(folder, { recursive: true });
  }
}

function compare(folder: string, data: string, name: (typeof files)[number]): Measurement[] {
  const file = join(folder, name);
  const cost = costOf(data, name, file);
  const floor = costOf('plain', file, join(folder, 'copy'));
  const floorName = 'stream of the same bytes';
  const row = (what: string, unit: string, of: (cost: Cost) => number) => ({
    name: `${name}, ${SCANS} x ${CHANNELS}: ${what}`,
    value: of(cost),
    unit,
    floor: of(floor),
    floorName,
    ratio: of(cost) / of(floor),
  });
  return [
    row('time', 's', ({ seconds }) => seconds),
    row('peak memory', 'MB', ({ peakMb }) => peakMb),
    row('longest stall', 'ms', ({ longestStallMs }) => longestStallMs),
  ];
}

function growth(
  folder: string,
  { data, day }: { data: string; day: string },
  name: (typeof files)[number],
): Measurement {
  // Held to a small heap, so that what is not needed any more is collected and not just left lying.
  const peak = (from: string) => costOf(from, name, join(folder, 'grown'), ...SMALL_HEAP).peakMb;
  const [short, long] = [peak(data), peak(day)];
  return {
    name: `${name}, ${SCANS_OF_A_DAY} x ${CHANNELS}: peak memory`,
    value: long,
    unit: 'MB',
    floor: short,
    floorName: 'a sixth of the burn',
    ratio: long / short,
  };
}

function costOf(what: string, from: string, to: string, ...nodeOptions: string[]): Cost {
  const script = join(import.meta.dirname, 'exports', 'one-export.ts');
  return JSON.parse(execFileSync(process.execPath, [...nodeOptions, script, what, from, to], { encoding: 'utf8' }));
}

/** Four probes at sixteenths and four at quarters of a degree, rising slowly with some noise. Invented. */
async function saveBurn(folder: string, scans: number): Promise<void> {
  const id = (number: number) => `00000000-0000-7000-8000-${String(number).padStart(12, '0')}`;
  const indices = Array.from({ length: CHANNELS }, (_, channel) => channel);
  const record: BurnRecord = {
    format: 'stovebench-burn-record',
    version: 1,
    id: id(1),
    title: 'A long burn',
    origin: 'simulated',
    status: 'complete',
    methodSet: 'bench-1',
    primaryResult: 'dryWoodPerBatch',
    target: { kind: 'boil' },
    startedUtcMs: Date.UTC(2026, 4, 2),
    fuelLots: [],
    channels: indices.map((channel) => ({
      id: id(10 + channel),
      boardId: id(2),
      index: channel,
      name: `probe ${channel}`,
      role: channel === 0 ? 'water' : 'other',
      unit: 'Cel',
      scale: channel < 4 ? 0.0625 : 0.25,
    })),
    readings: [
      {
        boardId: id(2),
        elapsedUs: Array.from({ length: scans }, (_, scan) => scan * 100_000 + ((scan * 37) % 900)),
        columns: indices.map((channel) => ({
          channelId: id(10 + channel),
          counts: Array.from(
            { length: scans },
            (_, scan) => 320 + channel * 40 + ((scan / 600) | 0) + ((scan * 7) % 5),
          ),
        })),
      },
    ],
    marks: [],
    weighings: [],
  };
  const store = openStore(folder, { nowMs: Date.now });
  await saveRecord(store, record);
  store.close();
}
