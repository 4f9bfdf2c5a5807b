import type { BurnAlarms } from '../../shared/contract/alarms.ts';
import type { Board } from '../../shared/contract/boards.ts';
import type { BurnDetail } from '../../shared/contract/burns.ts';
import type { LiveEvent, Storage } from '../../shared/contract/stream.ts';
import type { FairClock } from './fair-clock.ts';
import { nowMs } from './log.ts';
import type { ReportedGap } from './truth.ts';

/** Alarms about the fire, which are unrelated to the recording. */
const OF_THE_FIRE: ReadonlySet<string> = new Set([
  'probe',
  'holdLow',
  'holdDone',
  'target',
  'needsWood',
  'nearlyThere',
  'readingDue',
]);

const CONNECT_AGAIN_MS = 100;

/** Follows the live stream like a page, and remembers what a person at the stove could have seen. */
export class Watch {
  readonly #address: string;
  readonly #clock: FairClock;
  readonly #stop = new AbortController();
  #boards = new Map<string, Board>();
  #calls = new Map<string, BurnAlarms['calls']>();
  #storage: Storage | undefined;
  #storedMs = new Map<string, number>();
  /** Gaps by burn, with the moment at which each was first received. */
  readonly #gaps = new Map<string, Map<string, ReportedGap>>();
  /** Since when the stream has been open without a break, on the fair clock; undefined while it is not. */
  connectedMs: number | undefined;

  constructor(address: string, clock: FairClock) {
    this.#address = address;
    this.#clock = clock;
    void this.#follow();
  }

  /** Alarms shown about the recording of a burn; empty when the screen shows that all is well. */
  alarms(burnId: string): string[] {
    return [
      ...(this.#calls.get(burnId) ?? []).map(({ kind }) => kind).filter((kind) => !OF_THE_FIRE.has(kind)),
      ...[...this.#boards.values()].flatMap(({ state, problem }) => [
        ...(state === 'live' ? [] : [state]),
        ...(problem ? [problem.code] : []),
      ]),
      ...(this.#storage?.problem ? [this.#storage.problem.code] : []),
    ];
  }

  boards(): Board[] {
    return [...this.#boards.values()];
  }

  /** When a scan was last published as stored for this burn, on the fair clock. */
  lastStoredMs(burnId: string): number | undefined {
    return this.#storedMs.get(burnId);
  }

  /** The present gaps of the burn, each with the moment at which it was first received. */
  reportedGaps({ burn, gaps }: BurnDetail): ReportedGap[] {
    return gaps.map((gap) => this.#hear(burn.id, gap));
  }

  close(): void {
    this.#stop.abort();
  }

  async #follow(): Promise<void> {
    while (!this.#stop.signal.aborted) {
      try {
        const { body } = await fetch(`${this.#address}/api/stream`, { signal: this.#stop.signal });
        let text = '';
        for await (const piece of body!.pipeThrough(new TextDecoderStream() as never) as AsyncIterable<string>) {
          const messages = (text + piece).split('\n\n');
          text = messages.pop()!;
          for (const message of messages) {
            const data = /^data: (.*)$/m.exec(message)?.[1];
            if (data) this.#take(JSON.parse(data) as LiveEvent);
          }
        }
      } catch {
        // The service is down; a page retries as well.
      }
      this.connectedMs = undefined;
      await new Promise((resolve) => setTimeout(resolve, CONNECT_AGAIN_MS));
    }
  }

  #take(event: LiveEvent): void {
    switch (event.type) {
      case 'snapshot':
        this.connectedMs = this.#clock.now();
        this.#boards = new Map(event.boards.map((board) => [board.id, board]));
        this.#calls = new Map(event.calls.map(({ burnId, calls }) => [burnId, calls]));
        this.#storage = event.storage;
        return;
      case 'board':
        this.#boards.set(event.board.id, event.board);
        return;
      case 'boardGone':
        this.#boards.delete(event.boardId);
        return;
      case 'calls':
        this.#calls.set(event.burnId, event.calls);
        return;
      case 'storage':
        this.#storage = event.storage;
        return;
      case 'scan':
        if (event.burnId) this.#storedMs.set(event.burnId, this.#clock.now());
        return;
      case 'gaps':
        for (const gap of event.gaps) this.#hear(event.burnId, gap);
    }
  }

  #hear(burnId: string, gap: ReportedGap['gap']): ReportedGap {
    const known = this.#gaps.get(burnId) ?? new Map<string, ReportedGap>();
    this.#gaps.set(burnId, known);
    const key = `${gap.fromUs} ${gap.toUs}`;
    const reported = known.get(key) ?? { gap, atMs: nowMs() };
    known.set(key, reported);
    return reported;
  }
}
