/** Two programs that know nothing of this one and read Parquet: DuckDB and hyparquet. */
import { readFileSync } from 'node:fs';
import { zstdDecompressSync } from 'node:zlib';
import { DuckDBInstance } from '@duckdb/node-api';
import { parquetReadObjects } from 'hyparquet';

/** Rows of a query on DuckDB, `{folder}` in it being the folder of the dataset; 64-bit numbers as numbers. */
export async function query(sql: string, folder: string): Promise<Record<string, unknown>[]> {
  const instance = await DuckDBInstance.create(':memory:');
  const connection = await instance.connect();
  try {
    const read = await connection.runAndReadAll(sql.replaceAll('{folder}', folder.replaceAll("'", "''")));
    return read
      .getRowObjectsJS()
      .map((row) => Object.fromEntries(Object.entries(row).map(([name, value]) => [name, plain(value)])));
  } finally {
    connection.closeSync();
    instance.closeSync();
  }
}

/** A table of the dataset as SQL. */
export function tableSql(table: string): string {
  return `read_parquet('{folder}/${table}/**/*.parquet', hive_partitioning = true, union_by_name = true)`;
}

/** All rows of a file, by hyparquet. */
export async function rowsOfFile(path: string): Promise<Record<string, unknown>[]> {
  const { buffer, byteOffset, byteLength } = readFileSync(path);
  const rows = await parquetReadObjects({
    file: buffer.slice(byteOffset, byteOffset + byteLength) as ArrayBuffer,
    compressors: { ZSTD: (input) => zstdDecompressSync(input) },
  });
  return rows.map((row) => Object.fromEntries(Object.entries(row).map(([name, value]) => [name, plain(value)])));
}

function plain(value: unknown): unknown {
  return typeof value === 'bigint' ? Number(value) : (value ?? null);
}
