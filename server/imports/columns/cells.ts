/** What one cell can be, and what a heading says about the cells below it. */

import type { Channel } from '../../../shared/contract/burn-record.ts';
import type { ColumnFormat } from '../../../shared/contract/imports.ts';
import { type PlainField, readPlainField } from '../../../shared/plain-lines/field.ts';
import { thousandsFor, withoutThousands } from '../common/grouped-number.ts';
import { clockS, colonStretchS, dateTime } from './written-times.ts';

export type CellKind = 'number' | 'clock' | 'stretch' | 'date' | 'dateTime' | 'nothing' | 'text';

export function cellKind(cell: string, decimal: ColumnFormat['decimal']): CellKind {
  if (cell === '') return 'nothing';
  const field = readPlainField(cell, decimal);
  if (field.kind === 'number' || thousandsIn(cell, decimal)) return 'number';
  if (field.kind === 'fault') return 'nothing';
  if (/[-/.T\s]/.test(cell)) {
    const date = dateTime(cell, 'dmy') ?? dateTime(cell, 'mdy');
    if (date) return /:|\d[hH]\d/.test(cell) ? 'dateTime' : 'date';
  }
  if (clockS(cell) !== undefined) return 'clock';
  return colonStretchS(cell, 'h:mm:ss') === undefined ? 'text' : 'stretch';
}

/** A cell under a format: a number, with its thousands joined where the format says how they are set apart. */
export function readCell(
  cell: string,
  { decimal, thousands }: Pick<ColumnFormat, 'decimal' | 'thousands'>,
): PlainField {
  return readPlainField((thousands && withoutThousands(cell, thousands, decimal)) ?? cell, decimal);
}

/** What sets the thousands of a cell apart that is no number otherwise. */
export function thousandsIn(cell: string, decimal: ColumnFormat['decimal']): ColumnFormat['thousands'] {
  if (readPlainField(cell, decimal).kind === 'number') return undefined;
  return thousandsFor(decimal).find((mark) => withoutThousands(cell, mark, decimal) !== undefined);
}

const rolePatterns: readonly (readonly [RegExp, Channel['role']])[] = [
  [/cold.?junction|soudure froide|\bcj\b|internal|interne/i, 'coldJunction'],
  [/water|\beau\b|\bpot\b|\bbath\b|marmite|cuve/i, 'water'],
  [/flue|chimney|stack|fum[ée]e|chemin[ée]e|exhaust/i, 'flue'],
  [/riser|heat tube|tube de feu/i, 'riser'],
  [/ambient|ambiant|outdoor|dehors|\broom\b|\bair\b/i, 'ambient'],
  [/body|corps|\bwall\b|paroi/i, 'body'],
  [/oxygen|oxyg[èe]ne|\bo2\b/i, 'oxygen'],
  [/\bco2\b/i, 'carbonDioxide'],
  [/\bco\b/i, 'carbonMonoxide'],
  [/pressure|pression|barom/i, 'stationPressure'],
];

export function roleIn(heading: string): Channel['role'] | undefined {
  return rolePatterns.find(([pattern]) => pattern.test(heading))?.[1];
}

export function positionIn(heading: string): Channel['position'] {
  if (/\blow|\bbottom|\bbas\b/i.test(heading)) return 'low';
  if (/\bhigh|\btop\b|\bhaut\b/i.test(heading)) return 'high';
  return /\bmid|milieu/i.test(heading) ? 'middle' : undefined;
}

const TIME_HEADING =
  /time|temps|heure|hour|zeit|date|clock|elapsed|[ée]coul|dur[ée]e|uptime|millis|^t$|^t ?[[(]|\bsec|\bmin(?:ute)?s?\b|\bms\b/i;

export function isTimeHeading(heading: string): boolean {
  return TIME_HEADING.test(heading);
}

/** The unit of a plain elapsed column, as its heading says it. */
export function elapsedUnitIn(heading: string): 'ms' | 's' | 'min' | 'h' | undefined {
  if (/\bms\b|milli/i.test(heading)) return 'ms';
  if (/\bmin(ute)?s?\b/i.test(heading)) return 'min';
  if (/\bs(ec(ond)?e?s?)?\b/i.test(heading)) return 's';
  return /\bh(ours?|eures?)?\b/i.test(heading) ? 'h' : undefined;
}
