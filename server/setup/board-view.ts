import type { Board } from '../../shared/contract/boards.ts';
import type { BoardState } from '../bridge/bridge.ts';
import type { PlacedChannel } from './placements.ts';
import type { RecentValues } from './recent-values.ts';

/** Firmware name of a simulated board. Burns recorded from one are labelled as simulated in any case. */
const SIMULATOR = /^simulator\b/i;

export function isSimulated({ firmware }: BoardState): boolean {
  return SIMULATOR.test(firmware ?? '');
}

/** The identity of the board once it is known, until then that of the attachment. */
export function identityOf({ boardKey, id }: BoardState): string {
  return boardKey ?? id;
}

export function boardView(state: BoardState, channels: readonly PlacedChannel[], recent: RecentValues): Board {
  const { path, mode, baudRate, name, firmware, periodMs, repeatDepth, problem } = state;
  return {
    id: identityOf(state),
    path,
    mode,
    baudRate,
    // A port is being searched for between two tries; the page has no other state for "not connected".
    state: state.state === 'idle' ? 'searching' : state.state,
    simulated: isSimulated(state),
    ...(problem && { problem: messageOf(problem) }),
    ...(name !== null && { name }),
    ...(firmware !== null && { firmware }),
    ...(periodMs !== null && { periodMs }),
    repeatDepthScans: repeatDepth,
    counters: { ...state.counters },
    channels: channels.map((channel) => {
      const latest = recent.of(channel.id);
      return { ...channel, ...(latest && { latest }) };
    }),
  };
}

function messageOf({ code, params, raw }: NonNullable<BoardState['problem']>): NonNullable<Board['problem']> {
  return { code: `probe/${code}`, params: { ...params, ...(raw !== undefined && { raw }) } };
}
