import { type ChildProcess, fork } from 'node:child_process';
import { once } from 'node:events';
import { open } from 'node:fs/promises';
import { decodeLine } from '../../firmware-protocol/lines.ts';
import { createRealClock } from '../../server/base/clock.ts';
import { createBridge } from '../../server/bridge/bridge.ts';
import { LineReader } from '../../server/bridge/line-reader.ts';
import { serialPortFactory } from '../../server/bridge/serial-port-factory.ts';
import { median } from '../../shared/statistics/quantile.ts';
import type { Measurement } from '../tools/measurement.ts';

const LINES = 60_000;
const ROUNDS = 3;
const BAUD_RATE = 115_200;

/** Reads all lines of a fresh pseudo-terminal in one way; resolves when the last has come. */
type Way = (path: string, begin: () => void) => Promise<void>;

/**
 * Lines per second through a pseudo-terminal: a port of ours, our line reader and the decoding of every line, and once more
 * through the whole bridge to its scan events, beside the floor of reading the same bytes and counting line feeds.
 */
export default async function serialBenchmark(): Promise<Measurement[]> {
  const times: { floor: number[]; decoded: number[]; bridged: number[] } = { floor: [], decoded: [], bridged: [] };
  for (let round = 0; round < ROUNDS; round++) {
    times.floor.push(await timeOf(countLineFeeds));
    times.decoded.push(await timeOf(decodeLines));
    times.bridged.push(await timeOf(throughBridge));
  }
  const floor = LINES / median(times.floor);
  const row = (name: string, seconds: number[]): Measurement => {
    const value = LINES / median(seconds);
    const floorName = 'read the terminal, count line feeds';
    return { name, value, unit: 'lines/s', floor, floorName, ratio: value / floor };
  };
  return [
    row('serial port, line reader, decoding', times.decoded),
    row('the whole bridge, to scan events', times.bridged),
  ];
}

async function timeOf(way: Way): Promise<number> {
  const feeder = fork(new URL('./serial/feeder.ts', import.meta.url));
  const [ready] = (await once(feeder, 'message')) as [{ path: string } | { reason: string }];
  if ('reason' in ready) throw new Error(ready.reason);
  let startedMs = 0;
  await way(ready.path, () => {
    startedMs = performance.now();
    feeder.send(LINES);
  });
  const seconds = (performance.now() - startedMs) / 1000;
  await ended(feeder);
  return seconds;
}

async function ended(feeder: ChildProcess): Promise<void> {
  const exit = once(feeder, 'exit');
  feeder.disconnect();
  await exit;
}

const countLineFeeds: Way = async (path, begin) => {
  const file = await open(path, 'r+');
  const buffer = Buffer.alloc(64 * 1024);
  let lines = 0;
  begin();
  while (lines < LINES) {
    const { bytesRead } = await file.read(buffer, 0, buffer.length, null);
    for (let at = buffer.indexOf(10); at >= 0 && at < bytesRead; at = buffer.indexOf(10, at + 1)) lines++;
  }
  await file.close();
};

const decodeLines: Way = async (path, begin) => {
  const port = await serialPortFactory.open(path, BAUD_RATE);
  const reader = new LineReader(512, false);
  let lines = 0;
  await new Promise<void>((resolve) => {
    port.onData((chunk) => {
      for (const line of reader.push(chunk)) if (decodeLine(line.text).kind === 'scan') lines++;
      if (lines === LINES) resolve();
    });
    begin();
  });
  await port.close();
};

const throughBridge: Way = async (path, begin) => {
  const bridge = createBridge({ clock: createRealClock(), ports: serialPortFactory, newId: () => crypto.randomUUID() });
  let scans = 0;
  await new Promise<void>((resolve) => {
    bridge.on('scan', () => {
      if (++scans === LINES) resolve();
    });
    const offBoard = bridge.on('board', (state) => {
      if (state.state !== 'waiting') return;
      offBoard();
      begin();
    });
    bridge.attach({ path, mode: 'protocol' });
  });
  await bridge.close();
};
