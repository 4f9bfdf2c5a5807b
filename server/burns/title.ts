import { burnTitle } from '../../shared/language/burn-title.ts';
import type { Language } from '../../shared/language/language.ts';
import { revisionName } from '../../shared/language/revision-name.ts';
import type { Store } from '../store/store.ts';

/**
 * A title for a burn without one: stove, revision and the number of the burn, as in "Heron 2 · burn 3"; without a
 * revision, the time in UTC.
 */
export function titleFor(store: Store, revisionId: string | undefined, nowMs: number, language: Language): string {
  const revision = revisionId && store.documents.get('revision', revisionId)?.body;
  if (!revision) return `${new Date(nowMs).toISOString().slice(0, 16).replace('T', ' ')} UTC`;
  const stove = revision.stoveId === undefined ? undefined : store.documents.get('stove', revision.stoveId)?.body;
  const earlier = store.documents.list('burn').filter(({ body }) => body.revisionId === revisionId).length;
  return burnTitle(language, revisionName(stove, revision), earlier + 1);
}
