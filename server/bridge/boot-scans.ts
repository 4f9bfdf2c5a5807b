import type { GapCause } from './events.ts';
import { MOST_MISSED, stepUint32, wrapUint32 } from './sequence-numbers.ts';

/**
 * What the list of a boot uses of a scan: its number, the board's time, and its content to distinguish a copy from
 * another scan.
 */
export interface NumberedScan {
  sequence: number;
  uptimeMs: number;
  repeated: boolean;
  body: string;
}

/** Scans `from` to `to` (both missing) of one boot, in unwrapped numbers, with the board's time on either side. */
export interface Hole {
  from: number;
  to: number;
  cause: GapCause;
  /** Null for a hole that begins with the start of the board. */
  beforeMs: number | null;
  afterMs: number;
}

export type Verdict =
  | { kind: 'new'; opened: Hole | null }
  | { kind: 'recovered'; place: number }
  | { kind: 'duplicate' }
  /** A live scan with an old number and new content: the board started again without changing its boot number. */
  | { kind: 'restarted' };

/** This many of the latest scans are remembered, to distinguish a copy from a board that starts counting again. */
const MOST_REMEMBERED = 4096;
const MOST_GIVEN_UP = 256;

/**
 * Part of a hole. Where its neighbour is missing too, the neighbour's uptime is interpolated between the ends, because
 * scans are evenly spaced.
 */
function partOf(hole: Hole, from: number, to: number): Hole {
  const { beforeMs, afterMs } = hole;
  if (beforeMs === null) return { ...hole, from, to };
  const between = (index: number): number =>
    wrapUint32(
      Math.round(beforeMs + (stepUint32(beforeMs, afterMs) * (index - hole.from + 1)) / (hole.to - hole.from + 2)),
    );
  return {
    ...hole,
    from,
    to,
    beforeMs: from === hole.from ? beforeMs : between(from - 1),
    afterMs: to === hole.to ? afterMs : between(to + 1),
  };
}

/**
 * Which scans of one boot were received and which are missing. Numbers are unwrapped inside, so ranges are plain
 * integers.
 */
export class BootScans {
  #newest: number;
  #newestMs: number;
  /** The lowest number received, and its uptime. */
  #first: { place: number; uptimeMs: number };
  readonly #remembered = new Map<number, string>();
  #holes: Hole[] = [];
  /** Holes that were given up: a scan of one that arrives all the same is accepted like any other. */
  #givenUp: Hole[] = [];

  private constructor(sequence: number, uptimeMs: number) {
    this.#newest = sequence;
    this.#newestMs = uptimeMs;
    this.#first = { place: sequence, uptimeMs };
  }

  /** A list that begins with a live scan; with `fromZero`, all scans of this boot before it count as missing. */
  static beginningWith(scan: NumberedScan, fromZero: GapCause | null): { scans: BootScans; opened: Hole | null } {
    const scans = new BootScans(scan.sequence, scan.uptimeMs);
    scans.#remember(scan.sequence, scan.body);
    let opened: Hole | null = null;
    if (fromZero !== null && scan.sequence > 0 && scan.sequence <= MOST_MISSED) {
      opened = { from: 0, to: scan.sequence - 1, cause: fromZero, beforeMs: null, afterMs: scan.uptimeMs };
      scans.#holes.push(opened);
    }
    return { scans, opened };
  }

  /**
   * A list that continues where an earlier run of the service stopped, with the holes (numbers as sent) that it stored.
   */
  static resumedAfter(sequence: number, uptimeMs: number, holes: readonly Hole[]): BootScans {
    const scans = new BootScans(sequence, uptimeMs);
    scans.#holes = holes.map(({ from, to, cause, beforeMs, afterMs }) => {
      const unwrapped = { from: scans.#unwrap(from), to: scans.#unwrap(to) };
      return { ...unwrapped, cause, beforeMs, afterMs };
    });
    scans.#holes.sort((a, b) => a.from - b.from);
    return scans;
  }

  /** The lowest number that this boot is known to have reached, received or missing. */
  get oldest(): number {
    return Math.min(this.#first.place, ...this.#holes.map(({ from }) => from));
  }

  get newestMs(): number {
    return this.#newestMs;
  }

  get newest(): number {
    return this.#newest;
  }

  get first(): { sequence: number; uptimeMs: number } {
    return { sequence: wrapUint32(this.#first.place), uptimeMs: this.#first.uptimeMs };
  }

  get holes(): readonly Hole[] {
    return this.#holes;
  }

  /** Whether this scan, number and content, has been received before. */
  remembers(scan: NumberedScan): boolean {
    return this.#remembered.get(this.#placeOf(scan)) === scan.body;
  }

  /** @param cause why scans would be missing, if this one shows that some are */
  admit(scan: NumberedScan, cause: GapCause): Verdict {
    const index = this.#placeOf(scan);
    if (index > this.#newest && !scan.repeated) {
      return index - this.#newest > MOST_MISSED ? { kind: 'restarted' } : this.#advance(index, scan, cause);
    }
    if (this.#fill(this.#holes, index, scan.uptimeMs) || this.#fill(this.#givenUp, index, scan.uptimeMs)) {
      this.#remember(index, scan.body);
      return { kind: 'recovered', place: index };
    }
    if (scan.repeated || this.#remembered.get(index) === scan.body) return { kind: 'duplicate' };
    if (index === this.#newest && scan.uptimeMs === this.#newestMs) return { kind: 'duplicate' };
    return { kind: 'restarted' };
  }

  /**
   * Removes scans from the missing ones because they will never arrive; returns what was removed, one entry per hole.
   */
  giveUp(from: number, to: number): Hole[] {
    const given: Hole[] = [];
    this.#holes = this.#holes.flatMap((hole) => {
      if (hole.to < from || hole.from > to) return [hole];
      given.push(partOf(hole, Math.max(hole.from, from), Math.min(hole.to, to)));
      return [
        ...(hole.from < from ? [partOf(hole, hole.from, from - 1)] : []),
        ...(hole.to > to ? [partOf(hole, to + 1, hole.to)] : []),
      ];
    });
    this.#givenUp.push(...given);
    if (this.#givenUp.length > MOST_GIVEN_UP) this.#givenUp.splice(0, this.#givenUp.length - MOST_GIVEN_UP);
    return given;
  }

  #placeOf(scan: NumberedScan): number {
    return this.#unwrap(scan.sequence);
  }

  #unwrap(sequence: number): number {
    return this.#newest + stepUint32(wrapUint32(this.#newest), sequence);
  }

  #advance(index: number, scan: NumberedScan, cause: GapCause): Verdict {
    let opened: Hole | null = null;
    if (index > this.#newest + 1) {
      opened = { from: this.#newest + 1, to: index - 1, cause, beforeMs: this.#newestMs, afterMs: scan.uptimeMs };
      this.#holes.push(opened);
    }
    this.#newest = index;
    this.#newestMs = scan.uptimeMs;
    this.#remember(index, scan.body);
    return { kind: 'new', opened };
  }

  /**
   * Removes the number from the hole that contains it; the scan becomes the neighbour of what remains on both sides.
   */
  #fill(holes: Hole[], index: number, uptimeMs: number): boolean {
    const at = holes.findIndex((hole) => hole.from <= index && index <= hole.to);
    if (at < 0) return false;
    const hole = holes[at]!;
    if (index < this.#first.place) this.#first = { place: index, uptimeMs };
    holes.splice(
      at,
      1,
      ...(hole.from < index ? [{ ...hole, to: index - 1, afterMs: uptimeMs }] : []),
      ...(index < hole.to ? [{ ...hole, from: index + 1, beforeMs: uptimeMs }] : []),
    );
    return true;
  }

  #remember(index: number, body: string): void {
    this.#remembered.set(index, body);
    if (this.#remembered.size > MOST_REMEMBERED) this.#remembered.delete(this.#remembered.keys().next().value!);
  }
}
