/** Writes rows of the dataset as a Parquet file that exists completely or not at all. */
import { closeSync, fsyncSync, mkdirSync, openSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { zstdCompressSync } from 'node:zlib';
import { ByteWriter, type ColumnSource, ParquetWriter } from 'hyparquet-writer';
import type { Column, ColumnType, DatasetTable } from '../../shared/dataset/column.ts';
import type { DatasetRow } from '../../shared/dataset/row.ts';
import { type FileState, keyValues } from './file-state.ts';

/**
 * One burn of eight channels over four hours at one scan a second in one group: values that repeat from channel to
 * channel (times, numbers of scans) then take almost no space.
 */
const ROWS_PER_GROUP = 131_072;

/** Neither read by engines, which skip names that begin with a dot, nor matched by a pattern of `*.parquet`. */
export const PARTIAL = /^\..*\.partial$/;

export interface NewFile {
  path: string;
  table: DatasetTable;
  state: FileState;
  rows: Iterable<DatasetRow>;
  /** Name and version of the program. */
  createdBy: string;
}

/**
 * Writes a file under another name, flushes it to the disk and renames it: a reader of `path` finds either the previous
 * file or the new one, even if this process is killed.
 * @throws errors of the file system; nothing of the new file is left then
 */
export function writeParquetFile(file: NewFile): void {
  const folder = dirname(file.path);
  mkdirSync(folder, { recursive: true });
  const partial = join(folder, `.${basename(file.path)}.${process.pid}.partial`);
  try {
    const descriptor = openSync(partial, 'w');
    try {
      for (const piece of pieces(file)) writeFileSync(descriptor, piece);
      fsyncSync(descriptor);
    } finally {
      closeSync(descriptor);
    }
    renameSync(partial, file.path);
  } catch (error) {
    rmSync(partial, { force: true });
    throw error;
  }
  syncFolder(folder);
}

/** Removes a file; the removal is on the disk when the call returns. */
export function removeFile(path: string): void {
  rmSync(path, { force: true });
  syncFolder(dirname(path));
}

/**
 * A new name is durable once its folder is flushed. Systems and network drives that cannot flush folders do so by
 * themselves.
 */
function syncFolder(folder: string): void {
  let descriptor: number | undefined;
  try {
    descriptor = openSync(folder, 'r');
    fsyncSync(descriptor);
  } catch {
    // The file itself is complete in any case.
  } finally {
    if (descriptor !== undefined) closeSync(descriptor);
  }
}

function* pieces({ table, state, rows, createdBy }: NewFile): Generator<Uint8Array> {
  const bytes = new ByteWriter();
  const drained = () => {
    const written = bytes.getBytes().slice();
    bytes.index = 0;
    return written;
  };
  const writer = new ParquetWriter({
    writer: bytes,
    schema: [{ name: 'root', num_children: table.columns.length }, ...table.columns.flatMap(schemaElements)],
    codec: 'ZSTD',
    compressors: { ZSTD: (page) => zstdCompressSync(page) },
    kvMetadata: keyValues(table, state),
    createdBy,
  });
  for (const group of groupsOf(rows)) {
    writer.write({
      columnData: table.columns.map((column) => columnSource(column, group)),
      rowGroupSize: group.length,
    });
    yield drained();
  }
  writer.finish();
  yield drained();
}

function* groupsOf(rows: Iterable<DatasetRow>): Generator<DatasetRow[]> {
  let group: DatasetRow[] = [];
  for (const row of rows) {
    group.push(row);
    if (group.length < ROWS_PER_GROUP) continue;
    yield group;
    group = [];
  }
  if (group.length > 0) yield group;
}

type SchemaElement = ConstructorParameters<typeof ParquetWriter>[0]['schema'][number];

const UTF8 = { type: 'BYTE_ARRAY', converted_type: 'UTF8', logical_type: { type: 'STRING' } } as const;

/**
 * Apache Parquet, LogicalTypes.md: the newer logical types in addition to the older converted types, which are the only
 * ones some engines read.
 */
const primitives: Readonly<Record<Exclude<ColumnType, 'textList'>, Omit<SchemaElement, 'name'>>> = {
  text: UTF8,
  int32: { type: 'INT32' },
  int64: { type: 'INT64' },
  float64: { type: 'DOUBLE' },
  timestamp: {
    type: 'INT64',
    converted_type: 'TIMESTAMP_MICROS',
    logical_type: { type: 'TIMESTAMP', isAdjustedToUTC: true, unit: 'MICROS' },
  },
  boolean: { type: 'BOOLEAN' },
};

function schemaElements({ name, type, nullWhen }: Column): SchemaElement[] {
  const repetition_type = nullWhen === undefined ? 'REQUIRED' : 'OPTIONAL';
  if (type !== 'textList') return [{ name, repetition_type, ...primitives[type] }];
  return [
    { name, repetition_type, num_children: 1, converted_type: 'LIST', logical_type: { type: 'LIST' } },
    { name: 'list', repetition_type: 'REPEATED', num_children: 1 },
    { name: 'element', repetition_type: 'REQUIRED', ...UTF8 },
  ];
}

function columnSource({ name, type }: Column, rows: readonly DatasetRow[]): ColumnSource {
  const data = rows.map((row) => row[name] ?? null);
  switch (type) {
    case 'int32':
      return { name, data, encoding: 'DELTA_BINARY_PACKED' };
    case 'int64':
    case 'timestamp':
      return {
        name,
        data: data.map((value) => (value === null ? null : BigInt(value as number))),
        encoding: 'DELTA_BINARY_PACKED',
      };
    case 'text':
      return { name, data, encoding: 'RLE_DICTIONARY' };
    default:
      return { name, data };
  }
}
