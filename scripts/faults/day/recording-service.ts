/**
 * A service and its four boards in a process of its own, on a clock that moves as fast as the disk takes what the boards send. Started
 * with a `Start`, it follows one `Order` at a time and answers each with a `Report`.
 */
import type { AddressInfo } from 'node:net';
import { monitorEventLoopDelay } from 'node:perf_hooks';
import { buildApp } from '../../../server/app.ts';
import { type Cable, createInProcessPorts } from '../../../server/simulator/in-process-ports.ts';
import { createFakeClock } from '../../../tests/support/fake-clock.ts';
import { BOARDS, DEPTH, PERIOD_MS, startBoard } from './boards.ts';

export interface Start {
  folder: string;
  /** ms since the day began */
  atMs: number;
  /** By how much somebody has set the wall clock. */
  wallAheadMs: number;
}

export type Order =
  /** Goes on to this moment of the day; `dies` there and then. */
  | { do: 'run'; untilMs: number; dies?: true }
  | { do: 'pull' | 'plug' | 'mute' | 'speak'; board: number }
  | { do: 'stepWall'; ms: number }
  | { do: 'stop' };

/** How long the loop was held up since the last report. */
export interface Report {
  port: number;
  longestStallMs: number;
}

const DAWN_UTC_MS = Date.UTC(2026, 4, 2, 4);
const RESOLUTION_MS = 5;
/** The machine had been on for so long when the day began. */
const MACHINE_ON_US = 1e9;

const { folder, atMs, wallAheadMs } = JSON.parse(process.argv[2]!) as Start;
// Boards do not stop with the service: they have scanned for as long as their memory reaches back.
const fromMs = Math.max(0, atMs - DEPTH * PERIOD_MS);
const clock = createFakeClock(DAWN_UTC_MS + fromMs + wallAheadMs, {
  bootId: 'the day',
  us: MACHINE_ON_US + fromMs * 1000,
});
const ports = createInProcessPorts();
const cables = new Map<number, Cable>();
const muted = new Set<number>();
const boards = BOARDS.map((board) =>
  startBoard(board, clock, fromMs, (text) => {
    if (!muted.has(board)) cables.get(board)?.write(text);
  }),
);

function plug(board: number): void {
  const cable = ports.plug(`board-${board}`);
  cable.onData((bytes) => {
    if (!muted.has(board)) boards[board - 1]!.receive(bytes);
  });
  cables.set(board, cable);
}

clock.advance(atMs - fromMs);
for (const board of BOARDS) plug(board);
const { app, resume } = await buildApp({ folder, pageFolder: folder, clock, ports: ports.factory });
resume();
await app.listen({ host: '127.0.0.1', port: 0 });
const { port } = app.server.address() as AddressInfo;
const delay = monitorEventLoopDelay({ resolution: RESOLUTION_MS });
delay.enable();

async function follow(order: Order): Promise<void> {
  switch (order.do) {
    case 'run':
      // In the midst of whatever is under way by then.
      if (order.dies) clock.setTimer(order.untilMs - nowMs(), () => process.kill(process.pid, 'SIGKILL'));
      await clock.advanceAsync(order.untilMs - nowMs());
      return;
    case 'pull':
      await cables.get(order.board)!.unplug();
      cables.delete(order.board);
      return;
    case 'plug':
      plug(order.board);
      return;
    case 'mute':
      muted.add(order.board);
      return;
    case 'speak':
      muted.delete(order.board);
      return;
    case 'stepWall':
      clock.stepWall(order.ms);
      return;
    case 'stop':
      await app.close();
  }
}

const nowMs = () => fromMs + clock.monotonicUs() / 1000;

function report(): void {
  process.send!({ port, longestStallMs: Math.max(0, delay.max / 1e6 - RESOLUTION_MS) } satisfies Report);
  delay.reset();
}

process.on('message', (order: Order) => void follow(order).then(report));
process.on('disconnect', () => process.exit());
report();
