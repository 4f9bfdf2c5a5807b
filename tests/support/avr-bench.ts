import { rm, symlink } from 'node:fs/promises';
import { join } from 'node:path';
import { onTestFinished } from 'vitest';
import type { AvrBoard } from '../../scripts/avr-board/board.ts';
import type { Port, PortFactory } from '../../server/bridge/port.ts';
import { serialPortFactory } from '../../server/bridge/serial-port-factory.ts';
import { openPseudoTerminal, type PseudoTerminal } from '../../server/simulator/pseudo-terminal.ts';
import { createFakeClock, type FakeClock } from './fake-clock.ts';
import { temporaryFolder } from './temporary-folder.ts';

/**
 * A simulated microcontroller on a real pseudo-terminal, with a clock that its processor drives, so that nothing
 * depends on the speed of this machine. After each step of the chip's time, every byte on the terminal arrives before
 * time advances.
 */
export interface AvrBench {
  clock: FakeClock;
  /** The system's ports; a reset of the port resets the chip, which a pseudo-terminal cannot carry. */
  ports: PortFactory;
  /** Path to attach: the same after the cable is unplugged and plugged in again. */
  path: string;
  /** Scan lines that have arrived at the host. */
  readonly scansReceived: number;
  /** While true, bytes of the board do not arrive, though the cable is connected. */
  lost: boolean;
  plug(): Promise<void>;
  unplug(): Promise<void>;
  /** Advances time for the chip and all others. */
  pass(ms: number): Promise<void>;
  /**
   * Advances time until the condition is true; tests it after each step. @throws Error after a minute of the chip's
   * time
   */
  until(holds: () => boolean | Promise<boolean>, everyMs?: number): Promise<void>;
}

/** @param stepMs chip time between two checks of the terminal; small for a program that answers at once */
export async function avrBench(board: AvrBoard, stepMs = 10): Promise<AvrBench> {
  const clock = createFakeClock();
  const path = join(temporaryFolder(), 'board');
  let terminal: PseudoTerminal | null = null;
  let port: Port | null = null;
  let opening: Promise<unknown> | null = null;
  let reported: number[] = [];
  const toHost = { sent: 0, arrived: 0 };
  const toBoard = { sent: 0, arrived: 0 };
  let moved = () => {};
  let scanCount = 0;
  let line = '';
  board.chip.onByte = (byte) => reported.push(byte);

  const wrap = (inner: Port): Port => {
    toHost.sent = toHost.arrived;
    const wrapped: Port = {
      ...inner,
      async write(bytes) {
        toBoard.sent += bytes.length;
        await inner.write(bytes);
      },
      async close() {
        if (port === wrapped) port = null;
        moved();
        await inner.close();
      },
      onData: (listener) =>
        inner.onData((bytes) => {
          toHost.arrived += bytes.length;
          listener(bytes);
          moved();
        }),
      onClose: (listener) =>
        inner.onClose((end) => {
          if (port === wrapped) port = null;
          listener(end);
          moved();
        }),
      reset: async () => board.chip.reset('external'),
    };
    return wrapped;
  };
  const ports: PortFactory = {
    open(at, baudRate) {
      const opened = serialPortFactory.open(at, baudRate).then((inner) => {
        port = wrap(inner);
        return port;
      });
      opening = opened.catch(() => {});
      return opened;
    },
    list: () => serialPortFactory.list(),
  };

  /** Whether all bytes written at one end have arrived at the other. */
  const isIdle = () =>
    new Promise<void>((resolve) => {
      const look = () => {
        const there = port === null || terminal === null || toHost.arrived >= toHost.sent;
        if (there && (terminal === null || toBoard.arrived >= toBoard.sent)) {
          moved = () => {};
          resolve();
        }
      };
      moved = look;
      look();
    });

  const bench: AvrBench = {
    clock,
    ports,
    path,
    get scansReceived() {
      return scanCount;
    },
    lost: false,
    async plug() {
      const opened = await openPseudoTerminal();
      if (!opened.available) throw new Error(opened.reason);
      terminal = opened;
      toBoard.arrived = toBoard.sent;
      opened.onData((bytes) => {
        toBoard.arrived += bytes.length;
        board.chip.receive(bytes);
        moved();
      });
      await rm(path, { force: true });
      await symlink(opened.path, path);
    },
    async unplug() {
      const pulled = terminal;
      terminal = null;
      await rm(path, { force: true });
      await pulled?.unplug();
    },
    async pass(ms) {
      for (let left = ms; left > 0; left -= stepMs) {
        board.run(stepMs * 1000);
        const bytes = Uint8Array.from(reported);
        reported = [];
        for (const byte of terminal && port && !bench.lost ? bytes : []) {
          line = byte === 10 ? '' : line + String.fromCharCode(byte);
          if (line === 'scan ') scanCount++;
        }
        // A cable without a reader loses bytes.
        if (terminal && port && !bench.lost && bytes.length > 0) {
          toHost.sent += bytes.length;
          terminal.write(bytes);
        }
        await isIdle();
        await clock.advanceAsync(stepMs);
        await opening;
        opening = null;
        await isIdle();
      }
    },
    async until(holds, everyMs = stepMs) {
      for (let ms = 0; ms < 60_000; ms += everyMs) {
        if (await holds()) return;
        await bench.pass(everyMs);
      }
      throw new Error('A minute of the board passed, and what was waited for did not come.');
    },
  };
  onTestFinished(() => bench.unplug());
  await bench.plug();
  return bench;
}
