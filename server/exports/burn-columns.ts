import { isDate, startDateMs } from '../../shared/contract/burn-date.ts';
import type { RecordWithoutReadings } from '../records/record-without-readings.ts';
import { type Cell, type Table, type TableColumn, withUniqueNames } from './table.ts';

/** The table with one row a burn, to whose column `burn` every other table refers. */
export const BURN_TABLE = 'burn';

/** What the rows speak of, and where they were written. */
export interface RowOrigin {
  readonly record: RecordWithoutReadings;
  readonly benchId: string;
}

type BurnColumn = TableColumn & { readonly of: (origin: RowOrigin) => string | undefined };

const text = (name: string, description: string, of: BurnColumn['of']): BurnColumn => ({
  name,
  type: 'text',
  description,
  of,
});

const columns: readonly BurnColumn[] = [
  text('burn', 'identifier of the burn', ({ record }) => record.id),
  text('stove', 'name of the stove', ({ record }) => record.stove?.name),
  text('revision', 'label of its revision', ({ record }) => record.revision?.label),
  text('bench', 'identifier of the bench that wrote the file', ({ benchId }) => benchId),
  text('zone', 'IANA time zone of the place', ({ record }) => record.zone),
];

/** The same table with the burn in every row, so that rows of many burns can be put together and still be told from each other. */
export function withBurn(table: Table, origin: RowOrigin): Table {
  const cells: Cell[] = columns.map(({ of }) => of(origin) ?? null);
  const own = columns.map(({ of: _of, ...column }) => column);
  const ofBurn = { column: 'burn', table: BURN_TABLE, of: 'burn' };
  const { primaryKey } = table;
  return {
    ...table,
    columns: withUniqueNames([...own, ...table.columns]),
    ...(primaryKey && { primaryKey: ['burn', ...primaryKey] }),
    references: [...(table.references ?? []), ...(table.name === BURN_TABLE ? [] : [ofBurn])],
    *pages() {
      for (const page of table.pages()) {
        const rows = page[0]?.length ?? 0;
        yield [...cells.map((cell) => new Array<Cell>(rows).fill(cell)), ...page];
      }
    },
  };
}

/** A moment of the burn as the cell of a timestamp; blank where nobody knows when the burn began. */
export function utcMs(record: RecordWithoutReadings, elapsedUs: number | undefined): Cell {
  const startMs = startDateMs(record);
  if (startMs === undefined || elapsedUs === undefined) return null;
  const momentMs = startMs + Math.round(elapsedUs / 1000);
  return isDate(momentMs) ? momentMs : null;
}
