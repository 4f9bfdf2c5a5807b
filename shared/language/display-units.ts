/**
 * Formats quantities for a person: figure and unit, in the chosen language and unit system. All other code uses SI
 * (temperatures in °C); this is the last step before display.
 */
import {
  convert,
  DISPLAY_UNITS,
  type Dimension,
  UNITS,
  type UnitId,
  type UnitSystem,
  unitSymbol,
} from '../physics/units.ts';
import type { Language } from './language.ts';
import { writeNumber } from './language.ts';

export type { Dimension, UnitSystem };

/** Number of decimals by unit, no more than instruments resolve. */
const usualDecimals: Partial<Record<UnitId, number>> = {
  kg: 2,
  lb: 2,
  kgPerHour: 2,
  lbPerHour: 2,
  celsius: 1,
  fahrenheit: 1,
  kelvinDifference: 1,
  fahrenheitDifference: 1,
  kelvinPerMinute: 2,
  fahrenheitPerMinute: 1,
  kilowatt: 2,
  megajoule: 1,
  btu: 0,
  megajoulePerKg: 1,
  btuPerLb: 0,
  litre: 1,
  usGallon: 2,
  centimetre: 1,
  inch: 2,
  metreOfAltitude: 0,
  footOfAltitude: 0,
  hectopascal: 0,
  inchOfMercury: 2,
  kgPerKg: 3,
  lbPerLb: 3,
};

const baseUnits = Object.fromEntries(
  (Object.keys(UNITS) as UnitId[])
    .filter((id) => UNITS[id].factor === 1 && UNITS[id].offset === 0)
    .map((id) => [UNITS[id].dimension, id]),
) as Record<Dimension, UnitId>;

export interface Shown {
  readonly figure: string;
  readonly unit: string;
  /** Figure and unit with a no-break space between. */
  readonly text: string;
}

/**
 * Formats a quantity in the display unit of its dimension.
 * @param value in the base unit of the dimension: kg, kg/h, °C, K, K/min, W, MJ, MJ/kg, L, m, Pa, kg/kg
 * @param decimals instead of the usual number of decimals of that unit
 */
export function show(
  language: Language,
  system: UnitSystem,
  dimension: Dimension,
  value: number,
  decimals?: number,
): Shown {
  const unitId = DISPLAY_UNITS[system][dimension];
  const figure = writeNumber(language, toShown(system, dimension, value), decimals ?? usualDecimals[unitId] ?? 2);
  const unit = unitSymbol(unitId);
  return { figure, unit, text: `${figure}\u00a0${unit}` };
}

/** Converts a value from its base unit to the number displayed in the chosen system. */
export function toShown(system: UnitSystem, dimension: Dimension, value: number): number {
  return convert(value, baseUnits[dimension], DISPLAY_UNITS[system][dimension]);
}

/** Whether values of the dimension are shown in the unit they are stored in. */
export function isShownAsStored(system: UnitSystem, dimension: Dimension): boolean {
  return DISPLAY_UNITS[system][dimension] === baseUnits[dimension];
}

/** Converts a number typed in the chosen system to its base unit. */
export function fromShown(system: UnitSystem, dimension: Dimension, shown: number): number {
  return convert(shown, DISPLAY_UNITS[system][dimension], baseUnits[dimension]);
}

/** Returns the unit in which a person types and reads this dimension. */
export function unitShown(system: UnitSystem, dimension: Dimension): string {
  return unitSymbol(DISPLAY_UNITS[system][dimension]);
}

/** Formats a fraction as percent: 0.253 is written 25.3 %. */
export function showPercent(language: Language, fraction: number, decimals = 1): string {
  return `${writeNumber(language, fraction * 100, decimals)}\u00a0%`;
}

/** Formats a confidence with the digits that distinguish it from others: 95 %, 99.58 %. */
export function showConfidence(language: Language, confidence: number): string {
  const percent = confidence * 100;
  const digits = [0, 1].find((each) => Math.abs(percent - Number(percent.toFixed(each))) < 1e-9) ?? 2;
  return `${writeNumber(language, percent, digits)}\u00a0%`;
}

/** Formats a moment as hours, minutes and seconds since another one: `0:03:12`. */
export function showClock(language: Language, seconds: number): string {
  const size = Math.round(Math.abs(seconds));
  const two = (value: number) => String(value % 60).padStart(2, '0');
  const sign = writeNumber(language, seconds, 0).startsWith('−') ? '−' : '';
  return `${sign}${Math.floor(size / 3600)}:${two(Math.floor(size / 60))}:${two(size)}`;
}

/**
 * Formats a duration in words and units: `45 s`, `23 min`, `2 h 05 min`; whole minutes from one and a half minutes on.
 */
export function showDuration(language: Language, seconds: number): string {
  const size = Math.abs(seconds);
  const sign = seconds < 0 ? '−' : '';
  if (size < 90) return `${sign}${writeNumber(language, size, 0)}\u00a0s`;
  const minutes = Math.round(size / 60);
  if (minutes < 120) return `${sign}${minutes}\u00a0min`;
  return `${sign}${Math.floor(minutes / 60)}\u00a0h\u00a0${String(minutes % 60).padStart(2, '0')}\u00a0min`;
}
