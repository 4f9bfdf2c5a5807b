import type {
  AttachBoard,
  Board,
  BoardPreview,
  ChannelPlacement,
  GuessedFormat,
  PlainFormat,
  SetupChannel,
} from '../../shared/contract/boards.ts';
import type { Channel } from '../../shared/contract/burn-record.ts';
import type { LiveEvent } from '../../shared/contract/stream.ts';
import { AppError } from '../base/app-error.ts';
import type { Clock } from '../base/clock.ts';
import type { BoardState, Bridge, ScanEvent } from '../bridge/bridge.ts';
import type { PortFactory } from '../bridge/port.ts';
import { readingsOf } from '../readings/scan-readings.ts';
import { type ScanValues, scanValues } from '../readings/scan-values.ts';
import type { Store } from '../store/store.ts';
import { boardView, identityOf, isSimulated } from './board-view.ts';
import { createHandProbes } from './hand-probes.ts';
import { followMovedBoards } from './moved-boards.ts';
import { createPlacements } from './placements.ts';
import { listenTo, previewOf } from './preview.ts';
import { createRecentValues } from './recent-values.ts';
import { createRememberedBoards } from './remembered-boards.ts';

/** A request to attach a board waits at most this long for the board to identify itself. */
const QUIET_MS = 5000;

/** The current setup: boards, their probes, the placements of these, and their latest values. */
export type Setup = ReturnType<typeof createSetup>;

type AttachedPort = Omit<AttachBoard, 'plain'> & { plain?: PlainFormat | undefined };

export interface SetupContext {
  store: Store;
  clock: Clock;
  bridge: Bridge;
  ports: PortFactory;
  publish(event: LiveEvent): void;
  /** Queues a write until the disk accepts it. */
  write(work: () => void): void;
  /** A board has described itself, or a person has placed a probe. */
  onDescribed(channels: Channel[]): void;
  /** A person has detached a board. */
  onDetached(boardId: string): void;
  /** Whether a burn uses its boards now. */
  isNeeded(): boolean;
}

export function createSetup({
  store,
  clock,
  bridge,
  ports,
  publish,
  write,
  onDescribed,
  onDetached,
  isNeeded,
}: SetupContext) {
  const placements = createPlacements(store, clock, write);
  const remembered = createRememberedBoards(store, clock);
  const recent = createRecentValues(() => clock.monotonicUs());
  const handProbes = createHandProbes(
    store,
    (channel) => onDescribed([channel]),
    (probes) => publish({ type: 'handProbes', handProbes: probes }),
  );
  /** The identity under which an attachment was last published: it changes once, when the board identifies itself. */
  const shownAs = new Map<string, string>();

  /** All identities under which an attachment was published: an early client may still use the first one. */
  const shown = new Map<string, Set<string>>();
  const namesOf = ({ id }: BoardState) => [id, ...(shown.get(id) ?? [])];

  const placed = (state: BoardState) => (state.boardKey ? placements.of(state.boardKey, state.channels) : []);
  const view = (state: BoardState) => boardView(state, placed(state), recent);

  function find(boardId: string): BoardState {
    const found = bridge.boards().find((state) => identityOf(state) === boardId || namesOf(state).includes(boardId));
    if (!found) throw new AppError('probe/board-not-found', { id: boardId });
    return found;
  }

  function attach({ path, baudRate, plain }: AttachedPort, boardKey?: string): BoardState {
    return bridge.attach({
      path,
      mode: plain ? 'plain' : 'protocol',
      baudRate,
      ...(plain && { plain }),
      ...(boardKey && { boardKey }),
    });
  }

  /** Resolves when the board has described itself, when a problem with it is known, or after the time limit. */
  function whenQuiet(id: string): Promise<void> {
    return new Promise((resolve) => {
      const look = () => {
        const state = bridge.boards().find((board) => board.id === id);
        const known = state?.state === 'live' && state.boardKey !== null && state.channels.length > 0;
        if (!state || state.problem || known) done();
      };
      const off = bridge.on('board', look);
      const cancel = clock.setTimer(QUIET_MS, done);
      function done() {
        off();
        cancel();
        resolve();
      }
      look();
    });
  }

  function forgetShown(state: BoardState): void {
    shownAs.delete(state.id);
    shown.delete(state.id);
    publish({ type: 'boardGone', boardId: identityOf(state) });
  }

  const moved = followMovedBoards({
    clock,
    bridge,
    isNeeded,
    keyOf: ({ boardKey, path }) => boardKey ?? remembered.keyAt(path),
    onMoved(before, now) {
      write(() => {
        remembered.forget(before.path);
        remembered.remember({ path: now.path, baudRate: now.baudRate });
        if (now.boardKey) remembered.identify(now.path, now.boardKey);
      });
      void bridge.detach(before.id);
      forgetShown(before);
    },
  });

  bridge.on('board', (state) => {
    if (!bridge.boards().some(({ id }) => id === state.id)) return;
    const before = shownAs.get(state.id);
    const identity = identityOf(state);
    shownAs.set(state.id, identity);
    shown.set(state.id, (shown.get(state.id) ?? new Set()).add(identity));
    if (before && before !== identity) publish({ type: 'boardGone', boardId: before });
    const { path, boardKey } = state;
    if (boardKey) {
      write(() => remembered.identify(path, boardKey));
      onDescribed(placed(state));
    }
    publish({ type: 'board', board: view(state) });
  });

  return {
    boards: (): Board[] => bridge.boards().map(view),

    /**
     * Returns as soon as the board has described itself or a problem with it is known.
     * @throws AppError probe/unit-not-named
     */
    async attach({ plain, ...port }: AttachBoard): Promise<Board> {
      const request: AttachedPort = { ...port, ...(plain && { plain: withUnits(plain, port.path) }) };
      const before = remembered.keyAt(request.path);
      const { id } = attach(request, before);
      remembered.remember(request);
      await whenQuiet(id);
      return view(find(id));
    },

    /**
     * What a board prints, to map its columns; for a port that is already attached, the lines received there.
     * @throws AppError probe/port-busy and similar
     */
    async preview(path: string, baudRate: number): Promise<BoardPreview> {
      const attached = bridge.boards().find((state) => state.path === path && state.baudRate === baudRate);
      return previewOf(attached?.recentLines ?? (await listenTo(ports, clock, path, baudRate)));
    },

    /** @throws AppError probe/board-not-found */
    async detach(boardId: string): Promise<void> {
      const state = find(boardId);
      remembered.forget(state.path);
      await bridge.detach(state.id);
      if (state.boardKey) onDetached(state.boardKey);
      forgetShown(state);
    },

    /** @throws AppError probe/board-not-found, probe/no-answer, probe/not-supported */
    async blink(boardId: string): Promise<void> {
      const { id, path } = find(boardId);
      const answer = await bridge.blink(id);
      if (answer?.kind === 'refused') throw new AppError('probe/not-supported', { path });
      if (answer?.kind !== 'ok') throw new AppError('probe/no-answer', { path });
    },

    /** @throws AppError probe/board-not-found, probe/channel-not-found */
    place(boardId: string, channelId: string, placement: ChannelPlacement): SetupChannel {
      const state = find(boardId);
      const channel = placements.place(identityOf(state), channelId, placement);
      publish({ type: 'board', board: view(state) });
      const latest = recent.of(channelId);
      return { ...channel, ...(latest && { latest }) };
    },

    /** Probes that a person reads, without a board. */
    handProbes,
    /** All probes of the current setup: those of the boards, and those that a person reads. */
    channels: (): Channel[] => [...bridge.boards().flatMap(placed), ...handProbes.channels()],
    /** Whether any board is a simulated one. */
    simulated: (): boolean => bridge.boards().some(isSimulated),

    /** Attaches the boards that were attached before. */
    restore(runningBurn: boolean): void {
      for (const { boardKey, ...board } of remembered.toAttach(runningBurn)) attach(board, boardKey);
    },

    /** Converts a scan to values and stores them as the latest of its probes. */
    read(scan: ScanEvent): ScanValues {
      const channels = placements.of(scan.boardKey, bridge.channelsOf(scan.boardKey));
      const values = scanValues(channels, scan.boardKey, readingsOf(scan));
      if (!scan.repeated) recent.take(scan.hostUs, values);
      return values;
    },

    close: (): void => moved.close(),
  };
}

/** A layout in which every column has a unit: none is guessed. */
function withUnits({ columns, ...layout }: GuessedFormat, path: string): PlainFormat {
  const unnamed = columns.filter(({ unit }) => unit === undefined).map(({ name }) => name);
  if (unnamed.length > 0) {
    throw new AppError('probe/unit-not-named', { path, columns: unnamed.join(', '), count: unnamed.length });
  }
  return { ...layout, columns: columns.map(({ unit, ...column }) => ({ ...column, unit: unit! })) };
}
