/**
 * The one event stream of the page. All live events arrive here and are passed on by type.
 * It is closed while the page is hidden: browsers allow six connections to a site, and a forgotten tab must not hold
 * one.
 */
import { signal } from '@preact/signals';
import type { LiveEvent } from '../../shared/contract/stream.ts';
import { linkTo } from '../requests/http.ts';
import { askHealth } from '../requests/service.ts';

export type LinkState = 'connecting' | 'open' | 'lost';
export const link = signal<LinkState>('connecting');

type EventOf<K extends LiveEvent['type']> = Extract<LiveEvent, { type: K }>;
type Listener = (event: LiveEvent) => void;

const eventTypes = [
  'snapshot',
  'board',
  'boardGone',
  'handProbes',
  'scan',
  'burn',
  'burnGone',
  'mark',
  'weighing',
  'exclusion',
  'gaps',
  'storage',
  'calls',
  'estimate',
  'practice',
  'work',
] as const;
const listeners = new Map<LiveEvent['type'], Set<Listener>>();
/** A stream without an event for this long is checked with a request: radio links can fail without an error. */
const quietMs = 6000;
const longestPauseMs = 8000;

let source: EventSource | undefined;
let lastWordMs = 0;
let pauseMs = 500;
let retry: ReturnType<typeof setTimeout> | undefined;

/** Subscribe to every event of one type; returns the function that unsubscribes. */
export function onLive<K extends LiveEvent['type']>(type: K, listener: (event: EventOf<K>) => void): () => void {
  const group = listeners.get(type) ?? new Set();
  listeners.set(type, group);
  group.add(listener as Listener);
  return () => group.delete(listener as Listener);
}

/** Reconnect at once after a change. */
export function reconnect(): void {
  open();
}

/** Open the stream and hold it open while the page is visible. Call once. */
export function startConnection(): void {
  document.addEventListener('visibilitychange', () => {
    if (document.hidden) close();
    else open();
  });
  addEventListener('online', open);
  addEventListener('offline', () => lost());
  setInterval(watch, 2000);
  if (!document.hidden) open();
}

/** A hidden page holds no connection, whichever code would open one. */
function open(): void {
  close();
  if (document.hidden) return;
  if (link.value !== 'lost') link.value = 'connecting';
  lastWordMs = Date.now();
  const opened = new EventSource(linkTo('GET /stream', {}));
  source = opened;
  for (const type of eventTypes) opened.addEventListener(type, (message) => deliver(message as MessageEvent<string>));
  opened.onopen = alive;
  opened.onerror = () => lost();
  askHealth().catch(() => lost());
}

function close(): void {
  clearTimeout(retry);
  source?.close();
  source = undefined;
}

function alive(): void {
  lastWordMs = Date.now();
  pauseMs = 500;
  link.value = 'open';
}

function deliver(message: MessageEvent<string>): void {
  alive();
  const event = JSON.parse(message.data) as LiveEvent;
  for (const listener of listeners.get(event.type) ?? []) listener(event);
}

function lost(): void {
  close();
  link.value = 'lost';
  retry = setTimeout(open, pauseMs);
  pauseMs = Math.min(pauseMs * 2, longestPauseMs);
}

function watch(): void {
  if (!source || document.hidden || Date.now() - lastWordMs < quietMs) return;
  lastWordMs = Date.now();
  askHealth().catch(() => lost());
}
