import type { Clock } from '../clock.ts';
import type { Answer } from './command-desk.ts';
import type { GapReason } from './events.ts';

/** Missing scans of one boot, in unwrapped numbers. */
export interface MissingRange {
  boot: number;
  from: number;
  to: number;
}

/** What recovery needs of the log it works for. */
export interface RecoveryTarget {
  /** The oldest missing range, which is the first that the board will forget. */
  firstMissing(): MissingRange | null;
  /** Is anything of this range still missing? */
  isMissing(range: MissingRange): boolean;
  /** Unwrapped number of the oldest scan of this boot that the board says it holds. */
  placeOf(boot: number, sequence: number): number;
  giveUp(range: MissingRange, reason: GapReason): void;
}

/** The way to the board for one connection. */
export interface RecoveryLink {
  ask(range: MissingRange): Promise<Answer>;
  /** A board that sends no scan again for this long, in milliseconds, has finished. */
  quietMs(): number;
}

const MOST_AT_ONCE = 512;
const MOST_FRUITLESS_ASKS = 3;

/**
 * Fetches missed scans: asks for the oldest missing range, waits while scans come in, asks again for what is still missing,
 * and gives up what the board no longer holds or will not send. One request at a time.
 */
export class Recovery {
  readonly #clock: Clock;
  readonly #target: RecoveryTarget;
  #link: RecoveryLink | null = null;
  #asked: MissingRange | null = null;
  #fruitless = 0;
  #cancelTimer: () => void = () => {};

  constructor(clock: Clock, target: RecoveryTarget) {
    this.#clock = clock;
    this.#target = target;
  }

  /** A connection to the board is there (or, with null, is gone: what is missing stays missing until the next one). */
  useLink(link: RecoveryLink | null): void {
    this.#link = link;
    this.#asked = null;
    this.#fruitless = 0;
    this.#cancelTimer();
    this.pursue();
  }

  /** To be called when scans were found missing. */
  pursue(): void {
    if (!this.#link || this.#asked) return;
    const range = this.#target.firstMissing();
    if (range) void this.#ask(this.#link, { ...range, to: Math.min(range.to, range.from + MOST_AT_ONCE - 1) });
  }

  /** A missing scan has come. */
  recovered(boot: number, place: number): void {
    const asked = this.#asked;
    if (!asked || asked.boot !== boot || place < asked.from || place > asked.to) return;
    this.#fruitless = 0;
    // The last one asked for ends the answer, whether or not all before it came through.
    if (place === asked.to || !this.#target.isMissing(asked)) this.#finish();
    else this.#waitQuiet();
  }

  async #ask(link: RecoveryLink, range: MissingRange): Promise<void> {
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
        this.#target.giveUp({ ...range, to: Number.POSITIVE_INFINITY }, 'noAnswer');
        return this.#finish();
      case 'notConnected':
        return;
    }
  }

  #forgetBefore(range: MissingRange, oldest: number | undefined): void {
    if (oldest === undefined) return;
    const place = this.#target.placeOf(range.boot, oldest);
    if (place > range.from) {
      this.#target.giveUp({ boot: range.boot, from: range.from, to: place - 1 }, 'noLongerHeld');
    }
  }

  #waitQuiet(): void {
    this.#cancelTimer();
    this.#cancelTimer = this.#clock.setTimer(this.#link!.quietMs(), () => {
      const asked = this.#asked;
      if (asked && ++this.#fruitless >= MOST_FRUITLESS_ASKS) {
        this.#fruitless = 0;
        this.#target.giveUp(asked, 'noAnswer');
      }
      this.#finish();
    });
  }

  #finish(): void {
    this.#cancelTimer();
    this.#asked = null;
    this.pursue();
  }
}
