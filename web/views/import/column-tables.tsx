/** The first rows of a table, as in the file and as they would be saved. */
import type { VNode } from 'preact';
import type { ColumnFormat, ColumnPreview } from '../../../shared/contract/imports.ts';
import type { ColumnUnit } from '../../../shared/contract/ucum-units.ts';
import { translateImport } from '../../language/catalogue.ts';
import { number, text } from '../../language/figures.ts';
import { WideTable } from '../kit/wide-table.tsx';
import { timeColumns, widthOf } from './column-format.ts';

/** Rows of readings shown from the file itself; the saved form is shown below in full. */
const ROWS_AS_THEY_STAND = 4;

export function AsStands({ columns, format }: { columns: ColumnPreview; format: ColumnFormat }): VNode {
  const words = translateImport().table;
  const rows = columns.sample.slice(0, format.firstRow - 1 + ROWS_AS_THEY_STAND);
  const width = Math.max(widthOf(columns), ...rows.map(({ cells }) => cells.length));
  const indices = Array.from({ length: width }, (_, column) => column);
  const stored = [...timeColumns(format), ...format.columns.map(({ column }) => column)];
  return (
    <section>
      <h2>{words.asStands}</h2>
      <WideTable label={words.asStands}>
        <table class="cells as-text">
          <thead>
            <tr>
              <th scope="col">{words.line}</th>
              {indices.map((column) => (
                <th scope="col" key={column}>
                  {column + 1}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {rows.map(({ line, cells }, row) => (
              <tr key={line} class={row < format.firstRow - 1 ? 'heading-row' : ''}>
                <th scope="row">{line}</th>
                {indices.map((column) => (
                  <td key={column} class={stored.includes(column) ? '' : 'quiet'}>
                    {cells[column]}
                  </td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </WideTable>
    </section>
  );
}

export function AsRead({ columns }: { columns: ColumnPreview }): VNode {
  const words = translateImport().table;
  // Of the last preview: later changes have not been previewed yet.
  const { format, read } = columns;
  return (
    <section>
      <h2>{words.asRead}</h2>
      {read.length === 0 ? (
        <p class="problem">{words.nothingRead}</p>
      ) : (
        <WideTable label={words.asRead}>
          <table class="cells">
            <thead>
              <tr>
                <th scope="col">{words.line}</th>
                <th scope="col">{words.minutes}</th>
                {format.columns.map(({ column, name }) => (
                  <th scope="col" key={column}>
                    {name}
                  </th>
                ))}
              </tr>
            </thead>
            <tbody>
              {read.map(({ line, elapsedS, values }) => (
                <tr key={line}>
                  <th scope="row">{line}</th>
                  <td>{number(elapsedS / 60, 2)}</td>
                  {values.map((value, index) => (
                    <td key={format.columns[index]?.column}>
                      {value === null ? words.fault : valueText(value, format.columns[index]?.unit)}
                    </td>
                  ))}
                </tr>
              ))}
            </tbody>
          </table>
        </WideTable>
      )}
    </section>
  );
}

/** Values are in the units in which they would be saved. */
function valueText(value: number, unit: ColumnUnit | undefined): string {
  switch (unit) {
    case 'Cel':
    case '[degF]':
    case 'K':
      return text('temperature', value);
    case 'kg':
    case 'g':
    case '[lb_av]':
      return text('mass', value, 3);
    case 'Pa':
    case 'hPa':
    case 'kPa':
      return text('pressure', value, 1);
    case 'mV':
    case 'uV':
      return `${number(value, 0)}\u00a0µV`;
    case 'Ohm':
      return `${number(value, 2)}\u00a0Ω`;
    default:
      return unit === '%' ? `${number(value, 2)}\u00a0%` : number(value, 3);
  }
}
