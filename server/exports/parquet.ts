import { ByteWriter, ParquetWriter, type SchemaElement } from 'hyparquet-writer';

import { type Cell, heading, type Table, type TableColumn } from './table.ts';

/** Rows of one group: large enough to compress well, small enough to hold. */
const rowsPerGroup = 50_000;

/**
 * Write a table as Apache Parquet, one row group a page.
 * Units stand in the column names and once more, under those names, in the key-value metadata of the file.
 * @returns the bytes of the file, piece by piece
 */
export function* parquet(table: Table): Generator<Uint8Array> {
  const bytes = new DrainedWriter();
  const writer = new ParquetWriter({
    writer: bytes,
    schema: [{ name: 'root', num_children: table.columns.length }, ...table.columns.map(schemaElement)],
    kvMetadata: [
      { key: 'description', value: table.description },
      { key: 'columns', value: JSON.stringify(table.columns.map((column) => ({ ...column, name: heading(column) }))) },
    ],
    createdBy: 'Stovebench',
  });
  for (const page of table.pages()) {
    const columnData = table.columns.map((column, index) => ({
      name: heading(column),
      data: stored(page[index] ?? [], column),
    }));
    writer.write({ columnData, rowGroupSize: rowsPerGroup });
    yield bytes.drain();
  }
  writer.finish();
  yield bytes.drain();
}

/** The numbers of a scan go up to 2^32 and beyond, so whole numbers take 64 bits. */
function schemaElement(column: TableColumn): SchemaElement {
  const common = { name: heading(column), repetition_type: 'OPTIONAL' } as const;
  switch (column.type) {
    case 'text':
      return { ...common, type: 'BYTE_ARRAY', converted_type: 'UTF8' };
    case 'integer':
      return { ...common, type: 'INT64' };
    case 'timestamp': {
      const logical_type = { type: 'TIMESTAMP', isAdjustedToUTC: true, unit: 'MILLIS' } as const;
      return { ...common, type: 'INT64', converted_type: 'TIMESTAMP_MILLIS', logical_type };
    }
    case 'number':
      return { ...common, type: 'DOUBLE' };
  }
}

function stored(cells: readonly Cell[], { type }: TableColumn): unknown[] {
  return type === 'integer' ? cells.map((cell) => (cell === null ? null : BigInt(cell))) : [...cells];
}

/** Hands over what has been written so far and starts again, so that the file is never whole in memory. */
class DrainedWriter extends ByteWriter {
  drain(): Uint8Array {
    const written = this.getBytes().slice();
    this.index = 0;
    return written;
  }
}
