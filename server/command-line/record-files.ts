/**
 * Burn records from files for the command line: read, validated, analysed. Every mistake is reported in one sentence.
 */
import type { z } from 'zod';
import { analyse } from '../../shared/analysis/analyse.ts';
import { type BurnRecord, burnRecordSchema, type MethodSet } from '../../shared/contract/burn-record.ts';
import type { Analysis } from '../../shared/contract/results.ts';
import { UsageError } from '../base/command-options.ts';
import { readInput } from './input-file.ts';

const SHOWN_ISSUES = 3;

/**
 * Reads a JSON file, or standard input for "-", and validates it.
 * @param what the expected content, for the message: "a burn record"
 * @throws UsageError naming the file and what is wrong with it; AppError command/file-unreadable
 */
export function readChecked<T>(path: string, schema: z.ZodType<T>, what: string): T {
  let parsed: unknown;
  try {
    parsed = JSON.parse(Buffer.from(readInput(path)).toString('utf8'));
  } catch (cause) {
    if (!(cause instanceof SyntaxError)) throw cause;
    throw new UsageError(`${path} cannot be read: it is not JSON.`);
  }
  const checked = schema.safeParse(parsed);
  if (checked.success) return checked.data;
  const issues = checked.error.issues
    .slice(0, SHOWN_ISSUES)
    .map(({ path: at, message }) => (at.length > 0 ? `${at.join('.')}: ${message}` : message));
  const more = checked.error.issues.length - issues.length;
  throw new UsageError(`${path} is not ${what}: ${issues.join('; ')}${more > 0 ? `; and ${more} more` : ''}.`);
}

/**
 * Reads burn records.
 * @throws UsageError for a file that is not one, or a burn given twice: it would count as a repetition of itself.
 */
export function readRecords(paths: readonly string[]): BurnRecord[] {
  const records = paths.map((path) => readChecked(path, burnRecordSchema, 'a burn record'));
  const seen = new Set<string>();
  for (const { id, title } of records) {
    if (seen.has(id)) throw new UsageError(`The burn "${title}" (${id}) is given twice. Give each burn once.`);
    seen.add(id);
  }
  return records;
}

/** A record with its analysis, by its own method set unless another is named. */
export function analysed(record: BurnRecord, method?: MethodSet): { record: BurnRecord; analysis: Analysis } {
  return { record, analysis: analyse(record, method === undefined ? {} : { method }) };
}
