/** The two sides of a comparison: the burns of each, and its name. */

import type { BurnSummary } from '../../../../shared/contract/burns.ts';
import type { InventoryItem } from '../../../../shared/contract/inventory.ts';
import { revisionName } from '../../../../shared/language/revision-name.ts';
import type { AskedComparison } from '../../../addresses/compare-route.ts';
import { translateCompare } from '../../../language/catalogue.ts';

export interface Side {
  readonly key: 'a' | 'b';
  /** As in the sentences of the service. */
  readonly name: string;
  /** With its stove. */
  readonly longName: string;
  readonly revision: InventoryItem<'revisions'> | undefined;
  readonly burns: readonly BurnSummary[];
}

export interface Sides {
  readonly a: Side;
  readonly b: Side;
}

/** Burns of a revision that were at least begun, oldest first. */
export function burnsOfRevision(all: readonly BurnSummary[], revisionId: string): BurnSummary[] {
  return inTime(all.filter(({ revision, status }) => revision?.id === revisionId && status !== 'planned'));
}

export function inTime(burns: readonly BurnSummary[]): BurnSummary[] {
  return [...burns].sort((x, y) => (x.startedUtcMs ?? 0) - (y.startedUtcMs ?? 0));
}

export function sidesOf(
  asked: AskedComparison,
  all: readonly BurnSummary[],
  revisions: readonly InventoryItem<'revisions'>[],
): Sides {
  const burnsOf = (key: 'a' | 'b') =>
    asked.show === 'revisions'
      ? burnsOfRevision(all, asked[key])
      : inTime(all.filter(({ id }) => asked[key].includes(id)));
  const [a, b] = [burnsOf('a'), burnsOf('b')];
  const [labelA, labelB] = [commonLabel(a), commonLabel(b)];
  // The same rule as in the service, so that its sentences and the headings agree.
  const named = labelA !== undefined && labelB !== undefined && labelA !== labelB;
  const side = (key: 'a' | 'b', burns: readonly BurnSummary[], label: string | undefined): Side => {
    const [first] = burns;
    const oneRevision = burns.every(({ revision }) => revision?.id === first?.revision?.id);
    return {
      key,
      burns,
      name: named && label !== undefined ? translateCompare().revision({ label }) : key.toUpperCase(),
      longName:
        first?.stove && oneRevision
          ? revisionName(first.stove, label === undefined ? undefined : { label })
          : key.toUpperCase(),
      revision: oneRevision ? revisions.find(({ id }) => id === first?.revision?.id) : undefined,
    };
  };
  return { a: side('a', a, labelA), b: side('b', b, labelB) };
}

function commonLabel(burns: readonly BurnSummary[]): string | undefined {
  const labels = new Set(burns.map(({ revision }) => revision?.label));
  return labels.size === 1 ? [...labels][0] : undefined;
}
