/** The same readings in DuckDB, one column a channel. */
import { rmSync, statSync } from 'node:fs';
import { DuckDBInstance } from '@duckdb/node-api';
import type { ScanColumns } from '../../../server/store/store.ts';

/** Writes the times, arrivals and counts into a database of their own. */
export async function openDuckdb(file: string, columns: ScanColumns) {
  rmSync(file, { force: true });
  const instance = await DuckDBInstance.create(file, { threads: '1' });
  const connection = await instance.connect();
  const names = columns.counts.map((_, channel) => `c${channel}`);
  await connection.run(
    `CREATE TABLE reading (t BIGINT, arrived BIGINT, ${names.map((name) => `${name} INTEGER`).join(', ')})`,
  );
  const appender = await connection.createAppender('reading');
  for (let scan = 0; scan < columns.elapsedUs.length; scan++) {
    appender.appendBigInt(BigInt(columns.elapsedUs[scan]!));
    appender.appendBigInt(BigInt(columns.arrivedUs[scan]!));
    for (const counts of columns.counts) appender.appendInteger(counts[scan]!);
    appender.endRow();
  }
  appender.closeSync();
  await connection.run('CHECKPOINT');
  const lastUs = columns.elapsedUs.at(-1)!;
  const lows = names.map((name) => `min(${name}), max(${name})`).join(', ');
  return {
    bytes: statSync(file).size,
    columns: async () => (await connection.runAndReadAll(`SELECT t, ${names.join(', ')} FROM reading`)).getColumns(),
    extremes: async (count: number) =>
      (
        await connection.runAndReadAll(
          `SELECT t * ${count} // ${lastUs + 1} AS part, ${lows} FROM reading GROUP BY part ORDER BY part`,
        )
      ).getColumns(),
    close(): void {
      connection.closeSync();
      instance.closeSync();
    },
  };
}
