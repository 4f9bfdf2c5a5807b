import { readFileSync } from 'node:fs';
import { zstdDecompressSync } from 'node:zlib';
import { parquetReadObjects } from 'hyparquet';
import { plainValue } from '../../scripts/tools/duckdb.ts';

/** All rows of a Parquet file, by hyparquet. */
export async function rowsOfFile(path: string): Promise<Record<string, unknown>[]> {
  const { buffer, byteOffset, byteLength } = readFileSync(path);
  const rows = await parquetReadObjects({
    file: buffer.slice(byteOffset, byteOffset + byteLength) as ArrayBuffer,
    compressors: { ZSTD: (input) => zstdDecompressSync(input) },
  });
  return rows.map((row) => Object.fromEntries(Object.entries(row).map(([name, value]) => [name, plainValue(value)])));
}
