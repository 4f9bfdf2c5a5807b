/** Formats the units in which numbers are computed. */

/** Symbols for UCUM codes that people do not write; every other code is written as it is. */
const symbols: Readonly<Record<string, string>> = {
  '1': '',
  Cel: '°C',
  '/s': 's⁻¹',
  'J/(kg.K)': 'J/(kg·K)',
  uV: 'μV',
  Ohm: 'Ω',
};

/** Returns a figure with the unit of a UCUM code after a no-break space; a pure number has no unit. */
export function withUnit(figure: string, ucum: string): string {
  const symbol = symbols[ucum] ?? ucum;
  return symbol === '' ? figure : `${figure}\u00a0${symbol}`;
}

/** Returns the unit of a difference or of an uncertainty: kelvins where the value is in degrees Celsius. */
export function differenceUnit(ucum: string): string {
  return ucum === 'Cel' ? 'K' : ucum;
}
