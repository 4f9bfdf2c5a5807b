import { mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Board } from '../../shared/contract/boards.ts';
import type { BurnRecord } from '../../shared/contract/burn-record.ts';
import type { BurnDetail } from '../../shared/contract/burns.ts';
import type { VersionedMark } from '../../shared/contract/entries.ts';
import { createRandom, type Random } from '../../shared/statistics/random.ts';
import { BoardLink } from './board-link.ts';
import { FairClock } from './fair-clock.ts';
import { LogReader, nowMs } from './log.ts';
import type { Fault, History, Step } from './plan.ts';
import { Service } from './service.ts';
import { type Findings, findings, type Span } from './truth.ts';
import { Watch } from './watch.ts';

/** A fault as it was carried out. */
export interface Done {
  step: Step;
  fromMs: number;
  /**
   * From its end until every scan so far was stored or reported as a gap, s; undefined where the history did not wait.
   */
  recoveryS?: number;
}

export interface BurnOutcome {
  findings: Findings;
  /** When marks were acknowledged that the burn does not contain unchanged. */
  lostMarksMs: number[];
}

export interface Outcome {
  history: History;
  done: Done[];
  burns: BurnOutcome[];
  /** Violations of the rule while it ran, or what stopped the history, a sentence each. */
  broken: string[];
}

interface Burn {
  id: string;
  startedMs: number;
  /** The same on the fair clock. */
  fairStartedMs: number;
  endedMs: number | undefined;
  /** Acknowledged marks, by identifier. */
  marks: Map<string, { mark: string; atMs: number }>;
}

const pause = (ms: number) => new Promise<void>((resolve) => setTimeout(resolve, ms));

const LOOK_EVERY_MS = 200;
/** Wait before the first fault, so that there are a few scans. */
const BEFORE_MS = 1_000;
/** Scans may still be in transmission when a burn ends. */
const ON_THE_WAY_MS = 1_500;
/** A repair without progress for this long is over: longer than any wait of the service. */
const PATIENCE_MS = 30_000;
/** The rule: the longer of five periods and ten seconds; and an allowance for a busy machine. */
const RULE_MS = 10_000;
const RULE_PERIODS = 5;
const GRACE_MS = 3_000;
const FOUND_AGAIN_MS = 20_000;
const BAUD_BYTES_PER_MS = 11.5;

/** Runs one history on a service, a board and a folder of its own. */
export async function runHistory(history: History, print: (line: string) => void): Promise<Outcome> {
  const folder = mkdtempSync(join(tmpdir(), 'stovebench-faults-'));
  const ports = join(folder, 'ports');
  mkdirSync(ports);
  const service = await Service.prepare(folder, ports, history.timeScale);
  const board = new BoardLink({
    log: join(folder, 'board.log'),
    seed: `${history.name}/board`,
    periodMs: history.periodMs,
    depth: history.depth,
    repeatsPerS: history.repeatsPerS,
    timeScale: history.timeScale,
    identity: history.known ? '01995f3a-7c2e-7d41-9b1e-3f60a2c4d581' : null,
    boot: 7,
    sequence: history.firstSequence,
    uptime: history.uptime,
  });
  const run = new Run(history, folder, ports, service, board, print);
  try {
    await run.all();
  } catch (error) {
    run.outcome.broken.push(`stopped: ${error instanceof Error ? error.message : error}`);
  } finally {
    run.close();
    await board.switchOff();
    await service.kill();
    if (!process.env.FAULTS_KEEP) rmSync(folder, { recursive: true, force: true });
    else print(`${history.name} kept in ${folder}`);
  }
  if (service.complaints.length > 0)
    print(`${history.name}: ${[...new Set(service.complaints)].slice(0, 5).join(' | ')}`);
  return run.outcome;
}

class Run {
  readonly outcome: Outcome;
  readonly #history: History;
  readonly #ports: string;
  readonly #service: Service;
  readonly #board: BoardLink;
  readonly #say: (line: string) => void;
  readonly #log: LogReader;
  readonly #watch: Watch;
  readonly #clock: FairClock;
  readonly #random: Random;
  readonly #burns: Burn[] = [];
  readonly #inTouch: Span[] = [];
  /** The reasons why the board and the service are disconnected now. */
  readonly #apart = new Set<string>(['service', 'lead']);
  #port = 'ttyUSB0';
  #renames = 0;
  #aheadMs = 0;
  #burn: Burn | undefined;
  #open = true;
  #silentSinceMs: number | undefined;
  /** When an alarm was last shown, on the fair clock. */
  #alarmMs = 0;

  constructor(
    history: History,
    folder: string,
    ports: string,
    service: Service,
    board: BoardLink,
    print: (line: string) => void,
  ) {
    this.outcome = { history, done: [], burns: [], broken: [] };
    this.#history = history;
    this.#ports = ports;
    this.#service = service;
    this.#board = board;
    this.#say = print;
    this.#log = new LogReader(join(folder, 'board.log'));
    this.#clock = new FairClock(() => [service.pid, board.pid]);
    this.#watch = new Watch(service.address, this.#clock);
    this.#random = createRandom(`${history.name}/run`);
  }

  async all(): Promise<void> {
    await this.#board.order({ do: 'plug', path: this.#path() });
    await this.#service.start();
    this.#meet('service', 'lead');
    await this.#asPerson('POST', '/boards', { path: this.#path() });
    await this.#light();
    void this.#markNowAndThen();
    void this.#look();
    await this.#wait(Math.max(BEFORE_MS, 2 * this.#history.periodMs));
    for (const step of this.#history.steps) {
      const done: Done = { step, fromMs: nowMs() };
      this.outcome.done.push(done);
      this.#say(`${this.#history.name} ${step.fault}${step.afterOutageMs ? ' during a repair' : ''} ${step.forMs} ms`);
      await this.#interrupt(step);
      await this.#do[step.fault](step);
      if (step.waitForIdle) {
        const overMs = nowMs();
        if (await this.#settled()) done.recoveryS = (nowMs() - overMs) / 1000;
      } else await this.#wait(200 + 2_800 * this.#random.uniform());
    }
    await this.#settled();
    await this.#end();
    await this.#settled();
    this.#open = false;
    await this.#judge();
  }

  close(): void {
    this.#open = false;
    this.#watch.close();
    this.#log.close();
  }

  readonly #do: Record<Fault, (step: Step) => Promise<void>> = {
    kill: async ({ forMs }) => {
      await this.#down(() => this.#service.kill());
      await this.#wait(forMs);
      await this.#up();
    },
    restart: async ({ forMs }) => {
      await this.#down(() => this.#service.stop());
      await this.#wait(forMs);
      await this.#up();
    },
    mute: ({ forMs }) => this.#silence('quiet', forMs),
    hang: ({ forMs }) => this.#silence('hung', forMs),
    replug: async ({ forMs }) => {
      await this.#unplug();
      await this.#wait(forMs);
      await this.#plug();
    },
    rename: async ({ forMs }) => {
      await this.#unplug();
      await this.#wait(forMs);
      this.#port = `ttyUSB${++this.#renames}`;
      await this.#plug();
      await this.#foundAgain();
    },
    reset: async ({ dice }) => {
      const boot = dice < 0.5 ? 'next' : dice < 0.75 ? 'same' : 'random';
      await this.#board.order({ do: 'reset', boot, memory: boot === 'next' && dice < 0.2 ? 'kept' : 'lost' });
    },
    corrupt: async ({ forMs, dice }) => {
      this.#part('disturbed');
      await this.#board.order({ do: 'disturb', share: 0.02 + 0.5 * dice });
      await this.#wait(forMs);
      await this.#board.order({ do: 'disturb', share: 0 });
      this.#meet('disturbed');
    },
    flood: async ({ forMs, dice }) => {
      this.#part('flooded');
      const bytes = Math.round(forMs * BAUD_BYTES_PER_MS);
      await this.#board.order({ do: 'flood', what: dice < 0.5 ? 'noise' : 'longLine', bytes });
      this.#meet('flooded');
    },
    'full disk': async ({ forMs }) => {
      this.#part('disk');
      await this.#service.fillDisk(true);
      await this.#wait(forMs);
      await this.#service.fillDisk(false);
      this.#meet('disk');
    },
    'clock step': async ({ dice }) => {
      const stepMs = Math.round((dice < 0.5 ? -1 : 1) * 10 ** (3 + 5 * Math.abs(2 * dice - 1)));
      this.#aheadMs += stepMs;
      if (dice * 10 - Math.floor(dice * 10) < 0.5) {
        this.#service.setClock(this.#aheadMs);
        return;
      }
      await this.#down(() => this.#service.kill());
      this.#service.setClock(this.#aheadMs);
      await this.#up();
    },
    end: async ({ forMs }) => {
      await this.#end();
      await this.#wait(forMs);
      await this.#light();
    },
  };

  /** For a fault in the middle of a repair: an outage, and the board begins to send again. */
  async #interrupt({ afterOutageMs }: Step): Promise<void> {
    if (afterOutageMs === undefined) return;
    await this.#unplug();
    await this.#wait(afterOutageMs);
    await this.#plug();
    await this.#board.repeats(30_000);
    await pause(300 * this.#random.uniform());
  }

  async #silence(how: 'quiet' | 'hung', forMs: number): Promise<void> {
    this.#part('silent');
    await this.#board.order({ do: 'silence', how });
    await this.#wait(forMs);
    await this.#board.order({ do: 'silence', how: 'over' });
    this.#meet('silent');
  }

  async #unplug(): Promise<void> {
    this.#part('lead');
    await this.#board.order({ do: 'unplug' });
  }

  async #plug(): Promise<void> {
    await this.#board.order({ do: 'plug', path: this.#path() });
    this.#meet('lead');
  }

  async #down(end: () => Promise<unknown>): Promise<void> {
    this.#part('service');
    await end();
    if (!this.#history.buffersLines) await this.#board.order({ do: 'listened', to: false });
  }

  async #up(): Promise<void> {
    await this.#service.start();
    await this.#board.order({ do: 'listened', to: true });
    const answer = await this.#service.ask<{ boards: Board[] }>('GET', '/boards');
    const boards = answer?.body.boards ?? [];
    const isAttached = boards.some(({ path }) => path === this.#path());
    // It was killed before it had found the board on its new port.
    if (!isAttached && boards.length > 0 && this.#renames > 0) await this.#foundAgain();
    else if (!isAttached) {
      if (this.#burn) this.#broke('the board was not attached again after a start, though a burn ran');
      await this.#asPerson('POST', '/boards', { path: this.#path() });
    }
    this.#meet('service');
  }

  async #foundAgain(): Promise<void> {
    const untilMs = this.#clock.now() + FOUND_AGAIN_MS;
    while (this.#clock.now() < untilMs) {
      if (this.#watch.boards().some(({ path, state }) => path === this.#path() && state === 'live')) return;
      await pause(LOOK_EVERY_MS);
    }
    this.#broke('a known board on another port was not found again by itself');
    await this.#asPerson('POST', '/boards', { path: this.#path() });
  }

  async #light(): Promise<void> {
    const { burn } = await this.#asPerson<BurnDetail>('POST', '/burns', { status: 'running' });
    this.#burn = {
      id: burn.id,
      startedMs: nowMs(),
      fairStartedMs: this.#clock.now(),
      endedMs: undefined,
      marks: new Map(),
    };
    this.#burns.push(this.#burn);
    this.#silentSinceMs = undefined;
  }

  async #end(): Promise<void> {
    const burn = this.#burn!;
    this.#burn = undefined;
    burn.endedMs = nowMs() - ON_THE_WAY_MS;
    const { burn: stored } = await this.#asPerson<BurnDetail>('GET', `/burns/${burn.id}`);
    await this.#asPerson('PATCH', `/burns/${burn.id}`, { expectedVersion: stored.version, status: 'ended' });
  }

  /** Repeats a request without an answer, or one refused because the disk is full, as a person would. */
  async #asPerson<T>(method: string, path: string, body?: object): Promise<T> {
    for (let tries = 0; tries < 40; tries++) {
      const answer = await this.#service.ask<T>(method, path, body);
      if (answer && answer.status < 300) return answer.body;
      if (answer && answer.status < 500) {
        throw new Error(`${method} ${path} answered ${answer.status}: ${JSON.stringify(answer.body)}`);
      }
      await pause(LOOK_EVERY_MS);
    }
    throw new Error(`${method} ${path} was never done`);
  }

  async #markNowAndThen(): Promise<void> {
    for (let count = 0; this.#open; count++) {
      await pause(500 + 2_000 * this.#random.uniform());
      const burn = this.#burn;
      if (!burn) continue;
      const id = crypto.randomUUID();
      const given = { id, kind: 'note', note: `mark ${count}` };
      const answer = await this.#service.ask<VersionedMark>('POST', `/burns/${burn.id}/marks`, given);
      if (answer && answer.status < 300) {
        burn.marks.set(id, { mark: JSON.stringify(answer.body.mark), atMs: nowMs() });
      }
    }
  }

  /** The rule from a person's view: a burn that records nothing shows an alarm. */
  async #look(): Promise<void> {
    const ruleMs = Math.max(RULE_PERIODS * this.#history.periodMs, RULE_MS) / this.#history.timeScale + GRACE_MS;
    while (this.#open) {
      await pause(LOOK_EVERY_MS);
      const { connectedMs } = this.#watch;
      const burn = this.#burn;
      if (!burn || connectedMs === undefined) continue;
      if (this.#watch.alarms(burn.id).length > 0) this.#alarmMs = this.#clock.now();
      const storedMs = this.#watch.lastStoredMs(burn.id) ?? 0;
      const sinceMs = Math.max(connectedMs, burn.fairStartedMs, storedMs, this.#alarmMs);
      const idleMs = this.#clock.now() - sinceMs;
      if (idleMs < ruleMs) continue;
      if (this.#silentSinceMs !== sinceMs) {
        this.#broke(`nothing was stored for ${(idleMs / 1000).toFixed(1)} s and nothing said so`);
      }
      this.#silentSinceMs = sinceMs;
    }
  }

  /**
   * Waits until every scan made so far is stored or reported as a gap, or there is no more progress. @returns whether
   * all are
   */
  async #settled(): Promise<boolean> {
    const untilMs = nowMs();
    let left = Number.POSITIVE_INFINITY;
    let movedMs = this.#clock.now();
    while (this.#clock.now() - movedMs < PATIENCE_MS) {
      const askedMs = nowMs();
      const now = await this.#missing(untilMs);
      if (now === 0) return true;
      if (now !== undefined && now < left) {
        left = now;
        movedMs = this.#clock.now();
      }
      // Checking must not itself load a busy machine.
      await pause(Math.max(LOOK_EVERY_MS, 4 * (nowMs() - askedMs)));
    }
    this.#say(`${this.#history.name}: ${left} scans still not accounted for`);
    return false;
  }

  async #missing(untilMs: number): Promise<number | undefined> {
    let count = 0;
    for (const burn of this.#burns) {
      const checked = await this.#check(burn, untilMs);
      if (!checked) return undefined;
      for (const verdict of checked.findings.verdicts.values()) if (verdict !== 'stored' && verdict !== 'told') count++;
    }
    return count;
  }

  async #check(burn: Burn, untilMs: number): Promise<{ findings: Findings; detail: BurnDetail } | undefined> {
    const detail = await this.#service.ask<BurnDetail>('GET', `/burns/${burn.id}`);
    const record = await this.#service.ask<BurnRecord>('GET', `/burns/${burn.id}/record`);
    if (detail?.status !== 200 || record?.status !== 200) return undefined;
    const found = findings(
      this.#log.read(),
      {
        span: { fromMs: burn.startedMs, toMs: Math.min(burn.endedMs ?? untilMs, untilMs) },
        record: record.body,
        gaps: this.#watch.reportedGaps(detail.body),
        timeScale: this.#history.timeScale,
      },
      this.#contact(),
    );
    return { findings: found, detail: detail.body };
  }

  async #judge(): Promise<void> {
    for (const burn of this.#burns) {
      const checked = await this.#check(burn, Number.POSITIVE_INFINITY);
      if (!checked) {
        this.#broke(`burn ${burn.id} cannot be read`);
        continue;
      }
      const { completeness } = checked.detail;
      if (completeness && completeness.stored !== checked.findings.rows)
        this.#broke(`burn ${burn.id} says that it has ${completeness.stored} scans and has ${checked.findings.rows}`);
      const stored = new Map(checked.detail.marks.map(({ mark }) => [mark.id, JSON.stringify(mark)]));
      const lostMarksMs = [...burn.marks].flatMap(([id, { mark, atMs }]) => (stored.get(id) === mark ? [] : [atMs]));
      this.outcome.burns.push({ findings: checked.findings, lostMarksMs });
    }
  }

  #contact(): Span[] {
    return this.#inTouch.map(({ fromMs, toMs }) => ({ fromMs, toMs: Math.min(toMs, nowMs()) }));
  }

  #part(reason: string): void {
    if (this.#apart.size === 0) this.#inTouch.at(-1)!.toMs = nowMs();
    this.#apart.add(reason);
  }

  #meet(...reasons: string[]): void {
    const before = this.#apart.size;
    for (const reason of reasons) this.#apart.delete(reason);
    if (before > 0 && this.#apart.size === 0) this.#inTouch.push({ fromMs: nowMs(), toMs: Number.POSITIVE_INFINITY });
  }

  #broke(sentence: string): void {
    const during = this.outcome.done.at(-1)?.step.fault ?? 'the start';
    this.outcome.broken.push(`${this.#history.name} ${during}: ${sentence}`);
    this.#say(`${this.#history.name} BROKEN ${sentence}`);
  }

  #path(): string {
    return join(this.#ports, this.#port);
  }

  /** @param ms of the board's time */
  #wait(ms: number): Promise<void> {
    return pause(ms / this.#history.timeScale);
  }
}
