/** Columns of a board that only prints numbers: what each is, as chosen by a person, made into the format the service reads. */
import type { PlainFormat } from '../../../shared/contract/boards.ts';

export type ColumnUse = 'not' | 'temperature' | 'mass' | 'number' | 'timeS' | 'timeMs';

const units: Partial<Record<ColumnUse, PlainFormat['columns'][number]['unit']>> = {
  temperature: 'Cel',
  mass: 'kg',
  number: '1',
};

/** The format, or undefined while no column is measured. */
export function formatOf(
  layout: Pick<PlainFormat, 'separator' | 'decimal' | 'headerLines'>,
  columns: readonly { readonly use: ColumnUse; readonly name: string }[],
): PlainFormat | undefined {
  const measured = columns.flatMap(({ use, name }, column) => {
    const unit = units[use];
    return unit ? [{ column, name: name.trim() || String(column + 1), unit }] : [];
  });
  if (measured.length === 0) return undefined;
  const timeColumn = columns.findIndex(({ use }) => use === 'timeS' || use === 'timeMs');
  return {
    ...layout,
    columns: measured,
    ...(timeColumn >= 0 && {
      timeColumn,
      timeUnit: columns[timeColumn]?.use === 'timeS' ? ('s' as const) : ('ms' as const),
    }),
  };
}
