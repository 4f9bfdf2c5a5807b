import type { Series } from '../../shared/contract/api.ts';
import type { SeriesRequest } from './series.ts';

/** About the curves of three overlays; a hundred kilobytes each. */
const MOST = 60;

/** Curves asked for lately: burns laid over each other again are not read and thinned again. */
export interface KeptSeries {
  /** Undefined unless they were made from this state of the burn. */
  get(burnId: string, request: SeriesRequest, stamp: string): Series | undefined;
  put(burnId: string, request: SeriesRequest, stamp: string, series: Series): void;
}

export function createKeptSeries(most = MOST): KeptSeries {
  // A Map keeps the order of insertion: the first is the one longest out of use.
  const kept = new Map<string, { stamp: string; series: Series }>();
  const nameOf = (burnId: string, { points, fromS, toS }: SeriesRequest) => [burnId, points, fromS, toS].join(' ');
  const put = (name: string, entry: { stamp: string; series: Series }) => {
    kept.delete(name);
    kept.set(name, entry);
    for (const oldest of kept.keys()) {
      if (kept.size <= most) break;
      kept.delete(oldest);
    }
  };
  return {
    get(burnId, request, stamp) {
      const name = nameOf(burnId, request);
      const entry = kept.get(name);
      if (entry?.stamp !== stamp) return undefined;
      put(name, entry);
      return entry.series;
    },
    put: (burnId, request, stamp, series) => put(nameOf(burnId, request), { stamp, series }),
  };
}
