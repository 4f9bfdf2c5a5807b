/** Mapping the columns of a board that only prints numbers, with its own lines as the preview. */
import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import { useEffect } from 'preact/hooks';
import type { BoardPreview, PlainFormat } from '../../../shared/contract/boards.ts';
import { type ColumnUse, formatOf, splitLine } from '../../lib/plain-columns.ts';
import { translateRig } from '../../state/catalogue.ts';
import { call } from '../../state/service.ts';
import { SelectField, TextField } from '../kit/field.tsx';
import { useDraft } from '../kit/use-draft.ts';
import { sentenceFor } from '../kit/use-load.ts';
import { WideTable } from '../kit/wide-table.tsx';

const separators = ['comma', 'semicolon', 'tab', 'blanks'] as const;
const uses: readonly ColumnUse[] = ['not', 'temperature', 'mass', 'number', 'timeS', 'timeMs'];

/** Where the mapping is kept until the board is attached. */
export const columnsDraft = 'plain-columns';

interface ColumnsDraft {
  readonly lines: readonly string[];
  readonly layout: Pick<PlainFormat, 'separator' | 'decimal' | 'headerLines'>;
  readonly columns: readonly { use: ColumnUse; name: string }[];
}

export function PlainColumns({
  path,
  baudRate,
  onFormat,
}: {
  path: string;
  baudRate: number;
  onFormat: (format: PlainFormat | undefined) => void;
}): VNode {
  const words = translateRig();
  const { draft } = useDraft<ColumnsDraft>(columnsDraft, {
    lines: [],
    layout: { separator: 'comma', decimal: 'point', headerLines: 0 },
    columns: [],
  });
  const { lines, layout, columns } = draft.value;
  const hasLooked = useSignal(lines.length > 0);
  // What was mapped before a reload counts again.
  useEffect(() => onFormat(formatOf(layout, columns)), []);
  const isAmbiguous = useSignal(false);
  const problem = useSignal<string | undefined>(undefined);
  const look = async () => {
    problem.value = undefined;
    try {
      const preview = await call<BoardPreview>('POST', '/boards/preview', { path, baudRate });
      hasLooked.value = true;
      isAmbiguous.value = preview.ambiguous;
      if (preview.format) take(preview.format, preview.lines);
      else change({ lines: preview.lines });
    } catch (cause) {
      problem.value = sentenceFor(cause);
    }
  };
  const take = ({ separator, decimal, headerLines, columns: named }: PlainFormat, seen: readonly string[]) => {
    const width = Math.max(0, ...seen.map((line) => splitLine(line, separator).length));
    change({
      lines: seen,
      layout: { separator, decimal, headerLines },
      columns: Array.from({ length: width }, (_, index) => {
        const known = named.find(({ column }) => column === index);
        return { use: known ? useOf(known.unit) : 'not', name: known?.name ?? words.column({ number: index + 1 }) };
      }),
    });
  };
  const change = (fields: Partial<ColumnsDraft>) => {
    draft.value = { ...draft.value, ...fields };
    onFormat(formatOf(draft.value.layout, draft.value.columns));
  };
  const relay = (fields: Partial<ColumnsDraft['layout']>) => {
    const next = { ...layout, ...fields };
    const width = Math.max(0, ...lines.map((line) => splitLine(line, next.separator).length));
    change({
      layout: next,
      columns: Array.from(
        { length: width },
        (_, index) => columns[index] ?? { use: 'not', name: words.column({ number: index + 1 }) },
      ),
    });
  };
  const alter = (place: number, fields: Partial<ColumnsDraft['columns'][number]>) =>
    change({ columns: columns.map((each, at) => (at === place ? { ...each, ...fields } : each)) });
  const mapped = columns.filter(({ use }) => use === 'temperature' || use === 'mass' || use === 'number').length;
  return (
    <fieldset class="group">
      <legend>{words.plain}</legend>
      <p class="hint">{words.plainHelp}</p>
      <button type="button" disabled={path === ''} onClick={() => void look()}>
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
      {lines.length > 0 && (
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
                      onChange={(use) => alter(index, { use })}
                    />
                    <TextField
                      label={words.columnName}
                      value={column.name}
                      onInput={(name) => alter(index, { name })}
                    />
                  </th>
                ))}
              </tr>
            </thead>
            <tbody>
              {lines.slice(-6).map((line, row) => (
                <tr key={row}>
                  {splitLine(line, layout.separator).map((field, index) => (
                    <td key={index}>{field}</td>
                  ))}
                </tr>
              ))}
            </tbody>
          </table>
        </WideTable>
      )}
      <p class="quiet">{mapped === 0 ? words.mapNone : words.mapped({ count: mapped })}</p>
    </fieldset>
  );
}

function useOf(unit: PlainFormat['columns'][number]['unit']): ColumnUse {
  return unit === 'Cel' ? 'temperature' : unit === 'kg' ? 'mass' : 'number';
}

function useWords(use: ColumnUse): string {
  const words = translateRig();
  return {
    not: words.useNot,
    temperature: words.useTemp,
    mass: words.useMass,
    number: words.useOther,
    timeS: words.useTimeS,
    timeMs: words.useTimeMs,
  }[use];
}
