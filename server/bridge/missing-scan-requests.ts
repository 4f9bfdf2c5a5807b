import type { Clock } from '../base/clock.ts';
import type { Answer } from './command-queue.ts';
import type { GapReason } from './events.ts';

/** Missing scans of one boot, in unwrapped numbers. */
export interface MissingRange {
  boot: number;
  from: number;
  to: number;
}

/** What the requests use of the board log. */
export interface RequestTarget {
  /** Missing ranges, oldest first: the oldest is the first that the board will discard. */
  missing(): MissingRange[];
  /** Whether any scan of this range is still missing. */
  isMissing(range: MissingRange): boolean;
  /** Unwrapped number of the oldest scan of this boot that the board reports to hold. */
  placeOf(boot: number, sequence: number): number;
  giveUp(range: MissingRange, reason: GapReason): void;
  /** Gives up scans that a board holding its last `depth` scans no longer has. */
  forgetOlderThan(depth: number): void;
}

/** Access to the board during one connection. */
export interface RequestLink {
  /** How many of its last scans the board holds. */
  depth: number;
  ask(range: MissingRange): Promise<Answer>;
  /** A board that sends no repeated scan for this long, in milliseconds, has finished. */
  quietMs(): number;
}

const MOST_AT_ONCE = 512;
const MOST_FRUITLESS_ASKS = 3;
/** A range requested without success is paused; each time twice as long, in milliseconds of real time. */
const REST_FIRST_MS = 5_000;
const REST_MOST_MS = 60_000;

/** A paused range, and how often in a row it was requested without success. */
interface Resting {
  range: MissingRange;
  times: number;
  untilUs: number;
}

/**
 * Fetches missed scans: requests the oldest missing range, waits while scans arrive, requests again what is still
 * missing, and gives up only what the board no longer holds or refuses to send. A range that yields nothing is paused
 * while others are requested. One request at a time.
 */
export class MissingScanRequests {
  readonly #clock: Clock;
  readonly #target: RequestTarget;
  #link: RequestLink | null = null;
  #asked: MissingRange | null = null;
  #fruitless = 0;
  #resting: Resting[] = [];
  #cancelTimer: () => void = () => {};
  #cancelRest: () => void = () => {};

  constructor(clock: Clock, target: RequestTarget) {
    this.#clock = clock;
    this.#target = target;
  }

  /** Sets the connection to the board (null: it ended; missing scans stay missing until the next one). */
  useLink(link: RequestLink | null): void {
    this.#link = link;
    this.#asked = null;
    this.#fruitless = 0;
    this.#resting = [];
    this.#cancelTimer();
    this.#cancelRest();
    this.pursue();
  }

  /** Call when scans were found missing. */
  pursue(): void {
    if (!this.#link || this.#asked) return;
    this.#cancelRest();
    const nowUs = this.#clock.monotonicUs();
    const missing = this.#target.missing();
    this.#resting = this.#resting.filter(({ range }) => this.#target.isMissing(range));
    const isResting = (range: MissingRange) =>
      this.#resting.find((each) => overlap(each.range, range) && each.untilUs > nowUs);
    for (const { boot, from, to } of missing) {
      // A hole can be longer than a request: takes its first part that is not paused.
      for (let start = from; start <= to; start += MOST_AT_ONCE) {
        const range = { boot, from: start, to: Math.min(to, start + MOST_AT_ONCE - 1) };
        if (isResting(range)) continue;
        void this.#ask(this.#link, range);
        return;
      }
    }
    const next = Math.min(...this.#resting.map(({ untilUs }) => untilUs));
    if (Number.isFinite(next)) {
      this.#cancelRest = this.#clock.setTimer(Math.max(0, (next - nowUs) / 1000), () => this.pursue());
    }
  }

  /** A missing scan was received. */
  recovered(boot: number, index: number): void {
    const asked = this.#asked;
    if (!asked || asked.boot !== boot || index < asked.from || index > asked.to) return;
    this.#fruitless = 0;
    // The last scan requested ends the answer, whether or not all before it were received.
    if (index === asked.to || !this.#target.isMissing(asked)) this.#finish();
    else this.#waitQuiet();
  }

  async #ask(link: RequestLink, range: MissingRange): Promise<void> {
    this.#asked = range;
    const answer = await link.ask(range);
    if (link !== this.#link || this.#asked !== range) return;
    switch (answer.kind) {
      case 'ok':
        this.#forgetBefore(range, answer.oldest);
        if (this.#target.isMissing(range)) this.#waitQuiet();
        else this.#finish();
        return;
      case 'refused':
        if (answer.reason === 'busy') return this.#waitQuiet();
        this.#forgetBefore(range, answer.oldest);
        this.#target.giveUp(
          range,
          answer.reason === 'other-boot' || answer.reason === 'not-held' ? 'noLongerHeld' : 'refused',
        );
        return this.#finish();
      case 'noAnswer':
        this.#rest(range);
        return this.#finish();
      case 'notConnected':
        return;
    }
  }

  #forgetBefore(range: MissingRange, oldest: number | undefined): void {
    if (oldest === undefined) return;
    const index = this.#target.placeOf(range.boot, oldest);
    if (index > range.from) {
      this.#target.giveUp({ boot: range.boot, from: range.from, to: index - 1 }, 'noLongerHeld');
    }
  }

  #waitQuiet(): void {
    this.#cancelTimer();
    this.#cancelTimer = this.#clock.setTimer(this.#link!.quietMs(), () => {
      const asked = this.#asked;
      if (asked && ++this.#fruitless >= MOST_FRUITLESS_ASKS) {
        this.#fruitless = 0;
        this.#rest(asked);
      }
      this.#finish();
    });
  }

  /** Pauses a range requested without success. Meanwhile the board makes new scans and discards older ones for them. */
  #rest(range: MissingRange): void {
    this.#target.forgetOlderThan(this.#link!.depth);
    const before = this.#resting.filter((each) => overlap(each.range, range));
    const times = Math.max(0, ...before.map((each) => each.times)) + 1;
    const restMs = Math.min(REST_FIRST_MS * 2 ** (times - 1), REST_MOST_MS) * this.#clock.scale;
    this.#resting = this.#resting.filter((each) => !before.includes(each));
    if (this.#target.isMissing(range)) {
      this.#resting.push({ range, times, untilUs: this.#clock.monotonicUs() + restMs * 1000 });
    }
  }

  #finish(): void {
    this.#cancelTimer();
    this.#asked = null;
    this.pursue();
  }
}

function overlap(a: MissingRange, b: MissingRange): boolean {
  return a.boot === b.boot && a.from <= b.to && b.from <= a.to;
}
