/**
 * Columns of a board that only prints: the use of each, as guessed and chosen, converted to the format that the service
 * reads.
 */
import type { GuessedFormat } from '../../../shared/contract/boards.ts';
import type { ColumnUnit } from '../../../shared/contract/ucum-units.ts';
import { cellsOf, type PlainLayout, placeOf } from '../../../shared/plain-lines/cells.ts';
import { readPlainField } from '../../../shared/plain-lines/field.ts';

/** A unit, the board's clock, nothing, or a use that only the person can name. */
export type ColumnUse = ColumnUnit | 'ask' | 'not' | 'timeS' | 'timeMs';

export type Layout = PlainLayout & Pick<GuessedFormat, 'headerLines'>;

export interface MappedColumn {
  readonly place: string;
  readonly name: string;
  readonly use: ColumnUse;
  /** The guessed use, and its reason. */
  readonly guessed: ColumnUse;
  readonly unitFrom?: 'number' | 'heading' | 'nowhere' | undefined;
  readonly printed?: ColumnUnit | undefined;
  readonly decimals?: number | undefined;
}

export function isByPlace({ layout }: Pick<PlainLayout, 'layout'>): boolean {
  return layout === undefined || layout === 'columns';
}

/** All columns of the lines, in order: those guessed to be measured, and the rest. */
export function columnsOf(
  guess: GuessedFormat | null,
  layout: PlainLayout,
  lines: readonly string[],
  nameOf: (index: number) => string,
): MappedColumn[] {
  const places = [...new Set(lines.flatMap((line) => cellsOf(line, layout).map(({ key }) => key)))];
  if (isByPlace(layout)) places.sort((a, b) => Number(a) - Number(b));
  const timePlace = guess?.timeKey ?? (guess?.timeColumn === undefined ? undefined : String(guess.timeColumn));
  return places.map((place, index) => {
    const name = isByPlace(layout) ? nameOf(index) : place;
    if (place === timePlace) {
      const time = guess?.timeUnit === 's' ? ('timeS' as const) : ('timeMs' as const);
      return { place, name, use: time, guessed: time };
    }
    const known = guess?.columns.find((column) => placeOf(column) === place);
    if (!known) return { place, name, use: 'not', guessed: 'not' };
    const use = known.unit ?? 'ask';
    const { unitFrom, printed, decimals } = known;
    return { place, name: known.name, use, guessed: use, unitFrom, printed, decimals };
  });
}

/** The format, or undefined while no column is measured. A column without a unit yet has none in it either. */
export function formatOf(layout: Layout, columns: readonly MappedColumn[]): GuessedFormat | undefined {
  const at = (place: string) => (isByPlace(layout) ? { column: Number(place) } : { key: place });
  const measured = columns.flatMap(({ place, use, guessed, name, printed, unitFrom, decimals }) => {
    if (use === 'not' || use === 'timeS' || use === 'timeMs') return [];
    return {
      ...at(place),
      name: name.trim() || (isByPlace(layout) ? String(Number(place) + 1) : place),
      ...(use !== 'ask' && { unit: use }),
      ...(decimals !== undefined && { decimals }),
      ...(printed && { printed }),
      ...(unitFrom && { unitFrom: use === guessed ? unitFrom : ('nowhere' as const) }),
    };
  });
  if (measured.length === 0) return undefined;
  const time = columns.find(({ use }) => use === 'timeS' || use === 'timeMs');
  return {
    ...layout,
    columns: measured,
    ...(time && (isByPlace(layout) ? { timeColumn: Number(time.place) } : { timeKey: time.place })),
    ...(time && { timeUnit: time.use === 'timeS' ? ('s' as const) : ('ms' as const) }),
  };
}

/** The numbers of the lines in one column, as printed. */
export function valuesAt(place: string, layout: PlainLayout, lines: readonly string[]): number[] {
  const decimal = layout.layout === 'json' ? 'point' : layout.decimal;
  return lines.flatMap((line) => {
    const text = cellsOf(line, layout).find(({ key }) => key === place)?.text;
    const field = text === undefined ? undefined : readPlainField(text, decimal);
    return field?.kind === 'number' ? [field.value] : [];
  });
}
