/** The names of the tests of a probe, and which test comes next. */
import type { BoardCheck, CheckedProbe, ProbeTestKind } from '../../../shared/contract/board-check.ts';
import type { SetupChannel } from '../../../shared/contract/boards.ts';
import { translate, translateBoardCheck } from '../../language/catalogue.ts';
import { readingText } from '../kit/reading-words.ts';

const inOrder: readonly ProbeTestKind[] = ['hand', 'fault', 'ice', 'boil'];

export interface ProbeTestHere {
  readonly channel: number;
  readonly kind: ProbeTestKind;
}

/** A scale is pressed by hand, and only a fingertip fits on a cold junction. */
export function instructionKind(probe: CheckedProbe, kind: ProbeTestKind) {
  if (kind !== 'hand') return kind;
  if (probe.unit === 'kg') return 'press';
  return probe.tests.fault ? 'hand' : 'finger';
}

/** "probe 1", within a sentence. */
export function probeNamed({ channel }: Pick<CheckedProbe, 'channel'>): string {
  return translateBoardCheck().named({ number: channel + 1 });
}

export function instruction(probe: CheckedProbe, kind: ProbeTestKind): string {
  return translateBoardCheck().instruction[instructionKind(probe, kind)]({ probe: probeNamed(probe) });
}

export function testName(probe: CheckedProbe, kind: ProbeTestKind): string {
  return translateBoardCheck().test[kind === 'hand' && probe.unit === 'kg' ? 'press' : kind];
}

/** The present reading of a probe, as a value or as the fault it reports. */
export function probeReading({ unit, value, fault }: CheckedProbe): string {
  if (fault) return translate().faults[fault];
  return value === undefined ? '–' : readingText({ unit: unit as SetupChannel['unit'] }, value);
}

export function testsOf(probe: CheckedProbe): ProbeTestKind[] {
  return inOrder.filter((kind) => probe.tests[kind]);
}

/**
 * The next test that was not done yet: first all probes in the hand, last all in boiling water. Probes without a
 * reading are skipped.
 */
export function nextTest({ probes }: BoardCheck): ProbeTestHere | undefined {
  return inOrder
    .flatMap((kind) => probes.map((probe) => ({ probe, channel: probe.channel, kind })))
    .find(({ probe, kind }) => probe.fault === undefined && probe.tests[kind]?.state === 'notTried');
}
