import { onTestFinished } from 'vitest';
import type { Clock } from '../../server/base/clock.ts';
import { type BoardOnCable, createBoardOnCable } from '../../server/simulator/board-on-cable.ts';
import { heronBoardId } from '../../server/simulator/heron.ts';
import { heronScenario } from '../../server/simulator/heron-setup.ts';
import type { InProcessPorts } from '../../server/simulator/in-process-ports.ts';

/**
 * Number of scans it can send again: fewer than a real board, so that a test need not wait a quarter of an hour to lose
 * some.
 */
const REPEAT_DEPTH = 100;

/** Plugs the Heron's board in, switched on, on a cable inside this process. */
export function plugBenchBoard(
  ports: InProcessPorts,
  clock: Clock,
  path = 'bench',
  identity = heronBoardId,
): BoardOnCable {
  const settings = { identity, repeatDepth: REPEAT_DEPTH };
  const board = createBoardOnCable({ scenario: heronScenario('2', 'M'), seed: path, clock, settings });
  board.plugInto(ports.plug(path));
  board.board.switchOn();
  onTestFinished(() => board.switchOff());
  return board;
}
