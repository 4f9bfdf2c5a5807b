/** Mapping the columns of a board that only prints numbers, with its own lines as the preview. */
import type { VNode } from 'preact';
import { splitPlainLine } from '../../../shared/plain-lines/split-line.ts';
import { translateProbes } from '../../language/catalogue.ts';
import { SelectField, TextField } from '../forms/field.tsx';
import { WideTable } from '../kit/wide-table.tsx';
import type { ColumnUse } from './column-mapping.ts';
import { type ColumnsDraft, type PortProps, useColumns } from './use-columns.ts';

const separators = ['comma', 'semicolon', 'tab', 'blanks'] as const;
const uses: readonly ColumnUse[] = ['not', 'temperature', 'mass', 'number', 'timeS', 'timeMs'];

export function PlainColumns(port: PortProps): VNode {
  const words = translateProbes();
  const { lines, layout, columns, hasLooked, isAmbiguous, problem, look, relay, alter } = useColumns(port);
  const mapped = columns.filter(({ use }) => use === 'temperature' || use === 'mass' || use === 'number').length;
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
          label={words.separator}
          value={layout.separator}
          options={separators.map((each) => [each, words.separators[each]])}
          onChange={(separator) => relay({ separator })}
        />
        <SelectField
          label={words.decimal}
          value={layout.decimal}
          options={[
            ['point', words.decimals.point],
            ['comma', words.decimals.comma],
          ]}
          onChange={(decimal) => relay({ decimal })}
        />
        <TextField
          decimal
          label={words.headerLines}
          value={String(layout.headerLines)}
          onInput={(text) => relay({ headerLines: Math.min(20, Math.max(0, Math.round(Number(text) || 0))) })}
        />
      </div>
      {lines.length > 0 && <LineTable lines={lines} layout={layout} columns={columns} onAlter={alter} />}
      <p class="quiet">{mapped === 0 ? words.mapNone : words.mapped({ count: mapped })}</p>
    </fieldset>
  );
}

/** The board's own lines, under what each column is to be. */
function LineTable({
  lines,
  layout,
  columns,
  onAlter,
}: ColumnsDraft & { onAlter: (index: number, fields: Partial<ColumnsDraft['columns'][number]>) => void }): VNode {
  const words = translateProbes();
  return (
    <WideTable label={words.preview}>
      <table class="raw-lines">
        <thead>
          <tr>
            {columns.map((column, index) => (
              <th scope="col" key={index}>
                <SelectField
                  label={words.column({ number: index + 1 })}
                  value={column.use}
                  options={uses.map((use) => [use, useWords(use)])}
                  onChange={(use) => onAlter(index, { use })}
                />
                <TextField label={words.columnName} value={column.name} onInput={(name) => onAlter(index, { name })} />
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {lines.slice(-6).map((line, row) => (
            <tr key={row}>
              {splitPlainLine(line, layout.separator).map((field, index) => (
                <td key={index}>{field}</td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </WideTable>
  );
}

function useWords(use: ColumnUse): string {
  const words = translateProbes();
  return {
    not: words.useNot,
    temperature: words.useTemp,
    mass: words.useMass,
    number: words.useOther,
    timeS: words.useTimeS,
    timeMs: words.useTimeMs,
  }[use];
}
