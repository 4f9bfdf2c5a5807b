/**
 * Access to DuckDB, which only this command needs: it is not installed with Stovebench, since its engine is larger than
 * all the rest.
 */
import type { DuckDBConnection } from '@duckdb/node-api';
import packageFile from '../../package.json' with { type: 'json' };
import { AppError } from '../base/app-error.ts';

const PACKAGE = '@duckdb/node-api';

/**
 * Runs work on a separate engine, which is closed afterwards.
 * @throws AppError survey/engine-missing, whose sentence explains how to install it
 */
export async function withDuckdb<T>(work: (connection: DuckDBConnection) => Promise<T>): Promise<T> {
  const { DuckDBInstance } = await loaded();
  const instance = await DuckDBInstance.create(':memory:');
  try {
    const connection = await instance.connect();
    try {
      return await work(connection);
    } finally {
      connection.closeSync();
    }
  } finally {
    instance.closeSync();
  }
}

async function loaded(): Promise<typeof import('@duckdb/node-api')> {
  try {
    return await import('@duckdb/node-api');
  } catch (cause) {
    const wanted = `${PACKAGE}@${packageFile.peerDependencies[PACKAGE]}`;
    throw new AppError('survey/engine-missing', { package: wanted }, { cause });
  }
}
