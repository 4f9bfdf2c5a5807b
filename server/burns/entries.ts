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
  /** Throws for an impossible entry, given all other entries of the burn. */
  check(burn: StoredDocument<'burn'>, body: DocumentOf<K>): void;
  /** Publishes the entry to the clients that follow the burn. */
  announce(burnId: string, entry: StoredDocument<K>): void;
}

export interface Change {
  expectedVersion: number;
  by?: string | undefined;
}

/**
 * What a person enters about a burn besides its description. Withdrawing an entry is a version too, so that it can be
 * undone.
 */
export interface Entries<K extends EntryKind> {
  /** A second request with the same id creates nothing and returns the existing entry. */
  create(burnId: string, body: DocumentOf<K>, by?: string): { entry: StoredDocument<K>; created: boolean };
  /**
   * The same change from the same version a second time saves nothing and returns the existing entry; so does
   * `withdraw`.
   */
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
      // Looked up before validation: a request sent again must not be refused for something that happened since.
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
 * Whether a change was saved before: a request whose answer got lost is sent again.
 * @param change without a body, the entry was withdrawn; from version 0, it was created
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
