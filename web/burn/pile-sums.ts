/** The arithmetic of a wood pile: what it weighed before and after, and what was logged as fed from it. Pure. */

import { feedsContradictPile } from '../../shared/analysis/quantities/pile-and-feeds.ts';
import { withoutUndefined } from '../../shared/contract/without-undefined.ts';
import type { ShownMark } from './burn-state.ts';

export interface PileSum {
  readonly beforeKg?: number;
  readonly afterKg?: number;
  /** Before less after; left out while one of the two is not known. */
  readonly goneKg?: number;
  /** Fed less pulled out again, as far as it was weighed. */
  readonly fedKg: number;
  readonly unweighedFeeds: number;
  /** What is gone and what was fed cannot both be right. */
  readonly contradicts: boolean;
}

/**
 * @param lotId the lot of the pile; undefined when there is only one
 * @param isFirst marks that name no lot are about the first one
 */
export function pileSum(
  marks: readonly ShownMark[],
  { lotId, isFirst }: { lotId: string | undefined; isFirst: boolean },
  { beforeKg, afterKg }: { beforeKg: number | undefined; afterKg: number | undefined },
): PileSum {
  let fedKg = 0;
  let unweighedFeeds = 0;
  for (const { mark } of marks) {
    if (mark.kind !== 'fed' && mark.kind !== 'logOut') continue;
    if (lotId !== undefined && (mark.fuelLotId ?? (isFirst ? lotId : undefined)) !== lotId) continue;
    if (mark.massKg === undefined) unweighedFeeds += 1;
    else fedKg += mark.kind === 'fed' ? mark.massKg : -mark.massKg;
  }
  const goneKg = beforeKg === undefined || afterKg === undefined ? undefined : beforeKg - afterKg;
  return {
    ...withoutUndefined({ beforeKg, afterKg, goneKg }),
    fedKg,
    unweighedFeeds,
    contradicts:
      goneKg !== undefined &&
      // More left than there was is refused at the weighing itself.
      goneKg >= 0 &&
      // Nobody who logs no feeds at all has contradicted the pile.
      (fedKg > 0 || unweighedFeeds > 0) &&
      feedsContradictPile(goneKg, fedKg, unweighedFeeds === 0),
  };
}
