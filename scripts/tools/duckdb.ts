/** Reads published files with DuckDB, which is independent of this program. */
import { DuckDBInstance } from '@duckdb/node-api';

/** Rows of a query, in which `{folder}` is replaced by the folder of a dataset; 64-bit numbers as numbers. */
export async function query(sql: string, folder: string): Promise<Record<string, unknown>[]> {
  const instance = await DuckDBInstance.create(':memory:');
  const connection = await instance.connect();
  try {
    const read = await connection.runAndReadAll(sql.replaceAll('{folder}', folder.replaceAll("'", "''")));
    return read
      .getRowObjectsJS()
      .map((row) => Object.fromEntries(Object.entries(row).map(([name, value]) => [name, plainValue(value)])));
  } finally {
    connection.closeSync();
    instance.closeSync();
  }
}

/** A table of the dataset as SQL. */
export function tableSql(table: string): string {
  return `read_parquet('{folder}/${table}/**/*.parquet', hive_partitioning = true, union_by_name = true)`;
}

/** 64-bit integers as numbers. */
export function plainValue(value: unknown): unknown {
  return typeof value === 'bigint' ? Number(value) : (value ?? null);
}
