import type { BoardMessage, ScanMessage } from '../../firmware-protocol/lines.ts';
import type { Finding } from '../../shared/contract/board-check.ts';
import type { Clock } from '../base/clock.ts';
import type { BoardState, Bridge } from '../bridge/bridge.ts';

/** Time limit for an answer of the board, ms of real time. */
const ANSWER_MS = 5_000;

/** The requests to a board in a check: an old scan again, and its identity after its port was opened again. */
export function createBoardQuestions(bridge: Bridge, clock: Clock) {
  let resend: Finding | undefined;
  let identity: Finding | undefined;
  let onRepeat: (scan: ScanMessage) => void = () => {};
  let onHello: (identity: string | null) => void = () => {};
  let isAsking = false;

  function within<T>(begin: (done: (value: T) => void) => void): Promise<T | undefined> {
    return new Promise((resolve) => {
      const cancel = clock.setTimer(ANSWER_MS * clock.scale, () => resolve(undefined));
      begin((value) => {
        cancel();
        resolve(value);
      });
    });
  }

  async function askForScan(id: string, scan: ScanMessage, depth: number): Promise<void> {
    const finding = (code: Finding['code'], level: Finding['level'], params: Finding['params'] = {}) => {
      resend = { code, level, params: { sequence: scan.sequence, depth, ...params } };
    };
    if (depth === 0) return finding('board/resends-nothing', 'doubtful');
    const repeated = within<ScanMessage>((done) => {
      onRepeat = (again) => again.sequence === scan.sequence && done(again);
    });
    const answer = await bridge.resend(id, { boot: scan.boot, from: scan.sequence, to: scan.sequence });
    if (answer?.kind === 'refused') {
      onRepeat = () => {};
      return finding('board/resend-unanswered', 'bad', { found: answer.reason });
    }
    const again = await repeated;
    onRepeat = () => {};
    if (!again) return finding('board/resend-unanswered', 'bad', { found: answer?.kind ?? '' });
    const [was, is] = [scan, again].map(({ boot, uptimeMs, readings }) => [boot, uptimeMs, ...readings].join(' '));
    if (was === is) finding('board/resends', 'good');
    else finding('board/resend-differs', 'bad', { found: is!, expected: was! });
  }

  /** Closes the port and opens it again, as if the cable had been out. */
  async function askAfterReopening(
    { id, boardKey, identityStored }: BoardState,
    onReopened: () => void,
  ): Promise<void> {
    const known = identityStored ? boardKey : null;
    const comingHello = within<{ identity: string | null }>((done) => {
      onHello = (identity) => done({ identity });
    });
    await bridge.reopen(id);
    onReopened();
    const hello = await comingHello;
    onHello = () => {};
    if (known === null) identity = { code: 'board/identity-not-kept', level: 'doubtful', params: {} };
    else if (!hello) identity = { code: 'board/no-answer', level: 'bad', params: {} };
    else if (hello.identity === known) identity = { code: 'board/identity-kept', level: 'good', params: {} };
    else
      identity = { code: 'board/identity-forgotten', level: 'doubtful', params: { found: hello.identity ?? 'none' } };
  }

  return {
    take(message: BoardMessage): void {
      if (message.kind === 'scan' && message.repeated) onRepeat(message);
      else if (message.kind === 'hello') onHello(message.identity);
    },

    get isAsking(): boolean {
      return isAsking;
    },

    /** Whether all requests have been made. */
    get isDone(): boolean {
      return resend !== undefined && identity !== undefined;
    },

    /** Makes the next request. @param onReopened called when the port was closed and is being opened again */
    async askNext(board: BoardState, scan: ScanMessage | undefined, onReopened: () => void): Promise<void> {
      if (isAsking || this.isDone) return;
      isAsking = true;
      if (resend === undefined) {
        if (scan) await askForScan(board.id, scan, board.repeatDepth);
      } else {
        await askAfterReopening(board, onReopened);
      }
      isAsking = false;
    },

    findings: (): Finding[] => [resend, identity].filter((each) => each !== undefined),
  };
}
