import { join } from 'node:path';
import type { Board } from '../../shared/contract/boards.ts';
import { USUAL_BAUD_RATE } from '../../shared/contract/usual-baud-rate.ts';
import { AppError } from '../base/app-error.ts';
import type { Clock } from '../base/clock.ts';
import type { Hub } from '../live/hub.ts';
import type { Setup } from '../setup/setup.ts';
import { heronLiveBurn } from '../simulator/heron.ts';
import { IN_PROCESS_PATH, type portsWithCables, type StartedBoard, switchOnBoard } from '../simulator/start-board.ts';
import type { Store } from '../store/store.ts';

/** A simulated board for a bench that has none: its person lights the fire and feeds it as the board is switched on. */
export type BoardOnRequest = ReturnType<typeof createBoardOnRequest>;

export interface BoardOnRequestContext {
  store: Store;
  clock: Clock;
  hub: Hub;
  bench: Setup;
  plug: ReturnType<typeof portsWithCables>['plug'];
}

export function createBoardOnRequest({ store, clock, hub, bench: setup, plug }: BoardOnRequestContext) {
  const link = join(store.folder, 'simulated-board');
  const paths = [link, IN_PROCESS_PATH];
  let on: Promise<StartedBoard> | undefined;

  const attached = () => setup.boards().find(({ path }) => paths.includes(path));
  const start = () => {
    const burn = heronLiveBurn(clock.wallMs());
    on ??= switchOnBoard({ burn, link, clock, onAction: () => {} }, plug);
    return on;
  };
  const stop = async () => {
    const going = on;
    on = undefined;
    await (await going)?.switchOff();
  };

  // Whoever detaches it as any other board has no use for it any more.
  const unsubscribe = hub.subscribe(({ event }) => {
    if (event.type === 'boardGone' && on && !attached()) void stop();
  });

  return {
    /** Switches it on and attaches it; harmless when it is on. */
    async switchOn(): Promise<Board> {
      const known = on && attached();
      if (known) return known;
      const { path } = await start();
      return setup.attach({ path, baudRate: USUAL_BAUD_RATE });
    },
    /** @throws AppError simulator/burn-running while a burn records from it */
    async switchOff(): Promise<void> {
      const board = attached();
      const recording = store.documents
        .list('burn')
        .some(({ body }) => body.status === 'running' && body.channels.some(({ boardId }) => boardId === board?.id));
      if (board && recording) throw new AppError('simulator/burn-running');
      if (board) await setup.detach(board.id);
      await stop();
    },
    /** Switches it on again when it was on at the end of an earlier run; the bench then attaches it by itself. */
    async restore(): Promise<void> {
      const remembered = store.documents
        .list('board')
        .some(({ withdrawn, body }) => !withdrawn && paths.includes(body.path));
      if (remembered) await start();
    },
    async close(): Promise<void> {
      unsubscribe();
      await stop();
    },
  };
}
