import type { PlainFormat } from '../contract/boards.ts';
import type { FaultCode } from '../contract/burn-record.ts';
import { median } from '../statistics/quantile.ts';
import { cellsOf, placeOf } from './cells.ts';
import { type PlainField, readPlainField } from './field.ts';
import { inUnit, measureTheSame } from './stored-units.ts';

/** Number of decimals stored for a column that sets no other. */
const USUAL_DECIMALS = 4;

/** Returns the units per count of a column. */
export function plainScale({ decimals = USUAL_DECIMALS }: Pick<PlainFormat['columns'][number], 'decimals'>): number {
  return Number(`1e-${decimals}`);
}

/**
 * Returns the number of decimals that can be stored for numbers of this size, with room for one ten times as large:
 * fewer for counts of a converter than for temperatures. The median decides, since a garbled number may be of any size.
 * @returns undefined for the usual number of decimals
 */
export function decimalsFor(values: readonly number[]): number | undefined {
  if (values.length === 0) return undefined;
  const usual = median(values.map(Math.abs));
  for (let decimals = USUAL_DECIMALS; decimals > 0; decimals--) {
    const isRoomy = usual * ROOM * 10 ** decimals <= LARGEST_COUNT;
    if (isRoomy) return decimals === USUAL_DECIMALS ? undefined : decimals;
  }
  return 0;
}

const ROOM = 10;
const LARGEST_COUNT = 2 ** 31 - 1;

/**
 * One line of a plain board under a format. `other`: a header, boot text, or any other line that is not a row of readings.
 * Where columns are found by labels, a column that the line does not contain has neither count nor fault.
 */
export type PlainLine =
  | { kind: 'other' }
  | { kind: 'data'; timeMs: number | null; counts: (number | null)[]; faults: (FaultCode | null)[] };

/** Words that scales print instead of a mass, or next to an invalid one. */
const OVERLOAD = /^(?:ol|ovl|over|overload)$/i;

/**
 * Parses a line of a plain board. The number of header lines need not be known: a row counts as readings when it has
 * every mapped column and at least one of them is a number (or all of them are words for a fault).
 */
export function readPlainLine(line: string, format: PlainFormat): PlainLine {
  const texts = new Map(cellsOf(line, format).map(({ key, text }) => [key, text]));
  const isByPlace = format.layout === undefined || format.layout === 'columns';
  const places = format.columns.map(placeOf);
  const timePlace = format.timeKey ?? (format.timeColumn === undefined ? undefined : String(format.timeColumn));
  const decimal = format.layout === 'json' ? 'point' : format.decimal;
  const timeText = timePlace === undefined ? undefined : texts.get(timePlace);
  const time = timeText === undefined ? undefined : readPlainField(timeText, decimal);
  const fields = places.map((place) => {
    const text = texts.get(place);
    return text === undefined ? undefined : readPlainField(text, decimal);
  });
  if (isByPlace) {
    if (fields.some((field) => field === undefined) || (timePlace !== undefined && time?.kind !== 'number'))
      return { kind: 'other' };
    if (!fields.some((field) => field?.kind === 'number') && !fields.every((field) => field?.kind === 'fault'))
      return { kind: 'other' };
    if ([...texts.values()].every((text) => text === '')) return { kind: 'other' };
    if ([...texts].some(([place, text]) => !places.includes(place) && OVERLOAD.test(text))) fields.fill(OUT_OF_RANGE);
  } else if (fields.every((field) => field === undefined) && time === undefined) {
    return { kind: 'other' };
  }
  const readings = fields.map((field, index) => field && readingOf(field, format.columns[index]!));
  return {
    kind: 'data',
    timeMs: time?.kind === 'number' ? Math.round(format.timeUnit === 's' ? time.value * 1000 : time.value) : null,
    counts: readings.map((reading) => (typeof reading === 'number' ? reading : null)),
    faults: readings.map((reading) => (typeof reading === 'string' ? reading : null)),
  };
}

const OUT_OF_RANGE: PlainField = { kind: 'fault', fault: 'outOfRange' };

/** Returns the count of a field, in the unit of its column, or a fault. */
function readingOf(field: PlainField, column: PlainFormat['columns'][number]): number | FaultCode {
  const { unit, printed, decimals = USUAL_DECIMALS } = column;
  if (field.kind === 'fault') return field.fault;
  if (field.kind === 'text') return 'unreadable';
  let { value } = field;
  // A board that changes its unit while it runs (a key pressed on a scale, 999 g and then 1.002 kg) prints it after the
  // number.
  if (field.unit !== undefined && field.unit !== printed && field.unit !== unit && unit !== '1' && field.unit !== '1') {
    if (!measureTheSame(field.unit, unit)) return 'unreadable';
    value = inUnit(value, field.unit, unit);
  }
  const count = Math.round(value * 10 ** decimals) || 0;
  return isCount(count) ? count : 'outOfRange';
}

/** Whether a number fits a reading in the store and in the wire protocol: a signed 32-bit integer. */
function isCount(count: number): boolean {
  return (count | 0) === count;
}
