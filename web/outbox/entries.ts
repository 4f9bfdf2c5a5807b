/** The content of an entry of the outbox, and how two entries about one thing are merged. Pure. */

import type { VersionedExclusion, WeighUp } from '../../shared/contract/entries.ts';
import type { Mark } from '../../shared/contract/marks.ts';
import type { Problem } from '../../shared/contract/problem.ts';
import type { QueryOf, Route } from '../../shared/contract/routes.ts';
import type { Weighing } from '../../shared/contract/weighings.ts';
import { addressOf } from '../requests/http.ts';
import type { EntryKind, OutboxEntry } from './store.ts';

export type Exclusion = VersionedExclusion['exclusion'];
/** Things that can be created, corrected and withdrawn one at a time, by kind. */
export interface Things {
  mark: Mark;
  exclusion: Exclusion;
}

const routesOf = {
  mark: {
    state: 'POST /burns/:id/marks',
    correct: 'PUT /burns/:id/marks/:entryId',
    takeBack: 'DELETE /burns/:id/marks/:entryId',
  },
  exclusion: {
    state: 'POST /burns/:id/exclusions',
    correct: 'PUT /burns/:id/exclusions/:entryId',
    takeBack: 'DELETE /burns/:id/exclusions/:entryId',
  },
} as const satisfies Record<keyof Things, Record<'state' | 'correct' | 'takeBack', Route>>;

export type Entry = Omit<OutboxEntry, 'seq' | 'queuedDeviceMs'>;

export function statement<K extends keyof Things>(burnId: string, kind: K, thing: Things[K], by?: string): Entry {
  return {
    burnId,
    ...addressOf(routesOf[kind].state, { id: burnId }),
    // A mark contains the name of its author itself.
    body: { ...thing, ...(by && kind !== 'mark' && { by }) },
    about: { kind, id: thing.id },
  };
}

export function correction<K extends keyof Things>(
  burnId: string,
  kind: K,
  { thing, from, by }: { thing: Things[K]; from: number; by?: string | undefined },
): Entry {
  return {
    burnId,
    ...addressOf(routesOf[kind].correct, { id: burnId, entryId: thing.id }),
    body: { [kind]: thing, expectedVersion: from, ...(by && { by }) },
    about: { kind, id: thing.id },
    from,
  };
}

export function withdrawal(
  burnId: string,
  kind: keyof Things,
  { id, from, by }: { id: string; from: number; by?: string | undefined },
): Entry {
  const query: QueryOf<'DELETE /burns/:id/marks/:entryId'> = { expectedVersion: from, ...(by && { by }) };
  return {
    burnId,
    ...addressOf(routesOf[kind].takeBack, { id: burnId, entryId: id }, query),
    about: { kind, id },
    from,
  };
}

export function weighUpEntry(burnId: string, weighUp: WeighUp): Entry {
  return {
    burnId,
    ...addressOf('POST /burns/:id/weigh-up', { id: burnId }),
    body: weighUp,
    about: { kind: 'weighUp', id: burnId },
  };
}

/** The thing as it is after the entry; undefined when the entry withdraws it. */
export function thingIn({ method, body, about: { kind } }: Pick<Entry, 'method' | 'body' | 'about'>): unknown {
  return method === 'PUT' ? body?.[kind] : body;
}

export function isAbout({ about }: Pick<Entry, 'about'>, kind: EntryKind, id: string): boolean {
  return about.kind === kind && about.id === id;
}

/**
 * One entry with the effect of two about the same thing, one after the other; undefined when nothing is left to do.
 * @param from the version of the service, as far as known here
 */
export function merged(earlier: Entry, later: Entry, from: number | undefined): Entry | undefined {
  if (later.about.kind === 'weighUp')
    return { ...later, body: mergedWeighUp(earlier.body as WeighUp, later.body as WeighUp) };
  if (earlier.method === 'POST') {
    // A thing that the service never received is withdrawn by not sending it.
    if (later.method === 'DELETE') return undefined;
    const { refusal: _, ...again } = earlier;
    return { ...again, body: bodyOf(later) };
  }
  return from === undefined || from === later.from ? later : madeFrom(later, from);
}

/** The same change, based on another version. */
export function madeFrom(entry: Entry, from: number): Entry {
  if (entry.method === 'POST') return entry;
  if (entry.method === 'PUT') return { ...entry, from, body: { ...entry.body, expectedVersion: from } };
  return { ...entry, from, path: entry.path.replace(/expectedVersion=\d+/, `expectedVersion=${from}`) };
}

/** The same change, based on one that the service may already have received, which then counts as its next version. */
export function afterSent(entry: Entry, sent: Entry): Entry {
  if (entry.about.kind !== 'weighUp') return madeFrom(entry, Math.max((sent.from ?? 0) + 1, entry.from ?? 0));
  const before = sent.body as unknown as WeighUp;
  const versions = new Map(
    before.weighings.map(({ weighing, expectedVersion = 0 }) => [weighing.id, expectedVersion + 1]),
  );
  const { weighings, takeBack = [], ...more } = entry.body as unknown as WeighUp;
  const body: WeighUp = {
    ...more,
    weighings: weighings.map((each) => {
      const expectedVersion = Math.max(versions.get(each.weighing.id) ?? 0, each.expectedVersion ?? 0);
      return { ...each, ...(expectedVersion > 0 && { expectedVersion }) };
    }),
    takeBack: takeBack.map(({ id, expectedVersion }) => ({
      id,
      expectedVersion: Math.max(versions.get(id) ?? 0, expectedVersion),
    })),
  };
  return { ...entry, body: body as unknown as NonNullable<Entry['body']> };
}

function bodyOf(entry: Entry): NonNullable<Entry['body']> {
  return thingIn(entry) as NonNullable<Entry['body']>;
}

/** The later one replaces every weighing it names; one of version 0 was never sent and is simply omitted. */
function mergedWeighUp(earlier: WeighUp, later: WeighUp): WeighUp {
  const named = new Set([
    ...later.weighings.map(({ weighing }) => weighing.id),
    ...(later.takeBack ?? []).map(({ id }) => id),
  ]);
  return {
    ...earlier,
    ...later,
    weighings: [...earlier.weighings.filter(({ weighing }) => !named.has(weighing.id)), ...later.weighings],
    takeBack: [...(earlier.takeBack ?? []).filter(({ id }) => !named.has(id)), ...(later.takeBack ?? [])].filter(
      ({ expectedVersion }) => expectedVersion > 0,
    ),
  };
}

/** What an entry does to one mark, stretch or weighing: its new content, or its withdrawal. */
export interface Change<T> {
  readonly id: string;
  readonly thing?: T;
  readonly refusal?: Problem;
}

export function changesOf<K extends keyof Things>(entries: readonly OutboxEntry[], kind: K): Change<Things[K]>[] {
  return entries
    .filter(({ about }) => about.kind === kind)
    .map(({ refusal, ...entry }) => ({
      id: entry.about.id,
      ...(entry.method !== 'DELETE' && { thing: thingIn(entry) as Things[K] }),
      ...(refusal && { refusal }),
    }));
}

export function weighingChanges(entries: readonly OutboxEntry[]): Change<Weighing>[] {
  return entries.flatMap(({ about, body, refusal }) => {
    if (about.kind !== 'weighUp') return [];
    const { weighings, takeBack = [] } = body as unknown as WeighUp;
    const more = refusal ? { refusal } : {};
    return [
      ...weighings.map(({ weighing }) => ({ id: weighing.id, thing: weighing, ...more })),
      ...takeBack.map(({ id }) => ({ id, ...more })),
    ];
  });
}

/** A thing as shown to the person: the service's version, with changes that still wait here or were refused. */
export interface Shown<T> {
  readonly thing: T;
  /** The service's version; 0 for something that it does not have. */
  readonly version: number;
  readonly state: 'kept' | 'waiting' | 'refused';
  /** What was typed and refused, and why. */
  readonly refusal?: { readonly typed: T; readonly problem: Problem };
}

/**
 * Things in force: those saved, as they will be once the changes have been delivered. Refused changes are returned with
 * them.
 */
export function shownOf<T extends { id: string }>(
  stored: readonly { thing: T; version: number; withdrawn: boolean }[],
  changes: readonly Change<T>[],
): Shown<T>[] {
  const versions = new Map(stored.map(({ thing, version }) => [thing.id, version]));
  const shown = new Map<string, Shown<T>>(
    stored
      .filter(({ withdrawn }) => !withdrawn)
      .map(({ thing, version }) => [thing.id, { thing, version, state: 'kept' as const }]),
  );
  for (const { id, thing, refusal } of changes) {
    const before = shown.get(id);
    const version = versions.get(id) ?? 0;
    if (refusal) {
      const typed = thing ?? before?.thing;
      if (typed)
        shown.set(id, {
          thing: before?.thing ?? typed,
          version,
          state: 'refused',
          refusal: { typed, problem: refusal },
        });
    } else if (thing) shown.set(id, { thing, version, state: 'waiting' });
    else shown.delete(id);
  }
  return [...shown.values()];
}
