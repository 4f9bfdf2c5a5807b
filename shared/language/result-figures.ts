/** Formats values and intervals of results for a person, by their UCUM unit. */
import type { ValueResult } from '../contract/results.ts';
import { type Dimension, show, showDuration, showPercent, type UnitSystem } from './display-units.ts';
import { type Language, writeNumber, writing } from './language.ts';

const dimensions: Readonly<Record<string, Dimension>> = {
  Cel: 'temperature',
  K: 'temperatureDifference',
  'K/min': 'temperatureRate',
  W: 'power',
  MJ: 'energy',
  kg: 'mass',
  'kg/h': 'massRate',
  'kg/kg': 'specificConsumption',
  'MJ/kg': 'heatingValue',
  L: 'volume',
  m: 'length',
  Pa: 'pressure',
};

/** Results whose unit is 1 but which are ratios, not shares. */
const ratios: readonly string[] = ['turnDownRatio'];

/**
 * Returns the dimension in which a result of this UCUM unit is displayed; undefined for times, shares and units written
 * as they are.
 */
export function shownDimension(ucum: string): Dimension | undefined {
  return dimensions[ucum];
}

/** Returns whether a result of unit 1 is a ratio (2.5) and not a share (25 %). */
export function isPlainRatio(id: string): boolean {
  return ratios.includes(id);
}

export interface Reader {
  readonly language: Language;
  readonly system: UnitSystem;
}

/** Formats a value with its unit; one without a display unit is written in its own. */
export function showValue({ language, system }: Reader, value: number, ucum: string, id = ''): string {
  const dimension = shownDimension(ucum);
  if (dimension) return show(language, system, dimension, value).text;
  if (ucum === 's') return showDuration(language, value);
  if (ucum === '1') return isPlainRatio(id) ? writeNumber(language, value, 2) : showPercent(language, value);
  return `${showPlain(language, value)}\u00a0${ucum}`;
}

/** Formats a value in a working: four significant digits, in the unit it is computed in. */
export function showPlain(language: Language, value: number): string {
  if (value === 0) return '0';
  const size = Math.floor(Math.log10(Math.abs(value)));
  return writeNumber(language, value, Math.max(0, Math.min(8, 3 - size)));
}

/**
 * Formats both ends of the 95 % interval, with the unit once where both have the same: "3.2 to 3.9 kg". Undefined where
 * there is none.
 */
export function showInterval(
  reader: Reader,
  result: Pick<ValueResult, 'id' | 'unit' | 'interval95'>,
): string | undefined {
  if (!result.interval95) return undefined;
  const [low, high] = result.interval95.map((end) => showValue(reader, end, result.unit, result.id)) as [
    string,
    string,
  ];
  const unit = /\u00a0\D+$/.exec(high)?.[0];
  return (
    (unit !== undefined && low.endsWith(unit) ? low.slice(0, -unit.length) : low) +
    writing[reader.language].between +
    high
  );
}
