/** What the person entered and the service has not confirmed yet, kept in IndexedDB so that a reload loses nothing. */
import type { Problem } from '../../shared/contract/api.ts';
import type { Method } from './api.ts';

export type EntryKind = 'mark' | 'exclusion' | 'weighUp';

export interface OutboxEntry {
  /** Position in the queue; given by the store. */
  readonly seq?: number;
  readonly burnId: string;
  readonly method: Method;
  readonly path: string;
  readonly body?: Readonly<Record<string, unknown>>;
  /** What kind of thing it is about, and its id (for a weigh-up the burn's): lets a correction find it while it waits. */
  readonly about: { readonly kind: EntryKind; readonly id: string };
  /** The version it was made from; left out for something new. */
  readonly from?: number;
  readonly queuedDeviceMs: number;
  /** Set when the service refused it for good: it stays until the person decides. */
  readonly refusal?: Problem;
}

/** The three things the outbox needs of its store; memory stands in where a browser forbids IndexedDB. */
export interface OutboxStore {
  all(): Promise<OutboxEntry[]>;
  put(entry: OutboxEntry): Promise<OutboxEntry>;
  remove(seq: number): Promise<void>;
}

const databaseName = 'stovebench';
const storeName = 'outbox';

/** Open the store; falls back to memory (private windows of some browsers have no IndexedDB) and says so in `durable`. */
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
  const run = <T>(mode: IDBTransactionMode, act: (store: IDBObjectStore) => IDBRequest<T>) =>
    new Promise<T>((resolve, reject) => {
      const transaction = database.transaction(storeName, mode, { durability: 'strict' });
      const asked = act(transaction.objectStore(storeName));
      transaction.oncomplete = () => resolve(asked.result);
      transaction.onabort = () => reject(transaction.error);
    });
  return {
    all: () => run<OutboxEntry[]>('readonly', (store) => store.getAll()),
    put: async (entry) => ({ ...entry, seq: Number(await run('readwrite', (store) => store.put(entry))) }),
    remove: async (seq) => {
      await run('readwrite', (store) => store.delete(seq));
    },
  };
}

function memoryStore(): OutboxStore {
  const kept = new Map<number, OutboxEntry>();
  let last = 0;
  return {
    all: async () => [...kept.values()],
    put: async (entry) => {
      const seq = entry.seq ?? ++last;
      const stored = { ...entry, seq };
      kept.set(seq, stored);
      return stored;
    },
    remove: async (seq) => {
      kept.delete(seq);
    },
  };
}
