/** Runs the questions of `questions/` on a published dataset, with DuckDB. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { DuckDBConnection } from '@duckdb/node-api';
import { AppError } from '../base/app-error.ts';
import { reasonOf } from '../base/reason-of.ts';
import { withDuckdb } from './duckdb.ts';
import { type Findings, type Question, questionNames, type SurveyChoice } from './questions.ts';

export interface Survey {
  readonly choice: SurveyChoice;
  /** UCUM, of the result to be examined. */
  readonly unit: string;
  readonly findings: Findings;
}

/**
 * Runs every question on the dataset in a folder.
 * @throws AppError survey/engine-missing, survey/no-dataset, survey/unreadable, survey/nothing-counts
 */
export async function survey(folder: string, choice: SurveyChoice): Promise<Survey> {
  return withDuckdb(async (connection) => {
    await openDataset(connection, folder, choice);
    const { unit } = await unitOf(connection, folder, choice);
    const findings: [Question, unknown][] = [];
    for (const question of questionNames) findings.push([question, await ask(connection, folder, sqlOf(question))]);
    return { choice, unit, findings: Object.fromEntries(findings) as Findings };
  });
}

/** The SQL of a question, which can be run in any DuckDB session that has read `views.sql`. */
export function sqlOf(question: Question): string {
  return readFileSync(join(import.meta.dirname, 'questions', `${question}.sql`), 'utf8');
}

/**
 * Opens the views used by the questions.
 * @throws AppError survey/no-dataset, survey/unreadable
 */
export async function openDataset(connection: DuckDBConnection, folder: string, choice: SurveyChoice): Promise<void> {
  const variables = {
    folder: literal(withoutPatterns(folder)),
    result: literal(choice.result),
    simulated: String(choice.simulated),
    start: literal(choice.start),
  };
  const views = readFileSync(join(import.meta.dirname, 'views.sql'), 'utf8');
  const settings = Object.entries(variables).map(([name, value]) => `SET VARIABLE ${name} = ${value};`);
  try {
    await connection.run(`SET TimeZone = 'UTC'; ${settings.join(' ')} ${views}`);
  } catch (cause) {
    const raw = reasonOf(cause);
    throw new AppError(
      /No files found/.test(raw) ? 'survey/no-dataset' : 'survey/unreadable',
      { folder, raw },
      { cause },
    );
  }
}

/** @throws AppError survey/nothing-counts with the number of burns of each kind */
async function unitOf(connection: DuckDBConnection, folder: string, { result, start }: SurveyChoice) {
  const [counted] = await ask(connection, folder, 'SELECT min(unit) AS unit FROM counted');
  if (typeof counted?.unit === 'string') return { unit: counted.unit };
  const kinds = `SELECT count(*) FILTER (NOT simulated) AS measured, count(*) FILTER (simulated) AS simulated FROM burns`;
  const [{ measured = 0, simulated = 0 } = {}] = await ask(connection, folder, kinds);
  throw new AppError('survey/nothing-counts', {
    folder,
    result,
    start,
    measured: measured ?? 0,
    simulated: simulated ?? 0,
  });
}

type Row = Record<string, string | number | null>;

async function ask(connection: DuckDBConnection, folder: string, sql: string): Promise<Row[]> {
  try {
    const read = await connection.runAndReadAll(sql);
    return read.getRowObjectsJS().map((row) => {
      return Object.fromEntries(Object.entries(row).map(([name, value]) => [name, plain(value)]));
    });
  } catch (cause) {
    throw new AppError('survey/unreadable', { folder, raw: reasonOf(cause) }, { cause });
  }
}

function plain(value: unknown): string | number | null {
  if (value instanceof Date) return value.toISOString();
  return typeof value === 'bigint' ? Number(value) : ((value as string | number | null) ?? null);
}

function literal(text: string): string {
  return `'${text.replaceAll("'", "''")}'`;
}

/** DuckDB interprets a path as a pattern; a pattern character in brackets matches itself. */
function withoutPatterns(path: string): string {
  return path.replace(/[*?[]/g, '[$&]');
}
