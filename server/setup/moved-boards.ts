import type { Clock } from '../base/clock.ts';
import type { BoardState, Bridge } from '../bridge/bridge.ts';
import type { ListedPort } from '../bridge/port.ts';

const LOOK_EVERY_MS = 2000;
/** Listing the ports starts a program on some systems: done rarely while no board is missing. */
const LIST_EVERY_MS = 60_000;
/** A board that was reset by the opening of its port has identified itself by then. */
const MOST_TRIAL_MS = 20_000;
/**
 * A port without a board that identifies itself is not tried again for this long, and for twice as long each time
 * after.
 */
const FIRST_REST_MS = 10_000;
const LONGEST_REST_MS = 120_000;

/** Finds a board that was unplugged and returns under another name of the system. */
export interface MovedBoards {
  close(): void;
}

export interface MovedBoardContext {
  clock: Clock;
  bridge: Bridge;
  /** The board that is connected to an attachment, or was last. */
  keyOf(board: BoardState): string | undefined;
  /** Whether a board is needed now: only then are ports opened that nobody selected. */
  isNeeded(): boolean;
  /** A board that was attached at `before` is connected at another path now. */
  onMoved(before: BoardState, now: BoardState): void;
}

interface Trial {
  id: string;
  path: string;
  untilUs: number;
}

/**
 * Opens ports that appeared after a board was unplugged, one at a time and again while nothing valid arrives there, and
 * attaches the one on which that board identifies itself. Boards that only print numbers do not identify themselves and
 * are not searched for: their stable name (/dev/serial/by-id) leads back to them.
 */
export function followMovedBoards({ clock, bridge, keyOf, isNeeded, onMoved }: MovedBoardContext): MovedBoards {
  /** The ports that were present while all boards were. */
  let usual: ReadonlyMap<string, ListedPort> | undefined;
  let usualUntilUs = Number.NEGATIVE_INFINITY;
  /** Results of opening a port: the time of the next try, and the length of the pause before it. */
  const tried = new Map<string, { fromUs: number; restMs: number }>();
  let trial: Trial | undefined;
  let closed = false;
  let cancel = clock.setTimer(LOOK_EVERY_MS * clock.scale, look);

  function look(): void {
    void step().finally(() => {
      if (!closed) cancel = clock.setTimer(LOOK_EVERY_MS * clock.scale, look);
    });
  }

  async function step(): Promise<void> {
    const boards = bridge.boards();
    const gone = boards.filter((board) => board.id !== trial?.id && isGone(board));
    if (trial) return conclude(trial, boards);
    const isQuiet = gone.length === 0;
    if (isQuiet ? clock.monotonicUs() < usualUntilUs : !isNeeded()) return;
    const { ports } = await bridge.listPorts();
    if (closed) return;
    const listed = new Map(ports.map((port) => [port.path, port]));
    if (isQuiet) {
      usual = listed;
      usualUntilUs = clock.monotonicUs() + LIST_EVERY_MS * 1000 * clock.scale;
      tried.clear();
      return;
    }
    for (const path of tried.keys()) if (!listed.has(path)) tried.delete(path);
    const taken = new Set(bridge.boards().map(({ path }) => path));
    const candidate = [...listed.values()].find(
      (port) => !usual?.has(port.path) && !isResting(port.path) && !namesOf(port).some((name) => taken.has(name)),
    );
    if (!candidate) return;
    const { baudRate } = gone[0]!;
    const { id, path } = bridge.attach({ path: candidate.path, mode: 'protocol', baudRate });
    trial = { id, path, untilUs: clock.monotonicUs() + MOST_TRIAL_MS * 1000 * clock.scale };
  }

  // At once: the board may move again before the next check.
  const stopListening = bridge.on('board', ({ id, boardKey }) => {
    if (trial && id === trial.id && boardKey !== null) conclude(trial, bridge.boards());
  });

  function conclude(current: Trial, boards: readonly BoardState[]): void {
    const now = boards.find(({ id }) => id === current.id);
    if (now && isGone(now)) {
      trial = undefined;
      void bridge.detach(current.id);
      return;
    }
    const before = now?.boardKey
      ? boards.find((board) => board.id !== current.id && keyOf(board) === now.boardKey)
      : undefined;
    if (now && before && before.state !== 'live') {
      trial = undefined;
      onMoved(before, now);
      return;
    }
    const isOther = Boolean(now?.boardKey && now.identityStored);
    if (now && !isOther && clock.monotonicUs() < current.untilUs) return;
    trial = undefined;
    rest(current.path, isOther);
    if (now) void bridge.detach(current.id);
  }

  function isResting(path: string): boolean {
    return clock.monotonicUs() < (tried.get(path)?.fromUs ?? Number.NEGATIVE_INFINITY);
  }

  /** Another board stays on its port until it is unplugged; a silent port may only have been slow. */
  function rest(path: string, isOther: boolean): void {
    const restMs = Math.min(2 * (tried.get(path)?.restMs ?? FIRST_REST_MS / 2), LONGEST_REST_MS);
    const fromUs = isOther ? Number.POSITIVE_INFINITY : clock.monotonicUs() + restMs * 1000 * clock.scale;
    tried.set(path, { fromUs, restMs });
  }

  return {
    close() {
      closed = true;
      stopListening();
      cancel();
    },
  };
}

function isGone({ mode, state, problem }: BoardState): boolean {
  const isShut = state === 'lost' || state === 'searching' || state === 'opening';
  return mode === 'protocol' && isShut && problem?.code === 'port-missing';
}

function namesOf({ path, stablePath }: ListedPort): string[] {
  return stablePath === null ? [path] : [path, stablePath];
}
