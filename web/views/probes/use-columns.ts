/** The mapping of a board's columns while it is made: guessed from the board's own lines, then put right. */
import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import type { PlainFormat } from '../../../shared/contract/boards.ts';
import { splitPlainLine } from '../../../shared/plain-lines/split-line.ts';
import { translateProbes } from '../../language/catalogue.ts';
import { call } from '../../requests/service.ts';
import { useDraft } from '../forms/use-draft.ts';
import { sentenceFor } from '../kit/use-load.ts';
import { type ColumnUse, formatOf } from './column-mapping.ts';

/** Where the mapping is kept until the board is attached. */
export const columnsDraft = 'plain-columns';

export interface ColumnsDraft {
  readonly lines: readonly string[];
  readonly layout: Pick<PlainFormat, 'separator' | 'decimal' | 'headerLines'>;
  readonly columns: readonly { use: ColumnUse; name: string }[];
}

export interface PortProps {
  path: string;
  baudRate: number;
  onFormat: (format: PlainFormat | undefined) => void;
}

export function useColumns({ path, baudRate, onFormat }: PortProps) {
  const words = translateProbes();
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
      const preview = await call('POST /boards/preview', { body: { path, baudRate } });
      hasLooked.value = true;
      isAmbiguous.value = preview.ambiguous;
      if (preview.format) take(preview.format, preview.lines);
      else change({ lines: preview.lines });
    } catch (cause) {
      problem.value = sentenceFor(cause);
    }
  };
  const take = ({ separator, decimal, headerLines, columns: named }: PlainFormat, seen: readonly string[]) => {
    const width = Math.max(0, ...seen.map((line) => splitPlainLine(line, separator).length));
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
    const width = Math.max(0, ...lines.map((line) => splitPlainLine(line, next.separator).length));
    change({
      layout: next,
      columns: Array.from(
        { length: width },
        (_, index) => columns[index] ?? { use: 'not', name: words.column({ number: index + 1 }) },
      ),
    });
  };
  const alter = (index: number, fields: Partial<ColumnsDraft['columns'][number]>) =>
    change({ columns: columns.map((each, at) => (at === index ? { ...each, ...fields } : each)) });
  return { lines, layout, columns, hasLooked, isAmbiguous, problem, look, relay, alter };
}

function useOf(unit: PlainFormat['columns'][number]['unit']): ColumnUse {
  return unit === 'Cel' ? 'temperature' : unit === 'kg' ? 'mass' : 'number';
}
