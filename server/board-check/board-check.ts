import type { BoardCheck, ProbeTestKind } from '../../shared/contract/board-check.ts';
import { AppError } from '../base/app-error.ts';
import type { Clock } from '../base/clock.ts';
import type { Bridge } from '../bridge/bridge.ts';
import type { PortFactory } from '../bridge/port.ts';
import type { Store } from '../store/store.ts';
import { createCheckRun } from './check-run.ts';
import type { BenchKnowledge } from './checked-probes.ts';

export interface BoardCheckContext {
  store: Store;
  clock: Clock;
  bridge: Bridge;
  ports: PortFactory;
  newId(): string;
}

/** Checks boards, one at a time; the report of the last check stays until the next. */
export type BoardChecks = ReturnType<typeof createBoardChecks>;

export function createBoardChecks({ store, clock, bridge, ports, newId }: BoardCheckContext) {
  let run: ReturnType<typeof createCheckRun> | undefined;
  /** Resolves when the port is back with whoever had it. */
  let returned: Promise<unknown> = Promise.resolve();

  function knownOf(boardKey: string | null): BenchKnowledge {
    const { documents } = store;
    const placed = documents.list('channel').flatMap(({ body }) => (body.boardId === boardKey ? body : []));
    const places = documents.list('place').flatMap(({ body, withdrawn }) => (withdrawn ? [] : body));
    const burntAt = documents.list('burn').flatMap(({ body, withdrawn }) => (withdrawn ? [] : (body.placeId ?? [])));
    return { placed, place: places.find(({ id }) => id === burntAt.at(-1)) ?? places[0] };
  }

  return {
    /** The check that runs, or the last one. */
    state: (): BoardCheck | undefined => run?.report(),

    /** @throws AppError board-check/burn-running, board-check/busy */
    async begin(path: string, baudRate: number): Promise<BoardCheck> {
      if (run?.isRunning()) throw new AppError('board-check/busy', { path: run.report().path });
      const burns = store.documents.list('burn').filter(({ withdrawn }) => !withdrawn);
      if (burns.some(({ body }) => body.status === 'running')) throw new AppError('board-check/burn-running', { path });
      const begun = createCheckRun({ path, baudRate, clock, ports, newId, knownOf });
      run = begun;
      await returned;
      returned = bridge.lend(path, begun.work);
      return begun.report();
    },

    /**
     * Begins a test of a probe, in place of the one that runs; without a kind, ends that one.
     * @throws AppError board-check/none, board-check/channel-not-found, board-check/test-not-offered
     */
    test(channel: number, kind: ProbeTestKind | undefined): BoardCheck {
      if (!run?.isRunning()) throw new AppError('board-check/none');
      if (!run.report().probes.some((probe) => probe.channel === channel)) {
        throw new AppError('board-check/channel-not-found', { channel: channel + 1 });
      }
      if (!kind) run.endTest();
      else if (!run.beginTest(channel, kind))
        throw new AppError('board-check/test-not-offered', { channel: channel + 1 });
      return run.report();
    },

    /** Ends the check; resolves when the port is free again. */
    async end(): Promise<BoardCheck | undefined> {
      run?.end();
      await returned;
      return run?.report();
    },
  };
}
