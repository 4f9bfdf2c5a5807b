/**
 * Burn records from files for the command line: read, validated, analysed. Every mistake is reported in the language of
 * the terminal, with the place in the file.
 */
import { once } from 'node:events';
import { extname } from 'node:path';
import { Worker } from 'node:worker_threads';
import type { z } from 'zod';
import { checkRecord } from '../../shared/analysis/check-record.ts';
import { type BurnRecord, burnRecordSchema, type MethodSet } from '../../shared/contract/burn-record.ts';
import type { Analysis } from '../../shared/contract/results.ts';
import type { ErrorCode } from '../../shared/language/errors/errors.ts';
import { AppError } from '../base/app-error.ts';
import { printProgress, word } from '../base/command-options.ts';
import { issuesOf } from '../base/validation-issues.ts';
import { readJsonInput } from './input-file.ts';
import { withInterruption } from './interruption.ts';

/**
 * Reads a JSON file, or standard input for "-", and validates it.
 * @param refusal code for a file with other content
 * @throws AppError `refusal` with what is wrong and where; command/file-missing, command/file-unreadable, command/not-json
 */
export function readChecked<T>(file: string, schema: z.ZodType<T>, refusal: ErrorCode): T {
  // The wrong values themselves tell a number in quotation marks from a word.
  const checked = schema.safeParse(readJsonInput(file), { reportInput: true });
  if (!checked.success) throw new AppError(refusal, { file }, { issues: issuesOf(checked.error) });
  return checked.data;
}

/**
 * Reads a burn record whose parts fit together.
 * @throws AppError command/not-a-record, command/record-contradicts, and what `readChecked` throws
 */
export function readRecord(file: string): BurnRecord {
  const record = readChecked(file, burnRecordSchema, 'command/not-a-record');
  const problems = checkRecord(record);
  if (problems.length === 0) return record;
  const issues = problems.map(({ path, message: { code, params } }) => ({
    path,
    code: 'issue/record' as const,
    params: { ...params, problem: code },
  }));
  throw new AppError('command/record-contradicts', { file }, { issues });
}

/**
 * Reads burn records.
 * @throws AppError command/burn-twice: a burn would count as a repetition of itself; and what `readRecord` throws
 */
export function readRecords(files: readonly string[]): BurnRecord[] {
  const records = files.map(readRecord);
  const seen = new Set<string>();
  for (const { id, title } of records) {
    if (seen.has(id)) throw new AppError('command/burn-twice', { title, id });
    seen.add(id);
  }
  return records;
}

/**
 * Analyses records, by their own method sets unless another is named, in a thread: Ctrl-C is answered while it computes.
 * @throws AppError command/cancelled
 */
export function analysesOf(records: readonly BurnRecord[], method?: MethodSet): Promise<Analysis[]> {
  return withInterruption(async (signal) => {
    const thread = new Worker(new URL(`./analysis-thread${extname(import.meta.filename)}`, import.meta.url));
    try {
      const analyses: Analysis[] = [];
      for (const record of records) {
        thread.postMessage({ record, method });
        const [analysis] = (await once(thread, 'message', { signal })) as [Analysis];
        analyses.push(analysis);
        if (records.length > 1) printProgress(word('proving', { done: analyses.length, of: records.length }));
      }
      return analyses;
    } catch (error) {
      signal.throwIfAborted();
      throw error;
    } finally {
      await thread.terminate();
    }
  });
}
