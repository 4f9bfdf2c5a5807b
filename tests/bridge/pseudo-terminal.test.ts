import { existsSync } from 'node:fs';
import { afterEach, describe, expect, it } from 'vitest';
import { serialPortFactory } from '../../server/bridge/serial-port-factory.ts';
import { openPseudoTerminal, type PseudoTerminal } from '../../server/simulator/pseudo-terminal.ts';

const path = process.env.PATH;
afterEach(() => {
  process.env.PATH = path;
});

const probe = await openPseudoTerminal();
if (probe.available) await probe.unplug();
else console.warn(`No pseudo-terminal is tried: ${probe.reason}`);

const everyByte = Uint8Array.from({ length: 256 }, (_, i) => i);

describe.skipIf(!probe.available)('A pseudo-terminal', () => {
  const openOne = async () => (await openPseudoTerminal()) as PseudoTerminal;

  /** Collects bytes; resolves when this many have arrived. */
  const collect = (count: number, listen: (listener: (bytes: Uint8Array) => void) => void) =>
    new Promise<number[]>((resolve) => {
      const got: number[] = [];
      listen((bytes) => {
        got.push(...bytes);
        if (got.length >= count) resolve(got);
      });
    });

  it('carries every byte unchanged, both ways', async () => {
    const terminal = await openOne();
    const port = await serialPortFactory.open(terminal.path, 115200);
    const atHost = collect(256, (listener) => port.onData(listener));
    const atDevice = collect(256, (listener) => terminal.onData(listener));
    terminal.write(everyByte);
    await port.write(everyByte);
    expect(await atHost).toEqual([...everyByte]);
    expect(await atDevice).toEqual([...everyByte]);
    await port.close();
    await terminal.unplug();
  });

  it('is gone when it is unplugged, and takes no more bytes', async () => {
    const terminal = await openOne();
    const port = await serialPortFactory.open(terminal.path, 115200);
    port.onData(() => {});
    expect(await port.isPresent!()).toBe(true);
    await terminal.unplug();
    await terminal.unplug();
    expect(existsSync(terminal.path)).toBe(false);
    expect(await port.isPresent!()).toBe(false);
    expect(terminal.write('anybody there?')).toBe(false);
    await port.close();
  });

  it('drops bytes that nobody reads, like a cable, instead of storing them for ever', async () => {
    const terminal = await openOne();
    const kilobyte = 'x'.repeat(1024);
    let taken = 0;
    while (taken < 1024 && terminal.write(kilobyte)) taken++;
    expect(taken).toBeLessThan(1024);
    await terminal.unplug();
  });

  it('can be closed and opened again by the other side', async () => {
    const terminal = await openOne();
    await (await serialPortFactory.open(terminal.path, 115200)).close();
    const port = await serialPortFactory.open(terminal.path, 9600);
    const atHost = collect(3, (listener) => port.onData(listener));
    terminal.write('abc');
    expect(Buffer.from(await atHost).toString()).toBe('abc');
    await port.close();
    await terminal.unplug();
  });
});

describe('A system without the means', () => {
  it('to make a pseudo-terminal reports which program is missing', async () => {
    process.env.PATH = '/nowhere';
    const opened = await openPseudoTerminal();
    expect(opened.available).toBe(false);
    expect((opened as { reason: string }).reason).toContain('script');
  });

  it.skipIf(process.platform !== 'linux')('to list its ports (no udevadm) still lists those in /dev', async () => {
    process.env.PATH = '/nowhere';
    const ports = await serialPortFactory.list();
    expect(ports.every((port) => port.path.startsWith('/dev/tty'))).toBe(true);
  });
});
