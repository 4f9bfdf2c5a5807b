import type { Board } from '../../shared/contract/api.ts';
import type { FirmwareName, Flashing as FlashingSeen } from '../../shared/contract/flashing.ts';
import { AppError, isAppError } from '../app-error.ts';
import type { Bench } from '../bench/bench.ts';
import type { Bridge } from '../bridge/bridge.ts';
import type { PortFactory } from '../bridge/port.ts';
import type { Clock } from '../clock.ts';
import type { Store } from '../store/store.ts';
import { firmwareOf } from './firmware-files.ts';
import { programBoard } from './program-board.ts';

/** How far it is, whoever asks. */
type Flashing = Omit<FlashingSeen, 'mayFlash'>;

/** Puts the firmware on boards, one at a time. */
export interface FlashingDesk {
  /** @throws AppError flash/burn-running, flash/busy */
  begin(path: string, firmware: FirmwareName): Flashing;
  /** How far it is, and how the last one ended. */
  state(): Flashing;
}

export interface FlashingContext {
  store: Store;
  clock: Clock;
  bench: Bench;
  bridge: Bridge;
  ports: PortFactory;
}

/** A new program says hello within a second or two; its first scan follows a second later. */
const LIVE_TRIES = 3;

export function createFlashingDesk({ store, clock, bench, bridge, ports }: FlashingContext): FlashingDesk {
  let state: Flashing = { phase: 'idle', doneBytes: 0, totalBytes: 0 };
  const running = () => !['idle', 'done', 'failed'].includes(state.phase);

  async function live(path: string): Promise<Board> {
    for (let tries = 1; ; tries++) {
      const board = await bench.attach({ path, baudRate: 115_200 });
      if (board.state === 'live' && board.firmware) return board;
      if (tries >= LIVE_TRIES) throw new AppError('flash/not-live', { path });
    }
  }

  async function flash(path: string, firmware: FirmwareName): Promise<void> {
    const of = { path, firmware };
    try {
      const program = firmwareOf(firmware);
      await bridge.lend(path, () =>
        programBoard(path, program, ports, clock, (progress) => {
          state = { ...of, ...progress };
        }),
      );
      state = { ...state, phase: 'starting' };
      const board = await live(path);
      state = { ...state, phase: 'done', board };
    } catch (error) {
      const { code, params } = isAppError(error)
        ? error
        : { code: 'flash/interrupted' as const, params: { path, raw: String(error) } };
      state = { ...state, ...of, phase: 'failed', problem: { code, params } };
    }
  }

  return {
    begin(path, firmware) {
      if (running()) throw new AppError('flash/busy');
      const burns = store.documents.list('burn').filter(({ withdrawn }) => !withdrawn);
      if (burns.some(({ body }) => body.status === 'running')) throw new AppError('flash/burn-running');
      state = { phase: 'connecting', doneBytes: 0, totalBytes: 0, path, firmware };
      void flash(path, firmware);
      return state;
    },
    state: () => state,
  };
}
