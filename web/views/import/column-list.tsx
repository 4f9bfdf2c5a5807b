/** Every column of a table: a probe with its name, unit and place, the time, or ignored. */
import type { VNode } from 'preact';
import type { Channel } from '../../../shared/contract/burn-record.ts';
import { channelRoles } from '../../../shared/contract/channel-roles.ts';
import type { ColumnFormat, ColumnPreview } from '../../../shared/contract/imports.ts';
import { columnUnits } from '../../../shared/contract/ucum-units.ts';
import { translate, translateImport } from '../../language/catalogue.ts';
import { SelectField, TextField } from '../forms/field.tsx';
import { ValueCurve } from '../kit/value-curve.tsx';
import { headingOf, timeColumns, widthOf, withColumn, withoutColumn } from './column-format.ts';

const EXAMPLES = 3;

interface ListProps {
  columns: ColumnPreview;
  format: ColumnFormat;
  onChange: (format: ColumnFormat, looks?: boolean) => void;
}

export function ColumnList(props: ListProps): VNode {
  const { columns, format } = props;
  const isTime = timeColumns(format);
  return (
    <section class="column-list" aria-labelledby="column-list-title">
      <h2 id="column-list-title">{translateImport().table.columns}</h2>
      {Array.from({ length: widthOf(columns) }, (_, column) => (
        <OneColumn key={column} column={column} isTime={isTime.includes(column)} {...props} />
      ))}
    </section>
  );
}

function OneColumn({
  column,
  isTime,
  columns,
  format,
  onChange,
}: ListProps & { column: number; isTime: boolean }): VNode {
  const words = translateImport().table;
  const mapped = format.columns.find((each) => each.column === column);
  const cells = columns.sample.slice(format.firstRow - 1).map((row) => row.cells[column] ?? '');
  const examples = cells.slice(0, EXAMPLES).join(' · ') || '–';
  // Of the last preview: later changes have not been previewed yet.
  const curve = columns.curves[columns.format.columns.findIndex((each) => each.column === column)] ?? [];
  const put = (fields: Partial<ColumnFormat['columns'][number]>, looks: boolean) => {
    const next = format.columns.map((each) => (each.column === column ? { ...each, ...fields } : each));
    onChange({ ...format, columns: next }, looks);
  };
  return (
    <fieldset class={mapped ? 'group one-column' : 'group one-column unread'}>
      <legend>{words.column({ number: column + 1, examples })}</legend>
      {isTime ? (
        <p>{words.isTime}</p>
      ) : (
        <div class="fields">
          <SelectField<Channel['role'] | ''>
            label={words.role}
            value={mapped?.role ?? ''}
            options={[
              ['', words.leaveOut],
              ...channelRoles.map((role) => [role, translate().burns.roles[role]] as const),
            ]}
            onChange={(role) => {
              if (role === '') return onChange(withoutColumn(format, column));
              return onChange(
                withColumn(format, column, role, headingOf(columns, column) || translate().burns.roles[role]),
              );
            }}
          />
          {mapped && (
            <>
              <TextField
                label={words.name}
                value={mapped.name}
                problem={mapped.name.trim() === '' ? words.nameMissing : undefined}
                onInput={(name) => put({ name }, false)}
              />
              <SelectField
                label={words.unit}
                value={mapped.unit}
                options={columnUnits.map((unit) => [unit, translateImport().units[unit]])}
                onChange={(unit) => put({ unit }, true)}
              />
              {mapped.role === 'water' && (
                <SelectField
                  label={words.position}
                  value={mapped.position ?? 'none'}
                  options={(['none', 'low', 'middle', 'high'] as const).map((place) => [place, words.positions[place]])}
                  onChange={(place) => {
                    const { position: _before, ...rest } = mapped;
                    const next = place === 'none' ? rest : { ...rest, position: place };
                    onChange(
                      { ...format, columns: format.columns.map((each) => (each === mapped ? next : each)) },
                      false,
                    );
                  }}
                />
              )}
            </>
          )}
        </div>
      )}
      {mapped && <ValueCurve values={curve} count={columns.rows} words={words.values} />}
    </fieldset>
  );
}
