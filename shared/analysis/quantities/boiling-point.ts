/** The local boiling point from what is known of the place, and how sure. The plateau of the water itself is another matter. */
import type { BurnRecord } from '../../contract/burn-record.ts';
import type { Message } from '../../contract/results.ts';
import { boilingPointC, standardPressureAtGeometricPa, WEATHER_PRESSURE_U_PA } from '../../physics/atmosphere.ts';
import { saturationSlopePaPerK } from '../../physics/saturation-line.ts';
import type { Curve } from '../curves/channel-curve.ts';
import { byDefault, remark } from '../engine/messages.ts';
import type { Draw, Model } from '../engine/model.ts';

export interface BoilingPoint {
  readonly source: 'pressureChannel' | 'pressure' | 'altitude';
  readonly tempC: number;
  readonly standardUncertaintyK: number;
  /** Boiling point that follows from one draw. */
  readonly of: (draw: Draw) => number;
}

/** A pressure written down on the day without its uncertainty: a household barometer ("common practice, no source"). */
export const PRESSURE_U_PA = 300;
export const PRESSURE_CHANNEL_U_PA = 100;
export const ALTITUDE_U_M = 30;
/** Standard pressure falls by this much per metre near the ground (ISO 2533). */
export const PA_PER_M = 12;

/** `undefined` when the record says nothing of pressure or altitude. */
export function boilingPointOfPlace(
  record: BurnRecord,
  curves: readonly Curve[],
  model: Model,
): BoilingPoint | undefined {
  const channel = curves.find((curve) => curve.channel.role === 'stationPressure');
  const measuredPa = channel && meanPressurePa(channel);
  if (channel && measuredPa !== undefined) {
    const { id, standardUncertainty, calibration } = channel.channel;
    const stated = calibration?.standardUncertainty ?? standardUncertainty;
    const pressureU = stated ?? PRESSURE_CHANNEL_U_PA;
    const error = model.input({
      name: 'place.stationPressure',
      value: 0,
      standardUncertainty: pressureU,
      distribution: 'normal',
      sharing: 'channel',
      sharedId: id,
    });
    const defaults =
      stated === undefined ? [byDefault('pressureUncertainty', { standardUncertaintyPa: pressureU })] : [];
    return found('pressureChannel', measuredPa, [[error, pressureU]], defaults);
  }
  const { place } = record;
  if (place?.stationPressurePa !== undefined && isAirPressure(place.stationPressurePa)) {
    const pressureU = place.standardUncertaintyPa ?? PRESSURE_U_PA;
    const error = placeError('place.stationPressure', pressureU);
    const defaults =
      place.standardUncertaintyPa === undefined
        ? [byDefault('pressureUncertainty', { standardUncertaintyPa: pressureU })]
        : [];
    return found('pressure', place.stationPressurePa, [[error, pressureU]], defaults);
  }
  if (place?.altitudeM !== undefined) {
    const altitudeU = place.standardUncertaintyM ?? ALTITUDE_U_M;
    const weatherU = place.standardUncertaintyPa ?? WEATHER_PRESSURE_U_PA;
    const altitude = placeError('place.altitude', altitudeU * PA_PER_M);
    const weather = model.ownError('place.weather', weatherU);
    const defaults: Message[] = [];
    if (place.standardUncertaintyM === undefined) {
      defaults.push(byDefault('altitudeUncertainty', { standardUncertaintyM: altitudeU }));
    }
    if (place.standardUncertaintyPa === undefined) {
      defaults.push(byDefault('weather', { standardUncertaintyPa: weatherU }));
    }
    return found(
      'altitude',
      standardPressureAtGeometricPa(place.altitudeM),
      [
        [altitude, altitudeU * PA_PER_M],
        [weather, weatherU],
      ],
      defaults,
    );
  }
  return undefined;

  function placeError(name: string, standardUncertainty: number): number {
    const shared = place ? ({ sharing: 'place', sharedId: place.id } as const) : ({ sharing: 'place' } as const);
    return model.input({ name, value: 0, standardUncertainty, distribution: 'normal', ...shared });
  }

  function found(
    source: BoilingPoint['source'],
    pressurePa: number,
    errorsPa: readonly (readonly [place: number, standardUncertaintyPa: number])[],
    defaults: readonly Message[],
  ): BoilingPoint {
    const tempC = boilingPointC(pressurePa);
    // The curvature of the saturation line over the few hundred pascal of an uncertainty is below a thousandth of a kelvin.
    const kelvinPerPa = 1 / saturationSlopePaPerK(tempC);
    for (const used of defaults) model.setDefault('boilingTempC', used);
    model.remark('boilingTempC', remark(SOURCE_REMARK[source], { pressurePa, tempC }));
    return {
      source,
      tempC,
      standardUncertaintyK: kelvinPerPa * Math.hypot(...errorsPa.map(([, u]) => u)),
      of: (draw) => {
        let errorPa = 0;
        for (const [index] of errorsPa) errorPa += draw[index]!;
        return tempC - kelvinPerPa * errorPa;
      },
    };
  }
}

const SOURCE_REMARK = {
  pressureChannel: 'boilingPointFromPressureChannel',
  pressure: 'boilingPointFromPressure',
  altitude: 'boilingPointFromAltitude',
} as const;

export function isAirPressure(pressurePa: number): boolean {
  return pressurePa >= 30_000 && pressurePa <= 110_000;
}

function meanPressurePa({ value }: Curve): number | undefined {
  let count = 0;
  let sum = 0;
  for (const pressurePa of value) {
    if (!isAirPressure(pressurePa)) continue;
    count += 1;
    sum += pressurePa;
  }
  return count > 0 ? sum / count : undefined;
}
