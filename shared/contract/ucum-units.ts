/** Units in which readings may come, by their UCUM codes. */

/** In columns of a file. */
export const columnUnits = [
  'Cel',
  '[degF]',
  'K',
  'kg',
  'g',
  '[lb_av]',
  'Pa',
  'hPa',
  'kPa',
  '%',
  '1',
  'uV',
  'mV',
  'Ohm',
] as const;
export type ColumnUnit = (typeof columnUnits)[number];

/** Units a person can read off something. */
export const handUnits = ['Cel', 'kg', 'Pa', '%'] as const;
