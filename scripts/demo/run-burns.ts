import type { Clock } from '../../server/base/clock.ts';
import { type HeronBurn, heronLiveBurn } from '../../server/simulator/heron.ts';
import type { Action } from '../../server/simulator/operator.ts';
import type { SimulatedBoardOptions, StartedBoard } from '../../server/simulator/start-board.ts';
import { createLiveBurn } from './live-burn.ts';

/** Time for whoever looks on to read what came of a burn. */
const REST_MS = 20_000;

export interface RunBurnsOptions {
  /** Of the service. */
  address: string;
  clock: Clock;
  /** From one burn to the next, of the person who looks on. */
  restMs?: number;
  switchOn(options: Pick<SimulatedBoardOptions, 'burn' | 'onAction'>): Promise<StartedBoard>;
}

/** Burns one after another on the simulated board, each on a cold stove, until it is told to stop. */
export function runBurns({ address, clock, restMs = REST_MS, switchOn }: RunBurnsOptions): {
  /** The first one records. */
  begun: Promise<void>;
  /** Nothing half done stays behind. */
  stop(): Promise<void>;
} {
  let turn = 0;
  let isStopped = false;
  let cancelRest = () => {};
  let switchOff = async () => {};
  let abandon = async () => {};
  let going = next();

  async function next(): Promise<void> {
    if (isStopped) return;
    turn += 1;
    const burn: HeronBurn = { ...heronLiveBurn(clock.wallMs()), seed: `Heron live burn ${turn}` };
    const live = createLiveBurn(address, burn, clock, rest);
    const early: Action[] = [];
    let onAction = (action: Action): void => {
      early.push(action);
    };
    const board = await switchOn({ burn, onAction: (action) => onAction(action) });
    switchOff = board.switchOff;
    abandon = live.abandon;
    await live.begin(board.path);
    onAction = live.act;
    early.forEach(live.act);
  }

  function rest(): void {
    abandon = async () => {};
    cancelRest = clock.setTimer(restMs * clock.scale, () => {
      going = switchOff().then(next);
    });
  }

  return {
    begun: going,
    async stop() {
      isStopped = true;
      cancelRest();
      await going;
      await switchOff();
      await abandon();
      cancelRest();
    },
  };
}
