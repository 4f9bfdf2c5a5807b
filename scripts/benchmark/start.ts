import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { setTimeout as pause } from 'node:timers/promises';
import { median } from '../../shared/statistics/quantile.ts';
import { buildPackage } from '../build/package.ts';
import { ensurePageBuilt } from '../build/page.ts';
import { serviceOptions } from '../launch/hand-over.mjs';
import type { Measurement } from '../tools/measurement.ts';

const root = join(import.meta.dirname, '..', '..');
const ROUNDS = 7;
/** The memory held differs by less than a hundredth from one start to the next. */
const WEIGHED = 3;
/** What is still under way when the service listens is done by then. */
const AT_REST_MS = 1500;

const ways = {
  checkout: [join(root, 'scripts', 'start.ts')],
  package: [join(root, 'dist', 'service', 'server', 'command-line', 'stovebench.js'), 'serve'],
};

interface Start {
  readonly ms: number;
  /** At rest after the start, then after the page and the list of burns were fetched; undefined where not weighed, or not by this system. */
  readonly residentMb: number | undefined;
  readonly usedMb: number | undefined;
}

/** The service of an empty bench, from its process to its address, and the memory it holds then, beside a Node that does nothing. */
export default async function measure(): Promise<Measurement[]> {
  await ensurePageBuilt();
  await buildPackage(root);
  const rows: Measurement[] = [];
  for (const [name, script] of Object.entries(ways)) rows.push(...(await compare(name, script)));
  return rows;
}

async function compare(name: string, script: readonly string[]): Promise<Measurement[]> {
  // What Node keeps of the code it has compiled: none before the first start.
  const cache = mkdtempSync(join(tmpdir(), 'stovebench-bench-compiled-'));
  try {
    const starts: Start[] = [];
    const aloneMs: number[] = [];
    for (let round = 0; round <= ROUNDS; round++) {
      starts.push(await start(script, cache, round > 0 && round <= WEIGHED));
      aloneMs.push(await nodeAlone());
    }
    const [first, ...next] = starts;
    const time = (what: string, value: number): Measurement => {
      const floor = median(aloneMs);
      return { name: `${name}: ${what}`, value, unit: 'ms', floor, floorName: 'node alone', ratio: value / floor };
    };
    return [
      time('start to listening', median(next.map(({ ms }) => ms))),
      time('first start, nothing compiled before', first!.ms),
      ...(await memoryRows(name, next)),
    ];
  } finally {
    rmSync(cache, { recursive: true });
  }
}

async function memoryRows(name: string, starts: readonly Start[]): Promise<Measurement[]> {
  const floor = await residentOfIdleNode();
  const row = (what: string, of: (start: Start) => number | undefined): Measurement[] => {
    const values = starts.flatMap((start) => of(start) ?? []);
    if (values.length === 0 || floor === undefined) return [];
    const value = median(values);
    return [{ name: `${name}: ${what}`, value, unit: 'MB', floor, floorName: 'node alone', ratio: value / floor }];
  };
  return [
    ...row('resident, listening', ({ residentMb }) => residentMb),
    ...row('resident, page and list of burns fetched', ({ usedMb }) => usedMb),
  ];
}

async function start(script: readonly string[], cache: string, isWeighed: boolean): Promise<Start> {
  const folder = mkdtempSync(join(tmpdir(), 'stovebench-bench-start-'));
  const port = await freePort();
  const env = {
    ...process.env,
    NODE_COMPILE_CACHE: cache,
    STOVEBENCH_DATA: folder,
    STOVEBENCH_HOST: '127.0.0.1',
    STOVEBENCH_PORT: String(port),
  };
  const startedMs = performance.now();
  const service = spawn(process.execPath, [...serviceOptions, ...script], {
    env,
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  try {
    const address = await addressOf(service);
    const ms = performance.now() - startedMs;
    if (!isWeighed) return { ms, residentMb: undefined, usedMb: undefined };
    await pause(AT_REST_MS);
    const residentMb = residentOf(service);
    for (const path of ['/', '/api/burns']) await (await fetch(address + path)).text();
    return { ms, residentMb, usedMb: residentOf(service) };
  } finally {
    await ended(service);
    rmSync(folder, { recursive: true });
  }
}

/** The last line that a service prints when it listens. */
async function addressOf({ stdout }: ChildProcess): Promise<string> {
  for await (const line of createInterface(stdout!)) if (line.startsWith('http://')) return line;
  throw new Error('the service ended before it listened');
}

async function nodeAlone(): Promise<number> {
  const startedMs = performance.now();
  await once(spawn(process.execPath, ['-e', ''], { stdio: 'ignore' }), 'exit');
  return performance.now() - startedMs;
}

async function residentOfIdleNode(): Promise<number | undefined> {
  const idle = spawn(process.execPath, ['-e', 'setInterval(() => {}, 1000)'], { stdio: 'ignore' });
  await pause(AT_REST_MS);
  const resident = residentOf(idle);
  await ended(idle);
  return resident;
}

/** MB; Linux alone says it in a file. */
function residentOf({ pid }: ChildProcess): number | undefined {
  if (process.platform !== 'linux') return undefined;
  const [, kB] = /^VmRSS:\s+(\d+) kB$/m.exec(readFileSync(`/proc/${pid}/status`, 'utf8')) ?? [];
  return kB === undefined ? undefined : Number(kB) / 1024;
}

async function ended(child: ChildProcess): Promise<void> {
  if (child.exitCode !== null) return;
  const exit = once(child, 'exit');
  child.kill();
  await exit;
}

async function freePort(): Promise<number> {
  const server = createServer().listen(0, '127.0.0.1');
  await once(server, 'listening');
  const { port } = server.address() as { port: number };
  server.close();
  return port;
}
