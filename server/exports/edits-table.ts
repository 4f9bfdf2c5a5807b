import type { BurnRecord } from '../../shared/contract/burn-record.ts';
import type { RecordWithoutReadings } from '../records/record-without-readings.ts';
import { fieldTable, integer, text, timestamp } from './field-table.ts';
import type { Table } from './table.ts';

type Edit = NonNullable<BurnRecord['edits']>[number];
type Json = Edit['before'];

interface ChangedField {
  edit: Edit;
  number: number;
  field: string;
  old: string | undefined;
  new: string | undefined;
}

/** Every change of something already stated, one row a changed field. What was taken back has no new values. */
export function editsTable({ edits = [] }: RecordWithoutReadings): Table {
  const rows = edits.flatMap((edit, index) => changedFields(edit, index + 1));
  const head = {
    name: 'edits',
    description: 'Every change of something already stated, one row a changed field',
    primaryKey: ['edit', 'field'],
  };
  return fieldTable<ChangedField>(head, rows, [
    integer('edit', 'number of the change, from 1', ({ number }) => number),
    timestamp('utc', 'when it was changed', ({ edit }) => edit.atUtcMs),
    text('by', 'who changed it', ({ edit }) => edit.by),
    text('what', 'what was changed', ({ edit }) => edit.what),
    text('id', 'identifier of what was changed', ({ edit }) => edit.id),
    text('field', 'JSON Pointer (RFC 6901) of the changed field', ({ field }) => field),
    text('old', 'blank where the field was not there', (change) => change.old),
    text('new', 'blank where the field is not there any more', (change) => change.new),
  ]);
}

/** In the order of the fields' names, whatever the order in which they were stored. */
function changedFields(edit: Edit, number: number): ChangedField[] {
  const [before, after] = [new Map(leaves(edit.before)), new Map(leaves(edit.after))];
  return [...new Set([...before.keys(), ...after.keys()])]
    .sort()
    .filter((field) => before.get(field) !== after.get(field))
    .map((field) => ({ edit, number, field, old: before.get(field), new: after.get(field) }));
}

/** Every value in a document with where it stands; text as it is, everything else as JSON. */
function* leaves(value: Json, pointer = ''): Generator<[pointer: string, text: string]> {
  if (value === null && pointer === '') return;
  const entries = typeof value === 'object' && value !== null ? Object.entries(value) : [];
  if (entries.length === 0) yield [pointer, typeof value === 'string' ? value : JSON.stringify(value)];
  for (const [key, entry] of entries) {
    // biome-ignore format: the two replacements of the RFC in their order
    yield* leaves(entry, `${pointer}/${key.replaceAll('~', '~0').replaceAll('/', '~1')}`);
  }
}
