import type { BridgeOptions } from '../../server/bridge/bridge.ts';
import { createFakeClock, type FakeClock } from './fake-clock.ts';
import { createFakePorts, type FakePorts } from './fake-ports.ts';
import { ScriptedBoard, type ScriptedBoardOptions } from './scripted-board.ts';
import { type WatchedBridge, watchBridge } from './watched-bridge.ts';

/** A bridge over fake ports, on a clock that the test advances. */
export interface FakeBench extends WatchedBridge {
  clock: FakeClock;
  ports: FakePorts;
  /** Plugs a board in, attaches its port, and lets it send its hello. */
  attachBoard(path: string, options?: ScriptedBoardOptions): Promise<ScriptedBoard>;
  /** Connects a board with a new cable at a path. */
  plug(path: string, board: ScriptedBoard): { unplug(): void };
  /** Advances by a period and lets the board scan, the given number of times. */
  scan(board: ScriptedBoard, times: number, fate?: 'sent' | 'lost'): Promise<void>;
}

export function createFakeBench(options: Partial<BridgeOptions> = {}): FakeBench {
  const clock = createFakeClock();
  const ports = createFakePorts();
  const watched = watchBridge({ clock, ports: ports.factory, ...options });
  const plug = (path: string, board: ScriptedBoard) => {
    const device = ports.plug(path);
    board.connect(device);
    return device;
  };
  return {
    ...watched,
    clock,
    ports,
    plug,
    async attachBoard(path, boardOptions) {
      const board = new ScriptedBoard(boardOptions);
      plug(path, board);
      watched.bridge.attach({ path, mode: 'protocol' });
      await clock.advanceAsync(0);
      return board;
    },
    async scan(board, times, fate = 'sent') {
      for (let i = 0; i < times; i++) {
        await clock.advanceAsync(1000);
        board.scan(undefined, fate);
      }
      await clock.advanceAsync(0);
    },
  };
}
