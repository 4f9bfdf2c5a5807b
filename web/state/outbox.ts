/**
 * Entries to be delivered to the service. Every creation, correction and withdrawal of an entry of a burn passes
 * through here: stored on this device first, then sent, in order, until the service has confirmed or refused it. Ids
 * are made here and changes name the version on which they are based, so that sending them twice changes nothing. All
 * tabs of the device share the list (`web/outbox/queue.ts`): one of them sends at a time, and each shows the outcome.
 */
import { signal } from '@preact/signals';
import type { WeighUp } from '../../shared/contract/entries.ts';
import type { Mark } from '../../shared/contract/marks.ts';
import type { Problem } from '../../shared/contract/problem.ts';
import type { AnswerOf, Route } from '../../shared/contract/routes.ts';
import {
  correction,
  type Entry,
  isAbout,
  statement,
  type Things,
  thingIn,
  weighUpEntry,
  withdrawal,
} from '../outbox/entries.ts';
import { claimed, delivered, queued, RETRY_EVERY_MS, refused, triedAgain, unanswered } from '../outbox/queue.ts';
import { memoryStore, type OutboxEntry, type OutboxStore, openOutboxStore } from '../outbox/store.ts';
import { uuid7 } from '../outbox/uuid7.ts';
import { person } from '../preferences/preferences.ts';
import { Refusal } from '../requests/http.ts';
import { isUnpaired, requestAt } from '../requests/service.ts';
import { link, onLive } from './connection.ts';
import { noteOwnMark } from './mark-order.ts';
import { burnSignal, loadBurn, saveExclusion, saveMark, saveResponse } from './open-burn.ts';

/** The outcome of an entry: a waiting one is delivered later, and the caller does not wait for it. */
export type Outcome = { is: 'kept' | 'waiting' } | { is: 'refused'; problem: Problem };

export const outbox = signal<readonly OutboxEntry[]>([]);
/** False where the browser stores nothing: entries then exist only as long as the page. */
export const outboxIsDurable = signal(true);
/** A refused entry that the person wants to see where it was typed; the screen that shows it takes it from here. */
export const refusedEntry = signal<OutboxEntry | undefined>(undefined);

let store: OutboxStore = memoryStore();
let delivering: Promise<void> = Promise.resolve();
const awaited = new Map<number, (outcome: Outcome) => void>();

/** Load the entries of an earlier page and start delivering. Call once. */
export async function startOutbox(): Promise<void> {
  const opened = await openOutboxStore();
  store = opened.store;
  outboxIsDurable.value = opened.durable;
  outbox.value = await store.all();
  store.onChanged(() => void onOtherTab());
  onLive('snapshot', () => deliverSoon());
  setInterval(() => {
    if (outbox.value.some(({ refusal }) => !refusal)) deliverSoon();
  }, RETRY_EVERY_MS);
  deliverSoon();
}

export function sendMark(burnId: string, mark: Mark): Promise<Outcome> {
  noteOwnMark(mark.id);
  return send(burnId, 'mark', mark);
}

export function send<K extends keyof Things>(burnId: string, kind: K, thing: Things[K]): Promise<Outcome> {
  return queue(statement(burnId, kind, thing, whoever()));
}

/** @param from the version on which it is based */
export function correct<K extends keyof Things>(
  burnId: string,
  kind: K,
  thing: Things[K],
  from: number,
): Promise<Outcome> {
  return queue(correction(burnId, kind, { thing, from, by: whoever() }));
}

/** Withdraw an entry. One that still waits is never sent; one that the service has is withdrawn there. */
export function takeBack(burnId: string, kind: keyof Things, id: string, from: number): Promise<Outcome> {
  return queue(withdrawal(burnId, kind, { id, from, by: whoever() }));
}

export function sendWeighUp(burnId: string, weighUp: WeighUp): Promise<Outcome> {
  const by = whoever();
  return queue(weighUpEntry(burnId, { ...weighUp, ...(by && { by }) }));
}

/** Discard an entry that the service refused. */
export async function drop(entry: OutboxEntry): Promise<void> {
  await change((entries) => entries.filter(({ seq, refusal }) => seq !== entry.seq || !refusal));
}

/** Send a refused entry again, for instance after the burn it belongs to was described. */
export async function retry(entry: OutboxEntry): Promise<void> {
  await change((entries) => triedAgain(entries, entry));
  deliverSoon();
}

function whoever(): string | undefined {
  return person.value.trim() || undefined;
}

async function queue(next: Entry): Promise<Outcome> {
  let step: ReturnType<typeof queued> = { entries: [] };
  const stored = await change((entries) => {
    step = queued(entries, next, { nowMs: Date.now(), isStored });
    return step.entries;
  });
  if (step.isGone) return { is: 'kept' };
  return becomeOf(step.seq ?? stored.at(-1)!.seq!);
}

/** A correction undone before it was sent: the service already has the wanted content. */
function isStored(entry: Entry): boolean {
  if (entry.method !== 'PUT') return false;
  const detail = burnSignal(entry.burnId).value;
  const stored =
    entry.about.kind === 'mark'
      ? detail?.marks.find(({ mark }) => mark.id === entry.about.id)
      : detail?.exclusions.find(({ exclusion }) => exclusion.id === entry.about.id);
  if (!stored || stored.withdrawn || stored.version !== entry.from) return false;
  return JSON.stringify('mark' in stored ? stored.mark : stored.exclusion) === JSON.stringify(thingIn(entry));
}

/** Resolves with the outcome of an entry, or at once with `waiting` when the service is known to be away. */
function becomeOf(seq: number): Promise<Outcome> {
  report(seq, { is: 'waiting' });
  const outcome = new Promise<Outcome>((resolve) => awaited.set(seq, resolve));
  if (link.value === 'lost') report(seq, { is: 'waiting' });
  deliverSoon();
  return outcome;
}

function report(seq: number, outcome: Outcome): void {
  awaited.get(seq)?.(outcome);
  awaited.delete(seq);
}

function reportWaiting(): void {
  for (const seq of [...awaited.keys()]) report(seq, { is: 'waiting' });
}

function deliverSoon(): void {
  delivering = delivering.then(deliverAll);
}

async function deliverAll(): Promise<void> {
  for (let next = await claim(); next; next = await claim()) {
    const sent = next;
    try {
      await sendEntry(sent);
      await change((entries) => delivered(entries, sent));
    } catch (cause) {
      // A device that was revoked stores its entries until it is paired again.
      if (!(cause instanceof Refusal) || isUnpaired(cause)) {
        await change((entries) => unanswered(entries, sent));
        return reportWaiting();
      }
      await onRefusal(sent, cause);
    }
  }
  if (link.value === 'lost') reportWaiting();
}

/** The next entry to send, unless another tab is sending. Nothing is tried while the service is known to be away. */
async function claim(): Promise<OutboxEntry | undefined> {
  let step: ReturnType<typeof claimed> = { entries: [] };
  if (link.value === 'lost' || !outbox.value.some(({ refusal }) => !refusal)) return undefined;
  await change((entries) => {
    step = claimed(entries, thisTab(), Date.now());
    return step.entries;
  });
  return step.entry;
}

async function onRefusal(sent: OutboxEntry, refusal: Refusal): Promise<void> {
  if (isAlreadyGone(sent, refusal)) {
    await change((entries) => delivered(entries, sent));
    return;
  }
  // The screen where it was typed must be able to show what another person saved.
  if (refusal.status === 409) await loadBurn(sent.burnId).catch(() => undefined);
  const { kind, id } = sent.about;
  if (outbox.value.some((entry) => entry.seq !== sent.seq && isAbout(entry, kind, id)))
    report(sent.seq!, { is: 'waiting' });
  await change((entries) => refused(entries, sent, refusal.problem));
}

/** An undo whose answer got lost, or that was sent twice, finds the mark withdrawn already, as requested. */
function isAlreadyGone(entry: OutboxEntry, refusal: Refusal): boolean {
  if (entry.method !== 'DELETE') return false;
  const newest = refusal.problem.details?.newest as { withdrawn?: boolean } | undefined;
  return refusal.status === 404 || newest?.withdrawn === true;
}

/** Send it and store the answer of the service. */
async function sendEntry({ method, path, body, about, burnId }: OutboxEntry): Promise<void> {
  const answer = <R extends Route>() => requestAt<AnswerOf<R>>(method, path, body);
  if (about.kind === 'weighUp') await saveResponse(burnId, answer<'POST /burns/:id/weigh-up'>());
  else if (about.kind === 'mark') saveMark(burnId, await answer<'POST /burns/:id/marks'>());
  else saveExclusion(burnId, await answer<'POST /burns/:id/exclusions'>());
}

async function change(
  act: (entries: readonly OutboxEntry[]) => readonly OutboxEntry[],
): Promise<readonly OutboxEntry[]> {
  return show(await store.change(act));
}

/** Resolves the callers that wait for an entry that is gone, which means delivered, or that is refused. */
function show(entries: readonly OutboxEntry[]): readonly OutboxEntry[] {
  outbox.value = entries;
  for (const seq of [...awaited.keys()]) {
    const entry = entries.find((each) => each.seq === seq);
    if (!entry) report(seq, { is: 'kept' });
    else if (entry.refusal) report(seq, { is: 'refused', problem: entry.refusal });
  }
  return entries;
}

/** What another tab delivered may not have arrived here by the stream yet. */
async function onOtherTab(): Promise<void> {
  const before = outbox.value;
  const entries = show(await store.all());
  const gone = before.filter(({ seq }) => !entries.some((entry) => entry.seq === seq));
  for (const burnId of new Set(gone.map((entry) => entry.burnId)))
    if (burnSignal(burnId).value) await loadBurn(burnId).catch(() => undefined);
}

/** The same name after a reload, which ends a request in progress: its entry need not wait for the time limit. */
function thisTab(): string {
  const name = 'stovebench.tab';
  try {
    const id = sessionStorage.getItem(name) ?? uuid7();
    sessionStorage.setItem(name, id);
    return id;
  } catch {
    // No storage in this window: then no other tab shares its entries.
    return name;
  }
}
