/**
 * What the person entered and the service has not confirmed yet, stored in IndexedDB so that a reload loses nothing.
 * All tabs of a device share it.
 */
import type { Problem } from '../../shared/contract/problem.ts';
import type { Method } from '../requests/http.ts';

export type EntryKind = 'mark' | 'exclusion' | 'weighUp';

export interface OutboxEntry {
  /** Position in the queue; assigned by the store. */
  readonly seq?: number;
  readonly burnId: string;
  readonly method: Method;
  readonly path: string;
  readonly body?: Readonly<Record<string, unknown>>;
  /**
   * The kind and id of the thing concerned (for a weigh-up the burn's id): used to find the entry for a correction
   * while it waits.
   */
  readonly about: { readonly kind: EntryKind; readonly id: string };
  /** The version on which it is based; omitted for something new. */
  readonly from?: number;
  readonly queuedDeviceMs: number;
  /** Set when it is sent, until the service refuses it: the service may have received it, even without an answer. */
  readonly wasSent?: true;
  /** The tab that is sending it, and the time limit for that by the clock of the device. */
  readonly heldBy?: { readonly tab: string; readonly untilMs: number };
  /** Set when the service refused it for good: it stays until the person decides. */
  readonly refusal?: Problem;
}

type Entries = readonly OutboxEntry[];

/** The operations that the outbox uses of its store; memory is used where a browser forbids IndexedDB. */
export interface OutboxStore {
  /** In the order in which they were created. */
  all(): Promise<Entries>;
  /**
   * Replaces all entries by the result of `act`, in one transaction with respect to other tabs: omitted entries are
   * removed, entries without a position get one at the end. Returns the entries as stored.
   */
  change(act: (entries: Entries) => Entries): Promise<Entries>;
  /** Calls the listener when another tab changed them. */
  onChanged(listener: () => void): void;
}

const databaseName = 'stovebench';
const storeName = 'outbox';

/**
 * Open the store; falls back to memory (private windows of some browsers have no IndexedDB), which `durable` reports.
 */
export async function openOutboxStore(): Promise<{ store: OutboxStore; durable: boolean }> {
  try {
    return { store: indexedStore(await openDatabase()), durable: true };
  } catch {
    return { store: memoryStore(), durable: false };
  }
}

function openDatabase(): Promise<IDBDatabase> {
  return new Promise((resolve, reject) => {
    const opening = indexedDB.open(databaseName, 1);
    opening.onupgradeneeded = () =>
      opening.result.createObjectStore(storeName, { keyPath: 'seq', autoIncrement: true });
    opening.onsuccess = () => resolve(opening.result);
    opening.onerror = () => reject(opening.error);
  });
}

function indexedStore(database: IDBDatabase): OutboxStore {
  const tabs = 'BroadcastChannel' in globalThis ? new BroadcastChannel(databaseName) : undefined;
  const run = (mode: IDBTransactionMode, act: (entries: Entries) => Entries) =>
    new Promise<Entries>((resolve, reject) => {
      const transaction = database.transaction(storeName, mode, { durability: 'strict' });
      const store = transaction.objectStore(storeName);
      const asked: IDBRequest<OutboxEntry[]> = store.getAll();
      let [before, after]: [Entries, Entries] = [[], []];
      const placed = new Map<OutboxEntry, IDBRequest<IDBValidKey>>();
      asked.onsuccess = () => {
        before = asked.result;
        after = act(before);
        for (const seq of removed(before, after)) store.delete(seq);
        for (const entry of after) if (!before.includes(entry)) placed.set(entry, store.put(entry));
      };
      transaction.oncomplete = () => {
        if (after !== before) tabs?.postMessage('changed');
        resolve(after.map((entry) => ({ ...entry, seq: entry.seq ?? Number(placed.get(entry)?.result) })));
      };
      transaction.onabort = () => reject(transaction.error);
    });
  return {
    all: () => run('readonly', (entries) => entries),
    change: (act) => run('readwrite', act),
    onChanged: (listener) => tabs?.addEventListener('message', listener),
  };
}

export function memoryStore(): OutboxStore {
  let stored: Entries = [];
  let last = 0;
  return {
    all: async () => stored,
    change: async (act) => {
      stored = act(stored).map((entry) => (entry.seq === undefined ? { ...entry, seq: ++last } : entry));
      return stored;
    },
    onChanged: () => undefined,
  };
}

function removed(before: Entries, after: Entries): number[] {
  const left = new Set(after.map(({ seq }) => seq));
  return before.flatMap(({ seq }) => (seq === undefined || left.has(seq) ? [] : [seq]));
}
