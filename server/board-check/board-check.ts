import type { BoardCheck, ProbeTestKind } from '../../shared/contract/board-check.ts';
import { USUAL_BAUD_RATE } from '../../shared/contract/usual-baud-rate.ts';
import { AppError } from '../base/app-error.ts';
import type { Clock } from '../base/clock.ts';
import type { Bridge } from '../bridge/bridge.ts';
import type { PortFactory } from '../bridge/port.ts';
import type { Hub } from '../live/hub.ts';
import { hasRunningBurn } from '../store/running-burn.ts';
import type { Store } from '../store/store.ts';
import { createCheckRun } from './check-run.ts';
import type { BenchKnowledge } from './checked-probes.ts';

export interface BoardCheckContext {
  store: Store;
  clock: Clock;
  hub: Hub;
  bridge: Bridge;
  ports: PortFactory;
  newId(): string;
}

/**
 * A check that no client has requested for this long, ms of real time, is abandoned: its board returns to the bench.
 */
const UNATTENDED_MS = 900_000;

/** Checks boards, one at a time; the report of the last check stays until the next. */
export type BoardChecks = ReturnType<typeof createBoardChecks>;

export function createBoardChecks({ store, clock, hub, bridge, ports, newId }: BoardCheckContext) {
  let run: ReturnType<typeof createCheckRun> | undefined;
  /** Resolves when the port has been returned to its previous attachment. */
  let returned: Promise<unknown> = Promise.resolve();
  let cancelUnattended = () => {};

  // A burn that is started needs its boards.
  const unsubscribe = hub.subscribe(({ event }) => {
    if (event.type === 'burn' && event.burn.status === 'running') run?.end();
  });

  function attended(): void {
    cancelUnattended();
    if (run?.isRunning()) cancelUnattended = clock.setTimer(UNATTENDED_MS * clock.scale, () => run?.end());
  }

  function knownOf(boardKey: string | null): BenchKnowledge {
    const { documents } = store;
    const placed = documents.list('channel').flatMap(({ body }) => (body.boardId === boardKey ? body : []));
    const places = documents.list('place').flatMap(({ body, withdrawn }) => (withdrawn ? [] : body));
    const burntAt = documents.list('burn').flatMap(({ body, withdrawn }) => (withdrawn ? [] : (body.placeId ?? [])));
    return { placed, place: places.find(({ id }) => id === burntAt.at(-1)) ?? places[0] };
  }

  return {
    /** The running check, or the last one. */
    state(): BoardCheck | undefined {
      attended();
      return run?.report();
    },

    /**
     * Begins a check; one of the same port begins again.
     * @param asked speed in baud; when omitted, that of the board attached there, else the usual one
     * @throws AppError board-check/burn-running where a running burn uses the board, board-check/busy
     */
    async begin(path: string, asked?: number): Promise<BoardCheck> {
      if (run?.isRunning() && run.report().path !== path) {
        throw new AppError('board-check/busy', { path: run.report().path });
      }
      const attached = await bridge.attachedAt(path);
      if (attached && hasRunningBurn(store)) throw new AppError('board-check/burn-running', { path });
      const baudRate = asked ?? attached?.baudRate ?? USUAL_BAUD_RATE;
      run?.end();
      await returned;
      const begun = createCheckRun({ path, baudRate, clock, ports, newId, knownOf });
      run = begun;
      returned = bridge.lend(path, begun.work);
      attended();
      return begun.report();
    },

    /**
     * Begins a test of a probe, replacing the one that runs; without a kind, ends that one.
     * @throws AppError board-check/none, board-check/channel-not-found, board-check/test-not-offered
     */
    test(channel: number, kind: ProbeTestKind | undefined): BoardCheck {
      attended();
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
      cancelUnattended();
      run?.end();
      await returned;
      return run?.report();
    },

    async close(): Promise<void> {
      unsubscribe();
      await this.end();
    },
  };
}
