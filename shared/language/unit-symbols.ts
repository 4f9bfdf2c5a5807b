/** Units in which a number is computed, as people write them. */

/** UCUM codes that nobody would write so; every other code is written as it is. */
const symbols: Readonly<Record<string, string>> = {
  '1': '',
  Cel: '°C',
  '/s': 's⁻¹',
  'J/(kg.K)': 'J/(kg·K)',
  uV: 'μV',
  Ohm: 'Ω',
};

/** The unit of a UCUM code after a number, with its no-break space; nothing for a pure number. */
export function withUnit(figure: string, ucum: string): string {
  const symbol = symbols[ucum] ?? ucum;
  return symbol === '' ? figure : `${figure}\u00a0${symbol}`;
}

/** The unit of a difference or of an uncertainty: kelvins where the value is in degrees Celsius. */
export function differenceUnit(ucum: string): string {
  return ucum === 'Cel' ? 'K' : ucum;
}
