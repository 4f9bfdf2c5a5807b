import type { ErrorCode } from '../../shared/language/errors.en.ts';
import { AppError } from '../app-error.ts';
import type { DocumentOf, KeptDocument, Store } from '../store/store.ts';
import { findBurn } from './kept.ts';

export type EntryKind = 'mark' | 'weighing' | 'exclusion';

/** What differs between marks, weighings and excluded stretches. */
export interface EntryRules<K extends EntryKind> {
  kind: K;
  notFound: ErrorCode;
  /** Refuses what cannot be, in the light of everything else stated about the burn. */
  check(burn: KeptDocument<'burn'>, body: DocumentOf<K>): void;
  /** Tells whoever follows the burn. */
  announce(burnId: string, entry: KeptDocument<K>): void;
}

export interface Change {
  expectedVersion: number;
  by?: string | undefined;
}

/** What a person states about a burn beside its description. Taking one back is a version too, so that can be undone. */
export interface Entries<K extends EntryKind> {
  /** The same id again makes nothing and answers what is there. */
  create(burnId: string, body: DocumentOf<K>, by?: string): { entry: KeptDocument<K>; created: boolean };
  revise(burnId: string, body: DocumentOf<K>, change: Change): KeptDocument<K>;
  withdraw(burnId: string, id: string, change: Change): KeptDocument<K>;
}

export function createEntries<K extends EntryKind>(store: Store, rules: EntryRules<K>): Entries<K> {
  const { documents } = store;
  const { kind } = rules;

  function find(burnId: string, id: string): KeptDocument<K> | undefined {
    const found = documents.get(kind, id);
    if (found && found.burnId !== burnId) throw new AppError('burn/already-there', { kind, id });
    return found;
  }

  function require(burnId: string, id: string): void {
    findBurn(store, burnId);
    if (documents.get(kind, id)?.burnId !== burnId) throw new AppError(rules.notFound, { id });
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
      require(burnId, body.id);
      rules.check(findBurn(store, burnId), body);
      const entry = documents.revise(kind, body.id, { expectedVersion, body, by });
      rules.announce(burnId, entry);
      return entry;
    },
    withdraw(burnId, id, { expectedVersion, by }) {
      require(burnId, id);
      const entry = documents.withdraw(kind, id, { expectedVersion, by });
      rules.announce(burnId, entry);
      return entry;
    },
  };
}
