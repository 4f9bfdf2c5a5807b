import { describe, expect, it } from 'vitest';
import { createFakeBench } from '../support/fake-bench.ts';
import { ScriptedBoard } from '../support/scripted-board.ts';

const IDENTITY = '01995f3a-7c2e-7d41-9b1e-3f60a2c4d581';
const [FIRST, SECOND] = ['/dev/first', '/dev/second'];

describe('The identity of a board', () => {
  it('is the one that the board itself sends, whatever the name of the port', async () => {
    const bench = createFakeBench();
    const board = new ScriptedBoard({ identity: IDENTITY });
    const device = bench.plug(FIRST, board);
    bench.bridge.attach({ path: FIRST, mode: 'protocol' });
    bench.bridge.attach({ path: SECOND, mode: 'protocol' });
    await bench.clock.advanceAsync(0);
    await bench.scan(board, 3);
    device.unplug();
    await bench.scan(board, 4, 'lost');
    bench.plug(SECOND, board);
    await bench.clock.advanceAsync(5_000);
    board.rest(5_000);
    await bench.scan(board, 1);
    expect(bench.scans.map((scan) => scan.sequence)).toEqual([0, 1, 2, 7, 3, 4, 5, 6]);
    expect(new Set(bench.scans.map((scan) => scan.boardKey))).toEqual(new Set([IDENTITY]));
    expect(bench.gaps).toEqual([]);
    const [first, second] = bench.bridge.boards();
    expect(first!.boardKey).toBeNull();
    expect(second!.boardKey).toBe(IDENTITY);
  });

  it('is followed to another port even while the first has not noticed that its cable is unplugged', async () => {
    const bench = createFakeBench();
    const board = new ScriptedBoard({ identity: IDENTITY });
    bench.plug(FIRST, board);
    bench.bridge.attach({ path: FIRST, mode: 'protocol' });
    await bench.clock.advanceAsync(0);
    await bench.scan(board, 3);
    bench.plug(SECOND, board);
    bench.bridge.attach({ path: SECOND, mode: 'protocol' });
    await bench.scan(board, 12);
    expect(bench.scans.map((scan) => scan.sequence)).toEqual(Array.from({ length: 15 }, (_, i) => i));
    expect(board.identity).toBe(IDENTITY);
  });

  it('is replaced on the second of two boards with the same identity, and no scan is lost or mixed up', async () => {
    const bench = createFakeBench();
    const original = await bench.attachBoard(FIRST, { identity: IDENTITY });
    await bench.scan(original, 2);
    const copy = await bench.attachBoard(SECOND, { identity: IDENTITY });
    copy.scan([1, 1]);
    await bench.scan(original, 1);
    copy.scan([2, 2]);
    await bench.clock.advanceAsync(0);
    expect(original.identity).toBe(IDENTITY);
    expect(copy.identity).not.toBe(IDENTITY);
    const ofCopy = bench.scans.filter((scan) => scan.boardKey === copy.identity);
    expect(ofCopy.map((scan) => scan.counts)).toEqual([
      [1, 1],
      [2, 2],
    ]);
    expect(bench.bridge.boards()[1]!.problem).toMatchObject({ code: 'identity-shared' });
    expect(bench.gaps).toEqual([]);

    // It ends once the copy has sent its own.
    await bench.scan(copy, 40);
    expect(bench.bridge.boards()[1]!.problem).toBeNull();
  });

  it('is not confused when two boards swap their ports', async () => {
    const bench = createFakeBench();
    const a = new ScriptedBoard();
    const b = new ScriptedBoard();
    const devices = [bench.plug(FIRST, a), bench.plug(SECOND, b)];
    bench.bridge.attach({ path: FIRST, mode: 'protocol' });
    bench.bridge.attach({ path: SECOND, mode: 'protocol' });
    await bench.clock.advanceAsync(0);
    a.scan([1]);
    b.scan([2]);
    const [keyOfA, keyOfB] = [a.identity, b.identity];
    for (const device of devices) device.unplug();
    bench.plug(SECOND, a);
    bench.plug(FIRST, b);
    await bench.clock.advanceAsync(500);
    a.scan([1]);
    b.scan([2]);
    await bench.clock.advanceAsync(0);
    expect([a.identity, b.identity]).toEqual([keyOfA, keyOfB]);
    const keysOf = (value: number) =>
      new Set(bench.scans.filter((scan) => scan.counts[0] === value).map((scan) => scan.boardKey));
    expect(keysOf(1)).toEqual(new Set([keyOfA]));
    expect(keysOf(2)).toEqual(new Set([keyOfB]));
  });

  it('is stored by the host for a board that cannot store it, and that is reported', async () => {
    const bench = createFakeBench();
    const board = new ScriptedBoard({ forgetful: true });
    const device = bench.plug(FIRST, board);
    bench.bridge.attach({ path: FIRST, mode: 'protocol', boardKey: IDENTITY });
    await bench.clock.advanceAsync(0);
    await bench.scan(board, 2);
    expect(bench.bridge.boards()[0]).toMatchObject({
      boardKey: IDENTITY,
      identityStored: false,
      problem: { code: 'identity-not-kept' },
    });
    device.unplug();
    await bench.scan(board, 1, 'lost');
    bench.plug(FIRST, board);
    await bench.clock.advanceAsync(1_000);
    board.rest(1_000);
    await bench.scan(board, 1);
    expect(bench.scans.map((scan) => [scan.boardKey, scan.sequence])).toEqual([
      [IDENTITY, 0],
      [IDENTITY, 1],
      [IDENTITY, 3],
      [IDENTITY, 2],
    ]);
  });

  it('does not delay scans for ever: a board that never answers is known by its port', async () => {
    const bench = createFakeBench();
    const board = new ScriptedBoard({ deaf: true });
    bench.plug(FIRST, board);
    bench.bridge.attach({ path: FIRST, mode: 'protocol', boardKey: IDENTITY });
    await bench.clock.advanceAsync(0);
    await bench.scan(board, 3);
    expect(bench.scans).toEqual([]);
    await bench.scan(board, 5);
    expect(bench.scans.map((scan) => scan.sequence)).toEqual([0, 1, 2, 3, 4, 5, 6, 7]);
    expect(bench.scans[0]).toMatchObject({ boardKey: IDENTITY, hostUs: 1_000_000 });
    expect(bench.bridge.boards()[0]!.problem).toMatchObject({ code: 'no-description' });
    await bench.scan(board, 1, 'lost');
    await bench.scan(board, 1);
    // It is not known yet whether it can send that one again.
    await bench.scan(board, 60);
    expect([bench.gaps, bench.bridge.boards()[0]!.counters.missing]).toEqual([[], 1]);
    await bench.bridge.detach(bench.bridge.boards()[0]!.id);
    expect(bench.gaps).toMatchObject([{ missing: 1, reason: 'detached' }]);
  });

  it('that is not known yet when the board is detached loses no scan', async () => {
    const bench = createFakeBench();
    const board = new ScriptedBoard({ deaf: true });
    bench.plug(FIRST, board);
    bench.bridge.attach({ path: FIRST, mode: 'protocol' });
    await bench.clock.advanceAsync(0);
    await bench.scan(board, 2);
    await bench.bridge.close();
    expect(bench.scans).toHaveLength(2);
  });
});

describe('Several boards', () => {
  it('are read in parallel, each with its own numbers', async () => {
    const bench = createFakeBench();
    const boards = [];
    for (let i = 0; i < 4; i++)
      boards.push(await bench.attachBoard(`/dev/board${i}`, { boot: i + 1, channels: i + 1 }));
    for (let round = 0; round < 5; round++) {
      await bench.clock.advanceAsync(1000);
      for (const board of boards) board.scan();
    }
    for (const [i, board] of boards.entries()) {
      const own = bench.scans.filter((scan) => scan.boardKey === board.identity);
      expect(own.map((scan) => scan.sequence)).toEqual([0, 1, 2, 3, 4]);
      expect(own.every((scan) => scan.boot === i + 1 && scan.counts.length === i + 1)).toBe(true);
    }
  });
});
