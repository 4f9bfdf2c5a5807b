/** Separator, decimal mark, encoding, first row and kind of time of a table. */
import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import type { ColumnFormat, ColumnPreview } from '../../../shared/contract/imports.ts';
import { translateImport } from '../../language/catalogue.ts';
import { number, readNumber } from '../../language/figures.ts';
import { SelectField, TextField } from '../forms/field.tsx';
import { timeKey, widthOf, withTime, withTimeKey } from './column-format.ts';

interface ReadingProps {
  columns: ColumnPreview;
  format: ColumnFormat;
  onChange: (format: ColumnFormat) => void;
}

export function TableReading({
  onGuess,
  ...props
}: ReadingProps & {
  onGuess: (known: Partial<Pick<ColumnFormat, 'separator' | 'decimal' | 'encoding'>>) => void;
}): VNode {
  const { columns, format, onChange } = props;
  const words = translateImport().table;
  return (
    <fieldset class="group">
      <legend>{words.reading}</legend>
      <div class="fields">
        <SelectField
          label={words.separator}
          value={format.separator}
          options={optionsOf(words.separators)}
          onChange={(separator) => onGuess({ separator })}
        />
        <SelectField
          label={words.decimal}
          value={format.decimal}
          options={optionsOf(words.decimals)}
          onChange={(decimal) => onGuess({ decimal })}
        />
        <SelectField
          label={words.thousands}
          value={format.thousands ?? 'none'}
          options={optionsOf(words.thousandsMarks)}
          onChange={(mark) => {
            const { thousands: _before, ...rest } = format;
            onChange(mark === 'none' ? rest : { ...rest, thousands: mark });
          }}
        />
        {columns.openQuoteLine !== undefined && (
          <SelectField
            label={words.quotes}
            value={format.quotes ?? 'enclose'}
            options={optionsOf(words.quotesKinds)}
            onChange={(quotes) => {
              const { quotes: _before, ...rest } = format;
              onChange(quotes === 'enclose' ? rest : { ...rest, quotes });
            }}
          />
        )}
        <SelectField
          label={words.encoding}
          value={format.encoding}
          options={optionsOf(words.encodings)}
          onChange={(encoding) => onGuess({ encoding })}
        />
        <SelectField
          label={words.firstRow}
          value={String(format.firstRow)}
          options={columns.sample.map(({ cells }, index) => [
            String(index + 1),
            words.row({ row: index + 1, text: cells.join(' | ').slice(0, 40) }),
          ])}
          onChange={(row) => onChange({ ...format, firstRow: Number(row) })}
        />
        <TimeFields {...props} />
      </div>
    </fieldset>
  );
}

function TimeFields({ columns, format, onChange }: ReadingProps): VNode {
  const words = translateImport().table;
  const { time } = format;
  const places = Array.from({ length: widthOf(columns) }, (_, column) => [String(column), String(column + 1)] as const);
  return (
    <>
      <SelectField
        label={words.time}
        value={timeKey(time)}
        options={optionsOf(words.times)}
        onChange={(key) => onChange(withTimeKey(format, key))}
      />
      {time.kind === 'every' ? (
        <EveryField everyS={time.everyS} onChange={(everyS) => onChange({ ...format, time: { ...time, everyS } })} />
      ) : (
        <SelectField
          label={words.timeColumn}
          value={String(time.column)}
          options={places}
          onChange={(column) => onChange(withTime(format, { ...time, column: Number(column) }))}
        />
      )}
      {time.kind === 'dateTime' && (
        <SelectField
          label={words.clockColumn}
          value={time.timeColumn === undefined ? '' : String(time.timeColumn)}
          options={[['', words.sameColumn], ...places]}
          onChange={(column) => {
            const { timeColumn: _before, ...rest } = time;
            onChange(withTime(format, column === '' ? rest : { ...rest, timeColumn: Number(column) }));
          }}
        />
      )}
    </>
  );
}

function EveryField({ everyS, onChange }: { everyS: number; onChange: (everyS: number) => void }): VNode {
  const typed = useSignal(number(everyS, everyS % 1 === 0 ? 0 : 1));
  const read = readNumber(typed.value);
  return (
    <TextField
      decimal
      label={translateImport().table.every}
      unit="s"
      value={typed.value}
      problem={read.ok ? undefined : read.problem}
      onInput={(text) => {
        typed.value = text;
        const next = readNumber(text);
        if (next.ok && next.value > 0) onChange(next.value);
      }}
    />
  );
}

function optionsOf<K extends string>(names: Readonly<Record<K, string>>): (readonly [K, string])[] {
  return (Object.keys(names) as K[]).map((key) => [key, names[key]]);
}
