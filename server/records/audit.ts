import type { BurnRecord } from '../../shared/contract/burn-record.ts';
import type { DocumentKind, StoredDocument } from '../store/store.ts';

type Edit = NonNullable<BurnRecord['edits']>[number];

/**
 * Every change of an existing document: time, author, before and after. Creating it is no edit; withdrawing it is an
 * edit to nothing.
 * @param versions all versions of the documents of one burn, in the order of saving
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

/** A burn imported from another bench contains that bench's audit trail, which is not part of what changed. */
function asJson(body: object): Edit['before'] {
  if (!('edits' in body)) return body as Edit['before'];
  const { edits: _elsewhere, ...changed } = body;
  return changed as Edit['before'];
}
