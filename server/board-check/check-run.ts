import type { BoardCheck, Finding, FindingCode, ProbeTestKind } from '../../shared/contract/board-check.ts';
import type { Clock } from '../base/clock.ts';
import { type BoardState, createBridge } from '../bridge/bridge.ts';
import type { PortFactory } from '../bridge/port.ts';
import type { BoardProblemCode } from '../bridge/problems.ts';
import { type BenchKnowledge, type CheckedProbes, createCheckedProbes } from './checked-probes.ts';

export interface CheckRunContext {
  path: string;
  baudRate: number;
  clock: Clock;
  ports: PortFactory;
  newId(): string;
  /** What the bench knows already of the board with this identity. */
  knownOf(boardKey: string | null): BenchKnowledge;
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
export function createCheckRun({ path, baudRate, clock, ports, newId, knownOf }: CheckRunContext) {
  const bridge = createBridge({ clock, ports, newId });
  const startUs = clock.monotonicUs();
  let endUs: number | undefined;
  let board: BoardState | undefined;
  let probes: { boardKey: string | null; description: string; of: CheckedProbes } | undefined;
  let finish = () => {};

  bridge.on('scan', (scan) => {
    board = bridge.boards()[0] ?? board;
    checkedProbes()?.take(scan);
  });

  /** The probes as the board describes them now; a board that describes itself otherwise begins anew. */
  function checkedProbes(): CheckedProbes | undefined {
    if (!board || board.channels.length === 0) return undefined;
    // While the port is opened again nobody knows for a moment who the board is.
    const boardKey = board.boardKey ?? probes?.boardKey ?? null;
    const description = JSON.stringify([boardKey, board.channels]);
    if (probes?.description !== description) {
      probes = { boardKey, description, of: createCheckedProbes(board.channels, knownOf(boardKey)) };
    }
    return probes.of;
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

    /** Begins a test of a probe; false where the channel has no such test. */
    beginTest: (channel: number, kind: ProbeTestKind): boolean =>
      checkedProbes()?.begin(channel, kind, clock.monotonicUs()) ?? false,

    endTest(): void {
      checkedProbes()?.end(clock.monotonicUs());
    },

    end(): void {
      this.endTest();
      endUs ??= clock.monotonicUs();
      finish();
    },

    report(): BoardCheck {
      const now = bridge.boards()[0];
      if (now) board = now;
      const { counters, problem } = board ?? {};
      const look = checkedProbes()?.look(endUs ?? clock.monotonicUs());
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
        probes: look?.probes ?? [],
        ...(look?.test && { test: look.test }),
        findings: [...findings(), ...(look?.findings ?? [])],
        verdict: 'watching',
        recentLines: board?.recentLines ?? [],
        ...(problem && { problem: { code: `probe/${problem.code}`, params: problem.params } }),
      };
    },
  };
}
