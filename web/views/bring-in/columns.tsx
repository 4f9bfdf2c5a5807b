/** A table of another logger: how it is read, what each column is, and what would be kept of it. */
import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import type { ColumnFormat, ImportPreview } from '../../../shared/contract/imports.ts';
import { withNamesOf } from '../../lib/column-format.ts';
import { sayBringIn } from '../../state/catalogue.ts';
import { clock, day, duration, number } from '../../state/figures.ts';
import { BurnOfReadings, blankBurn, readBurn } from './burn-of-readings.tsx';
import { ColumnList } from './column-list.tsx';
import { ColumnProblems } from './column-problems.tsx';
import { AsRead, AsStands } from './column-tables.tsx';
import { FileEnd } from './file-end.tsx';
import { TableReading } from './table-reading.tsx';
import type { Staged } from './use-staged.ts';

export function Columns({
  staged,
  preview,
}: {
  staged: Staged;
  preview: Extract<ImportPreview, { kind: 'columns' }>;
}): VNode {
  const words = sayBringIn();
  const { columns } = preview;
  const format = useSignal(columns.format);
  const burn = useSignal(blankBurn(preview.file, columns.startClockS));
  const tried = useSignal(false);

  const read = readBurn(burn.value, { isDated: columns.startedUtcMs !== undefined });
  const missing = missingIn(format.value);

  /** @param looks whether it changes how the file reads, and not only what things are called */
  const change = (next: ColumnFormat, looks = true) => {
    format.value = next;
    if (looks && next.columns.length > 0 && next.columns.every(({ name }) => name.trim() !== '')) {
      void staged.look({ columns: next });
    }
  };
  /** The person says one thing; everything that hangs on it is guessed anew. */
  const guess = async (known: Partial<Pick<ColumnFormat, 'separator' | 'decimal' | 'encoding'>>) => {
    const { separator, decimal, encoding } = format.value;
    const said = known.separator ? { encoding, ...known } : { separator, decimal, encoding, ...known };
    const seen = await staged.look({ guess: said });
    if (seen?.kind === 'columns') change(withNamesOf(format.value, seen.columns.format));
  };
  return (
    <form
      class="bring-form"
      onSubmit={(event) => {
        event.preventDefault();
        tried.value = true;
        if (read.ok && missing === undefined) void staged.keep({ columns: format.value, ...read.value });
      }}
    >
      <p class="lead small">{words.table.lead({ file: preview.file })}</p>
      <p>
        {words.table.sum({ rows: number(columns.rows, 0), time: duration(columns.durationS) })}{' '}
        {columns.startedUtcMs !== undefined &&
          words.table.began({
            when: `${day(columns.startedUtcMs, 'UTC')}, ${clock(columns.startedUtcMs, 'UTC')}`,
          })}
      </p>
      {columns.doubts.length > 0 && (
        <ul class="remarks">
          {columns.doubts.map((doubt) => (
            <li key={doubt}>{words.doubts[doubt]}</li>
          ))}
        </ul>
      )}
      <ColumnProblems columns={columns} format={format.value} onChange={change} />
      <AsStands columns={columns} format={format.value} />
      <p>
        <button type="button" onClick={() => staged.handed.value && void staged.send(staged.handed.value, 'notes')}>
          {words.choose.asNotes}
        </button>
      </p>
      <TableReading columns={columns} format={format.value} onChange={change} onGuess={(known) => void guess(known)} />
      <ColumnList columns={columns} format={format.value} onChange={change} />
      <AsRead columns={columns} />
      <BurnOfReadings
        draft={burn.value}
        problems={tried.value && !read.ok ? read.problems : {}}
        isDated={columns.startedUtcMs !== undefined}
        asksLit
        onChange={(fields) => {
          burn.value = { ...burn.value, ...fields };
        }}
      />
      <FileEnd
        staged={staged}
        keep={burn.value.into === '' ? words.keepBurn : words.keepInto}
        problem={tried.value ? missing : undefined}
      />
    </form>
  );
}

function missingIn({ columns }: ColumnFormat): string | undefined {
  const words = sayBringIn().table;
  if (columns.length === 0) return words.noColumn;
  return columns.some(({ name }) => name.trim() === '') ? words.nameMissing : undefined;
}
