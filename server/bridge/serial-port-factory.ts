import { readdir } from 'node:fs/promises';
import { SerialPort } from 'serialport';
import type { ListedPort, Port, PortEnd, PortFactory } from './port.ts';

/** Ports of this machine through the `serialport` package. */
export const serialPortFactory: PortFactory = { open: openSerialPort, list: listSerialPorts };

function openSerialPort(path: string, baudRate: number): Promise<Port> {
  return new Promise((resolve, reject) => {
    const serial = new SerialPort({
      path,
      baudRate,
      autoOpen: false,
      // Dropping DTR at close resets many boards at the next opening: keep it up. On Windows the same option would
      // keep DTR down from the opening on, and some boards send nothing without it.
      hupcl: process.platform === 'win32',
    });
    serial.open((error) => {
      if (error) reject(error);
      else resolve(wrap(serial));
    });
  });
}

function wrap(serial: SerialPort): Port {
  let end: PortEnd | null = null;
  let closing = false;
  let listener: ((reason: PortEnd) => void) | null = null;
  const finish = (reason: PortEnd) => {
    if (end) return;
    end = reason;
    listener?.(reason);
  };
  // "close" and "error" come in either order, or only one of them; and an "error" without a listener ends the process.
  serial.on('close', (error: Error | null) => {
    finish(closing && !error ? { kind: 'closed' } : { kind: 'lost', raw: error?.message ?? 'closed by the system' });
  });
  serial.on('error', (error: Error) => {
    finish({ kind: 'lost', raw: error.message });
    if (serial.isOpen && !closing) serial.close(() => {});
  });
  return {
    write: (bytes) =>
      new Promise((resolve, reject) => {
        if (!serial.isOpen) reject(new Error('The port is closed.'));
        else serial.write(Buffer.from(bytes), (error) => (error ? reject(error) : resolve()));
      }),
    close: () =>
      new Promise((resolve) => {
        closing = true;
        const done = () => {
          finish({ kind: 'closed' });
          resolve();
        };
        if (serial.isOpen) serial.close(done);
        else done();
      }),
    // Without a reader a lost device is never announced, so the caller sets this right after opening.
    onData: (next) => void serial.on('data', next),
    onClose(next) {
      listener = next;
      if (end) queueMicrotask(() => next(end!));
    },
  };
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
