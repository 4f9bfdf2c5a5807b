import type {
  BoardCheck,
  CheckedProbe,
  Finding,
  FindingCode,
  ProbeTestKind,
} from '../../shared/contract/board-check.ts';
import type { Clock } from '../base/clock.ts';
import { type BoardState, createBridge, type ScanEvent } from '../bridge/bridge.ts';
import type { PortFactory } from '../bridge/port.ts';
import type { BoardProblemCode } from '../bridge/problems.ts';
import { readingsOf } from '../readings/scan-readings.ts';
import { scanValues } from '../readings/scan-values.ts';
import { firstPlacement } from '../setup/first-placement.ts';

export interface CheckRunContext {
  path: string;
  baudRate: number;
  clock: Clock;
  ports: PortFactory;
  newId(): string;
}

/** Problems of a board that are findings of a check, and no reason why there is none. */
const PROBLEM_FINDINGS: Partial<Record<BoardProblemCode, FindingCode>> = {
  'board-silent': 'board/silent',
  'wrong-speed': 'board/wrong-speed',
  'not-protocol': 'board/prints-text',
  'no-description': 'board/no-description',
  'identity-not-kept': 'board/identity-not-kept',
  'wrong-clock': 'board/clock-wrong',
};

/** One check of one board, over a bridge of its own: what the board sends here goes into no burn. */
export function createCheckRun({ path, baudRate, clock, ports, newId }: CheckRunContext) {
  const bridge = createBridge({ clock, ports, newId });
  const startUs = clock.monotonicUs();
  let endUs: number | undefined;
  let board: BoardState | undefined;
  let latest: ScanEvent | undefined;
  let test: { channel: number; kind: ProbeTestKind; startUs: number } | undefined;
  let finish = () => {};

  bridge.on('scan', (scan) => {
    if (!scan.repeated) latest = scan;
  });

  function probes(): CheckedProbe[] {
    const boardId = board?.boardKey ?? '';
    const channels = (board?.channels ?? []).map((channel) => ({
      ...firstPlacement(channel),
      id: String(channel.index),
      boardId,
      index: channel.index,
    }));
    const { values, faults } = scanValues(channels, boardId, latest ? readingsOf(latest) : []);
    return (board?.channels ?? []).map(({ index, label, quantity, unit }) => {
      const value = values[index];
      const fault = faults[index];
      return {
        channel: index,
        label,
        quantity,
        unit: quantity === 'temperature' ? 'Cel' : unit,
        ...(value !== undefined && { value }),
        ...(fault && { fault }),
        tests: {
          hand: { state: 'notTried' },
          fault: { state: 'notTried' },
          ice: { state: 'notTried' },
          boil: { state: 'notTried' },
          ...(test?.channel === index && { [test.kind]: { state: 'running' } }),
        },
      };
    });
  }

  function findings(): Finding[] {
    const finding = (code: FindingCode, level: Finding['level'], params: Finding['params'] = {}): Finding[] => [
      { code, level, params },
    ];
    const ofProblem = board?.problem && PROBLEM_FINDINGS[board.problem.code];
    return [
      ...(ofProblem ? finding(ofProblem, 'bad', board?.problem?.params) : []),
      ...(board && board.channels.length > 0 ? finding('board/described', 'good') : []),
    ];
  }

  return {
    isRunning: () => endUs === undefined,

    /** Resolves when the check has ended and the port is free. */
    async work(): Promise<void> {
      const { id } = bridge.attach({ path, mode: 'protocol', baudRate });
      const look = () => {
        board = bridge.boards().find((each) => each.id === id) ?? board;
      };
      bridge.on('board', look);
      if (endUs === undefined) await new Promise<void>((resolve) => (finish = resolve));
      look();
      await bridge.close();
    },

    test(next: { channel: number; kind: ProbeTestKind } | undefined): void {
      test = next && { ...next, startUs: clock.monotonicUs() };
    },

    end(): void {
      endUs ??= clock.monotonicUs();
      test = undefined;
      finish();
    },

    report(): BoardCheck {
      const now = bridge.boards()[0];
      if (now) board = now;
      const { counters, problem } = board ?? {};
      return {
        path,
        baudRate,
        state: endUs !== undefined ? 'ended' : counters && counters.lines > 0 ? 'running' : 'opening',
        elapsedS: ((endUs ?? clock.monotonicUs()) - startUs) / 1e6,
        ...(board?.name && {
          board: {
            name: board.name,
            ...(board.firmware && { firmware: board.firmware }),
            ...(board.boardKey && { identity: board.boardKey }),
            ...(board.boot !== null && { boot: board.boot }),
          },
        }),
        lines: {
          good: counters?.lines ?? 0,
          refused: (counters?.badChecksum ?? 0) + (counters?.badLines ?? 0),
          discardedBytes: counters?.discardedBytes ?? 0,
        },
        probes: probes(),
        ...(test && {
          test: { channel: test.channel, kind: test.kind, sinceS: (clock.monotonicUs() - test.startUs) / 1e6 },
        }),
        findings: findings(),
        verdict: 'watching',
        recentLines: board?.recentLines ?? [],
        ...(problem && { problem: { code: `probe/${problem.code}`, params: problem.params } }),
      };
    },
  };
}
