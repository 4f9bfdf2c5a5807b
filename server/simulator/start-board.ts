import { spawn } from 'node:child_process';
import { extname, join } from 'node:path';
import { createInterface } from 'node:readline';
import type { Clock } from '../base/clock.ts';
import type { PortFactory } from '../bridge/port.ts';
import { createBoardOnCable } from './board-on-cable.ts';
import { type HeronBurn, heronBoardId } from './heron.ts';
import { createInProcessPorts } from './in-process-ports.ts';
import type { Action } from './operator.ts';

export interface StartedBoard {
  /** Where to attach it. */
  path: string;
  /** How it hangs on: through the system, or inside this process where the system has no pseudo-terminals. */
  through: 'pseudoTerminal' | 'thisProcess';
  switchOff(): Promise<void>;
}

/** How its lead is called where the system has no pseudo-terminals. */
export const IN_PROCESS_PATH = 'simulated-board';

export interface SimulatedBoardOptions {
  burn: HeronBurn;
  link: string;
  clock: Clock;
  onAction(action: Action): void;
}

interface BoardEvent {
  event: 'plugged' | 'action' | 'unplugged' | 'refused';
  path?: string;
  action?: Action;
}

/** Ports of the system, and beside them the leads of boards in this process. */
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

/** A board in a process of its own on a pseudo-terminal; where there are none, in this one. It begins its burn at once. */
export async function switchOnBoard(
  options: SimulatedBoardOptions,
  plug: ReturnType<typeof portsWithCables>['plug'],
): Promise<StartedBoard> {
  return (await inItsOwnProcess(options)) ?? inThisProcess(options, plug);
}

function inItsOwnProcess({ link, clock, onAction }: SimulatedBoardOptions): Promise<StartedBoard | undefined> {
  // The installed package runs compiled files, the checkout runs these.
  const script = join(import.meta.dirname, `board-process${extname(import.meta.filename)}`);
  const child = spawn(process.execPath, [script, '--burn', 'live', '--link', link, '--boot', String(bootNow())], {
    stdio: ['pipe', 'pipe', 'inherit'],
    env: { ...process.env, STOVEBENCH_TIME_SCALE: String(clock.scale) },
  });
  const gone = new Promise<void>((resolve) => {
    child.on('exit', () => resolve());
    child.on('error', () => resolve());
  });
  // It ends by itself when its input closes, also when this process is killed.
  child.stdin.on('error', () => {});
  const switchOff = async () => {
    child.stdin.end();
    await gone;
  };
  return new Promise((resolve) => {
    void gone.then(() => resolve(undefined));
    createInterface({ input: child.stdout }).on('line', (line) => {
      const { event, path, action } = JSON.parse(line) as BoardEvent;
      if (event === 'action' && action) onAction(action);
      if (event === 'plugged' && path) resolve({ path, through: 'pseudoTerminal', switchOff });
    });
  });
}

function inThisProcess(
  { burn: { scenario, seed, errors }, clock, onAction }: SimulatedBoardOptions,
  plug: ReturnType<typeof portsWithCables>['plug'],
): StartedBoard {
  const path = IN_PROCESS_PATH;
  const settings = { identity: heronBoardId, boot: bootNow() };
  const board = createBoardOnCable({ scenario, seed, errors, clock, onAction, settings });
  board.plugInto(plug(path));
  board.board.switchOn();
  return { path, through: 'thisProcess', switchOff: () => board.switchOff() };
}

/** A real board counts its starts in a memory of its own; this one has none, and the seconds of the wall clock never repeat. */
function bootNow(): number {
  return Math.floor(Date.now() / 1000);
}
