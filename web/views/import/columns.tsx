/** A table of another logger: how it is read, what each column is, and what would be saved. */
import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import type { ColumnFormat, ImportPreview } from '../../../shared/contract/imports.ts';
import { translateImport } from '../../language/catalogue.ts';
import { clock, day, duration, number } from '../../language/figures.ts';
import { chosenFile } from '../../requests/imports.ts';
import { focusFirstWrong } from '../forms/focus-first-wrong.ts';
import { BurnOfReadings, blankBurn, readBurn } from './burn-of-readings.tsx';
import { ClockSets } from './clock-sets.tsx';
import { isWhole, openDoubts, withNamesOf } from './column-format.ts';
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
  const words = translateImport();
  const { columns } = preview;
  const { work } = staged;
  const format = work.value.columns ?? columns.format;
  const burn = { ...blankBurn(preview.file, columns.startClockS), ...work.value.burn };
  const file = chosenFile.value;
  const tried = useSignal(false);

  const asks = { isDated: columns.startedUtcMs !== undefined, asksLit: true };
  const read = readBurn(burn, asks);
  const missing = missingIn(format);
  const doubts = openDoubts(work.value.doubted, format);

  /** @param looks whether it changes how the file is read, and not only names */
  const change = (next: ColumnFormat, looks = true) => {
    staged.update({ columns: next });
    if (looks && isWhole(next)) void staged.look({ columns: next });
  };
  /** The person enters one choice; everything that depends on it is guessed anew. */
  const guess = async (known: Partial<Pick<ColumnFormat, 'separator' | 'decimal' | 'encoding'>>) => {
    const { separator, decimal, encoding } = format;
    const written = known.separator ? { encoding, ...known } : { separator, decimal, encoding, ...known };
    const seen = await staged.look({ guess: written });
    // Refused: the previous choices are shown again.
    if (seen?.kind !== 'columns') return staged.update({});
    change(withNamesOf(work.peek().columns ?? format, seen.columns.format));
  };
  return (
    <form
      class="bring-form"
      onSubmit={(event) => {
        event.preventDefault();
        tried.value = true;
        if (read.ok && missing === undefined) void staged.save({ columns: format, ...read.value });
        else focusFirstWrong(event.currentTarget);
      }}
    >
      <p class="lead small">{words.table.intro({ file: preview.file })}</p>
      <p>
        {words.table.sum({ count: columns.rows, rows: number(columns.rows, 0), time: duration(columns.durationS) })}{' '}
        {columns.startedUtcMs !== undefined &&
          words.table.began({
            when: `${day(columns.startedUtcMs, 'UTC')}, ${clock(columns.startedUtcMs, 'UTC')}`,
          })}
      </p>
      {doubts.length > 0 && (
        <ul class="remarks">
          {doubts.map((doubt) => (
            <li key={doubt}>
              {words.review.columnDoubts[doubt]}
              {doubt === 'openQuote' &&
                columns.openQuoteLine !== undefined &&
                ` ${words.review.openQuote({ line: columns.openQuoteLine })}`}
            </li>
          ))}
        </ul>
      )}
      <ClockSets
        sets={columns.clockSets ?? []}
        steps={format.clockSteps ?? []}
        onChange={(clockSteps) => change({ ...format, clockSteps })}
      />
      <ColumnProblems columns={columns} format={format} onChange={change} />
      <AsStands columns={columns} format={format} />
      <TableReading columns={columns} format={format} onChange={change} onGuess={(known) => void guess(known)} />
      {file && (
        <p>
          <button type="button" class="plain" onClick={() => void staged.send({ ...file, as: 'notes' })}>
            {words.choose.asNotes}
          </button>
        </p>
      )}
      <ColumnList columns={columns} format={format} onChange={change} />
      <AsRead columns={columns} />
      <BurnOfReadings
        draft={burn}
        problems={tried.value && !read.ok ? read.problems : {}}
        {...asks}
        onChange={(fields) => staged.update({ burn: { ...work.value.burn, ...fields } })}
      />
      <FileEnd
        staged={staged}
        saveLabel={burn.into === '' ? words.importBurn : words.importInto}
        problem={tried.value ? (missing ?? (read.ok ? undefined : words.burn.wrong)) : undefined}
      />
    </form>
  );
}

function missingIn({ columns }: ColumnFormat): string | undefined {
  const words = translateImport().table;
  if (columns.length === 0) return words.noColumn;
  return columns.some(({ name }) => name.trim() === '') ? words.nameMissing : undefined;
}
