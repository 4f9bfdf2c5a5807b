/**
 * Entries on their way to the service. Every mark and weighing goes through here, so there is one way for all:
 * kept on this device first, then sent, in order, until the service has confirmed or refused it.
 * Its id was made here, so sending it twice changes nothing.
 */
import { signal } from '@preact/signals';
import type { KeptMark, KeptWeighing, Problem } from '../../shared/contract/api.ts';
import type { Mark } from '../../shared/contract/marks.ts';
import type { Weighing } from '../../shared/contract/weighings.ts';
import { Refusal } from '../lib/api.ts';
import { type OutboxEntry, type OutboxStore, openOutboxStore } from '../lib/outbox-store.ts';
import { noteArrival } from './arrivals.ts';
import { link, onLive } from './connection.ts';
import { keepMark, keepWeighing } from './open-burn.ts';
import { call, isUnpaired } from './service.ts';

export const outbox = signal<readonly OutboxEntry[]>([]);
/** False where the browser keeps nothing: entries then live only as long as the page. */
export const outboxIsDurable = signal(true);

let store: OutboxStore | undefined;
let sending: number | undefined;
let flushing: Promise<void> = Promise.resolve();

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

export function sendMark(burnId: string, mark: Mark): Promise<void> {
  noteArrival(mark.id);
  return queue({
    burnId,
    method: 'POST',
    path: `/burns/${burnId}/marks`,
    body: mark,
    about: { kind: 'mark', id: mark.id },
  });
}

export function sendWeighing(burnId: string, weighing: Weighing): Promise<void> {
  return queue({
    burnId,
    method: 'POST',
    path: `/burns/${burnId}/weighings`,
    body: weighing,
    about: { kind: 'weighing', id: weighing.id },
  });
}

/** Take a mark back. One that still waits simply never leaves; one the service has is withdrawn there. */
export async function undoMark(burnId: string, markId: string, version: number): Promise<void> {
  const waiting = outbox.value.find(({ about, method }) => about.id === markId && method === 'POST');
  if (waiting && waiting.seq !== sending) return drop(waiting);
  await queue({
    burnId,
    method: 'DELETE',
    path: `/burns/${burnId}/marks/${markId}?expectedVersion=${version}`,
    about: { kind: 'mark', id: markId },
  });
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

async function queue(entry: Omit<OutboxEntry, 'queuedDeviceMs'>): Promise<void> {
  const kept = await store?.put({ ...entry, queuedDeviceMs: Date.now() });
  if (kept) outbox.value = [...outbox.value, kept];
  deliverSoon();
}

function deliverSoon(): void {
  flushing = flushing.then(deliverAll);
}

async function deliverAll(): Promise<void> {
  for (let next = firstWaiting(); next; next = firstWaiting()) {
    sending = next.seq;
    try {
      accept(next, await call<KeptMark | KeptWeighing>(next.method, next.path, next.body));
      await drop(next);
    } catch (cause) {
      // A device that was sent away keeps its entries until it is paired again.
      if (!(cause instanceof Refusal) || isUnpaired(cause)) return;
      if (isAlreadyGone(next, cause)) await drop(next);
      else await replace({ ...next, refusal: cause.problem satisfies Problem });
    } finally {
      sending = undefined;
    }
  }
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

function accept({ burnId }: OutboxEntry, answer: KeptMark | KeptWeighing | undefined): void {
  if (!answer) return;
  if ('mark' in answer) keepMark(burnId, answer);
  else keepWeighing(burnId, answer);
}

async function replace(entry: OutboxEntry): Promise<void> {
  await store?.put(entry);
  outbox.value = outbox.value.map((known) => (known.seq === entry.seq ? entry : known));
}
