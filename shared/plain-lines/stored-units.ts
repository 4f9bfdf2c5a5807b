/** Converts readings from the units in which they are written to those in which they are stored. */
import type { Channel } from '../contract/burn-record.ts';
import type { ColumnUnit } from '../contract/ucum-units.ts';
import { UNITS, ZERO_CELSIUS_K } from '../physics/units.ts';

interface StoredUnit {
  readonly unit: Channel['unit'];
  /** value in `unit` = written value × factor + offset */
  readonly factor: number;
  readonly offset: number;
}

const as = (unit: Channel['unit'], factor = 1, offset = 0): StoredUnit => ({ unit, factor, offset });

export const storedUnits: Readonly<Record<ColumnUnit, StoredUnit>> = {
  Cel: as('Cel'),
  '[degF]': as('Cel', UNITS.fahrenheit.factor, UNITS.fahrenheit.offset),
  K: as('Cel', 1, -ZERO_CELSIUS_K),
  kg: as('kg'),
  g: as('kg', UNITS.g.factor),
  '[lb_av]': as('kg', UNITS.lb.factor),
  Pa: as('Pa'),
  hPa: as('Pa', UNITS.hectopascal.factor),
  kPa: as('Pa', UNITS.kilopascal.factor),
  '%': as('%'),
  '1': as('1'),
  uV: as('uV'),
  mV: as('uV', 1000),
  Ohm: as('Ohm'),
};

/** Converts a written value to the unit in which it is stored. */
export function toStored(value: number, unit: ColumnUnit): number {
  // Not by factor and offset, which round the last digit differently: a file imported again must give the same
  // readings.
  if (unit === '[degF]') return ((value - 32) * 5) / 9;
  const { factor, offset } = storedUnits[unit];
  return value * factor + offset;
}

export function measureTheSame(a: ColumnUnit, b: ColumnUnit): boolean {
  return storedUnits[a].unit === storedUnits[b].unit;
}

/** Converts a value to another unit of the same quantity. */
export function inUnit(value: number, from: ColumnUnit, to: ColumnUnit): number {
  if (from === to) return value;
  const { factor, offset } = storedUnits[to];
  return (toStored(value, from) - offset) / factor;
}
