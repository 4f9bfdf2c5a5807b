import type { VNode } from 'preact';
import type { ColumnFormat, ColumnPreview } from '../../../shared/contract/imports.ts';
import { translateImport } from '../../language/catalogue.ts';
import { Choice } from '../forms/field.tsx';

/** Enough examples to see what is wrong; all cells of the file may be affected. */
const SHOWN = 3;

/** Cells that do not match the format, by line and column, and what to do about them. */
export function ColumnProblems({
  columns: { problems, problemCount },
  format,
  onChange,
}: {
  columns: ColumnPreview;
  format: ColumnFormat;
  onChange: (format: ColumnFormat) => void;
}): VNode | null {
  const words = translateImport().table;
  if (problemCount === 0) return null;
  const shown = problems.slice(0, SHOWN);
  return (
    <section class="cell-problems" aria-live="polite">
      <p class="problem">{words.problems({ count: problemCount })}</p>
      <ul class="remarks">
        {shown.map(({ line, column, expected, found }) => (
          <li key={`${line} ${column}`}>
            {words.problem({ line, column, expected: translateImport().expected[expected], found })}
          </li>
        ))}
        {problemCount > shown.length && <li>{words.more({ count: problemCount - shown.length })}</li>}
      </ul>
      <Choice
        label={words.unreadable}
        value={format.unreadable}
        options={[
          ['refuse', words.unreadables.refuse],
          ['skip', words.unreadables.skip],
        ]}
        onChange={(unreadable) => onChange({ ...format, unreadable })}
      />
    </section>
  );
}
