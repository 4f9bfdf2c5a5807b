/**
 * Which burns of a stove count, and why the others do not: the same for every comparing screen, taken from the
 * comparison of the newest two revisions with the ladder of all of them.
 */
import type { BurnSummary } from '../../../../shared/contract/burns.ts';
import type { Comparison } from '../../../../shared/contract/comparison.ts';
import type { InventoryItem } from '../../../../shared/contract/inventory.ts';
import type { Message } from '../../../../shared/contract/results.ts';
import { usualOptions } from '../../../addresses/compare-route.ts';
import { fetchComparison } from '../../../requests/comparisons.ts';
import { inTime } from './sides.ts';

export type Revision = InventoryItem<'revisions'>;
export type RevisionPair = readonly [before: Revision, after: Revision];

export interface CountedBurns {
  readonly ids: readonly string[];
  readonly aside: readonly { readonly burnId: string; readonly reason: Message }[];
  /** Of the newest two revisions, where there are two. */
  readonly comparison: Comparison | undefined;
}

/** Newest change first: a revision and its parent, where both have burns. */
export function pairsOf(burnt: readonly Revision[]): RevisionPair[] {
  return burnt
    .flatMap((after): RevisionPair[] => {
      const before = burnt.find(({ id }) => id === after.parentId);
      return before ? [[before, after]] : [];
    })
    .reverse();
}

/** The two revisions compared by default: the newest change, else the last two of one stove. */
export function newestPair(burnt: readonly Revision[]): RevisionPair | undefined {
  const [changed] = pairsOf(burnt);
  if (changed) return changed;
  const after = [...burnt].reverse().find(({ stoveId }) => burnt.filter((each) => each.stoveId === stoveId).length > 1);
  const before = after && burnt.filter(({ id, stoveId }) => stoveId === after.stoveId && id !== after.id).at(-1);
  return before ? [before, after] : undefined;
}

/** @param burns of one stove, begun at least */
export async function fetchCountedBurns(
  burns: readonly BurnSummary[],
  revisions: readonly Revision[],
): Promise<CountedBurns> {
  const of = ({ id }: Revision) => inTime(burns.filter(({ revision }) => revision?.id === id)).map((burn) => burn.id);
  const pair = newestPair(revisions.filter((each) => of(each).length > 0));
  const comparison =
    pair && (await fetchComparison({ a: of(pair[0]), b: of(pair[1]), wholeRevisions: true }, usualOptions));
  const known = comparison
    ? [
        ...comparison.setAside,
        ...(comparison.ladder?.setAside ?? []).map(({ burnId, message }) => ({ burnId, reason: message })),
      ]
    : [];
  const aside = burns.flatMap((burn) => {
    const reason = known.find(({ burnId }) => burnId === burn.id)?.reason ?? ownReason(burn);
    return reason ? [{ burnId: burn.id, reason }] : [];
  });
  const ids = burns.map(({ id }) => id).filter((id) => !aside.some(({ burnId }) => burnId === id));
  return { ids, aside, comparison };
}

/** For burns that are in no comparison. */
function ownReason({ status, setAsideReason = '' }: BurnSummary): Message | undefined {
  if (status === 'setAside') return { code: 'aside/byPerson', params: { reason: setAsideReason } };
  return status === 'running' ? { code: 'aside/stillRunning', params: {} } : undefined;
}
