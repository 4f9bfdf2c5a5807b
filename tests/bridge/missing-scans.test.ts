import { describe, expect, it } from 'vitest';
import { decodeLine, encodeLine, type ScanMessage } from '../../firmware-protocol/lines.ts';
import { createFakeBench } from '../support/fake-bench.ts';
import { ScriptedBoard } from '../support/scripted-board.ts';

const PATH = '/dev/fake';
const sequencesOf = (scans: readonly { sequence: number }[]) => scans.map((scan) => scan.sequence);

describe('Scans that did not arrive', () => {
  it('are fetched again, each with the time at which it was read', async () => {
    const bench = createFakeBench();
    const board = await bench.attachBoard(PATH);
    await bench.scan(board, 10);
    await bench.scan(board, 4, 'lost');
    await bench.scan(board, 1);
    expect(sequencesOf(bench.scans)).toEqual([0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 14, 10, 11, 12, 13]);
    for (const scan of bench.scans) expect(scan.hostUs).toBe((scan.sequence + 1) * 1_000_000);
    expect(bench.scans.at(-1)).toMatchObject({ repeated: true, arrivalUs: 15_000_000 });
    expect(bench.gaps).toEqual([]);
  });

  it('become a gap with its ends, its size and its cause when the board no longer has them', async () => {
    const bench = createFakeBench();
    const board = await bench.attachBoard(PATH, { repeatDepth: 3 });
    await bench.scan(board, 2);
    await bench.scan(board, 6, 'lost');
    await bench.scan(board, 1);
    expect(sequencesOf(bench.scans)).toEqual([0, 1, 8, 6, 7]);
    expect(bench.gaps).toEqual([
      {
        boardKey: board.identity,
        from: { boot: 1, sequence: 1, hostUs: 2_000_000 },
        to: { boot: 1, sequence: 6, hostUs: 7_000_000 },
        missing: 4,
        cause: 'silent',
        reason: 'noLongerHeld',
      },
    ]);
    expect(bench.bridge.boards()[0]!.counters).toMatchObject({ missing: 6, recovered: 2 });
  });

  it('become a gap at once when the board stores nothing', async () => {
    const bench = createFakeBench();
    const board = await bench.attachBoard(PATH, { repeatDepth: 0 });
    await bench.scan(board, 1);
    await bench.scan(board, 2, 'lost');
    await bench.scan(board, 1);
    expect(bench.gaps).toMatchObject([{ missing: 2, cause: 'lost', reason: 'cannotRepeat' }]);
    expect(board.commands.map((command) => command.kind)).not.toContain('resend');
  });

  it('are requested again when the answer itself is damaged', async () => {
    const bench = createFakeBench();
    const board = await bench.attachBoard(PATH);
    await bench.scan(board, 1);
    await bench.scan(board, 3, 'lost');
    board.damagedRepeats = 2;
    await bench.scan(board, 1);
    expect(sequencesOf(bench.scans).toSorted((a, b) => a - b)).toEqual([0, 1, 2, 3, 4]);
    expect(board.commands.filter((command) => command.kind === 'resend')).toHaveLength(2);
    expect(bench.gaps).toEqual([]);
  });

  it('are requested again later when the board is busy', async () => {
    const bench = createFakeBench();
    const board = await bench.attachBoard(PATH);
    await bench.scan(board, 1);
    await bench.scan(board, 1, 'lost');
    board.busy = 1;
    await bench.scan(board, 1);
    expect(sequencesOf(bench.scans)).toEqual([0, 2]);
    await bench.scan(board, 3);
    expect(sequencesOf(bench.scans)).toContain(1);
  });

  it('are requested again later when the board does not answer for a while', async () => {
    const bench = createFakeBench();
    const board = await bench.attachBoard(PATH);
    await bench.scan(board, 1);
    board.deaf = true;
    await bench.scan(board, 2, 'lost');
    await bench.scan(board, 30);
    expect(bench.gaps).toEqual([]);
    board.deaf = false;
    await bench.scan(board, 20);
    expect(bench.gaps).toEqual([]);
    expect(sequencesOf(bench.scans)).toEqual(expect.arrayContaining([1, 2]));
  });

  it('are given up, with a gap, when a board that does not answer can no longer have them', async () => {
    const bench = createFakeBench();
    const board = await bench.attachBoard(PATH, { repeatDepth: 20 });
    await bench.scan(board, 1);
    board.deaf = true;
    await bench.scan(board, 2, 'lost');
    await bench.scan(board, 60);
    expect(bench.gaps).toMatchObject([{ missing: 2, reason: 'noAnswer' }]);
    expect(sequencesOf(bench.scans)).toEqual([0, ...Array.from({ length: 60 }, (_, i) => i + 3)]);
  });

  it('in a long outage are fetched in portions, the oldest first, before the board overwrites them', async () => {
    const bench = createFakeBench();
    const board = new ScriptedBoard({ repeatDepth: 3600 });
    const device = bench.plug(PATH, board);
    bench.bridge.attach({ path: PATH, mode: 'protocol' });
    await bench.scan(board, 1);
    device.unplug();
    for (let i = 0; i < 1300; i++) board.scan(undefined, 'lost');
    await bench.clock.advanceAsync(1_300_000);
    bench.plug(PATH, board);
    await bench.clock.advanceAsync(6_000);
    board.rest(6_000);
    await bench.scan(board, 4);
    const resends = board.commands.filter((command) => command.kind === 'resend');
    expect(resends.map(({ from, to }) => [from, to])).toEqual([
      [1, 512],
      [513, 1024],
      [1025, 1300],
    ]);
    expect(bench.bridge.boards()[0]!.counters).toMatchObject({ missing: 1300, recovered: 1300 });
    expect(new Set(sequencesOf(bench.scans)).size).toBe(1305);
    expect(bench.scans).toHaveLength(1305);
    for (const scan of bench.scans.filter((each) => each.sequence <= 1300)) {
      expect(Math.abs(scan.hostUs - (scan.sequence + 1) * 1e6)).toBeLessThan(1000);
    }
  });

  it('become gaps when the board is detached before they arrive', async () => {
    const bench = createFakeBench();
    const board = await bench.attachBoard(PATH);
    await bench.scan(board, 1);
    board.deaf = true;
    await bench.scan(board, 2, 'lost');
    await bench.scan(board, 1);
    await bench.bridge.detach(bench.bridge.boards()[0]!.id);
    expect(bench.gaps).toMatchObject([{ missing: 2, reason: 'detached' }]);
  });

  it('do not become gaps when the service stops: its next run fetches them', async () => {
    const bench = createFakeBench();
    const board = await bench.attachBoard(PATH);
    await bench.scan(board, 1);
    board.deaf = true;
    await bench.scan(board, 2, 'lost');
    await bench.scan(board, 1);
    await bench.bridge.close();
    expect(bench.gaps).toEqual([]);
  });

  it('have as their cause the unplugging, silence, or the sleep of this machine', async () => {
    const bench = createFakeBench();
    const board = await bench.attachBoard(PATH, { repeatDepth: 0 });
    await bench.scan(board, 2);
    const cause = async () => {
      await bench.scan(board, 1);
      return bench.gaps.at(-1)!.cause;
    };
    await bench.scan(board, 2, 'lost');
    expect(await cause()).toBe('lost');

    await bench.scan(board, 8, 'lost');
    expect(bench.bridge.boards()[0]!.state).toBe('silent');
    expect(await cause()).toBe('silent');

    for (let i = 0; i < 60; i++) board.scan(undefined, 'lost');
    bench.clock.leap(60_000);
    expect(await cause()).toBe('hostAsleep');
  });
});

describe('Scans that arrive twice', () => {
  it('are published once', async () => {
    const bench = createFakeBench();
    const board = await bench.attachBoard(PATH);
    await bench.scan(board, 2);
    const scan = board.scan();
    board.send(scan);
    board.send({ ...scan, repeated: true });
    await bench.scan(board, 1);
    expect(sequencesOf(bench.scans)).toEqual([0, 1, 2, 3]);
    expect(bench.bridge.boards()[0]!.counters).toMatchObject({ duplicates: 2, missing: 0, resets: 0 });
  });

  it('because of a resend typed in a terminal change nothing', async () => {
    const bench = createFakeBench();
    const board = await bench.attachBoard(PATH);
    await bench.scan(board, 5);
    for (let sequence = 0; sequence < 5; sequence++) {
      const { boot, deviceUptimeMs, counts } = bench.scans[sequence]!;
      const readings = counts as number[];
      board.send({ kind: 'scan', repeated: true, boot, sequence, uptimeMs: deviceUptimeMs, readings });
    }
    expect(bench.scans).toHaveLength(5);
  });
});

describe('Numbers that wrap', () => {
  it('continue: the sequence after 4294967295 is 0, and missing scans across it are fetched', async () => {
    const bench = createFakeBench();
    const board = await bench.attachBoard(PATH, { firstSequence: 4294967293, firstUptimeMs: 4294960000 });
    await bench.scan(board, 2);
    await bench.scan(board, 3, 'lost');
    await bench.scan(board, 6);
    expect(sequencesOf(bench.scans)).toEqual([4294967293, 4294967294, 2, 4294967295, 0, 1, 3, 4, 5, 6, 7]);
    expect(board.commands.at(-1)).toEqual({ kind: 'resend', boot: 1, from: 4294967295, to: 1 });
    const inOrder = bench.scans.map((scan) => scan.hostUs).toSorted((a, b) => a - b);
    expect(inOrder).toEqual(Array.from({ length: 11 }, (_, i) => (i + 1) * 1_000_000));
    expect(bench.scans.some((scan) => scan.deviceUptimeMs < 10_000)).toBe(true);
  });
});

describe('A board that restarts', () => {
  it('begins a new boot; its earlier scans are fetched, and the gap ends with the first of them', async () => {
    const bench = createFakeBench();
    const board = await bench.attachBoard(PATH);
    await bench.scan(board, 3);
    board.reset();
    await bench.scan(board, 2, 'lost');
    await bench.scan(board, 1);
    expect(bench.scans.slice(3).map((scan) => [scan.boot, scan.sequence])).toEqual([
      [2, 2],
      [2, 0],
      [2, 1],
    ]);
    expect(bench.gaps).toEqual([
      {
        boardKey: board.identity,
        from: { boot: 1, sequence: 2, hostUs: 3_000_000 },
        to: { boot: 2, sequence: 0, hostUs: 4_000_000 },
        missing: null,
        cause: 'reset',
        reason: 'noLongerHeld',
      },
    ]);
    expect(bench.bridge.boards()[0]!.counters.resets).toBe(1);
  });

  it('without a new boot number is recognised by its scans, and none of them counts as a copy', async () => {
    const bench = createFakeBench();
    const board = await bench.attachBoard(PATH);
    await bench.scan(board, 5);
    board.reset(1);
    await bench.clock.advanceAsync(1000);
    board.scan([7, 7]);
    board.scan([8, 8]);
    await bench.clock.advanceAsync(0);
    expect(bench.scans.slice(5)).toMatchObject([
      { boot: 1 + 2 ** 32, sequence: 0, counts: [7, 7] },
      { boot: 1 + 2 ** 32, sequence: 1, counts: [8, 8] },
    ]);
    expect(bench.gaps).toMatchObject([{ from: { boot: 1, sequence: 4 }, missing: null, cause: 'reset' }]);
    expect(bench.bridge.boards()[0]!.counters.duplicates).toBe(0);
  });

  it('while its scans are missing loses them for good, and both gaps are published', async () => {
    const bench = createFakeBench();
    const board = await bench.attachBoard(PATH);
    await bench.scan(board, 2);
    board.deaf = true;
    await bench.scan(board, 2, 'lost');
    await bench.scan(board, 1);
    board.deaf = false;
    board.reset();
    await bench.scan(board, 4);
    expect(bench.gaps).toMatchObject([
      { from: { boot: 1, sequence: 4 }, to: { boot: 2, sequence: 0 }, missing: null },
      { from: { boot: 1, sequence: 1 }, to: { boot: 1, sequence: 4 }, missing: 2, reason: 'noLongerHeld' },
    ]);
  });
});

describe('A service that restarts', () => {
  const last = { boot: 4, sequence: 9, deviceUptimeMs: 10_180 };
  const knownScansOf = () => ({ last, clock: 'right' as const, holes: [] });

  it('fetches scans that were missing before it stopped as well', async () => {
    const identity = '01995f3a-7c2e-7d41-9b1e-3f60a2c4d581';
    const hole = { boot: 4, from: 3, to: 5, cause: 'unplugged' as const, beforeMs: 3_180, afterMs: 7_180 };
    const bench = createFakeBench({ knownScansOf: () => ({ ...knownScansOf(), holes: [hole] }) });
    const board = new ScriptedBoard({ identity, boot: 4, firstUptimeMs: 1180 });
    for (let i = 0; i < 10; i++) board.scan(undefined, 'lost');
    bench.plug(PATH, board);
    bench.bridge.attach({ path: PATH, mode: 'protocol' });
    await bench.scan(board, 1);
    expect(sequencesOf(bench.scans)).toEqual([3, 4, 5, 10]);
    expect(bench.gaps).toEqual([]);
  });

  it('fetches scans made while it was stopped', async () => {
    const identity = '01995f3a-7c2e-7d41-9b1e-3f60a2c4d581';
    const bench = createFakeBench({ knownScansOf });
    const board = await bench.attachBoard(PATH, { identity, boot: 4, repeatDepth: 5, firstUptimeMs: 1180 });
    for (let i = 0; i < 20; i++) board.scan(undefined, 'lost');
    await bench.scan(board, 1);
    expect(sequencesOf(bench.scans)).toEqual([20, 16, 17, 18, 19]);
    expect(bench.gaps).toMatchObject([
      {
        from: { boot: 4, sequence: 9 },
        to: { boot: 4, sequence: 16 },
        missing: 6,
        cause: 'serviceStopped',
        reason: 'noLongerHeld',
      },
    ]);
  });

  it('marks the gap when the board was restarted meanwhile', async () => {
    const identity = '01995f3a-7c2e-7d41-9b1e-3f60a2c4d581';
    const bench = createFakeBench({ knownScansOf });
    const board = await bench.attachBoard(PATH, { identity, boot: 5 });
    await bench.scan(board, 2);
    expect(bench.gaps).toMatchObject([
      {
        from: { boot: 4, sequence: 9, hostUs: null },
        to: { boot: 5, sequence: 0 },
        missing: null,
        cause: 'serviceStopped',
      },
    ]);
  });

  it('does not request earlier scans of a board that is new to it', async () => {
    const bench = createFakeBench();
    const board = await bench.attachBoard(PATH, { firstSequence: 500 });
    await bench.scan(board, 3);
    expect(bench.gaps).toEqual([]);
    expect(board.commands.map((command) => command.kind)).not.toContain('resend');
  });
});

describe('The order of times', () => {
  it('rises from scan to scan while the wall clock is set back and forth', async () => {
    const bench = createFakeBench();
    const board = await bench.attachBoard(PATH);
    for (const step of [3_600_000, -7_200_000, 5_000]) {
      await bench.scan(board, 3);
      bench.clock.stepWall(step);
    }
    await bench.scan(board, 3);
    expect(bench.scans.map((scan) => scan.hostUs)).toEqual(Array.from({ length: 12 }, (_, i) => (i + 1) * 1_000_000));
  });

  it('is preserved for lines that waited and arrived in one chunk', async () => {
    const bench = createFakeBench();
    const device = bench.ports.plug(PATH);
    const board = new ScriptedBoard().connect(device);
    bench.bridge.attach({ path: PATH, mode: 'protocol' });
    await bench.clock.advanceAsync(0);
    const waiting: ScanMessage[] = [];
    for (let i = 0; i < 5; i++) {
      await bench.clock.advanceAsync(400);
      waiting.push(board.scan(undefined, 'lost'));
      board.rest(-600);
    }
    device.write(waiting.map((scan) => `${encodeLine(scan)}\n`).join(''));
    expect(bench.scans.map((scan) => scan.hostUs)).toEqual([400_000, 800_000, 1_200_000, 1_600_000, 2_000_000]);
    expect(bench.scans.every((scan) => scan.arrivalUs === 2_000_000)).toBe(true);
    expect(decodeLine(encodeLine(waiting[0]!))).toEqual(waiting[0]);
  });
});
