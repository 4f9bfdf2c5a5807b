import { closeSync, fdatasyncSync, mkdtempSync, openSync, rmSync, writeFileSync, writeSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { monitorEventLoopDelay } from 'node:perf_hooks';
import { setTimeout as nextTurn } from 'node:timers/promises';
import { readBoardsInTurns } from '../../server/records/board-readings.ts';
import { openStore } from '../../server/store/open-store.ts';
import type { Scan, Store } from '../../server/store/store.ts';
import { median } from '../../shared/statistics/quantile.ts';
import type { Measurement } from '../tools/measurement.ts';

const CHANNELS = 8;
/** Four hours at 10 Hz. */
const SCANS_OF_A_BURN = 144_000;
const LIVE_SCANS = 400;
const ROUNDS = 5;
const burnId = '00000000-0000-7000-8000-000000000001';
const boardId = '00000000-0000-7000-8000-000000000002';

/** What keeping and reading scans costs beside the least that any program would have to do on this disk. */
export default async function measure(): Promise<Measurement[]> {
  const folder = mkdtempSync(join(tmpdir(), 'stovebench-bench-'));
  try {
    const store = openStore(join(folder, 'data'), { nowMs: Date.now });
    store.expectBurn(burnId);
    const measurements = [liveInserts(store, folder), await bulkInserts(store, folder), await longestStall(store)];
    store.close();
    return measurements;
  } finally {
    rmSync(folder, { recursive: true });
  }
}

function scanOf(sequence: number, boot: number): Scan {
  return {
    boot,
    sequence,
    uptimeMs: sequence * 100,
    elapsedUs: sequence * 100_000,
    arrivedUs: sequence * 100_000 + 1500,
    readings: Array.from({ length: CHANNELS }, (_, channel) => 320 + channel * 40 + (sequence % 97)),
  };
}

/** One transaction a scan, on the disk when it returns, in turns with a bare append of as many bytes. */
function liveInserts(store: Store, folder: string): Measurement {
  const file = openSync(join(folder, 'appended'), 'a');
  const bytes = Buffer.alloc(4096);
  const [ours, floor]: [number[], number[]] = [[], []];
  for (let round = 0; round < ROUNDS; round++) {
    ours.push(
      millisecondsOf(() => {
        for (let each = 0; each < LIVE_SCANS; each++) store.scans.append(burnId, boardId, scanOf(each, 1000 + round));
      }) / LIVE_SCANS,
    );
    floor.push(
      millisecondsOf(() => {
        for (let each = 0; each < LIVE_SCANS; each++) {
          writeSync(file, bytes);
          fdatasyncSync(file);
        }
      }) / LIVE_SCANS,
    );
  }
  closeSync(file);
  return compared('one scan kept, on the disk', 'ms', median(ours), median(floor), 'append of 4 KiB and fdatasync');
}

async function bulkInserts(store: Store, folder: string): Promise<Measurement> {
  const scans = Array.from({ length: SCANS_OF_A_BURN }, (_, sequence) => scanOf(sequence, 1));
  const start = performance.now();
  await store.scans.appendMany(burnId, boardId, scans);
  const ours = performance.now() - start;
  const floor = millisecondsOf(() => {
    const columns = scans.flatMap(({ elapsedUs, readings }) => [elapsedUs, ...(readings as number[])]);
    writeFileSync(join(folder, 'columns'), Float64Array.from(columns), { flush: true });
  });
  return compared(
    '4 h at 10 Hz with 8 channels taken in',
    'ms',
    ours,
    floor,
    'numbers collected and written as one file',
  );
}

/**
 * How long nothing else gets a turn while a whole burn is read for its analysis: a serial port waits meanwhile, and at 115200 baud
 * it has 1.8 s before it loses bytes.
 */
async function longestStall(store: Store): Promise<Measurement> {
  const floor = millisecondsOf(() => store.scans.pages(burnId, boardId).next());
  const delay = monitorEventLoopDelay({ resolution: 1 });
  delay.enable();
  await readBoardsInTurns(store, burnId);
  await nextTurn(5);
  delay.disable();
  const ours = delay.max / 1e6;
  return compared('longest stall while 4 h at 10 Hz are read', 'ms', ours, floor, 'one page of scans read');
}

function compared(name: string, unit: string, value: number, floor: number, floorName: string): Measurement {
  return { name, value, unit, floor, floorName, ratio: value / floor };
}

function millisecondsOf(work: () => void): number {
  const start = performance.now();
  work();
  return performance.now() - start;
}
