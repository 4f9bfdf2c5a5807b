import type { BurnRecord } from '../../shared/contract/burn-record.ts';
import type { DocumentKind, StoredDocument } from '../store/store.ts';

type Edit = NonNullable<BurnRecord['edits']>[number];

/**
 * Every change of something already stated: when, by whom, before and after. Stating it first is no edit; taking it back
 * is one, to nothing.
 * @param versions everything kept about one burn, in the order it was kept
 */
export function auditTrail(versions: readonly StoredDocument<DocumentKind>[]): Edit[] {
  const before = new Map<string, StoredDocument<DocumentKind>>();
  const edits: Edit[] = [];
  for (const version of versions) {
    const thing = `${version.kind} ${version.id}`;
    const earlier = before.get(thing);
    before.set(thing, version);
    if (!earlier) continue;
    edits.push({
      atUtcMs: version.editedAtMs,
      ...(version.by !== undefined && { by: version.by }),
      what: nameOf(version),
      id: version.id,
      before: earlier.withdrawn ? null : asJson(earlier.body),
      after: version.withdrawn ? null : asJson(version.body),
    });
  }
  return edits;
}

function nameOf({ kind, body }: StoredDocument<DocumentKind>): string {
  if (kind === 'mark' && 'kind' in body) return `mark ${body.kind}`;
  if (kind === 'weighing' && 'of' in body) return `weighing ${body.of} ${body.when}`;
  return kind;
}

/** A burn brought from another bench carries that bench's trail, which is no part of what changed. */
function asJson(body: object): Edit['before'] {
  if (!('edits' in body)) return body as Edit['before'];
  const { edits: _elsewhere, ...changed } = body;
  return changed as Edit['before'];
}
