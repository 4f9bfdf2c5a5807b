/** Units of readings, by their UCUM codes. */

/** Units of the columns of a file. */
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

/** Units of readings that a person takes by hand. */
export const handUnits = ['Cel', 'kg', 'Pa', '%'] as const;
