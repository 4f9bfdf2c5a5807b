/** The mapping of a board's columns while it is edited: guessed from the board's own lines, then corrected. */
import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import type { GuessedFormat } from '../../../shared/contract/boards.ts';
import type { PlainLayout } from '../../../shared/plain-lines/cells.ts';
import { guessPlainFormat } from '../../../shared/plain-lines/guess-format.ts';
import { translateProbes } from '../../language/catalogue.ts';
import { call } from '../../requests/service.ts';
import { useDraft } from '../forms/use-draft.ts';
import { sentenceFor } from '../kit/use-load.ts';
import { columnsOf, formatOf, type Layout, type MappedColumn } from './column-mapping.ts';

/** Name of the draft that stores the mapping until the board is attached. */
export const columnsDraft = 'plain-lines';

export interface ColumnsDraft {
  readonly lines: readonly string[];
  readonly layout: Layout;
  readonly columns: readonly MappedColumn[];
}

export interface PortProps {
  path: string;
  baudRate: number;
  onFormat: (format: GuessedFormat | undefined) => void;
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
  // A mapping from before a reload is restored.
  useEffect(() => onFormat(formatOf(layout, columns)), []);
  const isAmbiguous = useSignal(false);
  const problem = useSignal<string | undefined>(undefined);
  const look = async () => {
    problem.value = undefined;
    try {
      const preview = await call('POST /boards/preview', { body: { path, baudRate } });
      hasLooked.value = true;
      guess(preview.lines, {}, []);
    } catch (cause) {
      problem.value = sentenceFor(cause);
    }
  };
  /** Choices of the person stay where the column is still the same. */
  const guess = (seen: readonly string[], known: Partial<PlainLayout>, chosen: readonly MappedColumn[]) => {
    const { format, ambiguous } = guessPlainFormat(seen, known);
    isAmbiguous.value = ambiguous && known.separator === undefined && known.decimal === undefined;
    const {
      layout: kind = 'columns',
      separator,
      decimal,
      headerLines,
      leadingClock,
    } = format ?? { ...layout, ...known };
    const next = { layout: kind, separator, decimal, headerLines, ...(leadingClock && { leadingClock }) };
    change({
      lines: seen,
      layout: next,
      columns: columnsOf(format, next, seen, (index) => words.column({ number: index + 1 })).map((column) => {
        const before = chosen.find(({ place, use, guessed }) => place === column.place && use !== guessed);
        return before ? { ...column, use: before.use, name: before.name } : column;
      }),
    });
  };
  const change = (fields: Partial<ColumnsDraft>) => {
    draft.value = { ...draft.value, ...fields };
    onFormat(formatOf(draft.value.layout, draft.value.columns));
  };
  const { layout: kind = 'columns', separator, decimal } = layout;
  const relay = (fields: Partial<PlainLayout>) => {
    const known = fields.layout ? fields : { layout: kind, separator, decimal, ...fields };
    guess(lines, known, fields.layout ? [] : columns);
  };
  const alter = (index: number, fields: Partial<MappedColumn>) =>
    change({ columns: columns.map((each, at) => (at === index ? { ...each, ...fields } : each)) });
  return { lines, layout, columns, hasLooked, isAmbiguous, problem, look, relay, alter };
}
