import { join } from 'node:path';
import type { Board } from '../../shared/contract/boards.ts';
import type { Mark } from '../../shared/contract/marks.ts';
import { USUAL_BAUD_RATE } from '../../shared/contract/usual-baud-rate.ts';
import { AppError } from '../base/app-error.ts';
import type { Clock } from '../base/clock.ts';
import type { Hub } from '../live/hub.ts';
import type { Setup } from '../setup/setup.ts';
import { heronLiveBurn } from '../simulator/heron.ts';
import type { Deed, ScaleReadings } from '../simulator/practising-person.ts';
import { IN_PROCESS_PATH, type portsWithCables, type StartedBoard, switchOnBoard } from '../simulator/start-board.ts';
import type { Store } from '../store/store.ts';

/**
 * A simulated board for a bench without boards. Its stove is cold until marks are entered in a burn that records from
 * it: these are carried out at the stove, and nothing else is.
 */
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
  let onRaked: (scales: ScaleReadings) => void = () => {};
  /** Burns that were given a cold stove, and marks that were carried out. */
  const begun = new Set<string>();
  const done = new Set<string>();

  const attached = () => setup.boards().find(({ path }) => paths.includes(path));
  const start = (identity?: string) => {
    const burn = heronLiveBurn(clock.wallMs());
    const options = { burn, link, clock, onRaked: (scales: ScaleReadings) => onRaked(scales) };
    on ??= switchOnBoard({ ...options, ...(identity !== undefined && { identity }) }, plug);
    return on;
  };
  const stop = async () => {
    const going = on;
    on = undefined;
    await (await going)?.switchOff();
  };
  const recordsHere = (burnId: string) => {
    const board = attached();
    const channels = store.documents.get('burn', burnId)?.body.channels ?? [];
    return board !== undefined && channels.some(({ boardId }) => boardId === board.id);
  };

  const unsubscribe = hub.subscribe(({ event }) => {
    if (!on) return;
    // Detaching it like any other board switches it off.
    if (event.type === 'boardGone' && !attached()) void stop();
    if (event.type === 'burn' && event.burn.status === 'running') renewFor(event.burn.id);
    if (event.type === 'mark' && !event.mark.withdrawn) perform(event.burnId, event.mark.mark);
  });

  function renewFor(burnId: string): void {
    if (begun.has(burnId) || !recordsHere(burnId)) return;
    begun.add(burnId);
    void on?.then((board) => board.order({ command: 'renew' }));
  }

  /** Carries out a mark once; withdrawing the mark does not undo it. */
  function perform(burnId: string, mark: Mark): void {
    if (done.has(mark.id) || !recordsHere(burnId)) return;
    done.add(mark.id);
    const deed = deedOf(mark, (id) => store.documents.get('fuelLot', id)?.body.kind === 'kindling');
    if (deed) void on?.then((board) => board.order({ command: 'perform', deed }));
  }

  return {
    /** The simulated board, while it is attached. */
    attached,
    /** Sets the listener for the scale readings after a fire was put out. */
    setOnRaked(listener: (scales: ScaleReadings) => void): void {
      onRaked = listener;
    },
    /**
     * Switches it on and attaches it; does nothing when it is on.
     * @param identity its identity, when not the usual one
     */
    async switchOn(identity?: string): Promise<Board> {
      const known = on && attached();
      if (known) return known;
      const { path } = await start(identity);
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
    /** Switches it on again when it was on at the end of an earlier run; the bench then attaches it. */
    async restore(): Promise<void> {
      const remembered = store.documents
        .list('board')
        .some(({ withdrawn, body }) => !withdrawn && paths.includes(body.path));
      if (remembered) await start();
    },
    /** Prevents it from being restored at the next start. */
    forget(): void {
      for (const { id, version, withdrawn, body } of store.documents.list('board')) {
        if (!withdrawn && paths.includes(body.path))
          store.documents.withdraw('board', id, { expectedVersion: version });
      }
    },
    async close(): Promise<void> {
      unsubscribe();
      await stop();
    },
  };
}

/** The action at the stove for a mark; undefined for a mark without one. */
function deedOf(mark: Mark, isKindling: (lotId: string) => boolean): Deed | undefined {
  switch (mark.kind) {
    case 'lit':
    case 'relit':
    case 'nudged':
    case 'lidOn':
    case 'lidOff':
    case 'potOn':
    case 'potOff':
    case 'fireOut':
      return { kind: mark.kind };
    case 'fed': {
      const wood = mark.fuelLotId !== undefined && isKindling(mark.fuelLotId) ? 'kindling' : 'wood';
      return { kind: 'fed', wood, ...(mark.massKg !== undefined && { massKg: mark.massKg }) };
    }
    case 'waterIn': {
      const { massKg, tempC } = mark;
      return massKg === undefined ? undefined : { kind: 'waterIn', massKg, ...(tempC !== undefined && { tempC }) };
    }
    default:
      return undefined;
  }
}
