import type { Clock } from '../clock.ts';
import { BootLedger, type Hole, type LedgerScan } from './boot-ledger.ts';
import type { GapCause, GapEvent, GapReason, ScanEvent, ScanPoint } from './events.ts';
import { type MissingRange, Recovery, type RecoveryLink, type RecoveryTarget } from './recovery.ts';
import { stepUint32, wrapUint32 } from './sequence.ts';
import { createTimeMapping, type TimeMapping } from './time-mapping.ts';

/** A scan as received, before anybody knows whether it is new and when it was read. */
export interface ReceivedScan extends LedgerScan {
  /** Boot number as sent. */
  boot: number;
  arrivalUs: number;
  counts: ScanEvent['counts'];
  faults: ScanEvent['faults'];
}

/** The last scan of a board that an earlier run of the service kept. */
export interface LastScan {
  boot: number;
  sequence: number;
  deviceUptimeMs: number;
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
  ledger: BootLedger;
  /** The gap before the first scan of this boot, still to be told: its near side may yet be fetched. */
  gapBefore: { from: ScanPoint; cause: GapCause } | null;
}

/** Of several explanations for the same hole the heaviest is told. */
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
const UINT32_RANGE = 2 ** 32;

/**
 * Everything known of one board, whatever port it hangs on: which scans have come, which are missing, and how its clock
 * runs. Gives out each scan once, with its time, and each gap once nothing more can be done about it.
 */
export class BoardLog implements RecoveryTarget {
  readonly boardKey: string;
  readonly counts: LogCounts = { duplicates: 0, missing: 0, recovered: 0, resets: 0 };
  readonly #output: LogOutput;
  readonly #recovery: Recovery;
  readonly #mapping: TimeMapping;
  readonly #boots: BootEntry[] = [];
  readonly #usedBoots = new Set<number>();
  #lastHostUs = Number.NEGATIVE_INFINITY;
  #canRepeat = false;
  #cause: GapCause;

  constructor(boardKey: string, clock: Clock, output: LogOutput, last: LastScan | null) {
    this.boardKey = boardKey;
    this.#output = output;
    this.#recovery = new Recovery(clock, this);
    this.#mapping = createTimeMapping(clock.scale);
    this.#cause = last === null ? 'lost' : 'serviceStopped';
    if (last) {
      const ledger = BootLedger.resumedAfter(last.sequence, last.deviceUptimeMs);
      this.#boots.push({ boot: last.boot, ledger, gapBefore: null });
      this.#usedBoots.add(last.boot);
    }
  }

  /** Boot number of the newest scan, as given out; null before the first. */
  get newestBoot(): number | null {
    return this.#boots[this.#boots.length - 1]?.boot ?? null;
  }

  /** The board is connected. @param link the way to fetch scans again, or null for a board that keeps none */
  connected(link: RecoveryLink | null): void {
    this.#canRepeat = link !== null;
    if (!link) this.#giveUpAll('cannotRepeat');
    this.#recovery.useLink(link);
  }

  /** The connection is gone; what is missing stays missing until the next one. */
  disconnected(): void {
    this.#recovery.useLink(null);
    this.note('unplugged');
  }

  /** Something went on that would explain missing scans, should the next ones show that some are. */
  note(cause: GapCause): void {
    if (WEIGHT[cause] > WEIGHT[this.#cause]) this.#cause = cause;
  }

  /** Scans that arrived together, in their order. */
  receive(batch: readonly ReceivedScan[]): void {
    const accepted: { scan: ReceivedScan; entry: BootEntry; late: boolean }[] = [];
    const recovered: { entry: BootEntry; place: number }[] = [];
    let holes = false;
    for (const scan of batch) {
      const outcome = this.#admit(scan, this.#cause);
      if (!outcome) continue;
      if (!scan.repeated) this.#cause = 'lost';
      accepted.push({ scan, entry: outcome.entry, late: outcome.place !== null });
      holes ||= outcome.opened;
      if (outcome.place !== null) recovered.push({ entry: outcome.entry, place: outcome.place });
    }
    for (const { scan, entry, late } of accepted) {
      if (!late) this.#mapping.observe(entry.boot, scan.uptimeMs, scan.arrivalUs);
    }
    for (const { scan, entry, late } of accepted) this.#giveOut(scan, entry, late);
    for (const { entry } of accepted) this.#tellGapBefore(entry);
    for (const { entry, place } of recovered) this.#recovery.recovered(entry.boot, place);
    if (holes && !this.#canRepeat) this.#giveUpAll('cannotRepeat');
    else if (holes) this.#recovery.pursue();
  }

  /** No more will come: what is missing is told as gaps. */
  close(): void {
    this.#recovery.useLink(null);
    this.#giveUpAll('detached');
  }

  firstMissing(): MissingRange | null {
    for (const { boot, ledger } of this.#boots) {
      const hole = ledger.holes[0];
      if (hole) return { boot, from: hole.from, to: hole.to };
    }
    return null;
  }

  isMissing(range: MissingRange): boolean {
    const entry = this.#boots.find((e) => e.boot === range.boot);
    return entry?.ledger.holes.some((hole) => hole.from <= range.to && hole.to >= range.from) ?? false;
  }

  placeOf(boot: number, sequence: number): number {
    const newest = this.#boots.find((e) => e.boot === boot)!.ledger.newest;
    return newest + stepUint32(wrapUint32(newest), sequence);
  }

  giveUp(range: MissingRange, reason: GapReason): void {
    const entry = this.#boots.find((e) => e.boot === range.boot);
    if (!entry) return;
    for (const hole of entry.ledger.giveUp(range.from, range.to)) this.#tellGap(entry, hole, reason);
  }

  #admit(scan: ReceivedScan, cause: GapCause): { entry: BootEntry; opened: boolean; place: number | null } | null {
    const entry = this.#entryFor(scan);
    if (!entry) {
      const copy = this.#boots.some((e) => e.boot % UINT32_RANGE === scan.boot && e.ledger.remembers(scan));
      if (!scan.repeated && !copy) return this.#beginBoot(scan, cause);
      this.counts.duplicates++;
      return null;
    }
    const verdict = entry.ledger.admit(scan, cause);
    switch (verdict.kind) {
      case 'new':
        if (verdict.opened) this.counts.missing += verdict.opened.to - verdict.opened.from + 1;
        return { entry, opened: verdict.opened !== null, place: null };
      case 'recovered':
        this.counts.recovered++;
        return { entry, opened: false, place: verdict.place };
      case 'duplicate':
        this.counts.duplicates++;
        return null;
      case 'restarted':
        this.giveUp({ boot: entry.boot, ...EVERYTHING }, 'noLongerHeld');
        return this.#beginBoot(scan, cause);
    }
  }

  /** A live scan belongs to the newest boot or begins one; a repeated one to any boot we know. */
  #entryFor(scan: ReceivedScan): BootEntry | null {
    const newestFirst = scan.repeated ? this.#boots.toReversed() : this.#boots.slice(-1);
    return newestFirst.find((entry) => entry.boot % UINT32_RANGE === scan.boot) ?? null;
  }

  #beginBoot(scan: ReceivedScan, cause: GapCause) {
    // Numbers of our own, above those a board can send, keep boot and sequence unique when it repeats a boot number.
    let boot = scan.boot;
    while (this.#usedBoots.has(boot)) boot += UINT32_RANGE;
    this.#usedBoots.add(boot);
    const before = this.#boots[this.#boots.length - 1];
    const known = before !== undefined;
    const effectiveCause = cause === 'lost' ? 'reset' : cause;
    const { ledger, opened } = BootLedger.beginningWith(scan, known ? effectiveCause : null);
    const gapBefore = known
      ? { from: this.#pointOf(before, before.ledger.newest, before.ledger.newestMs), cause: effectiveCause }
      : null;
    const entry: BootEntry = { boot, ledger, gapBefore };
    this.#boots.push(entry);
    if (this.#boots.length > MOST_BOOTS) {
      this.giveUp({ boot: this.#boots[0]!.boot, ...EVERYTHING }, 'noLongerHeld');
      this.#boots.shift();
    }
    if (known && effectiveCause === 'reset') this.counts.resets++;
    if (opened) this.counts.missing += opened.to - opened.from + 1;
    return { entry, opened: opened !== null, place: null };
  }

  #giveOut(scan: ReceivedScan, entry: BootEntry, late: boolean): void {
    let hostUs = this.#mapping.hostUs(entry.boot, scan.uptimeMs) ?? scan.arrivalUs;
    if (!late) {
      // Estimates move by milliseconds as they get better; the order of scans does not.
      hostUs = Math.min(Math.max(hostUs, this.#lastHostUs + 1), Math.max(scan.arrivalUs, this.#lastHostUs + 1));
      this.#lastHostUs = hostUs;
    }
    this.#output.scan({
      boardKey: this.boardKey,
      boot: entry.boot,
      sequence: scan.sequence,
      deviceUptimeMs: scan.uptimeMs,
      hostUs,
      arrivalUs: scan.arrivalUs,
      counts: scan.counts,
      faults: scan.faults,
      repeated: late,
    });
  }

  /** Tells the gap between two boots as soon as the first scans of the later one are there or given up. */
  #tellGapBefore(entry: BootEntry): void {
    if (!entry.gapBefore || entry.ledger.holes.some((hole) => hole.beforeMs === null)) return;
    const { from, cause } = entry.gapBefore;
    entry.gapBefore = null;
    const { sequence, uptimeMs } = entry.ledger.first;
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

  #pointOf(entry: BootEntry, place: number, uptimeMs: number): ScanPoint {
    return { boot: entry.boot, sequence: wrapUint32(place), hostUs: this.#mapping.hostUs(entry.boot, uptimeMs) };
  }
}
