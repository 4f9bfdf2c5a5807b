import type { Database } from 'better-sqlite3';
import { AppError } from '../base/app-error.ts';
import type { Changes } from './changes.ts';
import { DATABASE } from './data-folder.ts';
import type { DocumentKind, DocumentOf, StoredDocument } from './document-kinds.ts';
import { createDocumentsInMemory, type Reading } from './documents-in-memory.ts';
import { checksumOf } from './row-checksums.ts';
import { keyOfBurn, type ShortKeys } from './short-keys.ts';
import type { Documents } from './store.ts';
import { createUnfinishedBurns } from './unfinished-burns.ts';

interface Row {
  kind: string;
  id: string;
  version: number;
  burnId: string | null;
  body: string;
  withdrawn: number;
  editedAtMs: number;
  createdAtMs: number;
  by: string | null;
}

const COLUMNS = `document.kind, document.id, document.version, burn.id AS burnId, document.body, document.withdrawn,
  document.edited_at_ms AS editedAtMs, document.edited_by AS by,
  (SELECT first.edited_at_ms FROM document AS first
    WHERE first.kind = document.kind AND first.id = document.id AND first.version = 1) AS createdAtMs`;
const FROM = 'FROM document LEFT JOIN burn ON burn.key = document.burn_key';
const NEWEST = `NOT EXISTS (SELECT 1 FROM document AS later
  WHERE later.kind = document.kind AND later.id = document.id AND later.version = document.version + 1)`;
const IN_ORDER_MADE = `ORDER BY (SELECT first.key FROM document AS first
  WHERE first.kind = document.kind AND first.id = document.id AND first.version = 1)`;

/**
 * @param isWriter whether this connection alone writes
 * @param remembered the unfinished burns, where the data are as they were closed
 */
export function createDocuments(
  db: Database,
  burns: ShortKeys,
  nowMs: () => number,
  changes: Pick<Changes, 'noteDocument'>,
  isWriter: boolean,
  remembered?: readonly string[],
): Documents & { removed(burnId: string): void; knownUnfinished(): readonly string[] | undefined } {
  const insert = db.prepare(
    `INSERT INTO document (kind, id, version, burn_key, body, withdrawn, edited_at_ms, edited_by, checksum)
     VALUES (@kind, @id, @version, @burn_key, @body, @withdrawn, @edited_at_ms, @edited_by,
       ${checksumOf('document', (column) => `@${column}`)})`,
  );
  const newest = db.prepare<[string, string], Row>(
    `SELECT ${COLUMNS} ${FROM} WHERE document.kind = ? AND document.id = ? ORDER BY document.version DESC LIMIT 1`,
  );
  const ofKind = db.prepare<[string], Row>(
    `SELECT ${COLUMNS} ${FROM} WHERE document.kind = ? AND ${NEWEST} ${IN_ORDER_MADE}`,
  );
  // A body that is not JSON is read too, and refused like any other.
  const isUnfinished = "(NOT json_valid(document.body) OR document.body ->> 'status' IN ('running', 'ended'))";
  const unfinishedIds = db
    .prepare<[], string>(
      `SELECT document.id FROM document WHERE kind = 'burn' AND ${NEWEST} AND ${isUnfinished} ${IN_ORDER_MADE}`,
    )
    .pluck();
  const oneUnfinished = db
    .prepare<[string], number>(
      `SELECT ${isUnfinished} FROM document WHERE kind = 'burn' AND id = ? ORDER BY version DESC LIMIT 1`,
    )
    .pluck();
  const ofKindAndBurn = db.prepare<[string, number], Row>(
    `SELECT ${COLUMNS} ${FROM} WHERE document.kind = ? AND document.burn_key = ? AND ${NEWEST} ${IN_ORDER_MADE}`,
  );
  const versions = db.prepare<[string, string], Row>(
    `SELECT ${COLUMNS} ${FROM} WHERE document.kind = ? AND document.id = ? ORDER BY document.version`,
  );
  const versionsOfBurn = db.prepare<[number], Row>(
    `SELECT ${COLUMNS} ${FROM} WHERE document.burn_key = ? ORDER BY document.key`,
  );
  const stamp = db.prepare<[number], number | null>('SELECT max(key) FROM document WHERE burn_key = ?').pluck();

  const fromDatabase: Reading = {
    one(kind, id) {
      const row = newest.get(kind, id);
      return row && fromRow(row);
    },
    all: (kind) => ofKind.all(kind).map(fromRow),
  };
  const memory = createDocumentsInMemory(db, fromDatabase, isWriter);
  const unfinished = createUnfinishedBurns(
    {
      isUnfinished: (id) => oneUnfinished.get(id) === 1,
      all: () => unfinishedIds.all(),
      // Another connection may have written, or this one may undo what it wrote.
      isUndoable: () => !isWriter || db.inTransaction,
    },
    remembered,
  );

  /** A version of a document, or its removal, was written. */
  function note(kind: DocumentKind, id: string, burnId: string | undefined): void {
    memory.written(kind, id);
    if (kind === 'burn') unfinished.written(id);
    changes.noteDocument(burnId);
  }

  const get = <K extends DocumentKind>(kind: K, id: string): StoredDocument<K> | undefined =>
    memory.one(kind, id) as StoredDocument<K> | undefined;

  function save<K extends DocumentKind>(document: StoredDocument<K>): StoredDocument<K> {
    const { kind, id, version, burnId, by } = document;
    insert.run({
      kind,
      id,
      version,
      burn_key: burnId === undefined ? null : keyOfBurn(burns, burnId),
      body: JSON.stringify(document.body, refuseNonFinite),
      withdrawn: document.withdrawn ? 1 : 0,
      edited_at_ms: document.editedAtMs,
      edited_by: by ?? null,
    });
    note(kind, id, burnId);
    return document;
  }

  function next<K extends DocumentKind>(
    kind: K,
    id: string,
    expectedVersion: number,
    change: { body?: DocumentOf<K>; withdrawn: boolean; by: string | undefined },
  ): StoredDocument<K> {
    const found = get(kind, id);
    if (!found) throw new AppError('shelf/not-found', { kind, id });
    if (found.version !== expectedVersion) throw conflict(found, expectedVersion);
    return save({
      ...found,
      version: found.version + 1,
      body: change.body ?? found.body,
      withdrawn: change.withdrawn,
      editedAtMs: nowMs(),
      by: change.by,
    });
  }

  const create = db.transaction((document: StoredDocument<DocumentKind>) => {
    const found = get(document.kind, document.id);
    if (found) {
      if (found.burnId !== document.burnId) {
        throw new AppError('burn/already-there', { kind: document.kind, id: document.id });
      }
      return { document: found, created: false };
    }
    if (document.kind === 'burn') burns.ensure(document.id);
    return { document: save(document), created: true };
  });
  const change = db.transaction(next);

  return {
    get,
    create<K extends DocumentKind>(
      kind: K,
      entry: { id: string; body: DocumentOf<K>; burnId?: string | undefined; by?: string | undefined },
    ) {
      const { id, body, by } = entry;
      const atMs = nowMs();
      const burnId = kind === 'burn' ? id : entry.burnId;
      const stored = create.immediate({
        kind,
        id,
        version: 1,
        burnId,
        body,
        withdrawn: false,
        editedAtMs: atMs,
        createdAtMs: atMs,
        by,
      });
      return stored as { document: StoredDocument<K>; created: boolean };
    },
    revise: (kind, id, { expectedVersion, body, by }) =>
      change.immediate(kind, id, expectedVersion, { body, withdrawn: false, by }) as StoredDocument<typeof kind>,
    withdraw: (kind, id, { expectedVersion, by }) =>
      change.immediate(kind, id, expectedVersion, { withdrawn: true, by }) as StoredDocument<typeof kind>,
    list: (kind) => memory.all(kind) as StoredDocument<typeof kind>[],
    unfinishedBurns: () =>
      unfinished.ids().flatMap((id) => (fromDatabase.one('burn', id) as StoredDocument<'burn'> | undefined) ?? []),
    knownUnfinished: unfinished.known,
    ofBurn: (kind, burnId) => ofKindAndBurn.all(kind, burns.find(burnId)).map(fromRow<typeof kind>),
    history: (kind, id) => versions.all(kind, id).map(fromRow<typeof kind>),
    historyOfBurn: (burnId) => versionsOfBurn.all(burns.find(burnId)).map(fromRow<DocumentKind>),
    removed: (burnId) => note('burn', burnId, burnId),
    stampOfBurn: (burnId) => stamp.get(burns.find(burnId)) ?? 0,
  };
}

function fromRow<K extends DocumentKind>(row: Row): StoredDocument<K> {
  return {
    kind: row.kind as K,
    id: row.id,
    version: row.version,
    burnId: row.burnId ?? undefined,
    body: parsed(row) as DocumentOf<K>,
    withdrawn: row.withdrawn === 1,
    editedAtMs: row.editedAtMs,
    createdAtMs: row.createdAtMs,
    by: row.by ?? undefined,
  };
}

/** @throws AppError store/damaged */
function parsed({ kind, id, version, body }: Row): unknown {
  try {
    return JSON.parse(body);
  } catch (error) {
    throw new AppError('store/damaged', { file: DATABASE, raw: `${kind} ${id} ${version}` }, { cause: error });
  }
}

function conflict(found: StoredDocument<DocumentKind>, expected: number): AppError {
  const { version, body, by, editedAtMs, withdrawn } = found;
  return new AppError(
    'store/conflict',
    { expected, found: version },
    { details: { newest: { version, body, withdrawn, editedAtMs, ...(by && { by }) } } },
  );
}

/** JSON would turn NaN and Infinity into null without complaint. */
function refuseNonFinite(key: string, value: unknown): unknown {
  if (typeof value === 'number' && !Number.isFinite(value)) {
    throw new AppError('store/not-finite', { what: key, value: String(value) });
  }
  return value;
}
