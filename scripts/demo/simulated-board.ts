import { spawn } from 'node:child_process';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import type { PortFactory } from '../../server/bridge/port.ts';
import type { Clock } from '../../server/clock.ts';
import { createBenchBoard } from '../../server/simulator/bench-board.ts';
import { type HeronBurn, heronBoardId } from '../../server/simulator/heron.ts';
import { createInProcessPorts } from '../../server/simulator/in-process-ports.ts';
import type { Action } from '../../server/simulator/operator.ts';

export interface SimulatedBoard {
  /** Where to attach it. */
  path: string;
  /** How it hangs on: through the system, or inside this process where the system has no pseudo-terminals. */
  through: 'pseudoTerminal' | 'thisProcess';
  switchOff(): Promise<void>;
}

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
export function portsWithLeads(system: PortFactory) {
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
  plug: ReturnType<typeof portsWithLeads>['plug'],
): Promise<SimulatedBoard> {
  return (await inItsOwnProcess(options)) ?? inThisProcess(options, plug);
}

function inItsOwnProcess({ link, clock, onAction }: SimulatedBoardOptions): Promise<SimulatedBoard | undefined> {
  const script = join(import.meta.dirname, '..', '..', 'server', 'simulator', 'board-process.ts');
  const child = spawn(process.execPath, [script, '--burn', 'live', '--link', link], {
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
  plug: ReturnType<typeof portsWithLeads>['plug'],
): SimulatedBoard {
  const path = 'simulated-board';
  const board = createBenchBoard({ scenario, seed, errors, clock, onAction, settings: { identity: heronBoardId } });
  board.plugInto(plug(path));
  board.board.switchOn();
  return { path, through: 'thisProcess', switchOff: () => board.switchOff() };
}
