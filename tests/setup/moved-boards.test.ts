import { expect, onTestFinished, test } from 'vitest';
import type { BoardState } from '../../server/bridge/bridge.ts';
import { followMovedBoards } from '../../server/setup/moved-boards.ts';
import { createFakeBench } from '../support/fake-bench.ts';
import { ScriptedBoard } from '../support/scripted-board.ts';

const identity = '01995f3a-7c2e-7d41-9b1e-3f60a2c4d581';
const before = '/dev/ttyUSB0';
const after = '/dev/ttyUSB1';

/** Makes a board known at one path, and a bench that searches other ports once it is gone. */
async function missedBoard() {
  const bench = createFakeBench();
  const { clock, bridge, ports } = bench;
  const moves: [from: string, to: string][] = [];
  const list = (...paths: string[]) =>
    ports.listing(
      paths.map((path) => ({
        path,
        stablePath: null,
        manufacturer: null,
        serialNumber: null,
        vendorId: null,
        productId: null,
      })),
    );
  const follower = followMovedBoards({
    clock,
    bridge,
    isNeeded: () => true,
    keyOf: ({ boardKey, path }: BoardState) => boardKey ?? (path === before ? identity : undefined),
    onMoved(from, to) {
      moves.push([from.path, to.path]);
      void bridge.detach(from.id);
    },
  });
  onTestFinished(() => follower.close());
  const board = new ScriptedBoard({ identity });
  list(before);
  const cable = bench.plug(before, board);
  bridge.attach({ path: before, mode: 'protocol' });
  await clock.advanceAsync(0);
  board.introduce();
  await bench.scan(board, 5);
  await clock.advanceAsync(5000);
  cable.unplug();
  list();
  await clock.advanceAsync(5000);
  const states = () => bridge.boards().map(({ path, state }) => [path, state]);
  return { ...bench, board, moves, list, states };
}

test('a board stays on its new port, though its old one is being reopened when it sends its hello', async () => {
  const { clock, ports, scan, board, moves, list, states } = await missedBoard();
  const device = ports.plug(after);
  list(after);
  await clock.advanceAsync(2000);
  ports.hang(before, true);
  while (!states().some(([path, state]) => path === before && state === 'opening')) await clock.advanceAsync(100);
  expect(states()).toContainEqual([after, expect.anything()]);
  board.connect(device);
  await scan(board, 3);
  expect(moves).toEqual([[before, after]]);
  await scan(board, 60);
  expect([moves.length, states()]).toEqual([1, [[after, 'live']]]);
});

test('a board that leaves a port before it has sent its hello is found on the next one within seconds', async () => {
  const { clock, ports, scan, board, moves, list } = await missedBoard();
  const passing = ports.plug(after);
  list(after);
  await clock.advanceAsync(3000);
  passing.unplug();
  const last = '/dev/ttyUSB2';
  board.connect(ports.plug(last));
  list(last);
  await scan(board, 8);
  expect(moves).toEqual([[before, last]]);
});

test('a silent port is tried again later: its board may only have been slow', async () => {
  const { clock, ports, scan, board, moves, list } = await missedBoard();
  const device = ports.plug(after);
  list(after);
  await clock.advanceAsync(40_000);
  expect(moves).toEqual([]);
  board.connect(device);
  await scan(board, 60);
  expect(moves).toEqual([[before, after]]);
});

test('the port of another board is opened once, and not again', async () => {
  const { clock, plug, ports, moves, list } = await missedBoard();
  plug(after, new ScriptedBoard({ identity: '01995f3a-7c2e-7d41-9b1e-3f60a2c4d582' }));
  list(after);
  await clock.advanceAsync(600_000);
  expect([moves, ports.tries(after)]).toEqual([[], 1]);
});
