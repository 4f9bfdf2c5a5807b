import type { Board } from '../../shared/contract/boards.ts';
import type { FirmwareName, Flashing as FlashingSeen } from '../../shared/contract/flashing.ts';
import { USUAL_BAUD_RATE } from '../../shared/contract/usual-baud-rate.ts';
import { AppError, isAppError } from '../base/app-error.ts';
import type { Clock } from '../base/clock.ts';
import type { Bridge } from '../bridge/bridge.ts';
import type { PortFactory } from '../bridge/port.ts';
import type { Setup } from '../setup/setup.ts';
import { hasRunningBurn } from '../store/running-burn.ts';
import type { Store } from '../store/store.ts';
import { firmwareOf } from './firmware-files.ts';
import { programBoard } from './program-board.ts';

/** Progress, for any client. */
type Flashing = Omit<FlashingSeen, 'mayFlash'>;

/** Writes the firmware to boards, one at a time. */
export type Flasher = ReturnType<typeof createFlasher>;

export interface FlashingContext {
  store: Store;
  clock: Clock;
  setup: Setup;
  bridge: Bridge;
  ports: PortFactory;
}

/** Real milliseconds: a new program sends hello within a second or two, or when it is requested after five. */
const LIVE_MS = 20_000;

export function createFlasher({ store, clock, setup, bridge, ports }: FlashingContext) {
  let state: Flashing = { phase: 'idle', doneBytes: 0, totalBytes: 0 };
  const running = () => !['idle', 'done', 'failed'].includes(state.phase);

  /**
   * Attaches the board, unless it is attached, and waits until it has identified itself. Problems from before the
   * flashing are ignored.
   */
  async function live(path: string): Promise<Board> {
    await setup.attach({ path, baudRate: USUAL_BAUD_RATE });
    return new Promise((resolve, reject) => {
      const look = () => {
        const board = setup.boards().find((each) => each.path === path);
        if (board?.state !== 'live' || !board.firmware || board.channels.length === 0) return;
        off();
        cancel();
        resolve(board);
      };
      const off = bridge.on('board', look);
      const cancel = clock.setTimer(LIVE_MS * clock.scale, () => {
        off();
        reject(new AppError('flash/not-live', { path }));
      });
      look();
    });
  }

  async function flash(path: string, firmware: FirmwareName): Promise<void> {
    const of = { path, firmware };
    try {
      const program = firmwareOf(firmware);
      const attachedAs = await bridge.lend(path, () =>
        programBoard(path, program, ports, clock, (progress) => {
          state = { ...of, ...progress };
        }),
      );
      state = { ...state, phase: 'starting' };
      const board = await live(attachedAs ?? path);
      state = { ...state, phase: 'done', board };
    } catch (error) {
      const { code, params } = isAppError(error)
        ? error
        : { code: 'flash/interrupted' as const, params: { path, raw: String(error) } };
      state = { ...state, ...of, phase: 'failed', problem: { code, params } };
    }
  }

  return {
    /** @throws AppError flash/burn-running, flash/busy */
    begin(path: string, firmware: FirmwareName): Flashing {
      if (running()) throw new AppError('flash/busy');
      if (hasRunningBurn(store)) throw new AppError('flash/burn-running');
      state = { phase: 'connecting', doneBytes: 0, totalBytes: 0, path, firmware };
      void flash(path, firmware);
      return state;
    },
    /** The progress, and how the last run ended. */
    state: (): Flashing => state,
  };
}
