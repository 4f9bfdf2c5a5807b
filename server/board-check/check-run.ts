import { decodeLine } from '../../firmware-protocol/lines.ts';
import type { BoardCheck, Finding, FindingCode, ProbeTestKind } from '../../shared/contract/board-check.ts';
import type { Clock } from '../base/clock.ts';
import { type BoardState, createBridge, type LineEvent } from '../bridge/bridge.ts';
import type { PortFactory } from '../bridge/port.ts';
import type { BoardProblemCode } from '../bridge/problems.ts';
import { createBoardQuestions } from './board-questions.ts';
import { type BenchKnowledge, type CheckedProbes, createCheckedProbes } from './checked-probes.ts';
import { createDescriptionFindings } from './description-findings.ts';
import { createLineFindings } from './line-findings.ts';
import { createScanFindings } from './scan-findings.ts';

export interface CheckRunContext {
  path: string;
  baudRate: number;
  clock: Clock;
  ports: PortFactory;
  newId(): string;
  /** What the bench already has stored about the board with this identity. */
  knownOf(boardKey: string | null): BenchKnowledge;
}

/** Classifies the bytes where no line has been received. */
const BYTES_FINDINGS: Partial<Record<BoardProblemCode, FindingCode>> = {
  'board-silent': 'board/silent',
  'wrong-speed': 'board/wrong-speed',
  'not-protocol': 'board/prints-text',
};

/** Problems with which there is nothing to check. */
const PORT_PROBLEMS: ReadonlySet<BoardProblemCode> = new Set([
  'port-busy',
  'port-missing',
  'permission-denied',
  'port-unknown',
]);

/** Scans received before the first request to the board. */
const SCANS_FIRST = 6;
/** By then a bad value will not improve, and requests have been answered or never will be. */
const FIRST_VERDICT_S = 5;
const LAST_VERDICT_S = 45;

/** One check of one board, over a bridge of its own: what the board sends here is stored in no burn. */
export function createCheckRun({ path, baudRate, clock, ports, newId, knownOf }: CheckRunContext) {
  const bridge = createBridge({ clock, ports, newId });
  const nowS = () => (endUs ?? clock.monotonicUs()) / 1e6;
  const startS = clock.monotonicUs() / 1e6;
  let endUs: number | undefined;
  let board: BoardState | undefined;
  let failure: BoardState['problem'] = null;
  let probes: { boardKey: string | null; described: string; of: CheckedProbes } | undefined;
  let finish = () => {};
  let wasOpen = false;
  let hasRefused = false;
  const lines = createLineFindings();
  const scans = createScanFindings(nowS);
  const description = createDescriptionFindings(nowS);
  const questions = createBoardQuestions(bridge, clock);

  bridge.on('line', takeLine);
  bridge.on('scan', (scan) => {
    look();
    checkedProbes()?.take(scan);
  });
  bridge.on('board', look);

  function look(): void {
    board = bridge.boards()[0] ?? board;
    const isOpen = board !== undefined && ['waiting', 'live', 'silent'].includes(board.state);
    if (isOpen && !wasOpen) scans.portOpened();
    wasOpen ||= isOpen;
    const problem = board?.problem;
    if (problem && !wasOpen && PORT_PROBLEMS.has(problem.code)) {
      failure = problem;
      end();
    }
  }

  function takeLine(line: LineEvent): void {
    lines.take(line);
    const message = decodeLine(line.text);
    switch (message.kind) {
      case 'bad':
        hasRefused ||= message.reason !== 'empty';
        return;
      case 'scan':
        if (!message.repeated) {
          scans.scan(message, hasRefused);
          hasRefused = false;
          if (scans.count >= SCANS_FIRST && description.isWhole && description.isAnswering) askNext();
        }
        break;
      case 'hello':
        scans.hello(message.boot);
        break;
      case 'channel':
      case 'ok':
      case 'refused':
        break;
      default:
        return;
    }
    description.take(message);
    questions.take(message);
  }

  /** Not while a person tests a probe: opening the port again would spoil the test. */
  function askNext(): void {
    if (board?.state !== 'live' || checkedProbes()?.look(clock.monotonicUs()).test) return;
    void questions.askNext(board, scans.olderScan(), scans.portOpened);
  }

  /** The probes as the board describes them now; a changed description starts over. */
  function checkedProbes(): CheckedProbes | undefined {
    if (!board || board.channels.length === 0) return undefined;
    // While the port is opened again the board is not identified for a moment.
    const boardKey = board.boardKey ?? probes?.boardKey ?? null;
    const described = JSON.stringify([boardKey, board.channels]);
    if (probes?.described !== described) {
      probes = { boardKey, described, of: createCheckedProbes(board.channels, knownOf(boardKey)) };
    }
    return probes.of;
  }

  function findings(): Finding[] {
    const ofLines = lines.findings();
    const refusedChannels = ofLines.flatMap(({ channel }) => channel ?? []);
    const ofBytes = board?.problem && lines.good === 0 && ofLines.length === 0 && BYTES_FINDINGS[board.problem.code];
    return [
      ...(ofBytes ? [{ code: ofBytes, level: 'bad' as const, params: { path, baudRate } }] : []),
      ...ofLines,
      ...description.findings(refusedChannels, lines.isRefusing),
      ...scans.findings(board?.periodMs ?? null),
      ...questions.findings(),
    ];
  }

  function verdictOf(all: readonly Finding[]): BoardCheck['verdict'] {
    const elapsedS = nowS() - startS;
    if (failure) return 'notUsable';
    if (all.some(({ level }) => level === 'bad') && (elapsedS >= FIRST_VERDICT_S || endUs !== undefined)) {
      return 'notUsable';
    }
    const isOver = questions.isDone || elapsedS >= LAST_VERDICT_S;
    if (!isOver) return 'watching';
    if (lines.good === 0) return 'notUsable';
    return !questions.isDone || all.some(({ level }) => level === 'doubtful') ? 'usable' : 'ready';
  }

  function end(): void {
    checkedProbes()?.end(clock.monotonicUs());
    endUs ??= clock.monotonicUs();
    finish();
  }

  return {
    isRunning: () => endUs === undefined,

    /** Resolves when the check has ended and the port is free. */
    async work(): Promise<void> {
      bridge.attach({ path, mode: 'protocol', baudRate });
      if (endUs === undefined) {
        await new Promise<void>((resolve) => {
          finish = resolve;
        });
      }
      await bridge.close();
    },

    /** Begins a test of a probe; false where the channel has no such test. */
    beginTest: (channel: number, kind: ProbeTestKind): boolean =>
      checkedProbes()?.begin(channel, kind, clock.monotonicUs()) ?? false,

    endTest(): void {
      checkedProbes()?.end(clock.monotonicUs());
    },

    end,

    report(): BoardCheck {
      if (endUs === undefined) look();
      const probesNow = checkedProbes()?.look(endUs ?? clock.monotonicUs());
      const all = [...findings(), ...(probesNow?.findings ?? [])];
      const problem = failure ?? (board?.problem && PORT_PROBLEMS.has(board.problem.code) ? board.problem : null);
      const rate = scans.rate(board?.periodMs ?? null);
      return {
        path,
        baudRate,
        state: failure ? 'failed' : endUs !== undefined ? 'ended' : wasOpen ? 'running' : 'opening',
        elapsedS: nowS() - startS,
        ...(board?.name && {
          board: {
            name: board.name,
            ...(board.firmware && { firmware: board.firmware }),
            ...(board.boardKey && { identity: board.boardKey }),
            ...(board.boot !== null && { boot: board.boot }),
          },
        }),
        lines: {
          good: board?.counters.lines ?? 0,
          refused: (board?.counters.badChecksum ?? 0) + (board?.counters.badLines ?? 0),
          discardedBytes: board?.counters.discardedBytes ?? 0,
        },
        ...(rate && { rate }),
        probes: probesNow?.probes ?? [],
        ...(probesNow?.test && { test: probesNow.test }),
        findings: all,
        verdict: verdictOf(all),
        recentLines: board?.recentLines ?? [],
        ...(problem && {
          problem: {
            code: `probe/${problem.code}`,
            params: { ...problem.params, ...(problem.raw && { raw: problem.raw }) },
          },
        }),
      };
    },
  };
}
