import type { Clock } from '../base/clock.ts';
import { BootScans, type Hole, type NumberedScan } from './boot-scans.ts';
import { ClockCheck, type ClockVerdict } from './clock-check.ts';
import type { GapCause, GapEvent, GapReason, MissedScans, ScanEvent, ScanPoint } from './events.ts';
import {
  type MissingRange,
  MissingScanRequests,
  type RequestLink,
  type RequestTarget,
} from './missing-scan-requests.ts';
import { stepUint32, wrapUint32 } from './sequence-numbers.ts';
import { createTimeMapping, type TimeMapping } from './time-mapping.ts';

/** A scan as received, before it is known whether it is new and when it was read. */
export interface ReceivedScan extends NumberedScan {
  /** Boot number as sent. */
  boot: number;
  arrivalUs: number;
  counts: ScanEvent['counts'];
  faults: ScanEvent['faults'];
}

/** The last scan of a board that an earlier run of the service stored, and the holes before it that were still open. */
export interface KnownScans {
  last: { boot: number; sequence: number; deviceUptimeMs: number };
  /** How its clock ran. */
  clock: ClockVerdict;
  /** Numbers as sent. `beforeMs` and `afterMs`: board's clock at the scans on either side, null where there is none. */
  holes: { boot: number; from: number; to: number; cause: GapCause; beforeMs: number | null; afterMs: number }[];
}

export interface LogCounts {
  duplicates: number;
  missing: number;
  recovered: number;
  resets: number;
}

export interface LogOutput {
  scan(event: ScanEvent): void;
  gap(event: GapEvent): void;
}

interface BootEntry {
  boot: number;
  scans: BootScans;
  check: ClockCheck;
  /** The gap before the first scan of this boot, not published yet: scans at its near side may still be fetched. */
  gapBefore: { from: ScanPoint; cause: GapCause } | null;
}

/** What was decided about a new scan. */
interface Admitted {
  entry: BootEntry;
  /** It shows that scans before it are missing. */
  opened: boolean;
  /** Its unwrapped number when it was missing until now, else null. */
  place: number | null;
  missed: MissedScans | null;
}

function missedBy(hole: Hole | null): MissedScans | null {
  return hole && { cause: hole.cause, known: hole.to - hole.from + 1, restarted: false };
}

/** Of several causes for the same hole, the one with the highest weight is reported. */
const WEIGHT: Record<GapCause, number> = {
  lost: 0,
  reset: 0,
  silent: 1,
  unplugged: 2,
  hostAsleep: 3,
  serviceStopped: 4,
};

const EVERYTHING = { from: Number.NEGATIVE_INFINITY, to: Number.POSITIVE_INFINITY };
const MOST_BOOTS = 8;
/** While a clock is not known to be right, its times may differ from those of arrival by this much of real time. */
const DOUBTED_US = 250_000;
const UINT32_RANGE = 2 ** 32;

/**
 * State of one board, whichever port it is connected to: which scans were received, which are missing, and how its
 * clock runs. Publishes each scan once, with its time, and each gap once its scans can no longer be fetched.
 */
export class BoardLog implements RequestTarget {
  readonly boardKey: string;
  readonly counts: LogCounts = { duplicates: 0, missing: 0, recovered: 0, resets: 0 };
  readonly #clock: Clock;
  readonly #output: LogOutput;
  readonly #recovery: MissingScanRequests;
  readonly #mapping: TimeMapping;
  readonly #boots: BootEntry[] = [];
  readonly #usedBoots = new Set<number>();
  #lastHostUs = Number.NEGATIVE_INFINITY;
  /** Null until the board has reported whether it can send scans again: until then, missing scans are not given up. */
  #canRepeat: boolean | null = null;
  #cause: GapCause;

  constructor(boardKey: string, clock: Clock, output: LogOutput, known: KnownScans | null) {
    this.boardKey = boardKey;
    this.#clock = clock;
    this.#output = output;
    this.#recovery = new MissingScanRequests(clock, this);
    this.#mapping = createTimeMapping(clock.scale);
    this.#cause = known === null ? 'lost' : 'serviceStopped';
    if (known) this.#resume(known);
  }

  /** Boot number of the newest scan, as published; null before the first. */
  get newestBoot(): number | null {
    return this.#boots[this.#boots.length - 1]?.boot ?? null;
  }

  /** Whether the board's clock is right, compared with times of arrival, as far as known for its newest boot. */
  get clockVerdict(): ClockVerdict {
    return this.#boots[this.#boots.length - 1]?.check.verdict ?? 'unknown';
  }

  get clockRatio(): number | null {
    return this.#boots[this.#boots.length - 1]?.check.ratio ?? null;
  }

  /** The board is connected. @param link used to fetch scans again; null for a board that stores none */
  connected(link: RequestLink | null): void {
    this.#canRepeat = link !== null;
    if (!link) this.#giveUpAll('cannotRepeat');
    this.#recovery.useLink(link);
  }

  /** The connection ended; missing scans stay missing until the next one. */
  disconnected(): void {
    this.#recovery.useLink(null);
    this.note('unplugged');
  }

  /** Records a cause for missing scans, in case the next scans show that some are missing. */
  note(cause: GapCause): void {
    if (WEIGHT[cause] > WEIGHT[this.#cause]) this.#cause = cause;
  }

  /** Takes over scans that were published under another key before the board was identified. */
  takeOver(scans: readonly ReceivedScan[]): void {
    for (const scan of scans) {
      const outcome = this.#admit(scan, this.#cause);
      if (!outcome || outcome.place !== null) continue;
      this.#cause = 'lost';
      this.#mapping.observe(outcome.entry.boot, scan.uptimeMs, scan.arrivalUs);
      this.#checkClock(outcome.entry, scan);
    }
  }

  /** Receives scans that arrived together, in their order. */
  receive(batch: readonly ReceivedScan[]): void {
    const accepted: { scan: ReceivedScan; entry: BootEntry; late: boolean; missed: MissedScans | null }[] = [];
    const recovered: { entry: BootEntry; place: number }[] = [];
    let holes = false;
    for (const scan of batch) {
      const cause = this.#cause;
      const outcome = this.#admit(scan, cause);
      if (!outcome) continue;
      if (!scan.repeated) this.#cause = 'lost';
      const { entry, place, missed } = outcome;
      accepted.push({ scan, entry, late: place !== null, missed });
      holes ||= outcome.opened;
      if (place !== null) recovered.push({ entry, place });
    }
    const live = accepted.filter(({ late }) => !late);
    for (const { scan, entry } of live) this.#mapping.observe(entry.boot, scan.uptimeMs, scan.arrivalUs);
    const newest = live.at(-1);
    if (newest) this.#checkClock(newest.entry, newest.scan);
    const trusted = newest === undefined || this.#trusts(newest.entry, newest.scan);
    for (const { scan, entry, late, missed } of accepted) this.#giveOut(scan, entry, late, missed, trusted);
    for (const { entry } of accepted) this.#tellGapBefore(entry);
    for (const { entry, place: index } of recovered) this.#recovery.recovered(entry.boot, index);
    if (holes && this.#canRepeat === false) this.#giveUpAll('cannotRepeat');
    else if (holes) this.#recovery.pursue();
  }

  /** The board is detached: missing scans are published as gaps. */
  close(): void {
    this.suspend();
    this.#giveUpAll('detached');
  }

  /** The service stops: missing scans stay missing, for its next run to fetch. */
  suspend(): void {
    this.#recovery.useLink(null);
  }

  missing(): MissingRange[] {
    return this.#boots.flatMap(({ boot, scans }) => scans.holes.map(({ from, to }) => ({ boot, from, to })));
  }

  forgetOlderThan(depth: number): void {
    let since = 0;
    for (const { boot, scans } of this.#boots.toReversed()) {
      // The board holds its newest scan as well; one more is allowed for a scan under way.
      const oldest = scans.newest - depth + since;
      this.giveUp({ boot, from: EVERYTHING.from, to: oldest - 1 }, 'noAnswer');
      since += scans.newest - scans.oldest + 1;
    }
  }

  isMissing(range: MissingRange): boolean {
    const entry = this.#boots.find((e) => e.boot === range.boot);
    return entry?.scans.holes.some((hole) => hole.from <= range.to && hole.to >= range.from) ?? false;
  }

  placeOf(boot: number, sequence: number): number {
    const newest = this.#boots.find((e) => e.boot === boot)!.scans.newest;
    return newest + stepUint32(wrapUint32(newest), sequence);
  }

  giveUp(range: MissingRange, reason: GapReason): void {
    const entry = this.#boots.find((e) => e.boot === range.boot);
    if (!entry) return;
    for (const hole of entry.scans.giveUp(range.from, range.to)) this.#tellGap(entry, hole, reason);
  }

  #admit(scan: ReceivedScan, cause: GapCause): Admitted | null {
    const entry = this.#entryFor(scan);
    if (!entry) {
      const copy = this.#boots.some((e) => e.boot % UINT32_RANGE === scan.boot && e.scans.remembers(scan));
      if (!scan.repeated && !copy) return this.#beginBoot(scan, cause);
      this.counts.duplicates++;
      return null;
    }
    const verdict = entry.scans.admit(scan, cause);
    switch (verdict.kind) {
      case 'new':
        if (verdict.opened) this.counts.missing += verdict.opened.to - verdict.opened.from + 1;
        return { entry, opened: verdict.opened !== null, place: null, missed: missedBy(verdict.opened) };
      case 'recovered':
        this.counts.recovered++;
        return { entry, opened: false, place: verdict.place, missed: null };
      case 'duplicate':
        this.counts.duplicates++;
        return null;
      case 'restarted':
        this.giveUp({ boot: entry.boot, ...EVERYTHING }, 'noLongerHeld');
        return this.#beginBoot(scan, cause);
    }
  }

  /** A live scan belongs to the newest boot or begins one; a repeated one belongs to any known boot. */
  #entryFor(scan: ReceivedScan): BootEntry | null {
    const newestFirst = scan.repeated ? this.#boots.toReversed() : this.#boots.slice(-1);
    return newestFirst.find((entry) => entry.boot % UINT32_RANGE === scan.boot) ?? null;
  }

  #beginBoot(scan: ReceivedScan, cause: GapCause): Admitted {
    // Numbers of our own, above those a board can send, make boot and sequence unique when the board repeats a boot
    // number.
    let boot = scan.boot;
    while (this.#usedBoots.has(boot)) boot += UINT32_RANGE;
    this.#usedBoots.add(boot);
    const before = this.#boots[this.#boots.length - 1];
    const known = before !== undefined;
    const effectiveCause = cause === 'lost' ? 'reset' : cause;
    const { scans, opened } = BootScans.beginningWith(scan, known ? effectiveCause : null);
    const gapBefore = known
      ? { from: this.#pointOf(before, before.scans.newest, before.scans.newestMs), cause: effectiveCause }
      : null;
    const check = new ClockCheck(this.#clock.scale, before?.check.verdict);
    const entry: BootEntry = { boot, scans, check, gapBefore };
    this.#boots.push(entry);
    if (this.#boots.length > MOST_BOOTS) {
      this.giveUp({ boot: this.#boots[0]!.boot, ...EVERYTHING }, 'noLongerHeld');
      this.#boots.shift();
    }
    if (known && (effectiveCause === 'reset' || effectiveCause === 'silent')) this.counts.resets++;
    if (opened) this.counts.missing += opened.to - opened.from + 1;
    const missed: MissedScans | null = known
      ? { cause: effectiveCause, known: opened ? opened.to - opened.from + 1 : 0, restarted: true }
      : null;
    return { entry, opened: opened !== null, place: null, missed };
  }

  /** Continues where an earlier run of the service stopped. */
  #resume({ last, holes, clock }: KnownScans): void {
    const boots = [...new Set([...holes.map(({ boot }) => boot).filter((boot) => boot !== last.boot), last.boot])];
    for (const boot of boots) {
      const own = holes.filter((hole) => hole.boot === boot);
      const newest =
        boot === last.boot
          ? { sequence: last.sequence, uptimeMs: last.deviceUptimeMs }
          : { sequence: wrapUint32(own.at(-1)!.to + 1), uptimeMs: own.at(-1)!.afterMs };
      const scans = BootScans.resumedAfter(newest.sequence, newest.uptimeMs, own);
      this.#boots.push({ boot, scans, check: new ClockCheck(this.#clock.scale, clock), gapBefore: null });
      this.#usedBoots.add(boot);
    }
  }

  #checkClock({ boot, check }: BootEntry, { uptimeMs, arrivalUs }: ReceivedScan): void {
    const before = check.verdict;
    check.observe(uptimeMs, arrivalUs);
    // Observations of a clock while it ran wrong do not apply to the same clock once it runs right.
    if (before === 'wrong' && check.verdict === 'right') {
      this.#mapping.forget(boot);
      this.#mapping.observe(boot, uptimeMs, arrivalUs);
    }
  }

  /**
   * Whether the board's clock gives the times of the scans that arrived with this one, the newest of them. Until enough
   * scans have arrived to decide, it is used only where it agrees with arrival: no scan is held back, and none gets a
   * time that is far off.
   */
  #trusts({ boot, check }: BootEntry, { uptimeMs, arrivalUs }: ReceivedScan): boolean {
    if (check.verdict !== 'unknown') return check.verdict === 'right';
    const hostUs = this.#mapping.hostUs(boot, uptimeMs);
    return hostUs !== null && Math.abs(arrivalUs - hostUs) <= DOUBTED_US * this.#clock.scale;
  }

  #giveOut(scan: ReceivedScan, entry: BootEntry, late: boolean, missed: MissedScans | null, trusted: boolean): void {
    let hostUs = (trusted && this.#mapping.hostUs(entry.boot, scan.uptimeMs)) || scan.arrivalUs;
    if (!late) {
      // Estimates change by milliseconds as they improve; the order of scans must not change.
      hostUs = Math.min(Math.max(hostUs, this.#lastHostUs + 1), Math.max(scan.arrivalUs, this.#lastHostUs + 1));
      this.#lastHostUs = hostUs;
    }
    this.#output.scan({
      boardKey: this.boardKey,
      boot: entry.boot,
      sequence: scan.sequence,
      deviceUptimeMs: scan.uptimeMs,
      hostUs,
      clock: entry.check.verdict,
      arrivalUs: scan.arrivalUs,
      counts: scan.counts,
      faults: scan.faults,
      repeated: late,
      missed,
    });
  }

  /** Publishes the gap between two boots as soon as the first scans of the later one have arrived or are given up. */
  #tellGapBefore(entry: BootEntry): void {
    if (!entry.gapBefore || entry.scans.holes.some((hole) => hole.beforeMs === null)) return;
    const { from, cause } = entry.gapBefore;
    entry.gapBefore = null;
    const { sequence, uptimeMs } = entry.scans.first;
    this.#output.gap({
      boardKey: this.boardKey,
      from,
      to: { boot: entry.boot, sequence, hostUs: this.#mapping.hostUs(entry.boot, uptimeMs) },
      missing: null,
      cause,
      reason: 'noLongerHeld',
    });
  }

  #tellGap(entry: BootEntry, hole: Hole, reason: GapReason): void {
    if (hole.beforeMs === null && entry.gapBefore) {
      this.#tellGapBefore(entry);
      return;
    }
    this.#output.gap({
      boardKey: this.boardKey,
      from: hole.beforeMs === null ? null : this.#pointOf(entry, hole.from - 1, hole.beforeMs),
      to: this.#pointOf(entry, hole.to + 1, hole.afterMs),
      missing: hole.to - hole.from + 1,
      cause: hole.cause,
      reason,
    });
  }

  #giveUpAll(reason: GapReason): void {
    for (const { boot } of this.#boots) this.giveUp({ boot, ...EVERYTHING }, reason);
  }

  #pointOf(entry: BootEntry, index: number, uptimeMs: number): ScanPoint {
    return { boot: entry.boot, sequence: wrapUint32(index), hostUs: this.#mapping.hostUs(entry.boot, uptimeMs) };
  }
}
