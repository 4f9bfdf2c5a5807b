/**
 * Curves of a running burn: a downsampled series from the service, then the scans that arrive.
 * The tail is short: when it has grown, the series is fetched again, so memory and drawing cost stay level for hours.
 */
import { batch, type Signal, signal } from '@preact/signals';
import type { Estimate } from '../../shared/contract/live-estimates.ts';
import type { Series } from '../../shared/contract/series.ts';
import { call } from '../requests/service.ts';
import { onLive } from './connection.ts';

export type Curve = Series['curves'][number];

interface Followed {
  base: Series;
  tail: Map<string, { t: number[]; v: (number | null)[] }>;
  tailLength: number;
}

export interface LiveCurves {
  readonly curves: Signal<readonly Curve[] | undefined>;
  readonly estimate: Signal<Estimate | undefined>;
  stop(): void;
}

/** About one a pixel of a laptop's paper: more would only thicken the line. */
const basePoints = 400;
const longestTail = 300;
/** A chart that changes more often than this only costs battery. */
const redrawMs = 400;
/** The estimate follows its scan at once: together they are one drawing. */
const gatherMs = 20;

/** Follow one running burn until stopped. */
export function followCurves(burnId: string): LiveCurves {
  const curves = signal<readonly Curve[] | undefined>(undefined);
  const estimate = signal<Estimate | undefined>(undefined);
  let followed: Followed | undefined;
  let fetching = false;
  /** A person's reading came while the series was on its way without it. */
  let readMeanwhile = false;
  let newest: Estimate | undefined;
  let redraw: ReturnType<typeof setTimeout> | undefined;
  let drawnMs = Number.NEGATIVE_INFINITY;
  let stopped = false;

  const publish = () => {
    clearTimeout(redraw);
    redraw = undefined;
    drawnMs = performance.now();
    batch(() => {
      estimate.value = newest;
      if (followed) curves.value = joined(followed);
    });
  };
  const publishSoon = () => {
    redraw ??= setTimeout(publish, Math.max(gatherMs, drawnMs + redrawMs - performance.now()));
  };
  const fetchBase = async () => {
    if (fetching) return;
    fetching = true;
    readMeanwhile = false;
    try {
      const base = await call('GET /burns/:id/series', { params: { id: burnId }, query: { points: basePoints } });
      if (stopped) return;
      const fresh = { base, tail: tailAfter(followed?.tail, base), tailLength: 0 };
      followed = fresh;
      publish();
    } catch {
      // The next snapshot, after the link is back, asks again.
    } finally {
      fetching = false;
      if (readMeanwhile && !stopped) void fetchBase();
    }
  };
  const append = (id: string, t: number, v: number | null) => {
    if (!followed) return;
    const known = followed.tail.get(id) ?? { t: [], v: [] };
    followed.tail.set(id, known);
    if (t <= (known.t.at(-1) ?? Number.NEGATIVE_INFINITY)) return;
    known.t.push(t);
    known.v.push(v);
  };

  const leave = [
    onLive('snapshot', () => void fetchBase()),
    onLive('scan', ({ burnId: of, elapsedUs, values, faults }) => {
      if (of !== burnId || elapsedUs === undefined) return;
      const t = elapsedUs / 1e6;
      for (const [id, value] of Object.entries(values)) append(id, t, value);
      for (const id of Object.keys(faults)) append(id, t, null);
      if (followed && ++followed.tailLength > longestTail) void fetchBase();
      publishSoon();
    }),
    onLive('estimate', ({ estimate: now }) => {
      if (now.burnId !== burnId) return;
      newest = now;
      // What a person reads stands still until the next reading; the line to that one comes with the series.
      if (now.waterReadUs === undefined) {
        const t = now.elapsedUs / 1e6;
        append('water', t, now.waterTempC ?? null);
        append('waterRate', t, now.rateKPerMin ?? null);
      }
      publishSoon();
    }),
    onLive('mark', ({ burnId: of, mark: { mark } }) => {
      if (of !== burnId || mark.kind !== 'reading') return;
      readMeanwhile = fetching;
      void fetchBase();
    }),
    onLive('gaps', ({ burnId: of }) => {
      if (of === burnId) void fetchBase();
    }),
  ];
  void fetchBase();

  return {
    curves,
    estimate,
    stop() {
      stopped = true;
      clearTimeout(redraw);
      for (const off of leave) off();
    },
  };
}

function joined({ base, tail }: Followed): Curve[] {
  return base.curves.map((curve) => {
    const more = tail.get(curve.id);
    if (!more) return curve;
    const last = curve.t.at(-1) ?? Number.NEGATIVE_INFINITY;
    const from = more.t.findIndex((t) => t > last);
    if (from < 0) return curve;
    return { ...curve, t: [...curve.t, ...more.t.slice(from)], v: [...curve.v, ...more.v.slice(from)] };
  });
}

/** What arrived on the stream while the series was on its way must not be lost. */
function tailAfter(tail: Followed['tail'] | undefined, base: Series): Followed['tail'] {
  const stored: Followed['tail'] = new Map();
  for (const [id, { t, v }] of tail ?? []) {
    const last = base.curves.find((curve) => curve.id === id)?.t.at(-1) ?? Number.POSITIVE_INFINITY;
    const from = t.findIndex((at) => at > last);
    if (from >= 0) stored.set(id, { t: t.slice(from), v: v.slice(from) });
  }
  return stored;
}
