import { spawn } from 'node:child_process';
import { extname, join } from 'node:path';
import { createInterface } from 'node:readline';
import type { Clock } from '../base/clock.ts';
import type { PortFactory } from '../bridge/port.ts';
import { type BoardCommand, isRaking, obeyCommand } from './board-commands.ts';
import { createBoardOnCable, createPracticeBoard } from './board-on-cable.ts';
import { type HeronBurn, heronBoardId } from './heron.ts';
import { createInProcessPorts } from './in-process-ports.ts';
import type { Action } from './operator.ts';
import type { ScaleReadings } from './practising-person.ts';

export interface StartedBoard {
  /** The path to attach. */
  path: string;
  /** How it is connected: through the system, or inside this process where the system has no pseudo-terminals. */
  through: 'pseudoTerminal' | 'thisProcess';
  /** Sends a command to the board or its stove. */
  order(command: BoardCommand): void;
  switchOff(): Promise<void>;
}

/** Path of its cable where the system has no pseudo-terminals. */
export const IN_PROCESS_PATH = 'simulated-board';

export interface SimulatedBoardOptions {
  burn: HeronBurn;
  link: string;
  clock: Clock;
  /** The identity of the board: the Heron's, when omitted. */
  identity?: string;
  /** Called with the actions of the simulated person; without it there is none, and the stove waits for commands. */
  onAction?(action: Action): void;
  /** Called with the scale readings once a command has put out the fire. */
  onRaked?(scales: ScaleReadings): void;
}

interface BoardEvent {
  event: 'plugged' | 'action' | 'raked' | 'unplugged' | 'refused';
  path?: string;
  action?: Action;
  scales?: ScaleReadings;
}

/** Ports of the system, and in addition the cables of boards in this process. */
export function portsWithCables(system: PortFactory) {
  const inside = createInProcessPorts();
  const names = new Set<string>();
  const factory: PortFactory = {
    open: (path, baudRate) => (names.has(path) ? inside.factory : system).open(path, baudRate),
    list: () => system.list(),
  };
  const plug = (path: string) => {
    names.add(path);
    return inside.plug(path);
  };
  return { factory, plug };
}

/**
 * Starts a board in a process of its own on a pseudo-terminal; where there are none, in this one. A simulated person
 * begins at once.
 */
export async function switchOnBoard(
  options: SimulatedBoardOptions,
  plug: ReturnType<typeof portsWithCables>['plug'],
): Promise<StartedBoard> {
  return (await inItsOwnProcess(options)) ?? inThisProcess(options, plug);
}

function inItsOwnProcess(options: SimulatedBoardOptions): Promise<StartedBoard | undefined> {
  const { burn, link, clock, identity = heronBoardId, onAction, onRaked } = options;
  // The installed package runs compiled files, the checkout runs these.
  const script = join(import.meta.dirname, `board-process${extname(import.meta.filename)}`);
  const named = ['--link', link, '--boot', String(bootNow()), '--seed', burn.seed, '--identity', identity];
  const child = spawn(process.execPath, [script, ...named, ...(onAction ? [] : ['--practice'])], {
    stdio: ['pipe', 'pipe', 'inherit'],
    env: { ...process.env, STOVEBENCH_TIME_SCALE: String(clock.scale) },
  });
  const gone = new Promise<void>((resolve) => {
    child.on('exit', () => resolve());
    child.on('error', () => resolve());
  });
  // It ends by itself when its input closes, also when this process is killed.
  child.stdin.on('error', () => {});
  const order = (command: BoardCommand) => void child.stdin.write(`${JSON.stringify(command)}\n`);
  const switchOff = async () => {
    child.stdin.end();
    await gone;
  };
  return new Promise((resolve) => {
    void gone.then(() => resolve(undefined));
    createInterface({ input: child.stdout }).on('line', (line) => {
      const { event, path, action, scales } = JSON.parse(line) as BoardEvent;
      if (event === 'action' && action) onAction?.(action);
      if (event === 'raked' && scales) onRaked?.(scales);
      if (event === 'plugged' && path) resolve({ path, through: 'pseudoTerminal', order, switchOff });
    });
  });
}

function inThisProcess(
  { burn: { scenario, seed, errors }, clock, identity = heronBoardId, onAction, onRaked }: SimulatedBoardOptions,
  plug: ReturnType<typeof portsWithCables>['plug'],
): StartedBoard {
  const path = IN_PROCESS_PATH;
  const common = { scenario, seed, errors, clock, settings: { identity, boot: bootNow() } };
  const practice = onAction ? undefined : createPracticeBoard(common);
  const board = practice ?? createBoardOnCable({ ...common, ...(onAction && { onAction }) });
  board.plugInto(plug(path));
  board.board.switchOn();
  return {
    path,
    through: 'thisProcess',
    order(command) {
      obeyCommand(command, board);
      if (practice && isRaking(command)) onRaked?.(practice.bench.weigh());
    },
    switchOff: () => board.switchOff(),
  };
}

/**
 * A real board counts its starts in non-volatile memory; this one has none, and the seconds of the wall clock never
 * repeat.
 */
function bootNow(): number {
  return Math.floor(Date.now() / 1000);
}
