import type { z } from 'zod';
import type { Channel } from '../../shared/contract/burn-record.ts';
import type { createBurnSchema, editBurnSchema } from '../../shared/contract/burns.ts';
import type { Language } from '../../shared/language/language.ts';
import { AppError } from '../base/app-error.ts';
import { newId } from '../base/identifiers.ts';
import type { WallClock } from '../base/wall-clock.ts';
import type { BurnClock } from '../recording/burn-clock.ts';
import { findBurn } from '../records/versioned-documents.ts';
import type { DocumentOf, Store, StoredDocument } from '../store/store.ts';
import { requirePart } from './entry-rules.ts';
import { titleFor } from './title.ts';

type BurnBody = DocumentOf<'burn'>;
type Status = BurnBody['status'];
type NewBurn = z.output<typeof createBurnSchema>;
type BurnEdit = z.output<typeof editBurnSchema>;

/** Allowed status changes. Ended to running undoes an accidental end; the pause is then a gap. */
const steps: Record<Status, readonly Status[]> = {
  planned: ['running', 'setAside'],
  running: ['ended', 'complete', 'setAside'],
  ended: ['running', 'complete', 'setAside'],
  complete: ['ended', 'setAside'],
  setAside: ['ended', 'complete'],
};

/** What the life cycle of a burn uses of the bench. */
export interface Setup {
  /** The probes of the current setup. */
  channels(): Channel[];
  simulated(): boolean;
}

export interface LifecycleContext {
  store: Store;
  clock: WallClock;
  time: BurnClock;
  setup: Setup;
  /** Called after a burn has started recording; `again` when it had ended before. */
  onStarted(burn: StoredDocument<'burn'>, again: boolean): void;
  onStopped(burn: StoredDocument<'burn'>): void;
  onChanged(burn: StoredDocument<'burn'>): void;
  onRemoved(burnId: string): void;
}

export type Lifecycle = ReturnType<typeof createLifecycle>;

export function createLifecycle(context: LifecycleContext) {
  const { store, clock, time } = context;

  function requireParts(body: BurnBody): void {
    requirePart(store, 'revision', body.revisionId);
    requirePart(store, 'vessel', body.vesselId);
    requirePart(store, 'place', body.placeId);
    for (const id of body.fuelLotIds) requirePart(store, 'fuelLot', id);
    for (const id of body.scaleIds) requirePart(store, 'scale', id);
  }

  /** The fields that recording adds: start time, its clock, and the probes of the current setup. */
  function started(body: BurnBody): BurnBody {
    if (body.startedUtcMs !== undefined) return { ...body, status: 'running', endedElapsedUs: undefined };
    const channels = context.setup.channels();
    const isByHand = channels.length > 0 && channels.every(({ handRead }) => handRead);
    return {
      ...body,
      status: 'running',
      origin: context.setup.simulated() ? 'simulated' : isByHand ? 'enteredByHand' : body.origin,
      startedUtcMs: clock.wallMs(),
      zone: body.zone ?? Intl.DateTimeFormat().resolvedOptions().timeZone,
      clockSource: clock.source(),
      channels,
    };
  }

  /** A burn that began on a machine without a clock gets its date as soon as there is a clock. */
  function dated(id: string, body: BurnBody): BurnBody {
    const elapsedUs = time.now(id);
    if (body.clockSource !== 'none' || clock.source() === 'none' || elapsedUs === undefined) return body;
    return { ...body, startedUtcMs: Math.round(clock.wallMs() - elapsedUs / 1000), clockSource: clock.source() };
  }

  function stopped(id: string, body: BurnBody): BurnBody {
    return { ...dated(id, body), endedElapsedUs: time.now(id) };
  }

  function follow(before: Status | undefined, burn: StoredDocument<'burn'>): void {
    const after = burn.body.status;
    if (after === 'running' && before !== 'running') context.onStarted(burn, before === 'ended');
    if (before === 'running' && after !== 'running') context.onStopped(burn);
    context.onChanged(burn);
  }

  return {
    create(
      { status, id = newId(clock.wallMs()), title, ...rest }: NewBurn,
      language: Language,
      by?: string,
    ): { burn: StoredDocument<'burn'>; created: boolean } {
      const there = store.documents.get('burn', id);
      if (there) return { burn: there, created: false };
      const planned: BurnBody = {
        ...rest,
        id,
        title: title ?? titleFor(store, rest.revisionId, clock.wallMs(), language),
        status: 'planned',
        channels: [],
        primaryChosenUtcMs: clock.wallMs(),
      };
      requireParts(planned);
      const body = status === 'running' ? started(planned) : planned;
      const { document, created } = store.documents.create('burn', { id, body, by });
      if (created) follow(undefined, document);
      return { burn: document, created };
    },

    /** @param alongside saved in the same transaction as the change: both or neither */
    edit(
      id: string,
      { expectedVersion, by, status, ...fields }: BurnEdit,
      alongside?: () => void,
    ): StoredDocument<'burn'> {
      const before = findBurn(store, id);
      const from = before.body.status;
      let body: BurnBody = { ...before.body, ...changed(fields) };
      // The uncertainty of the pressure is meaningless without a pressure.
      if (body.stationPressurePa === undefined) body = { ...body, standardUncertaintyPa: undefined };
      if (body.primaryResult !== before.body.primaryResult) body = { ...body, primaryChosenUtcMs: clock.wallMs() };
      if (status !== undefined && status !== from) {
        if (!steps[from].includes(status)) throw new AppError('burn/wrong-step', { from, to: status });
        if (from === 'setAside' && body.startedUtcMs === undefined) {
          throw new AppError('burn/wrong-step', { from: 'planned', to: status });
        }
        body = status === 'running' ? started(body) : from === 'running' ? stopped(id, body) : body;
        body = { ...body, status };
      }
      if (body.status === 'setAside' && !body.setAsideReason) throw new AppError('burn/reason-missing');
      if (body.status !== 'setAside') body = { ...body, setAsideReason: undefined };
      requireParts(body);
      const burn = store.together(() => {
        alongside?.();
        return store.documents.revise('burn', id, { expectedVersion, body, by });
      });
      follow(from, burn);
      return burn;
    },

    /** A board attached in the middle of a burn adds its probes; those already in the burn stay as they are. */
    addChannels(burnId: string, channels: readonly Channel[]): void {
      const { body, version } = findBurn(store, burnId);
      const added = channels.filter(({ id }) => !body.channels.some((channel) => channel.id === id));
      if (added.length === 0) return;
      const all = [...body.channels, ...added];
      context.onChanged(
        store.documents.revise('burn', burnId, { expectedVersion: version, body: { ...body, channels: all } }),
      );
    },

    /** The machine has learnt the time: dates the burns that run without one. */
    label(): void {
      for (const id of time.running()) {
        const { body, version } = findBurn(store, id);
        const next = dated(id, body);
        if (next !== body)
          context.onChanged(store.documents.revise('burn', id, { expectedVersion: version, body: next }));
      }
    },

    /** @throws AppError burn/not-removable for a measured burn that has readings */
    remove(id: string): void {
      const { body } = findBurn(store, id);
      if (body.status !== 'planned' && body.origin !== 'simulated') throw new AppError('burn/not-removable');
      store.removeBurn(id);
      context.onRemoved(id);
    },
  };
}

/** A field omitted from an edit stays unchanged; null clears it. */
function changed(fields: Omit<BurnEdit, 'expectedVersion' | 'by' | 'status'>): Partial<BurnBody> {
  return Object.fromEntries(
    Object.entries(fields).flatMap(([field, value]) => (value === undefined ? [] : [[field, value ?? undefined]])),
  );
}
