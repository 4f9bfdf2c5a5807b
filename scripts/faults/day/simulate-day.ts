/**
 * A day of four boards of eight channels that scan ten times a second, sent through the bridge into the store of a service as fast as the
 * disk takes it, with faults, packing in the background and a page that looks. At the end every scan is on the disk or told as a gap.
 */
import { type ChildProcess, fork } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync, readdirSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { monitorEventLoopDelay } from 'node:perf_hooks';
import type { BurnDetail } from '../../../shared/contract/burns.ts';
import { median } from '../../../shared/statistics/quantile.ts';
import { serviceOptions } from '../../launch/hand-over.mjs';
import { residentMb } from '../../tools/resident-memory.ts';
import { BOARDS } from './boards.ts';
import type { Order, Report, Start } from './recording-service.ts';
import { type BoardScans, scansOfDay } from './scans-of-day.ts';

/** What a stretch of the day cost. */
export interface Stretch {
  untilH: number;
  /** Of the service and its worker process, the most that was seen. */
  memoryMb: number;
  longestStallMs: number;
  /** Curves of all channels for the screen, asked for while the boards send; infinite where they were refused. */
  curvesMs: number;
  /** Of the data, the write-ahead log aside. */
  diskMb: number;
}

export interface Day {
  boards: BoardScans[];
  stretches: Stretch[];
  /** Stall of a process that did nothing but wait for the service. */
  idleStallMs: number;
  realS: number;
}

/** Between two scans, so that each lies on one side of it. */
const FIRST_MS = 2_010;
const LOOKS = 3;
/** The boards send meanwhile. */
const SENT_DURING_A_LOOK_MS = 2_000;
const POINTS = 2000;
const SAMPLE_EVERY_MS = 50;
const RESOLUTION_MS = 5;

/** When in the day, and for how long. A board's memory reaches back half a minute. */
export const FAULTS = [
  { at: 0.1, forMs: 10_000, do: 'pull', board: 1 },
  { at: 0.2, forMs: 45_000, do: 'mute', board: 2 },
  { at: 0.55, forMs: 5_000, do: 'restart' },
  { at: 0.65, stepMs: -3_600_000, do: 'clock' },
  { at: 0.75, forMs: 8_000, do: 'kill' },
  { at: 0.85, forMs: 10_000, do: 'mute', board: 3 },
] as const;

/** In a shorter one, a fault would begin before the one before it is over. */
export const SHORTEST_DAY_MS = 150_000;

export interface DayOptions {
  /** `SHORTEST_DAY_MS` at least. */
  lengthMs: number;
  /** At the end of each, a page looks and costs are noted. */
  stretches: number;
}

export async function simulateDay(options: DayOptions, print: (line: string) => void): Promise<Day> {
  const folder = mkdtempSync(join(tmpdir(), 'stovebench-day-'));
  const run = new Run(folder, options, print);
  try {
    return await run.all();
  } finally {
    run.close();
    rmSync(folder, { recursive: true, force: true });
  }
}

class Run {
  readonly #folder: string;
  readonly #options: DayOptions;
  readonly #print: (line: string) => void;
  readonly #stretches: Stretch[] = [];
  readonly #sampling: NodeJS.Timeout;
  #service!: ChildProcess;
  #gone!: Promise<never>;
  #address = '';
  #atMs = 0;
  #wallAheadMs = 0;
  #peakMb = 0;
  #longestStallMs = 0;

  constructor(folder: string, options: DayOptions, print: (line: string) => void) {
    this.#folder = folder;
    this.#options = options;
    this.#print = print;
    this.#sampling = setInterval(() => {
      this.#peakMb = Math.max(this.#peakMb, residentMb(this.#service.pid!));
    }, SAMPLE_EVERY_MS);
  }

  async all(): Promise<Day> {
    const beganMs = performance.now();
    const delay = monitorEventLoopDelay({ resolution: RESOLUTION_MS });
    await this.#start();
    for (const board of BOARDS) await this.#ask('POST', '/boards', { path: `board-${board}` });
    await this.#runTo(FIRST_MS);
    const { burn } = await this.#ask<BurnDetail>('POST', '/burns', { status: 'running' });
    delay.enable();
    for (const fault of [...FAULTS, undefined]) {
      await this.#runThrough(FIRST_MS + (fault?.at ?? 1) * this.#options.lengthMs, burn.id);
      if (fault) await this.#do(fault);
    }
    delay.disable();
    const { burn: last } = await this.#ask<BurnDetail>('GET', `/burns/${burn.id}`);
    const endedMs = this.#atMs;
    await this.#ask('PATCH', `/burns/${burn.id}`, { expectedVersion: last.version, status: 'ended' });
    const { gaps } = await this.#whole(burn.id);
    await this.#stop();
    const span = { burnId: burn.id, fromMs: FIRST_MS, toMs: endedMs, gaps };
    return {
      boards: scansOfDay(this.#folder, span),
      stretches: this.#stretches,
      idleStallMs: Math.max(0, delay.max / 1e6 - RESOLUTION_MS),
      realS: (performance.now() - beganMs) / 1000,
    };
  }

  close(): void {
    clearInterval(this.#sampling);
    this.#service.kill('SIGKILL');
  }

  async #do(fault: (typeof FAULTS)[number]): Promise<void> {
    this.#print(`${fault.do} after ${(this.#atMs / 3.6e6).toFixed(2)} h`);
    switch (fault.do) {
      case 'pull':
        await this.#order({ do: 'pull', board: fault.board });
        await this.#runTo(this.#atMs + fault.forMs);
        await this.#order({ do: 'plug', board: fault.board });
        return;
      case 'mute':
        await this.#order({ do: 'mute', board: fault.board });
        await this.#runTo(this.#atMs + fault.forMs);
        await this.#order({ do: 'speak', board: fault.board });
        return;
      case 'clock':
        this.#wallAheadMs += fault.stepMs;
        await this.#order({ do: 'stepWall', ms: fault.stepMs });
        return;
      case 'restart':
        await this.#stop();
        this.#atMs += fault.forMs;
        await this.#start();
        return;
      case 'kill': {
        const died = once(this.#service, 'exit');
        // Between two scans, in the middle of what they have set going.
        this.#atMs += 1010;
        this.#service.send({ do: 'run', untilMs: this.#atMs, dies: true } satisfies Order);
        await died;
        this.#atMs += fault.forMs;
        await this.#start();
      }
    }
  }

  /** Goes on, and looks at the curves and at what it cost at the end of each stretch of the day. */
  async #runThrough(untilMs: number, burnId: string): Promise<void> {
    const { lengthMs, stretches } = this.#options;
    for (;;) {
      const nextMs = FIRST_MS + ((this.#stretches.length + 1) * lengthMs) / stretches;
      await this.#runTo(Math.min(nextMs, untilMs));
      if (nextMs > untilMs) return;
      this.#stretches.push({
        untilH: nextMs / 3.6e6,
        memoryMb: this.#peakMb,
        longestStallMs: this.#longestStallMs,
        curvesMs: await this.#look(burnId),
        diskMb: megabytesIn(this.#folder),
      });
      this.#peakMb = 0;
      this.#longestStallMs = 0;
    }
  }

  async #look(burnId: string): Promise<number> {
    const times: number[] = [];
    for (let look = 0; look < LOOKS; look++) {
      const going = this.#runTo(this.#atMs + SENT_DURING_A_LOOK_MS);
      const startedMs = performance.now();
      const response = await fetch(`${this.#address}/api/burns/${burnId}/series?points=${POINTS}`);
      await response.arrayBuffer();
      times.push(response.ok ? performance.now() - startedMs : Number.POSITIVE_INFINITY);
      await going;
    }
    return median(times);
  }

  /** Waits, on the clock of the day, until nothing of the burn is being fetched any more. */
  async #whole(burnId: string): Promise<BurnDetail> {
    for (;;) {
      const detail = await this.#ask<BurnDetail>('GET', `/burns/${burnId}`);
      if (detail.completeness) return detail;
      await this.#runTo(this.#atMs + 1000);
    }
  }

  async #start(): Promise<void> {
    const start: Start = { folder: this.#folder, atMs: this.#atMs, wallAheadMs: this.#wallAheadMs };
    const args = [JSON.stringify(start)];
    this.#service = fork(join(import.meta.dirname, 'recording-service.ts'), args, { execArgv: serviceOptions });
    this.#gone = once(this.#service, 'exit').then(([code, signal]) => {
      throw new Error(`The service ended with ${signal ?? code}.`);
    });
    this.#gone.catch(() => {});
    const { port } = await this.#report();
    this.#address = `http://127.0.0.1:${port}`;
  }

  async #stop(): Promise<void> {
    await this.#order({ do: 'stop' });
    const ended = once(this.#service, 'exit');
    this.#service.disconnect();
    await ended;
  }

  async #runTo(untilMs: number): Promise<void> {
    if (untilMs <= this.#atMs) return;
    await this.#order({ do: 'run', untilMs });
    this.#atMs = untilMs;
  }

  async #order(order: Order): Promise<void> {
    const done = this.#report();
    this.#service.send(order);
    const { longestStallMs } = await done;
    this.#longestStallMs = Math.max(this.#longestStallMs, longestStallMs);
  }

  /** @throws Error when the service ends instead */
  async #report(): Promise<Report> {
    const [report] = await Promise.race([once(this.#service, 'message') as Promise<[Report]>, this.#gone]);
    return report;
  }

  async #ask<T>(method: string, path: string, body?: object): Promise<T> {
    const response = await fetch(`${this.#address}/api${path}`, {
      method,
      ...(body && { headers: { 'content-type': 'application/json' }, body: JSON.stringify(body) }),
    });
    const text = await response.text();
    if (!response.ok) throw new Error(`${method} ${path} answered ${response.status}: ${text}`);
    return JSON.parse(text) as T;
  }
}

function megabytesIn(folder: string): number {
  const files = readdirSync(folder).filter((name) => name.endsWith('.db'));
  return files.reduce((sum, name) => sum + statSync(join(folder, name)).size / 1e6, 0);
}
