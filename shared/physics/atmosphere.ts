import { requireWithin } from './range.ts';
import { saturationTempC } from './saturation-line.ts';
import { ZERO_CELSIUS_K } from './units.ts';

/**
 * The standard atmosphere below 11 km, and the boiling point under the air of the day.
 *
 * Source of the model: ISO 2533:1975, identical to the U.S. Standard Atmosphere 1976 in this layer: 288.15 K and
 * 101 325 Pa at sea level, 6.5 K per geopotential kilometre, g0 = 9.80665 m/s², M = 0.0289644 kg/mol,
 * R* = 8.31432 J/(mol·K), Earth radius 6 356 766 m. It is a definition, exact as such; weather moves the real pressure
 * by some 2 kPa either way.
 */
const SEA_LEVEL_PRESSURE_PA = 101_325;
const SEA_LEVEL_TEMP_K = 288.15;
const LAPSE_K_PER_M = 0.0065;
const EARTH_RADIUS_M = 6_356_766;
/** g0·M / (R*·lapse), 5.255876. */
const EXPONENT = (9.80665 * 0.0289644) / (8.31432 * LAPSE_K_PER_M);

const LOWEST_ALTITUDE_M = -500;
const HIGHEST_ALTITUDE_M = 9000;

/**
 * Standard uncertainty, Pa, of the air pressure at a place of which only the altitude is known: weather, taken as
 * ±2 kPa at 95 %. From memory, a plain middle-latitude figure. It puts 0.28 K on the boiling point.
 */
export const WEATHER_PRESSURE_U_PA = 1000;

/** `base` to a real power. `Math.exp` and `Math.log` agree between engine versions where `Math.pow` does not. */
function realPower(base: number, exponent: number): number {
  return Math.exp(exponent * Math.log(base));
}

function requireAltitude(altitudeM: number): void {
  requireWithin('The altitude', altitudeM, LOWEST_ALTITUDE_M, HIGHEST_ALTITUDE_M, 'm');
}

/**
 * Geopotential altitude, m, for a geometric one (what a map or a satellite receiver gives), −500 to 9000 m:
 * H = r0·z / (r0 + z).
 * @throws RangeError outside the range.
 */
export function geopotentialAltitudeM(geometricM: number): number {
  requireAltitude(geometricM);
  return (EARTH_RADIUS_M * geometricM) / (EARTH_RADIUS_M + geometricM);
}

/**
 * Geometric altitude, m, for a geopotential one, −500 to 9000 m: z = r0·H / (r0 − H).
 * @throws RangeError outside the range.
 */
export function geometricAltitudeM(geopotentialM: number): number {
  requireAltitude(geopotentialM);
  return (EARTH_RADIUS_M * geopotentialM) / (EARTH_RADIUS_M - geopotentialM);
}

/**
 * Standard pressure, Pa, at a geopotential altitude, −500 to 9000 m: p = p0·(1 − L·H/T0)^5.255876.
 * @throws RangeError outside the range.
 */
export function standardPressureAtGeopotentialPa(geopotentialM: number): number {
  requireAltitude(geopotentialM);
  return SEA_LEVEL_PRESSURE_PA * realPower(1 - (LAPSE_K_PER_M * geopotentialM) / SEA_LEVEL_TEMP_K, EXPONENT);
}

/**
 * Standard pressure, Pa, at a geometric altitude, −500 to 9000 m: the one to use with an altitude from a map.
 * @throws RangeError outside the range.
 */
export function standardPressureAtGeometricPa(geometricM: number): number {
  return standardPressureAtGeopotentialPa(geopotentialAltitudeM(geometricM));
}

/**
 * Geopotential altitude, m, at which the standard atmosphere has `pressurePa`, 30.8 to 107.4 kPa.
 * @throws RangeError outside the range.
 */
export function geopotentialAltitudeFromPressureM(pressurePa: number): number {
  requireWithin('The air pressure', pressurePa, 30_800, 107_400, 'Pa');
  return (SEA_LEVEL_TEMP_K / LAPSE_K_PER_M) * (1 - realPower(pressurePa / SEA_LEVEL_PRESSURE_PA, 1 / EXPONENT));
}

/**
 * Geometric altitude, m, at which the standard atmosphere has `pressurePa`, 30.8 to 107.4 kPa.
 * @throws RangeError outside the range.
 */
export function geometricAltitudeFromPressureM(pressurePa: number): number {
  return geometricAltitudeM(geopotentialAltitudeFromPressureM(pressurePa));
}

/**
 * Boiling point of pure water at the surface, °C, under the pressure at the place (station pressure), 30 to 110 kPa.
 * IAPWS-IF97 region 4. A pressure reduced to sea level is the wrong input: at 1500 m that mistake is 5 K. The limits
 * also catch a pressure given in hPa or kPa.
 * @throws RangeError outside the range.
 */
export function boilingPointC(pressurePa: number): number {
  requireWithin('The air pressure at the place', pressurePa, 30_000, 110_000, 'Pa');
  return saturationTempC(pressurePa);
}

/**
 * Station pressure, Pa, from an altimeter setting (the aviation "QNH", which most airfield reports and household
 * barometers set to sea level show) and the geometric altitude of the place. Such a pressure was reduced with the
 * standard atmosphere, so no air temperature enters: p = (q^(1/n) − p0^(1/n)·L·H/T0)^n, n = 5.255876.
 * Source: the standard atmosphere above, solved for the station; the usual definition of the altimeter setting (ICAO
 * Doc 7488, from memory).
 * @throws RangeError for a setting outside 85 to 110 kPa or an altitude outside −500 to 9000 m.
 */
export function stationPressureFromAltimeterSettingPa(settingPa: number, geometricM: number): number {
  requireWithin('The pressure reduced to sea level', settingPa, 85_000, 110_000, 'Pa');
  const fall =
    (realPower(SEA_LEVEL_PRESSURE_PA, 1 / EXPONENT) * LAPSE_K_PER_M * geopotentialAltitudeM(geometricM)) /
    SEA_LEVEL_TEMP_K;
  return realPower(realPower(settingPa, 1 / EXPONENT) - fall, EXPONENT);
}

/**
 * Station pressure, Pa, from a mean-sea-level pressure as printed on weather maps (reduced with the air temperature of
 * the day, "QFF"), the geometric altitude and the air temperature at the place. The column below the station is taken
 * with the standard lapse rate: p = p_sea·(1 − L·H/(T + L·H))^5.255876. Weather services add corrections for humidity
 * and plateaus that differ by country: expect 0.1 kPa per 500 m (from memory).
 * @throws RangeError for a pressure outside 85 to 110 kPa, an altitude outside −500 to 9000 m or air outside −60 to 60
 * °C.
 */
export function stationPressureFromSeaLevelPa(seaLevelPa: number, geometricM: number, airTempC: number): number {
  requireWithin('The pressure reduced to sea level', seaLevelPa, 85_000, 110_000, 'Pa');
  requireWithin('The air temperature', airTempC, -60, 60, '°C');
  const rise = LAPSE_K_PER_M * geopotentialAltitudeM(geometricM);
  return seaLevelPa * realPower(1 - rise / (airTempC + ZERO_CELSIUS_K + rise), EXPONENT);
}
