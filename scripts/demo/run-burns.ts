import type { Clock } from '../../server/base/clock.ts';
import { type HeronBurn, heronLiveBurn } from '../../server/simulator/heron.ts';
import type { Action } from '../../server/simulator/operator.ts';
import type { SimulatedBoardOptions, StartedBoard } from '../../server/simulator/start-board.ts';
import { createLiveBurn } from './live-burn.ts';

/** Time for the viewer to read the results of a burn. */
const REST_MS = 20_000;

export interface RunBurnsOptions {
  /** Of the service. */
  address: string;
  clock: Clock;
  /** Between two burns, in real milliseconds. */
  restMs?: number;
  switchOn(options: Pick<SimulatedBoardOptions, 'burn' | 'onAction'>): Promise<StartedBoard>;
}

/** Runs burns one after another on the simulated board, each on a cold stove, until stopped. */
export function runBurns({ address, clock, restMs = REST_MS, switchOn }: RunBurnsOptions): {
  /** Resolves when the first one records. */
  begun: Promise<void>;
  /** Stops, and removes an unfinished burn. */
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
