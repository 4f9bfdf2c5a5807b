import { revisionName } from '../../shared/language/revision-name.ts';
import type { Store } from '../store/store.ts';

/**
 * A title for a burn that was given none, in no language: stove, revision and the how-manieth burn of it, as in
 * "Heron 2 #3"; without a revision the moment in UTC.
 */
export function titleFor(store: Store, revisionId: string | undefined, nowMs: number): string {
  const revision = revisionId && store.documents.get('revision', revisionId)?.body;
  if (!revision) return `${new Date(nowMs).toISOString().slice(0, 16).replace('T', ' ')} UTC`;
  const stove = revision.stoveId === undefined ? undefined : store.documents.get('stove', revision.stoveId)?.body;
  const earlier = store.documents.list('burn').filter(({ body }) => body.revisionId === revisionId).length;
  return `${revisionName(stove, revision)} #${earlier + 1}`;
}
