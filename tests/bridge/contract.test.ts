import { mkdtempSync, rmSync, symlinkSync, unlinkSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { createRealClock } from '../../server/base/clock.ts';
import type { PortFactory } from '../../server/bridge/port.ts';
import { serialPortFactory } from '../../server/bridge/serial-port-factory.ts';
import { openPseudoTerminal, type PseudoTerminal } from '../../server/simulator/pseudo-terminal.ts';
import { createFakePorts } from '../support/fake-ports.ts';
import { type Cable, ScriptedBoard } from '../support/scripted-board.ts';
import { type WatchedBridge, watchBridge } from '../support/watched-bridge.ts';

/** A place where a device can be plugged in and out, seen from both sides. */
interface Bench {
  path: string;
  factory: PortFactory;
  plug(): Promise<Cable>;
  unplug(): Promise<void>;
  close(): Promise<void>;
}

async function fakeBench(): Promise<Bench> {
  const ports = createFakePorts();
  const path = '/dev/fake';
  let device = ports.plug(path);
  device.unplug();
  return {
    path,
    factory: ports.factory,
    async plug() {
      device = ports.plug(path);
      return device;
    },
    async unplug() {
      device.unplug();
    },
    async close() {},
  };
}

/**
 * A replugged pseudo-terminal gets another number; a link has a constant path, as /dev/serial/by-id does for a real
 * board.
 */
async function terminalBench(): Promise<Bench> {
  const folder = mkdtempSync(join(tmpdir(), 'stovebench-lead-'));
  const path = join(folder, 'board');
  let terminal: PseudoTerminal | null = null;
  const unplug = async (): Promise<void> => {
    if (!terminal) return;
    unlinkSync(path);
    await terminal.unplug();
    terminal = null;
  };
  return {
    path,
    factory: serialPortFactory,
    async plug() {
      const opened = await openPseudoTerminal();
      if (!opened.available) throw new Error(opened.reason);
      symlinkSync(opened.path, path);
      terminal = opened;
      return opened;
    },
    unplug,
    async close() {
      await unplug();
      rmSync(folder, { recursive: true });
    },
  };
}

const probe = await openPseudoTerminal();
if (probe.available) await probe.unplug();
else console.warn(`The bridge is not tried on a pseudo-terminal: ${probe.reason}`);

const benches: [string, () => Promise<Bench>][] = [['a fake port', fakeBench]];
if (probe.available) benches.push(['a real pseudo-terminal', terminalBench]);

describe.each(benches)('A bridge over %s', (_, openClient) => {
  let bench: Bench;
  let watched: WatchedBridge;

  beforeEach(async () => {
    bench = await openClient();
    watched = watchBridge({ clock: createRealClock(), ports: bench.factory });
  });

  afterEach(async () => {
    await watched.bridge.close();
    await bench.close();
  });

  const attach = () => watched.bridge.attach({ path: bench.path, mode: 'protocol' });
  const sequences = () => watched.scans.map((scan) => scan.sequence);

  /** Attached, described, identified. */
  const connected = async (board: ScriptedBoard): Promise<string> => {
    board.connect(await bench.plug());
    const { id } = attach();
    await watched.until(() => watched.states.at(-1)?.boardKey != null && watched.states.at(-1)!.channels.length === 2);
    return id;
  };

  it('requests the hello of a board, gives it an identity, and publishes its scans in order', async () => {
    const board = new ScriptedBoard();
    await connected(board);
    for (let i = 0; i < 20; i++) board.scan();
    await watched.until(() => watched.scans.length === 20);
    expect(sequences()).toEqual(Array.from({ length: 20 }, (_, i) => i));
    const state = watched.bridge.boards()[0]!;
    expect(state).toMatchObject({ state: 'live', name: 'Test board', identityStored: true, problem: null });
    expect(state.channels.map((c) => c.label)).toEqual(['Probe 1', 'Probe 2']);
    expect(board.identity).toBe(state.boardKey);
    expect(watched.scans[3]).toMatchObject({
      boardKey: board.identity,
      boot: 1,
      counts: [83, 86],
      faults: [null, null],
      repeated: false,
    });
  });

  it('understands boards that end their lines with carriage return and line feed', async () => {
    const board = new ScriptedBoard({ lineEnding: '\r\n' });
    await connected(board);
    board.scan([400, 'open']);
    await watched.until(() => watched.scans.length === 1);
    expect(watched.scans[0]).toMatchObject({ counts: [400, null], faults: [null, 'open'] });
    expect(watched.bridge.boards()[0]!.counters).toMatchObject({ badChecksum: 0, badLines: 0, discardedBytes: 0 });
  });

  it('never joins half a line from before an unplugging to the first line after it', async () => {
    const board = new ScriptedBoard();
    await connected(board);
    board.scan();
    await watched.until(() => watched.scans.length === 1);
    board.sendRaw('scan 1 1 2180 81 ');
    await watched.until(() => watched.bridge.boards()[0]!.lastLineUs !== null);
    await bench.unplug();
    await watched.until(() => watched.states.at(-1)!.state === 'lost');
    board.connect(await bench.plug());
    await watched.until(() => watched.bridge.boards()[0]!.boardKey !== null);
    board.scan();
    await watched.until(() => watched.scans.length === 2);
    expect(watched.scans[1]).toMatchObject({ sequence: 1, counts: [81, 82] });
    expect(watched.bridge.boards()[0]!.counters.badChecksum).toBe(0);
  });

  it('fetches scans missed while the cable was unplugged, and leaves no gap', async () => {
    const board = new ScriptedBoard();
    await connected(board);
    for (let i = 0; i < 3; i++) board.scan();
    await watched.until(() => watched.scans.length === 3);
    await bench.unplug();
    await watched.until(() => watched.states.at(-1)!.state === 'lost');
    for (let i = 0; i < 5; i++) board.scan(undefined, 'lost');
    board.connect(await bench.plug());
    await watched.until(() => watched.bridge.boards()[0]!.boardKey !== null);
    board.scan();
    await watched.until(() => watched.scans.length === 9);
    expect(sequences()).toEqual([0, 1, 2, 8, 3, 4, 5, 6, 7]);
    expect(watched.scans.map((scan) => scan.repeated)).toEqual([
      ...[false, false, false, false],
      ...[true, true, true, true, true],
    ]);
    expect(watched.gaps).toEqual([]);
    expect(watched.bridge.boards()[0]!.counters).toMatchObject({ missing: 5, recovered: 5, disconnects: 1 });
  });

  it('refuses damaged lines, counts them, and fetches the scan again', async () => {
    const board = new ScriptedBoard();
    await connected(board);
    board.scan();
    const lost = board.scan(undefined, 'lost');
    board.sendRaw(`scan 1 1 2180 ${lost.readings[0]} 99 ~0BADF00D\n`);
    board.scan();
    await watched.until(() => watched.scans.length === 3);
    expect(sequences()).toEqual([0, 2, 1]);
    expect(watched.scans[2]).toMatchObject({ counts: lost.readings, repeated: true });
    expect(watched.bridge.boards()[0]!.counters).toMatchObject({ badChecksum: 1, missing: 1, recovered: 1 });
  });

  it('survives a line without an end and counts the discarded bytes', async () => {
    const board = new ScriptedBoard();
    await connected(board);
    board.scan();
    for (let i = 0; i < 50; i++) board.sendRaw('x'.repeat(1000));
    board.sendRaw('\n');
    board.scan();
    await watched.until(() => watched.scans.length === 2);
    expect(sequences()).toEqual([0, 1]);
    const { counters } = watched.bridge.boards()[0]!;
    expect(counters.badLines).toBe(1);
    expect(counters.discardedBytes).toBeGreaterThan(0);
  });

  it('limits broken UTF-8 to its own line', async () => {
    const board = new ScriptedBoard();
    await connected(board);
    board.sendRaw(Buffer.from([0x32, 0x30, 0x20, 0xc2, 0x0a]));
    board.scan();
    await watched.until(() => watched.scans.length === 1);
    expect(watched.scans[0]).toMatchObject({ sequence: 0, counts: [80, 80] });
    expect(watched.bridge.boards()[0]!.counters).toMatchObject({ badLines: 1, badChecksum: 0 });
  });

  it('distinguishes a reset from a gap: a new boot begins, and the scans of the old one are lost', async () => {
    const board = new ScriptedBoard();
    await connected(board);
    for (let i = 0; i < 3; i++) board.scan();
    await watched.until(() => watched.scans.length === 3);
    board.reset();
    for (let i = 0; i < 2; i++) board.scan();
    await watched.until(() => watched.scans.length === 5);
    expect(watched.scans.map((scan) => [scan.boot, scan.sequence])).toEqual([
      [1, 0],
      [1, 1],
      [1, 2],
      [2, 0],
      [2, 1],
    ]);
    expect(watched.gaps).toMatchObject([
      { from: { boot: 1, sequence: 2 }, to: { boot: 2, sequence: 0 }, missing: null, cause: 'reset' },
    ]);
  });

  it('reports that a port is busy while another program has it', async () => {
    const board = new ScriptedBoard().connect(await bench.plug());
    const other = await bench.factory.open(bench.path, 115200);
    const { id } = attach();
    const state = await watched.bridge.whenIdentified(id);
    expect(state!.problem).toMatchObject({ code: 'port-busy' });
    expect(state!.problem!.raw).toMatch(/lock/i);
    await other.close();
    await watched.until(() => watched.states.at(-1)!.state === 'live');
    expect(board.commands[0]).toEqual({ kind: 'describe' });
  });

  it('waits for a missing port, and reports it', async () => {
    const { id } = attach();
    const state = await watched.bridge.whenIdentified(id);
    expect(state).toMatchObject({ state: 'searching', problem: { code: 'port-missing' } });
    new ScriptedBoard().connect(await bench.plug());
    await watched.until(() => watched.states.at(-1)!.state === 'live');
    expect(watched.bridge.boards()[0]!.problem).toBeNull();
  });

  it('makes a board blink and changes its period', async () => {
    const board = new ScriptedBoard();
    const id = await connected(board);
    expect(await watched.bridge.blink(id)).toEqual({ kind: 'ok', command: 'blink' });
    expect(await watched.bridge.setPeriod(id, 500)).toMatchObject({ kind: 'ok', periodMs: 500 });
    expect(watched.bridge.boards()[0]!.periodMs).toBe(500);
  });

  it('closes the port when a board is detached', async () => {
    const id = await connected(new ScriptedBoard());
    expect(await watched.bridge.detach(id)).toBe(true);
    expect(watched.bridge.boards()).toEqual([]);
    const again = await bench.factory.open(bench.path, 115200);
    await again.close();
    expect(await watched.bridge.detach(id)).toBe(false);
  });
});

const realPort = process.env.TEST_PORT;
if (!realPort)
  console.warn('The bridge is not tried on a real board: set TEST_PORT to the port of one that speaks protocol 1.');

describe.skipIf(!realPort)('A bridge over the real board on TEST_PORT', () => {
  it('receives its hello and scans that count up', async () => {
    const watched = watchBridge({ clock: createRealClock(), ports: serialPortFactory });
    watched.bridge.attach({ path: realPort!, mode: 'protocol', baudRate: Number(process.env.TEST_BAUD ?? 115200) });
    await watched.until(() => watched.scans.length >= 3);
    const [a, b, c] = watched.scans;
    expect(b!.sequence).toBe((a!.sequence + 1) >>> 0);
    expect(c!.sequence).toBe((b!.sequence + 1) >>> 0);
    expect(watched.bridge.boards()[0]).toMatchObject({ state: 'live' });
    await watched.bridge.close();
  });
});
