/**
 * The newest versions of what belongs to no burn alone, and of the burns themselves, in memory: a list of burns reads each of them, and
 * its stove and lots with it. What was written is read again at the next look, so a transaction that is undone leaves nothing behind.
 */
import type { Database } from 'better-sqlite3';
import type { DocumentKind, StoredDocument } from './document-kinds.ts';

const inventory: readonly DocumentKind[] = ['stove', 'revision', 'vessel', 'fuelLot', 'place', 'scale'];

type Documents = Map<string, StoredDocument<DocumentKind>>;

export interface Reading {
  one(kind: DocumentKind, id: string): StoredDocument<DocumentKind> | undefined;
  /** In the order they were made. */
  all(kind: DocumentKind): StoredDocument<DocumentKind>[];
}

/**
 * @param reading from the database
 * @param isWriter whether this connection alone writes; one that only reads looks for what another wrote, and leaves burns where they are,
 *   since it is open for one question
 */
export function createDocumentsInMemory(
  db: Database,
  reading: Reading,
  isWriter: boolean,
): Reading & {
  written(kind: DocumentKind, id: string): void;
} {
  const known = new Map<DocumentKind, Documents>();
  const kinds = new Set<DocumentKind>(isWriter ? ['burn', ...inventory] : inventory);
  const dataVersion = dataVersionOf(db);
  let version: string | undefined;
  const writtenIds = new Map<DocumentKind, Set<string>>();

  /** Undefined for what is not in memory, and inside a transaction, which may be undone. */
  function documentsOf(kind: DocumentKind): Documents | undefined {
    if (!kinds.has(kind) || db.inTransaction) return undefined;
    if (!isWriter) {
      const now = dataVersion();
      if (version !== now) known.clear();
      version = now;
    }
    const documents = known.get(kind) ?? new Map(reading.all(kind).map((document) => [document.id, frozen(document)]));
    known.set(kind, documents);
    for (const id of writtenIds.get(kind) ?? []) {
      const document = reading.one(kind, id);
      if (document) documents.set(id, frozen(document));
      else documents.delete(id);
    }
    writtenIds.delete(kind);
    return documents;
  }

  return {
    one(kind, id) {
      const documents = documentsOf(kind);
      return documents ? documents.get(id) : reading.one(kind, id);
    },
    all(kind) {
      const documents = documentsOf(kind);
      return documents ? [...documents.values()] : reading.all(kind);
    },
    written(kind, id) {
      if (!kinds.has(kind)) return;
      writtenIds.set(kind, (writtenIds.get(kind) ?? new Set()).add(id));
    },
  };
}

/** Reads a string that differs whenever another connection wrote. */
export function dataVersionOf(db: Database): () => string {
  const version = db.prepare<[], number>('PRAGMA data_version').pluck();
  return () => String(version.get());
}

/** All who look share it. */
function frozen<T>(value: T): T {
  if (typeof value === 'object' && value !== null && !Object.isFrozen(value)) {
    Object.freeze(value);
    for (const part of Object.values(value)) frozen(part);
  }
  return value;
}
