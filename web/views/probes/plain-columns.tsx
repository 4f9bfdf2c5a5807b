/** Maps the columns of a board that only prints, with its own lines as the preview. */
import type { VNode } from 'preact';
import { columnUnits } from '../../../shared/contract/ucum-units.ts';
import { cellsOf } from '../../../shared/plain-lines/cells.ts';
import { translateProbes } from '../../language/catalogue.ts';
import { SelectField, TextField } from '../forms/field.tsx';
import { ValueCurve } from '../kit/value-curve.tsx';
import { WideTable } from '../kit/wide-table.tsx';
import { type ColumnUse, isByPlace, type MappedColumn, valuesAt } from './column-mapping.ts';
import { type ColumnsDraft, type PortProps, useColumns } from './use-columns.ts';

const layouts = ['columns', 'labelled', 'json'] as const;
const separators = ['comma', 'semicolon', 'tab', 'blanks'] as const;
const uses: readonly ColumnUse[] = ['not', ...columnUnits, 'timeS', 'timeMs'];
const LINES_SHOWN = 6;

export function PlainColumns(port: PortProps): VNode {
  const words = translateProbes();
  const { lines, layout, columns, hasLooked, isAmbiguous, problem, look, relay, alter } = useColumns(port);
  const mapped = columns.filter(({ use }) => use !== 'ask' && use in words.units).length;
  const asked = columns.filter(({ use }) => use === 'ask');
  return (
    <fieldset class="group">
      <legend>{words.plain}</legend>
      <p class="hint">{words.plainHelp}</p>
      <button type="button" disabled={port.path === ''} onClick={() => void look()}>
        {words.preview}
      </button>
      <p class="problem" role="alert">
        {problem.value ?? (hasLooked.value && lines.length === 0 ? words.previewNone : '')}
      </p>
      {isAmbiguous.value && <p>{words.ambiguous}</p>}
      <div class="row-form">
        <SelectField
          label={words.layout}
          value={layout.layout ?? 'columns'}
          options={layouts.map((each) => [each, words.layouts[each]])}
          onChange={(kind) => relay({ layout: kind })}
        />
        {isByPlace(layout) && (
          <SelectField
            label={words.separator}
            value={layout.separator}
            options={separators.map((each) => [each, words.separators[each]])}
            onChange={(separator) => relay({ separator })}
          />
        )}
        {layout.layout !== 'json' && (
          <SelectField
            label={words.decimal}
            value={layout.decimal}
            options={[
              ['point', words.decimals.point],
              ['comma', words.decimals.comma],
            ]}
            onChange={(decimal) => relay({ decimal })}
          />
        )}
      </div>
      {lines.length > 0 && <LineTable lines={lines} layout={layout} columns={columns} onAlter={alter} />}
      {asked.length > 0 && (
        <p class="problem" role="alert">
          {words.unitAsked({ columns: asked.map(({ name }) => name).join(', '), count: asked.length })}
        </p>
      )}
      <p class="quiet">{mapped === 0 ? words.mapNone : words.mapped({ count: mapped })}</p>
    </fieldset>
  );
}

/** The board's own lines, with the use of each of their columns above. */
function LineTable({
  lines,
  layout,
  columns,
  onAlter,
}: ColumnsDraft & { onAlter: (index: number, fields: Partial<MappedColumn>) => void }): VNode {
  const words = translateProbes();
  return (
    <WideTable label={words.preview}>
      <table class="raw-lines">
        <thead>
          <tr>
            {columns.map((column, index) => (
              <th scope="col" key={column.place}>
                <SelectField
                  label={isByPlace(layout) ? words.column({ number: index + 1 }) : column.place}
                  value={column.use}
                  options={(column.use === 'ask' ? (['ask', ...uses] as const) : uses).map((use) => [
                    use,
                    useWords(use),
                  ])}
                  hint={reasonWords(column)}
                  onChange={(use) => onAlter(index, { use })}
                />
                <TextField label={words.columnName} value={column.name} onInput={(name) => onAlter(index, { name })} />
                <ValueCurve values={valuesAt(column.place, layout, lines)} words={words.lastValues} />
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {lines.slice(-LINES_SHOWN).map((line, row) => {
            const cells = new Map(cellsOf(line, layout).map(({ key, text }) => [key, text]));
            return (
              <tr key={row}>
                {columns.map(({ place }) => (
                  <td key={place}>{cells.get(place)}</td>
                ))}
              </tr>
            );
          })}
        </tbody>
      </table>
    </WideTable>
  );
}

function useWords(use: ColumnUse): string {
  const words = translateProbes();
  switch (use) {
    case 'ask':
      return words.useAsk;
    case 'not':
      return words.useNot;
    case 'timeS':
      return words.useTimeS;
    case 'timeMs':
      return words.useTimeMs;
    default:
      return words.units[use];
  }
}

/** The reason for the guessed use of a column. */
function reasonWords({ use, guessed, unitFrom, printed }: MappedColumn): string {
  const { reasons, units } = translateProbes();
  if (use === 'ask') return reasons.ask;
  if (use !== guessed) {
    const isContrary = printed !== undefined && use in units;
    return isContrary ? reasons.contrary({ printed: units[printed] }) : reasons.chosen;
  }
  if (use === 'timeS' || use === 'timeMs') return reasons.clock;
  if (use === 'not') return reasons.nothing;
  return unitFrom === 'number' ? reasons.number({ unit: units[use] }) : reasons.heading({ unit: units[use] });
}
