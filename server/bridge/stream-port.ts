import type { Port, PortEnd } from './port.ts';

/** The part of a serialport stream that is used: `SerialPort` and its mock satisfy it. */
export interface SerialStream {
  readonly isOpen: boolean;
  write(bytes: Buffer, done: (error: Error | null | undefined) => void): boolean;
  close(done: (error: Error | null) => void): void;
  on(event: 'data', listener: (bytes: Buffer) => void): unknown;
  on(event: 'close', listener: (error: Error | null) => void): unknown;
  on(event: 'error', listener: (error: Error) => void): unknown;
}

/**
 * An open serialport stream as a port that ends exactly once. "close" and "error" are emitted in either order, or only
 * one of them is; and an "error" without a listener would end the process.
 */
export function portOfStream(serial: SerialStream): Port {
  let end: PortEnd | null = null;
  let closing = false;
  let listener: ((reason: PortEnd) => void) | null = null;
  const finish = (reason: PortEnd): void => {
    if (end) return;
    end = reason;
    listener?.(reason);
  };
  serial.on('close', (error) => {
    finish(closing && !error ? { kind: 'closed' } : { kind: 'lost', raw: error?.message ?? 'closed by the system' });
  });
  serial.on('error', (error) => {
    finish({ kind: 'lost', raw: error.message });
    if (serial.isOpen && !closing) serial.close(() => {});
  });
  return {
    write: (bytes) =>
      new Promise((resolve, reject) => {
        // An unplugged stream would queue the bytes and send them to the device plugged in next.
        if (end || !serial.isOpen) reject(new Error('The port is closed.'));
        else serial.write(Buffer.from(bytes), (error) => (error ? reject(error) : resolve()));
      }),
    close: () =>
      new Promise((resolve) => {
        closing = true;
        const done = (): void => {
          finish({ kind: 'closed' });
          resolve();
        };
        if (serial.isOpen) serial.close(done);
        else done();
      }),
    // Without a reader a lost device is never reported, so the caller sets this right after opening.
    onData: (next) => void serial.on('data', next),
    onClose(next) {
      listener = next;
      if (end) queueMicrotask(() => next(end!));
    },
  };
}
