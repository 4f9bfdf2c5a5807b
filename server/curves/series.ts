import { channelCurves } from '../../shared/analysis/curves/channel-curve.ts';
import { bridgeOf } from '../../shared/analysis/curves/segments.ts';
import { waterCurve } from '../../shared/analysis/curves/water-curve.ts';
import { trustedCurves } from '../../shared/analysis/quantities/trusted-curves.ts';
import type { BurnRecord, Channel } from '../../shared/contract/burn-record.ts';
import type { Series } from '../../shared/contract/series.ts';
import { brokenAt, type Pause, type ThinCurve, thinCurve, type Window } from './thin-curve.ts';

export interface SeriesRequest {
  points: number;
  fromS?: number | undefined;
  toS?: number | undefined;
}

/** Every probe as it read, and the water and its rate as the results see them, thin enough to draw. */
export function seriesOf(record: BurnRecord, request: SeriesRequest): Series {
  const spans = record.readings.map(({ elapsedUs }) => ({
    fromS: (elapsedUs[0] ?? 0) / 1e6,
    toS: (elapsedUs.at(-1) ?? 0) / 1e6,
  }));
  const window = windowOf(request, spans);
  return seriesFrom(record, [...waterCurves(record, window), ...probeCurves(record, window)]);
}

/** From the first reading to the last, s. */
export interface Span {
  readonly fromS: number;
  readonly toS: number;
}

/** The requested stretch of time, or the whole burn. */
export function windowOf({ points, fromS, toS }: SeriesRequest, spans: readonly Span[]): Window {
  return {
    fromS: fromS ?? Math.min(0, ...spans.map((span) => span.fromS)),
    toS: toS ?? Math.max(0, ...spans.map((span) => span.toS)),
    points,
  };
}

export function seriesFrom({ id, marks }: Pick<BurnRecord, 'id' | 'marks'>, curves: Series['curves']): Series {
  const litUs = marks.find((mark) => mark.kind === 'lit')?.elapsedUs;
  return { burnId: id, ...(litUs !== undefined && { litS: litUs / 1e6 }), curves };
}

/** Every probe of the record as it read. */
export function probeCurves(record: BurnRecord, window: Window): Series['curves'] {
  return channelCurves(record).map(({ channel, timeS, value }) =>
    curveOfProbe(channel, thinCurve(timeS, value, window, bridgeOf({ channel, timeS }))),
  );
}

export function curveOfProbe(channel: Channel, curve: ThinCurve): Series['curves'][number] {
  return {
    id: channel.id,
    role: channel.role,
    name: channel.name,
    unit: channel.unit === 'uV' || channel.unit === 'Ohm' ? 'Cel' : channel.unit,
    ...(channel.handRead && { handRead: true as const }),
    ...rounded(curve),
  };
}

/**
 * The water and its rate as the results see them; nothing where no probe of the record reads the water.
 * @param pauses further stretches that they do not cross
 */
export function waterCurves(record: BurnRecord, window: Window, pauses: readonly Pause[] = []): Series['curves'] {
  const water = waterCurve(trustedCurves(record).map(({ curve }) => curve));
  if (!water) return [];
  const { timeS, tempC, rateKPerS, bridgeS, isHandRead } = water;
  const thin = (value: Float64Array) => rounded(brokenAt(thinCurve(timeS, value, window, bridgeS), pauses));
  const byHand = isHandRead ? { handRead: true as const } : {};
  const ratePerMin = rateKPerS.map((rate) => rate * 60);
  return [
    {
      id: 'water',
      role: 'water',
      name: 'water',
      unit: 'Cel',
      ...byHand,
      ...thin(tempC),
    },
    {
      id: 'waterRate',
      role: 'water',
      name: 'water rate',
      unit: 'K/min',
      ...thin(ratePerMin),
    },
  ];
}

/** A tenth of a second and a thousandth of a unit are finer than any screen, and a third of the bytes. */
function rounded({ t, v }: ThinCurve): ThinCurve {
  return {
    t: t.map((value) => Math.round(value * 10) / 10),
    v: v.map((value) => (value === null ? null : Math.round(value * 1000) / 1000)),
  };
}
