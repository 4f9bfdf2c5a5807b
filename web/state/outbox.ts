/**
 * Entries on their way to the service. Everything that is stated about a burn, corrected or taken back goes through here, so
 * there is one way for all: kept on this device first, then sent, in order, until the service has confirmed or refused it.
 * Ids were made here and changes name the version they were made from, so that sending them twice changes nothing.
 */
import { signal } from '@preact/signals';
import type { BurnDetail, KeptExclusion, KeptMark, Problem, WeighUp } from '../../shared/contract/api.ts';
import type { Mark } from '../../shared/contract/marks.ts';
import { Refusal } from '../lib/api.ts';
import {
  correction,
  isAbout,
  madeFrom,
  merged,
  statement,
  type Things,
  thingIn,
  weighUpEntry,
  withdrawal,
} from '../lib/outbox-entries.ts';
import { type OutboxEntry, type OutboxStore, openOutboxStore } from '../lib/outbox-store.ts';
import { noteArrival } from './arrivals.ts';
import { link, onLive } from './connection.ts';
import { burnSignal, keepDetail, keepExclusion, keepMark, loadBurn } from './open-burn.ts';
import { person } from './preferences.ts';
import { call, isUnpaired } from './service.ts';

/** What has become of an entry: waiting ones are delivered later, without anybody waiting for it. */
export type Outcome = { is: 'kept' | 'waiting' } | { is: 'refused'; problem: Problem };

export const outbox = signal<readonly OutboxEntry[]>([]);
/** False where the browser keeps nothing: entries then live only as long as the page. */
export const outboxIsDurable = signal(true);
/** A refused entry that the person wants to see where it was typed; the screen that shows it takes it from here. */
export const comeBack = signal<OutboxEntry | undefined>(undefined);

let store: OutboxStore | undefined;
let sending: number | undefined;
let flushing: Promise<void> = Promise.resolve();
const awaited = new Map<number, (outcome: Outcome) => void>();

/** Read what an earlier page left behind and start delivering. Call once. */
export async function startOutbox(): Promise<void> {
  const opened = await openOutboxStore();
  store = opened.store;
  outboxIsDurable.value = opened.durable;
  outbox.value = await store.all();
  onLive('snapshot', () => deliverSoon());
  setInterval(() => {
    if (link.value !== 'lost' && outbox.value.some(({ refusal }) => !refusal)) deliverSoon();
  }, 3000);
  deliverSoon();
}

export function sendMark(burnId: string, mark: Mark): Promise<Outcome> {
  noteArrival(mark.id);
  return send(burnId, 'mark', mark);
}

export function send<K extends keyof Things>(burnId: string, kind: K, thing: Things[K]): Promise<Outcome> {
  return queue(statement(burnId, kind, thing, whoever()));
}

/** @param from the version it was made from */
export function correct<K extends keyof Things>(
  burnId: string,
  kind: K,
  thing: Things[K],
  from: number,
): Promise<Outcome> {
  return queue(correction(burnId, kind, { thing, from, by: whoever() }));
}

/** Take something back. What still waits simply never leaves; what the service has is withdrawn there. */
export function takeBack(burnId: string, kind: keyof Things, id: string, from: number): Promise<Outcome> {
  return queue(withdrawal(burnId, kind, { id, from, by: whoever() }));
}

export function sendWeighUp(burnId: string, weighUp: WeighUp): Promise<Outcome> {
  const by = whoever();
  return queue(weighUpEntry(burnId, { ...weighUp, ...(by && { by }) }));
}

/** Give up an entry the service refused (or that the person no longer wants). */
export async function drop(entry: OutboxEntry): Promise<void> {
  outbox.value = outbox.value.filter(({ seq }) => seq !== entry.seq);
  if (entry.seq !== undefined) await store?.remove(entry.seq);
}

/** Try a refused entry again, for instance after the burn it belongs to was described. */
export async function retry(entry: OutboxEntry): Promise<void> {
  const { refusal: _, ...again } = entry;
  await replace(again);
  deliverSoon();
}

function whoever(): string | undefined {
  return person.value.trim() || undefined;
}

async function queue(next: ReturnType<typeof statement>): Promise<Outcome> {
  const about = (entry: OutboxEntry) => isAbout(entry, next.about.kind, next.about.id);
  const earlier = outbox.value.find((entry) => about(entry) && entry.seq !== sending);
  if (earlier) {
    // A refused entry gives way to its correction, which was made from what is shown now.
    const whole = merged(earlier, next, earlier.refusal ? next.from : earlier.from);
    if (!whole || changesNothing(whole)) {
      await drop(earlier);
      settle(earlier.seq, { is: 'waiting' });
      return { is: 'kept' };
    }
    await replace({ ...whole, seq: earlier.seq!, queuedDeviceMs: Date.now() });
    return delivered(earlier.seq!);
  }
  const underWay = outbox.value.find(about);
  const entry = underWay ? madeFrom(next, (underWay.from ?? 0) + 1) : madeFrom(next, Math.max(1, next.from ?? 0));
  const kept = await store?.put({ ...entry, queuedDeviceMs: Date.now() });
  if (!kept) return { is: 'waiting' };
  outbox.value = [...outbox.value, kept];
  return delivered(kept.seq!);
}

/** A correction put back before it left: what the service has is what is wanted. */
function changesNothing(entry: ReturnType<typeof statement>): boolean {
  if (entry.method !== 'PUT') return false;
  const detail = burnSignal(entry.burnId).value;
  const kept =
    entry.about.kind === 'mark'
      ? detail?.marks.find(({ mark }) => mark.id === entry.about.id)
      : detail?.exclusions.find(({ exclusion }) => exclusion.id === entry.about.id);
  if (!kept || kept.withdrawn || kept.version !== entry.from) return false;
  return JSON.stringify('mark' in kept ? kept.mark : kept.exclusion) === JSON.stringify(thingIn(entry));
}

/** Hears what becomes of an entry, or at once that it waits when the service is known to be away. */
function delivered(seq: number): Promise<Outcome> {
  settle(seq, { is: 'waiting' });
  const outcome = new Promise<Outcome>((resolve) => awaited.set(seq, resolve));
  if (link.value === 'lost') settle(seq, { is: 'waiting' });
  deliverSoon();
  return outcome;
}

function settle(seq: number | undefined, outcome: Outcome): void {
  if (seq === undefined) return;
  awaited.get(seq)?.(outcome);
  awaited.delete(seq);
}

function deliverSoon(): void {
  flushing = flushing.then(deliverAll);
}

async function deliverAll(): Promise<void> {
  for (let next = firstWaiting(); next; next = firstWaiting()) {
    sending = next.seq;
    try {
      accept(next, await call<KeptMark | KeptExclusion | BurnDetail>(next.method, next.path, next.body));
      await drop(next);
      settle(next.seq, { is: 'kept' });
    } catch (cause) {
      // A device that was sent away keeps its entries until it is paired again.
      if (!(cause instanceof Refusal) || isUnpaired(cause)) {
        for (const seq of [...awaited.keys()]) settle(seq, { is: 'waiting' });
        return;
      }
      await refused(next, cause);
    } finally {
      sending = undefined;
    }
  }
}

/** What came after about the same thing was made before anybody knew of the refusal: it is tried in its place. */
async function refused(entry: OutboxEntry, refusal: Refusal): Promise<void> {
  if (isAlreadyGone(entry, refusal)) {
    await drop(entry);
    return settle(entry.seq, { is: 'kept' });
  }
  // The screen that typed it must be able to show what somebody else saved.
  if (refusal.status === 409) await loadBurn(entry.burnId).catch(() => undefined);
  const later = outbox.value.find(
    (other) => other.seq !== entry.seq && isAbout(other, entry.about.kind, entry.about.id),
  );
  if (!later) {
    await replace({ ...entry, refusal: refusal.problem });
    return settle(entry.seq, { is: 'refused', problem: refusal.problem });
  }
  const whole = merged(entry, later, entry.from);
  await drop(entry);
  if (whole) await replace({ ...whole, seq: later.seq!, queuedDeviceMs: later.queuedDeviceMs });
  else await drop(later);
  settle(entry.seq, { is: 'waiting' });
}

function firstWaiting(): OutboxEntry | undefined {
  return outbox.value.find(({ refusal }) => !refusal);
}

/** An undo whose answer got lost, or that came second, finds the mark withdrawn already: that is what was wanted. */
function isAlreadyGone(entry: OutboxEntry, refusal: Refusal): boolean {
  if (entry.method !== 'DELETE') return false;
  const newest = refusal.problem.details?.newest as { withdrawn?: boolean } | undefined;
  return refusal.status === 404 || newest?.withdrawn === true;
}

function accept({ burnId }: OutboxEntry, answer: KeptMark | KeptExclusion | BurnDetail | undefined): void {
  if (!answer) return;
  if ('burn' in answer) keepDetail(answer);
  else if ('mark' in answer) keepMark(burnId, answer);
  else if ('exclusion' in answer) keepExclusion(burnId, answer);
}

async function replace(entry: OutboxEntry): Promise<void> {
  outbox.value = outbox.value.map((known) => (known.seq === entry.seq ? entry : known));
  await store?.put(entry);
}
