import { access, readdir } from 'node:fs/promises';
import { setTimeout } from 'node:timers/promises';
import { SerialPort } from 'serialport';
import type { ListedPort, Port, PortFactory } from './port.ts';
import { resetSimulatedBoard } from './simulated-reset.ts';
import { portOfStream } from './stream-port.ts';

/** Ports of this machine through the `serialport` package. */
export const serialPortFactory: PortFactory = { open: openSerialPort, list: listSerialPorts };

function openSerialPort(path: string, baudRate: number): Promise<Port> {
  return new Promise((resolve, reject) => {
    const serial = new SerialPort({
      path,
      baudRate,
      autoOpen: false,
      // Dropping DTR at close resets many boards at the next opening: leave it high. On Windows the same option would
      // hold DTR low from the opening on, and some boards send nothing without it.
      hupcl: process.platform === 'win32',
    });
    serial.open((error) => {
      if (error) reject(error);
      else resolve(withReset(withPresence(portOfStream(serial), path), serial, path));
    });
  });
}

/** Long enough for the capacitor between the line and the chip's reset. */
const RESET_PULSE_MS = 100;

/**
 * Boards of the usual kind are reset when DTR (some: RTS) goes to its active level. A pseudo-terminal has neither line;
 * a simulated board listens on a socket instead.
 */
function withReset(port: Port, serial: SerialPort, path: string): Port {
  const set = (active: boolean) =>
    new Promise<void>((resolve, reject) =>
      serial.set({ dtr: active, rts: active }, (error) => (error ? reject(error) : resolve())),
    );
  return {
    ...port,
    async reset() {
      if (await resetSimulatedBoard(path)) return;
      await set(false);
      await setTimeout(RESET_PULSE_MS);
      await set(true);
    },
  };
}

/**
 * On Unix an unplugged device loses its name in /dev. This is checked at intervals: when a device is unplugged during a
 * read, the binding (13.0.0 of serialport) reads nothing over and over, reports nothing, and uses most of a core.
 */
function withPresence(port: Port, path: string): Port {
  if (process.platform === 'win32') return port;
  const isPresent = (): Promise<boolean> =>
    access(path).then(
      () => true,
      () => false,
    );
  return { ...port, isPresent };
}

async function listSerialPorts(): Promise<ListedPort[]> {
  try {
    const ports = await SerialPort.list();
    return ports.map((port) => ({
      path: port.path,
      stablePath: process.platform === 'linux' && port.pnpId ? `/dev/serial/by-id/${port.pnpId}` : null,
      manufacturer: port.manufacturer ?? null,
      serialNumber: port.serialNumber ?? null,
      vendorId: port.vendorId ?? null,
      productId: port.productId ?? null,
    }));
  } catch (error) {
    if (process.platform !== 'linux') throw error;
    // Small systems and containers have no udevadm; the names of USB serial devices are still in /dev.
    const names = (await readdir('/dev')).filter((name) => /^tty(USB|ACM|AMA)\d+$/.test(name));
    return names.sort().map((name) => ({
      path: `/dev/${name}`,
      stablePath: null,
      manufacturer: null,
      serialNumber: null,
      vendorId: null,
      productId: null,
    }));
  }
}
