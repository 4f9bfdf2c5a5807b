import { isDeepStrictEqual } from 'node:util';
import type { ErrorCode } from '../../shared/language/errors/errors.ts';
import { AppError } from '../base/app-error.ts';
import { findBurn } from '../records/versioned-documents.ts';
import type { DocumentOf, Documents, Store, StoredDocument } from '../store/store.ts';

export type EntryKind = 'mark' | 'weighing' | 'exclusion';

/** What differs between marks, weighings and excluded stretches. */
export interface EntryRules<K extends EntryKind> {
  kind: K;
  notFound: ErrorCode;
  /** Refuses what cannot be, in the light of everything else stated about the burn. */
  check(burn: StoredDocument<'burn'>, body: DocumentOf<K>): void;
  /** Tells whoever follows the burn. */
  announce(burnId: string, entry: StoredDocument<K>): void;
}

export interface Change {
  expectedVersion: number;
  by?: string | undefined;
}

/** What a person states about a burn beside its description. Taking one back is a version too, so that can be undone. */
export interface Entries<K extends EntryKind> {
  /** The same id again makes nothing and answers what is there. */
  create(burnId: string, body: DocumentOf<K>, by?: string): { entry: StoredDocument<K>; created: boolean };
  /** The same change from the same version again makes nothing and answers what is there; so does `withdraw`. */
  revise(burnId: string, body: DocumentOf<K>, change: Change): StoredDocument<K>;
  withdraw(burnId: string, id: string, change: Change): StoredDocument<K>;
}

export function createEntries<K extends EntryKind>(store: Store, rules: EntryRules<K>): Entries<K> {
  const { documents } = store;
  const { kind } = rules;

  function find(burnId: string, id: string): StoredDocument<K> | undefined {
    const found = documents.get(kind, id);
    if (found && found.burnId !== burnId) throw new AppError('burn/already-there', { kind, id });
    return found;
  }

  function require(burnId: string, id: string): StoredDocument<K> {
    findBurn(store, burnId);
    const found = documents.get(kind, id);
    if (found?.burnId !== burnId) throw new AppError(rules.notFound, { id });
    return found;
  }

  return {
    create(burnId, body, by) {
      const burn = findBurn(store, burnId);
      // Looked for before it is checked: a request sent again must not be refused for what has happened since.
      const there = find(burnId, body.id);
      if (there) return { entry: there, created: false };
      rules.check(burn, body);
      const { document, created } = documents.create(kind, { id: body.id, burnId, body, by });
      rules.announce(burnId, document);
      return { entry: document, created };
    },
    revise(burnId, body, { expectedVersion, by }) {
      const there = require(burnId, body.id);
      if (isDelivered(documents, kind, { id: body.id, body, expectedVersion })) return there;
      rules.check(findBurn(store, burnId), body);
      const entry = documents.revise(kind, body.id, { expectedVersion, body, by });
      rules.announce(burnId, entry);
      return entry;
    },
    withdraw(burnId, id, { expectedVersion, by }) {
      const there = require(burnId, id);
      if (isDelivered(documents, kind, { id, expectedVersion })) return there;
      const entry = documents.withdraw(kind, id, { expectedVersion, by });
      rules.announce(burnId, entry);
      return entry;
    },
  };
}

/**
 * Whether a change was kept before: a request whose answer got lost is sent again.
 * @param change without a body, the entry was taken back; from version 0, it was stated
 */
export function isDelivered<K extends EntryKind>(
  documents: Documents,
  kind: K,
  { id, body, expectedVersion }: { id: string; body?: DocumentOf<K> | undefined; expectedVersion: number },
): boolean {
  const next = documents.history(kind, id).find(({ version }) => version === expectedVersion + 1);
  if (!next) return false;
  return body === undefined ? next.withdrawn : !next.withdrawn && isDeepStrictEqual(next.body, body);
}
