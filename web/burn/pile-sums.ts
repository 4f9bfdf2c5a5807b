/** The balance of a wood pile: its mass before and after, and the mass marked as fed from it. Pure. */

import { feedsContradictPile } from '../../shared/analysis/quantities/pile-and-feeds.ts';
import { withoutUndefined } from '../../shared/contract/without-undefined.ts';
import type { ShownMark } from './burn-state.ts';

export interface PileSum {
  readonly beforeKg?: number;
  readonly afterKg?: number;
  /** Before less after; undefined while one of the two is not known. */
  readonly goneKg?: number;
  /** Fed less pulled out again, as far as weighed. */
  readonly fedKg: number;
  readonly unweighedFeeds: number;
  /** What is gone and what was fed contradict each other. */
  readonly contradicts: boolean;
}

/**
 * @param lotId the lot of the pile; undefined when there is only one
 * @param isFirst whether marks without a lot count for this one, the first
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
      // More left than there was before is refused at the weighing itself.
      goneKg >= 0 &&
      // A burn without any feed marks does not contradict the pile.
      (fedKg > 0 || unweighedFeeds > 0) &&
      feedsContradictPile(goneKg, fedKg, unweighedFeeds === 0),
  };
}
