import { EventEmitter } from 'node:events';
import { describe, expect, it } from 'vitest';
import { classifyPortError } from '../../server/bridge/port-errors.ts';
import { listPorts } from '../../server/bridge/port-listing.ts';
import { BOARD_PROBLEM_CODES } from '../../server/bridge/problems.ts';
import { portOfStream, type SerialStream } from '../../server/bridge/stream-port.ts';
import { errorSentence } from '../../shared/language/errors/errors.ts';
import { createFakePorts } from '../support/fake-ports.ts';

// Texts as reported in the issue tracker of serialport/node-serialport (numbers in brackets) and as seen on Linux.
const REAL_MESSAGES: [string, string][] = [
  ['Error: Error Resource temporarily unavailable Cannot lock port', 'port-busy'],
  ['Error: Resource busy, cannot open /dev/tty.usbserial-1410', 'port-busy'],
  ['Opening COM3: Access denied', 'port-busy'], // [1849]
  ['Opening COM12: Access is denied.', 'port-busy'],
  ['Error: No such file or directory, cannot open /dev/ttyUSB0', 'port-missing'],
  ['Opening COM7: File not found', 'port-missing'],
  ['Error: No such device or address, cannot open /dev/ttyACM0', 'port-missing'],
  ['Error: Permission denied, cannot open /dev/ttyUSB0', 'permission-denied'], // [938]
  ["Error: EACCES: permission denied, open '/dev/ttyACM0'", 'permission-denied'],
  ['Error: Operation not permitted, cannot open /dev/ttyS0', 'permission-denied'],
  ['Opening COM4: Unknown error code 31', 'port-unknown'],
  ['Error: Inappropriate ioctl for device, cannot open /dev/null', 'port-unknown'],
];

describe('A system error about a port', () => {
  it.each(REAL_MESSAGES)('%s means %s', (raw, code) => {
    expect(classifyPortError(raw)).toBe(code);
  });
});

const ofLine = {
  word: 'channel',
  channel: 2,
  channels: 4,
  label: 'Flue',
  field: 'scale',
  found: '1/4',
  expected: '0.25',
};

describe('A problem with a board', () => {
  it.each(['en', 'fr'] as const)('has a sentence that names the port, for every code, in %s', (language) => {
    for (const code of BOARD_PROBLEM_CODES) {
      const sentence = errorSentence(language, `probe/${code}`, { ...ofLine, path: '/dev/ttyUSB3', baudRate: 9600 });
      expect(sentence).toContain('/dev/ttyUSB3');
      expect(sentence).not.toContain('undefined');
    }
  });

  it('has a sentence that names the remedy where rights are missing', () => {
    expect(errorSentence('en', 'probe/permission-denied', { path: '/dev/ttyUSB0' })).toContain('dialout');
  });
});

describe('A list of ports', () => {
  it('that the system cannot give is an error with advice to type the path', async () => {
    const ports = createFakePorts();
    ports.listing('spawn udevadm ENOENT');
    const listing = await listPorts(ports.factory);
    expect(listing.ports).toEqual([]);
    expect(listing.problem).toEqual({ code: 'ports-not-listed', raw: 'spawn udevadm ENOENT' });
    expect(errorSentence('en', `probe/${listing.problem!.code}`)).toContain('Type the path');
  });

  it('is returned where there is one', async () => {
    const ports = createFakePorts();
    const listed = { stablePath: null, manufacturer: null, serialNumber: null, vendorId: '2341', productId: '0043' };
    ports.listing([{ path: '/dev/ttyACM0', ...listed }]);
    expect(await listPorts(ports.factory)).toEqual({ ports: [{ path: '/dev/ttyACM0', ...listed }], problem: null });
  });
});

/** A serialport stream by its documented events alone. */
class BareStream extends EventEmitter implements SerialStream {
  isOpen = true;
  written: string[] = [];
  closeError: Error | null = null;

  write(bytes: Buffer, done: (error?: Error | null) => void): boolean {
    this.written.push(bytes.toString());
    done(null);
    return true;
  }

  close(done: (error: Error | null) => void): void {
    if (this.closeError) {
      done(this.closeError);
      return;
    }
    this.isOpen = false;
    this.emit('close', null);
    done(null);
  }
}

describe('A port made of a serialport stream', () => {
  const lost = new Error('bad file descriptor');

  const endsOf = (happen: (stream: BareStream) => void) => {
    const stream = new BareStream();
    const port = portOfStream(stream);
    const ends: unknown[] = [];
    port.onClose((end) => ends.push(end));
    happen(stream);
    return { ends, port, stream };
  };

  it('ends once when "close" comes before "error"', () => {
    const { ends } = endsOf((stream) => {
      stream.isOpen = false;
      stream.emit('close', lost);
      stream.emit('error', lost);
    });
    expect(ends).toEqual([{ kind: 'lost', raw: 'bad file descriptor' }]);
  });

  it('ends once when "error" comes before "close"', () => {
    const { ends } = endsOf((stream) => {
      stream.emit('error', lost);
      stream.emit('close', lost);
    });
    expect(ends).toEqual([{ kind: 'lost', raw: 'bad file descriptor' }]);
  });

  it('ends when a failed closing gives an "error" and no "close" at all', () => {
    const { ends } = endsOf((stream) => {
      stream.closeError = new Error('close failed');
      stream.emit('error', lost);
    });
    expect(ends).toEqual([{ kind: 'lost', raw: 'bad file descriptor' }]);
  });

  it('distinguishes being closed from being lost', async () => {
    const { ends, port } = endsOf(() => {});
    await port.close();
    await port.close();
    expect(ends).toEqual([{ kind: 'closed' }]);
  });

  it('notifies a late listener of its end', async () => {
    const stream = new BareStream();
    const port = portOfStream(stream);
    stream.emit('close', lost);
    expect(await new Promise((resolve) => port.onClose(resolve))).toEqual({ kind: 'lost', raw: 'bad file descriptor' });
  });

  it('refuses to write after its end, so that nothing is queued for the next device', async () => {
    const { port, stream } = endsOf((s) => s.emit('error', lost));
    await expect(port.write(Buffer.from('describe\n'))).rejects.toThrow('closed');
    expect(stream.written).toEqual([]);
  });
});
