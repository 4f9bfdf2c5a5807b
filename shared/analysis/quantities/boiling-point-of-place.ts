/**
 * The local boiling point from the pressure or altitude of the place, with its uncertainty. The plateau of the water is
 * not used here.
 */
import type { BurnRecord } from '../../contract/burn-record.ts';
import type { Message } from '../../contract/results.ts';
import { boilingPointC, standardPressureAtGeometricPa, WEATHER_PRESSURE_U_PA } from '../../physics/atmosphere.ts';
import { saturationSlopePaPerK } from '../../physics/saturation-line.ts';
import type { Curve } from '../curves/channel-curve.ts';
import { type Input, ownError, type Sum, standardUncertaintyOfTerms } from '../engine/declaration.ts';
import { byDefault, remark } from '../messages/messages.ts';

export interface PlaceBoilingPoint {
  readonly tempC: number;
  readonly pressurePa: number;
  readonly standardUncertaintyK: number;
  /** The boiling point with the errors of the pressure. */
  readonly sum: Sum;
  readonly remark: Message;
}

/** Standard uncertainty of a pressure entered without one: a household barometer ("common practice, no source"). */
export const PRESSURE_U_PA = 300;
export const PRESSURE_CHANNEL_U_PA = 100;
export const ALTITUDE_U_M = 30;
/** Standard pressure falls by this much per metre near the ground (ISO 2533). */
export const PA_PER_M = 12;

/** Returns `undefined` when the record has neither pressure nor altitude. */
export function boilingPointOfPlace(
  { place }: Pick<BurnRecord, 'place'>,
  curves: readonly Curve[],
): PlaceBoilingPoint | undefined {
  const channel = curves.find((curve) => curve.channel.role === 'stationPressure');
  const measuredPa = channel && meanPressurePa(channel);
  if (channel && measuredPa !== undefined) {
    const { id, standardUncertainty, calibration } = channel.channel;
    const stated = calibration?.standardUncertainty ?? standardUncertainty;
    const error = pressureError(stated, PRESSURE_CHANNEL_U_PA, { sharing: 'channel', sharedId: id });
    return found('boilingPointFromPressureChannel', measuredPa, [error]);
  }
  const ofPlace = { sharing: 'place', sharedId: place?.id } as const;
  if (place?.stationPressurePa !== undefined && isAirPressure(place.stationPressurePa)) {
    const error = pressureError(place.standardUncertaintyPa, PRESSURE_U_PA, ofPlace);
    return found('boilingPointFromPressure', place.stationPressurePa, [error]);
  }
  if (place?.altitudeM === undefined) return undefined;
  const altitudeU = place.standardUncertaintyM ?? ALTITUDE_U_M;
  const weatherU = place.standardUncertaintyPa ?? WEATHER_PRESSURE_U_PA;
  const altitude: Input = {
    ...ownError('place.altitude', altitudeU * PA_PER_M),
    ...ofPlace,
    defaults:
      place.standardUncertaintyM === undefined
        ? [byDefault('altitudeUncertainty', { standardUncertaintyM: altitudeU })]
        : [],
  };
  const weather = ownError('place.weather', weatherU, {
    defaults:
      place.standardUncertaintyPa === undefined ? [byDefault('weather', { standardUncertaintyPa: weatherU })] : [],
  });
  return found('boilingPointFromAltitude', standardPressureAtGeometricPa(place.altitudeM), [altitude, weather]);
}

function pressureError(stated: number | undefined, usual: number, shared: Pick<Input, 'sharing' | 'sharedId'>): Input {
  const standardUncertaintyPa = stated ?? usual;
  return {
    ...ownError('place.stationPressure', standardUncertaintyPa),
    ...shared,
    defaults: stated === undefined ? [byDefault('pressureUncertainty', { standardUncertaintyPa })] : [],
  };
}

function found(code: Parameters<typeof remark>[0], pressurePa: number, errorsPa: readonly Input[]): PlaceBoilingPoint {
  const tempC = boilingPointC(pressurePa);
  // The curvature of the saturation line over the few hundred pascal of an uncertainty is below a thousandth of a kelvin.
  const kelvinPerPa = 1 / saturationSlopePaPerK(tempC);
  const terms = errorsPa.map((input) => ({ input, weight: -kelvinPerPa }));
  return {
    tempC,
    pressurePa,
    standardUncertaintyK: standardUncertaintyOfTerms(terms),
    sum: { constant: tempC, terms },
    remark: remark(code, { pressurePa, tempC }),
  };
}

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
