/** A board on a cable that can be unplugged and plugged in again, with the simulated bench behind its terminals. */
import { createRandom } from '../../shared/statistics/random.ts';
import type { Clock } from '../base/clock.ts';
import type { Cable } from './in-process-ports.ts';
import type { MeasurementErrors } from './measurement-errors.ts';
import type { Action } from './operator.ts';
import { createPracticeStove, type PracticeStove } from './practice-stove.ts';
import { type BoardSettings, createSimulatedBoard, type SimulatedBoard } from './protocol-board.ts';
import type { Scenario } from './scenario.ts';
import { createSimulatedSetup, type SimulatedSetup } from './simulated-setup.ts';

export interface BoardOnCableOptions {
  scenario: Scenario;
  seed: number | string;
  errors?: MeasurementErrors;
  clock: Clock;
  onAction?: (action: Action) => void;
  settings?: Partial<Omit<BoardSettings, 'channels'>>;
}

export interface BoardOnCable<S = SimulatedSetup> {
  readonly board: SimulatedBoard;
  readonly bench: S;
  plugInto(cable: Cable): void;
  /** Unplugs the cable; the board continues to measure. */
  unplug(): Promise<void>;
  switchOff(): Promise<void>;
}

/** Scans that a 32-bit board stores to send again: a quarter of an hour at one a second. */
const REPEAT_DEPTH = 900;

/** Creates a board, not yet switched on: `board.switchOn()` starts the burn. */
export function createBoardOnCable(options: BoardOnCableOptions): BoardOnCable {
  const { scenario, seed, errors, onAction = () => {} } = options;
  return boardAt(createSimulatedSetup(scenario, seed, onAction, errors), options);
}

/** The same at a stove that waits for the marks of a person. */
export function createPracticeBoard(options: Omit<BoardOnCableOptions, 'onAction'>): BoardOnCable<PracticeStove> {
  const { scenario, seed, errors } = options;
  return boardAt(createPracticeStove(scenario, seed, errors), options);
}

function boardAt<S extends SimulatedSetup>(setup: S, options: BoardOnCableOptions): BoardOnCable<S> {
  const { scenario, seed, clock } = options;
  let cable: Cable | undefined;
  const settings: BoardSettings = {
    identity: null,
    name: 'simulated-bench',
    firmware: 'simulator-1',
    repeatDepth: REPEAT_DEPTH,
    periodMs: scenario.timing.readingEveryS * 1000,
    uptimeMs: scenario.timing.boardUptimeMs,
    channels: scenario.channels,
    ...options.settings,
  };
  const board = createSimulatedBoard(settings, setup, clock, createRandom(`${seed}/wire`), (text) => {
    cable?.write(text);
  });

  async function unplug() {
    const pulled = cable;
    cable = undefined;
    await pulled?.unplug();
  }

  return {
    board,
    bench: setup,
    plugInto(next) {
      cable = next;
      next.onData((bytes) => {
        if (cable === next) board.receive(bytes);
      });
    },
    unplug,
    async switchOff() {
      board.switchOff();
      await unplug();
    },
  };
}
