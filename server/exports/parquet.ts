import { ByteWriter, ParquetWriter } from 'hyparquet-writer';
import { heading, type Table, type TableColumn } from './table.ts';

/** Rows of one group: large enough to compress well, small enough to hold. */
const rowsPerGroup = 50_000;

/**
 * Write a table as Apache Parquet, one row group a page.
 * Units stand in the column names and once more in the key-value metadata of the file.
 * @returns the bytes of the file, piece by piece
 */
export function* parquet(table: Table): Generator<Uint8Array> {
  const bytes = new DrainedWriter();
  const writer = new ParquetWriter({
    writer: bytes,
    schema: [{ name: 'root', num_children: table.columns.length }, ...table.columns.map(schemaElement)],
    kvMetadata: [
      { key: 'description', value: table.description },
      { key: 'columns', value: JSON.stringify(table.columns) },
    ],
    createdBy: 'Stovebench',
  });
  for (const page of table.pages()) {
    const columnData = table.columns.map((column, index) => ({
      name: heading(column),
      data: [...(page[index] ?? [])],
    }));
    writer.write({ columnData, rowGroupSize: rowsPerGroup });
    yield bytes.drain();
  }
  writer.finish();
  yield bytes.drain();
}

function schemaElement(column: TableColumn) {
  const name = heading(column);
  const repetition_type = 'OPTIONAL' as const;
  if (column.type === 'text')
    return { name, type: 'BYTE_ARRAY' as const, converted_type: 'UTF8' as const, repetition_type };
  return { name, type: 'DOUBLE' as const, repetition_type };
}

/** Hands over what has been written so far and starts again, so that the file is never whole in memory. */
class DrainedWriter extends ByteWriter {
  drain(): Uint8Array {
    const written = this.getBytes().slice();
    this.index = 0;
    return written;
  }
}
