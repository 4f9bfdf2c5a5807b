import { describe, expect, it } from 'vitest';
import { createFakeBench } from '../support/fake-bench.ts';
import { flushPromises } from '../support/fake-clock.ts';
import { ScriptedBoard } from '../support/scripted-board.ts';

const PATH = '/dev/fake';
const uart = (seed: number) => Uint8Array.from({ length: 400 }, (_, i) => ((i * 7919 + seed * 104729) % 251) | 0x80);

describe('A port that will not open', () => {
  it('is retried until it does, without a time limit, and no failure is unhandled', async () => {
    const unhandled: unknown[] = [];
    const note = (reason: unknown) => unhandled.push(reason);
    process.on('unhandledRejection', note);
    const bench = createFakeBench();
    const board = await bench.attachBoard(PATH);
    await bench.scan(board, 3);
    bench.plug(PATH, board).unplug();
    await bench.scan(board, 1);
    for (const raw of ['Error: No such file or directory, cannot open /dev/fake', 'Error Resource busy', 'weird']) {
      bench.ports.refuse(PATH, raw);
      await bench.clock.advanceAsync(400_000);
    }
    await flushPromises();
    process.off('unhandledRejection', note);
    expect(unhandled).toEqual([]);
    expect(bench.bridge.boards()[0]!.state).toBe('lost');
    expect(bench.ports.tries(PATH)).toBeGreaterThan(100);
    bench.ports.refuse(PATH, null);
    bench.plug(PATH, board);
    await bench.clock.advanceAsync(6_000);
    await bench.scan(board, 1);
    expect(bench.bridge.boards()[0]).toMatchObject({ state: 'live', problem: null });
  });

  it.each([
    ['Error: Permission denied, cannot open /dev/fake', 'permission-denied'],
    ['Error Resource temporarily unavailable Cannot lock port', 'port-busy'],
    ['Error: No such file or directory, cannot open /dev/fake', 'port-missing'],
    ['Opening COM4: Unknown error code 31', 'port-unknown'],
  ])('with "%s" is reported as %s, with the system’s own message', async (raw, code) => {
    const bench = createFakeBench();
    bench.ports.refuse(PATH, raw);
    const { id } = bench.bridge.attach({ path: PATH, mode: 'protocol' });
    const state = await bench.bridge.whenIdentified(id);
    expect(state).toMatchObject({ state: 'searching', problem: { code, raw } });
  });

  it('and does not fail either is given up after a while and retried', async () => {
    const bench = createFakeBench();
    bench.ports.hang(PATH, true);
    bench.bridge.attach({ path: PATH, mode: 'protocol' });
    await bench.clock.advanceAsync(9_000);
    expect(bench.bridge.boards()[0]!.state).toBe('opening');
    await bench.clock.advanceAsync(2_000);
    bench.ports.hang(PATH, false);
    bench.plug(PATH, new ScriptedBoard());
    await bench.clock.advanceAsync(12_000);
    expect(bench.bridge.boards()[0]!.state).toBe('live');
  });
});

describe('A board that sends nothing', () => {
  it('from the start is reported as silent, with the speed to check, and gets a command again', async () => {
    const bench = createFakeBench();
    const board = new ScriptedBoard({ deaf: true });
    bench.plug(PATH, board);
    bench.bridge.attach({ path: PATH, mode: 'protocol', baudRate: 57600 });
    await bench.clock.advanceAsync(5_000);
    expect(bench.bridge.boards()[0]).toMatchObject({ state: 'waiting', problem: { code: 'board-silent' } });
    expect(bench.bridge.boards()[0]!.problem!.params).toEqual({ path: PATH, baudRate: 57600 });
    await bench.clock.advanceAsync(120_000);
    expect(bench.ports.speeds(PATH).every((speed) => speed === 57600)).toBe(true);
    expect(bench.ports.tries(PATH)).toBeGreaterThan(1);
    board.deaf = false;
    await bench.clock.advanceAsync(10_000);
    expect(bench.bridge.boards()[0]).toMatchObject({ state: 'live', problem: null });
  });

  it('any more, without any error, gets a command and then its port is reopened', async () => {
    const bench = createFakeBench();
    const board = await bench.attachBoard(PATH);
    await bench.scan(board, 3);
    await bench.clock.advanceAsync(4_900);
    expect(bench.bridge.boards()[0]!.state).toBe('live');
    board.deaf = true;
    await bench.clock.advanceAsync(200);
    expect(bench.bridge.boards()[0]).toMatchObject({ state: 'silent', problem: { code: 'board-silent' } });
    await bench.clock.advanceAsync(16_000);
    expect(bench.ports.tries(PATH)).toBe(2);
  });

  it('but answers does not count as a board that measures', async () => {
    const bench = createFakeBench();
    const board = await bench.attachBoard(PATH);
    await bench.scan(board, 3);
    await bench.clock.advanceAsync(30_000);
    expect(board.commands.filter((command) => command.kind === 'describe').length).toBeGreaterThan(1);
    expect(bench.ports.tries(PATH)).toBeGreaterThan(1);
  });

  it('for the length of its period is not silent', async () => {
    const bench = createFakeBench();
    await bench.attachBoard(PATH, { periodMs: 60_000 });
    await bench.clock.advanceAsync(290_000);
    expect(bench.bridge.boards()[0]).toMatchObject({ state: 'live', problem: null });
  });
});

describe('Bytes that are not messages', () => {
  it('and not text are reported as a wrong speed', async () => {
    const bench = createFakeBench();
    const device = bench.ports.plug(PATH);
    bench.bridge.attach({ path: PATH, mode: 'protocol', baudRate: 9600 });
    for (let i = 0; i < 5; i++) {
      await bench.clock.advanceAsync(1_000);
      device.write(uart(i));
    }
    await bench.clock.advanceAsync(100);
    expect(bench.bridge.boards()[0]).toMatchObject({ state: 'waiting', problem: { code: 'wrong-speed' } });
    expect(bench.bridge.boards()[0]!.problem!.params).toMatchObject({ baudRate: 9600 });
  });

  it('but text are reported as another kind of board, with its lines', async () => {
    const bench = createFakeBench();
    const device = bench.ports.plug(PATH);
    bench.bridge.attach({ path: PATH, mode: 'protocol' });
    await bench.clock.advanceAsync(0);
    for (let i = 0; i < 6; i++) {
      device.write(`${20 + i}.5,${30 + i}.25\r\n`);
      await bench.clock.advanceAsync(1_000);
    }
    const state = bench.bridge.boards()[0]!;
    expect(state.problem).toMatchObject({ code: 'not-protocol' });
    expect(state.recentLines.slice(0, 2)).toEqual(['21.5,31.25', '22.5,32.25']);
  });

  it('but of a later protocol are reported as that', async () => {
    const bench = createFakeBench();
    const device = bench.ports.plug(PATH);
    bench.bridge.attach({ path: PATH, mode: 'protocol' });
    await bench.clock.advanceAsync(0);
    const { sealLine } = await import('../../firmware-protocol/lines.ts');
    device.write(`\n${sealLine('hello protocol=2 id=none')}\n`);
    await bench.clock.advanceAsync(5_100);
    expect(bench.bridge.boards()[0]!.problem).toMatchObject({ code: 'newer-protocol' });
  });

  it('at the start of a board are start-up text, which is counted and changes nothing', async () => {
    const bench = createFakeBench();
    const device = bench.ports.plug(PATH);
    const board = new ScriptedBoard({ deaf: true }).connect(device);
    bench.bridge.attach({ path: PATH, mode: 'protocol' });
    await bench.clock.advanceAsync(0);
    device.write(uart(1));
    device.write('\r\nets Jul 29 2019 12:21:46\r\nrst:0x1 (POWERON_RESET)\r\n');
    board.deaf = false;
    board.introduce();
    await bench.scan(board, 2);
    const state = bench.bridge.boards()[0]!;
    expect(state).toMatchObject({ state: 'live', problem: null });
    expect(bench.scans).toHaveLength(2);
    expect(state.counters).toMatchObject({ badLines: 2, badChecksum: 0 });
    expect(state.counters.discardedBytes).toBeGreaterThan(400);
  });
});

describe('Commands', () => {
  it('to a board that does not answer end with that error, after three tries', async () => {
    const bench = createFakeBench();
    const board = await bench.attachBoard(PATH);
    await bench.scan(board, 1);
    const { id } = bench.bridge.boards()[0]!;
    board.deaf = true;
    const answer = bench.bridge.blink(id);
    await bench.scan(board, 7);
    expect(await answer).toEqual({ kind: 'noAnswer' });
  });

  it('to a board that is not connected end at once', async () => {
    const bench = createFakeBench();
    const { id } = bench.bridge.attach({ path: PATH, mode: 'protocol' });
    expect(await bench.bridge.blink(id)).toEqual({ kind: 'notConnected' });
    expect(await bench.bridge.blink('nobody')).toBeNull();
  });

  it('end when the cable is unplugged meanwhile', async () => {
    const bench = createFakeBench();
    const board = new ScriptedBoard();
    const device = bench.plug(PATH, board);
    const { id } = bench.bridge.attach({ path: PATH, mode: 'protocol' });
    await bench.clock.advanceAsync(0);
    board.deaf = true;
    const answer = bench.bridge.setPeriod(id, 500);
    device.unplug();
    expect(await answer).toEqual({ kind: 'notConnected' });
  });
});

describe('A bridge that is closed', () => {
  it('leaves no timer behind', async () => {
    const bench = createFakeBench();
    const board = await bench.attachBoard(PATH);
    await bench.scan(board, 2);
    await bench.bridge.close();
    await bench.clock.advanceAsync(0);
    expect(bench.clock.pendingTimers()).toBe(0);
  });

  it('while a port is opening closes it as soon as it is open', async () => {
    const bench = createFakeBench();
    bench.plug(PATH, new ScriptedBoard());
    bench.bridge.attach({ path: PATH, mode: 'protocol' });
    await bench.bridge.close();
    await flushPromises();
    const port = await bench.ports.factory.open(PATH, 115200);
    await port.close();
    expect(bench.bridge.boards()).toEqual([]);
  });
});

describe('Attaching a port again', () => {
  it('with the same settings changes nothing', async () => {
    const bench = createFakeBench();
    await bench.attachBoard(PATH);
    const before = bench.bridge.boards()[0]!;
    expect(bench.bridge.attach({ path: PATH, mode: 'protocol' }).id).toBe(before.id);
  });

  it('with another speed restarts at that speed, without finding its own port busy', async () => {
    const bench = createFakeBench();
    await bench.attachBoard(PATH);
    bench.bridge.attach({ path: PATH, mode: 'protocol', baudRate: 9600 });
    await bench.clock.advanceAsync(0);
    expect(bench.bridge.boards()).toHaveLength(1);
    expect(bench.bridge.boards()[0]).toMatchObject({ state: 'live', baudRate: 9600, problem: null });
    expect(bench.ports.speeds(PATH)).toEqual([115200, 9600]);
  });
});
