import { expect, test } from 'vitest';
import type { LogEntry, MadeScan } from '../../scripts/faults/log.ts';
import { findings, type ReportedGap, type Span, type Verdict } from '../../scripts/faults/truth.ts';
import type { BurnRecord } from '../../shared/contract/burn-record.ts';
import { burnId, testId } from '../support/temp-store.ts';

const START_MS = 1000;
const channels = ['Count', 'Life'].map((name, index) => ({ id: testId(10 + index), name, index, scale: 1 }));
const always: Span[] = [{ fromMs: 0, toMs: 1e6 }];

/** Ten scans, a second apart, of a board that stores its last `depth`. */
function logOf(depth = 100): LogEntry[] {
  return Array.from({ length: 10 }, (_, number) => ({
    kind: 'scan' as const,
    number,
    run: 0,
    boot: 7,
    sequence: number,
    uptimeMs: number * 1000,
    atMs: START_MS + 500 + number * 1000,
    heldFrom: Math.max(0, number + 1 - depth),
    fate: 'sent' as const,
    readings: [number, 0],
  }));
}

/** The record that the service would export if it had stored these scans of the log. */
function recordOf(numbers: readonly number[], runOf = (_number: number) => 0): BurnRecord {
  const rows = numbers.map((number) => [number, runOf(number)]);
  return {
    id: burnId,
    channels,
    readings: [
      {
        elapsedUs: numbers.map((number) => 500_000 + number * 1e6),
        boot: numbers.map(() => 7),
        sequence: [...numbers],
        columns: channels.map(({ id, index }) => ({ channelId: id, counts: rows.map((row) => row[index]!) })),
      },
    ],
  } as unknown as BurnRecord;
}

function check(record: BurnRecord, gaps: ReportedGap[] = [], log = logOf(), inTouch = always) {
  const span = { fromMs: START_MS, toMs: START_MS + 20_000 };
  return findings(log, { span, record, gaps, timeScale: 1 }, inTouch);
}

const verdictsOf = (verdicts: ReadonlyMap<MadeScan, Verdict>) =>
  [...verdicts].filter(([, verdict]) => verdict !== 'stored').map(([{ number }, verdict]) => `${number} ${verdict}`);

const all = [0, 1, 2, 3, 4, 5, 6, 7, 8, 9];
const without = (...gone: number[]) => all.filter((number) => !gone.includes(number));
const gap = (fromS: number, toS: number, atMs: number): ReportedGap => ({
  gap: { fromUs: fromS * 1e6, toUs: toS * 1e6, cause: 'lost' },
  atMs,
});

test('a record with every scan unchanged has no finding', () => {
  const { verdicts, ...rest } = check(recordOf(all));
  expect([...verdicts.values()]).toEqual(Array(10).fill('stored'));
  expect(rest).toEqual({ wrong: [], rows: 10, disorder: 0, worstTimeS: 0, durationErrorS: 0 });
});

test('a scan that is neither stored nor in a gap is found, in the middle and at the end', () => {
  expect(verdictsOf(check(recordOf(without(4, 9))).verdicts)).toEqual(['4 untold', '9 untold']);
});

test('a gap next to the scan does not account for it', () => {
  expect(verdictsOf(check(recordOf(without(4)), [gap(5.5, 7.5, 9000)]).verdicts)).toEqual(['4 untold']);
});

test('a gap published after the board had overwritten its scans is correct, one over scans that it still had is given up too early', () => {
  const reported = [gap(2.5, 5.5, 14_000)];
  expect(verdictsOf(check(recordOf(without(3, 4)), reported, logOf(2)).verdicts)).toEqual(['3 told', '4 told']);
  expect(verdictsOf(check(recordOf(without(3, 4)), reported).verdicts)).toEqual(['3 given up', '4 given up']);
});

test('scans cannot be fetched from a board that never sent again', () => {
  const untilNow = [{ fromMs: 0, toMs: 9000 }];
  expect(verdictsOf(check(recordOf(without(9)), [gap(8.5, 12, 9500)], logOf(), untilNow).verdicts)).toEqual(['9 told']);
});

test('scans cannot be fetched from a board that sent only for a moment, however long it stored them after that', () => {
  const moments = [{ fromMs: 9000, toMs: 10_000 }];
  const reported = [gap(2.5, 5.5, 4000)];
  expect(verdictsOf(check(recordOf(without(3, 4)), reported, logOf(), moments).verdicts)).toEqual(['3 told', '4 told']);
  moments.push({ fromMs: 10_500, toMs: 15_500 });
  expect(verdictsOf(check(recordOf(without(3, 4)), reported, logOf(), moments).verdicts)).toEqual([
    '3 given up',
    '4 given up',
  ]);
});

test('a reading that was altered, invented or stored twice is found', () => {
  const altered = check(recordOf(all, (number) => (number === 4 ? 1 : 0)));
  expect(altered.wrong).toEqual([expect.stringContaining('never made')]);
  expect(verdictsOf(altered.verdicts)).toEqual(['4 untold']);
  expect(check(recordOf([...all, 10])).wrong).toHaveLength(1);
  expect(check(recordOf([...all, 9])).wrong).toEqual(['stored twice: 0/9']);
});

test('scans in another order, and a clock that jumped, are found', () => {
  const record = recordOf(all);
  const { elapsedUs } = record.readings[0]!;
  [elapsedUs[3], elapsedUs[4]] = [elapsedUs[4]!, elapsedUs[3]!];
  expect(check(record)).toMatchObject({ disorder: 1, worstTimeS: 1, durationErrorS: 0 });
  elapsedUs[9]! += 60e6;
  expect(check(record)).toMatchObject({ worstTimeS: 60, durationErrorS: 60 });
});
