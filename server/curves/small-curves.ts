import type { SmallCurve } from '../burns/summaries.ts';
import type { Store } from '../store/store.ts';

const NAME = 'smallCurve';

/** Kept when a burn ends or is taken in, so that the list of burns need not read any scan. */
export function keepSmallCurve(store: Store, burnId: string, curve: SmallCurve): void {
  store.derived.put(burnId, NAME, '', curve);
}

export function keptSmallCurve(store: Store, burnId: string): SmallCurve {
  return (store.derived.get(burnId, NAME, '') as SmallCurve | undefined) ?? [];
}
