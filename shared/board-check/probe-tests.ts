/**
 * Tests the probes of one board during its check, from scans and the tests that the person begins. It has no clock of
 * its own.
 */
import type { Finding, ProbeTestKind } from '../contract/board-check.ts';
import type { Place } from '../contract/burn-record.ts';
import { bathTest } from './bath-test.ts';
import { localBoilingPoint } from './boiling-point.ts';
import { faultTest } from './fault-test.ts';
import { handTest } from './hand-test.ts';
import { indicatedFrom } from './indicated.ts';
import { offeredTests } from './offered-tests.ts';
import { type CheckedChannel, type Outcome, type ProbeScan, probeFinding } from './probe-scan.ts';
import { type ChannelLook, lookAt, type Unmoved } from './reading-findings.ts';

/** Time, s, for which scans are stored while no test runs. */
const STORED_S = 120;
/** Least time, s, between the scans that are used of a fast board. */
const SCAN_SPACING_S = 0.1;
/** Time, s, after a test in which its probe may not be at rest yet. */
const AFTER_TEST_S = 60;
/** Time, s, to walk to the probe before the time of the test itself begins. */
const GET_THERE_S = 30;
/** How long a test waits for the expected response, s, and for at least how many scans of a slow board. */
const LIMITS: Readonly<Record<ProbeTestKind, { readonly seconds: number; readonly scans: number }>> = {
  hand: { seconds: GET_THERE_S + 60, scans: 4 },
  fault: { seconds: GET_THERE_S + 30, scans: 4 },
  ice: { seconds: GET_THERE_S + 300, scans: 20 },
  boil: { seconds: GET_THERE_S + 300, scans: 20 },
};
/** Time, s, and number of its periods without a scan after which a board has stopped. */
const STOPPED_S = 10;
const STOPPED_PERIODS = 5;

export interface ProbeTestState {
  readonly state: 'notTried' | 'running' | 'passed' | 'failed';
  readonly reached?: number;
  readonly expected?: number;
  readonly expectedUncertaintyK?: number;
  readonly indicated?: number;
  readonly finding?: Finding;
}

export interface ProbeLook extends Omit<ChannelLook, 'findings'> {
  readonly tests: Partial<Record<ProbeTestKind, ProbeTestState>>;
}

export interface ProbesLook {
  readonly probes: readonly ProbeLook[];
  /** What the person has to do now. */
  readonly test?: { readonly channel: number; readonly kind: ProbeTestKind; readonly sinceS: number };
  readonly findings: readonly Finding[];
}

/**
 * @param place location of the bench, for the boiling point; a pressure that the board itself measures takes precedence
 */
export function createProbeTests(channels: readonly CheckedChannel[], place: Place | undefined) {
  let scans: ProbeScan[] = [];
  let last: ProbeScan | undefined;
  let restedFromS = Number.NEGATIVE_INFINITY;
  let running:
    | { index: number; kind: ProbeTestKind; beganS: number; limitS: number; before: readonly ProbeScan[] }
    | undefined;
  let atRest: ProbeScan | undefined;
  let isUntouched = true;
  const outcomes = channels.map(() => new Map<ProbeTestKind, Outcome>());
  const unmoved: (Unmoved & { count: number })[] = [];

  function noteCounts({ atS, readings }: ProbeScan): void {
    readings.forEach(({ count }, index) => {
      const before = unmoved[index];
      if (count === undefined) delete unmoved[index];
      else if (before?.count === count) unmoved[index] = { ...before, readings: before.readings + 1 };
      else unmoved[index] = { count, sinceS: atS, readings: 1 };
    });
  }

  function store(scan: ProbeScan): void {
    const isNew = (each: ProbeScan) =>
      scan.atS - each.atS >= SCAN_SPACING_S ||
      each.readings.some((one, index) => one.fault !== scan.readings[index]?.fault);
    const previous = scans.at(-1);
    if (previous && !isNew(previous)) return;
    const fromS = running ? running.beganS : scan.atS - STORED_S;
    scans = [...scans.filter(({ atS }) => atS >= fromS), scan];
  }

  function outcomeAt(nowS: number): Outcome | undefined {
    if (!running) return undefined;
    const { index, kind, beganS, limitS, before } = running;
    const checked = channels[index]!;
    const since = scans.filter(({ atS }) => atS > beganS);
    const quietS = nowS - Math.max(beganS, last?.atS ?? beganS);
    if (quietS >= Math.max(STOPPED_S, STOPPED_PERIODS * periodOf(before)))
      return { passed: false, finding: probeFinding('probe/stopped', 'bad', index, checked, { seconds: quietS }) };
    const test = { channels, index, beganS, limitS, before, since };
    if (kind === 'hand') return handTest(test, nowS) ?? withoutReading(nowS);
    if (kind === 'fault') return faultTest(test, nowS) ?? withoutReading(nowS);
    return bathTest(kind, test, nowS, kind === 'boil' ? boilingNow() : undefined) ?? withoutReading(nowS);
  }

  function boilingNow() {
    const pressure = channels.findIndex(({ channel }) => channel.role === 'stationPressure' && channel.unit === 'Pa');
    return localBoilingPoint(place, last?.readings[pressure]?.value);
  }

  /** A probe that reports a fault cannot be tested; while it is being connected, it may report one for a moment. */
  function withoutReading(nowS: number): Outcome | undefined {
    const { index, kind, beganS, limitS, before } = running!;
    const checked = channels[index]!;
    const fault = last?.readings[index]?.fault;
    const isOver = nowS - beganS >= limitS;
    const wasPulled = kind === 'fault' && before.at(-1)?.readings[index]?.fault !== undefined;
    if (!isOver && !wasPulled) return undefined;
    return {
      passed: false,
      finding: probeFinding('probe/test-without-reading', 'doubtful', index, checked, fault ? { fault } : {}),
    };
  }

  function end(nowS: number): void {
    running = undefined;
    restedFromS = nowS + AFTER_TEST_S;
  }

  function decide(nowS: number): void {
    const outcome = outcomeAt(nowS);
    if (!outcome || !running) return;
    outcomes[running.index]!.set(running.kind, outcome);
    end(nowS);
  }

  return {
    /** @param scan values and faults in the order of the channels, with times of the same clock as `nowS` */
    take(scan: ProbeScan): void {
      noteCounts(scan);
      store(scan);
      last = scan;
      if (isUntouched) atRest = scan;
      decide(scan.atS);
    },
    /** Begins a test and ends a running one. Returns false where this channel has no such test. */
    begin(index: number, kind: ProbeTestKind, nowS: number): boolean {
      const checked = channels[index];
      if (!checked || !offeredTests(checked.channel).includes(kind)) return false;
      outcomes[index]!.delete(kind);
      isUntouched = false;
      const before = scans.filter(({ atS }) => atS <= nowS);
      const limitS = LIMITS[kind].seconds + LIMITS[kind].scans * periodOf(before);
      running = { index, kind, beganS: nowS, limitS, before };
      return true;
    },
    /** Ends the running test without an outcome: the person changed their mind. */
    end,
    /** Returns the present state of all tests and findings. */
    look(nowS: number): ProbesLook {
      decide(nowS);
      const isResting = !running && nowS >= restedFromS;
      const rested = scans.filter(({ atS }) => atS >= restedFromS);
      const hasMoved = outcomes.map((of) => (['hand', 'ice', 'boil'] as const).some((kind) => of.get(kind)?.passed));
      const isCompared = outcomes.map((of) => of.has('ice') || of.has('boil'));
      const looks = lookAt(channels, isResting ? rested : [], last, unmoved, { atRest, hasMoved, isCompared });
      const tests = channels.map(({ channel }, index) =>
        Object.fromEntries(offeredTests(channel).map((kind) => [kind, stateOf(index, kind)] as const)),
      );
      return {
        probes: looks.map(({ findings: _, ...look }, index) => ({ ...look, tests: tests[index]! })),
        ...(running && { test: { channel: running.index, kind: running.kind, sinceS: nowS - running.beganS } }),
        findings: looks.flatMap(({ findings }, index) => [
          ...findings,
          ...[...outcomes[index]!.values()].map(({ finding }) => finding),
        ]),
      };
    },
  };

  function stateOf(index: number, kind: ProbeTestKind): ProbeTestState {
    if (running?.index === index && running.kind === kind) return { state: 'running' };
    const outcome = outcomes[index]!.get(kind);
    if (!outcome) return { state: 'notTried' };
    const { passed, finding, ...figures } = outcome;
    const { calibration } = channels[index]!.channel;
    return {
      state: passed ? 'passed' : 'failed',
      finding,
      ...figures,
      ...(figures.reached !== undefined && { indicated: indicatedFrom(figures.reached, calibration) }),
    };
  }
}

/** Returns the time between scans, s; 0 for at most one scan. */
function periodOf(scans: readonly ProbeScan[]): number {
  return scans.length < 2 ? 0 : (scans.at(-1)!.atS - scans[0]!.atS) / (scans.length - 1);
}
