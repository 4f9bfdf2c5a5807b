/** The boiling point of water at the bench, the reference for testing a probe. */
import {
  ALTITUDE_U_M,
  isAirPressure,
  PA_PER_M,
  PRESSURE_CHANNEL_U_PA,
  PRESSURE_U_PA,
} from '../analysis/quantities/boiling-point-of-place.ts';
import type { Place } from '../contract/burn-record.ts';
import { boilingPointC, standardPressureAtGeometricPa, WEATHER_PRESSURE_U_PA } from '../physics/atmosphere.ts';
import { saturationSlopePaPerK } from '../physics/saturation-line.ts';

export interface LocalBoilingPoint {
  readonly tempC: number;
  readonly standardUncertaintyK: number;
}

/**
 * Returns the boiling point from the pressure that is measured now, else from the data of the place; undefined where
 * neither is known.
 * @param measuredPa of a pressure channel of the bench
 */
export function localBoilingPoint(place: Place | undefined, measuredPa?: number): LocalBoilingPoint | undefined {
  if (measuredPa !== undefined && isAirPressure(measuredPa)) return at(measuredPa, PRESSURE_CHANNEL_U_PA);
  if (place?.stationPressurePa !== undefined && isAirPressure(place.stationPressurePa))
    return at(place.stationPressurePa, place.standardUncertaintyPa ?? PRESSURE_U_PA);
  if (place?.altitudeM === undefined) return undefined;
  const altitudePa = (place.standardUncertaintyM ?? ALTITUDE_U_M) * PA_PER_M;
  return at(
    standardPressureAtGeometricPa(place.altitudeM),
    Math.hypot(altitudePa, place.standardUncertaintyPa ?? WEATHER_PRESSURE_U_PA),
  );
}

function at(pressurePa: number, standardUncertaintyPa: number): LocalBoilingPoint {
  const tempC = boilingPointC(pressurePa);
  return { tempC, standardUncertaintyK: standardUncertaintyPa / saturationSlopePaPerK(tempC) };
}
