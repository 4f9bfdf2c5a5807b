/** Burns to be overlaid: their descriptions and curves. */
import type { BurnDetail } from '../../../../shared/contract/burns.ts';
import type { Series } from '../../../../shared/contract/series.ts';
import type { CurveStyle } from '../../../../shared/plot/curve-styles.ts';
import { call } from '../../../requests/service.ts';
import { loadBurn } from '../../../state/open-burn.ts';

export interface OverlayBurn {
  readonly place: number;
  /** The number of the burn on the chart and in its key. */
  readonly number: string;
  readonly name: string;
  readonly detail: BurnDetail;
  readonly series: Series;
}

/** Burns drawn in one style, such as those of one revision. */
export interface OverlayGroup {
  readonly name: string;
  readonly style: CurveStyle;
  readonly burnIds: readonly string[];
}

/** Points per curve: finer than the screen for few burns, coarser for many. */
function pointsFor(burns: number): number {
  return burns <= 8 ? 800 : 400;
}

export async function fetchOverlayBurns(ids: readonly string[]): Promise<OverlayBurn[]> {
  const points = pointsFor(ids.length);
  return Promise.all(
    ids.map(async (id, index) => {
      const [detail, series] = await Promise.all([
        loadBurn(id),
        call('GET /burns/:id/series', { params: { id }, query: { points } }),
      ]);
      return { place: index, number: String(index + 1), name: detail.burn.title, detail, series };
    }),
  );
}
