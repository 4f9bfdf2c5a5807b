import { checkRecord, type RecordProblem } from '../../shared/analysis/check-record.ts';
import type { BurnRecord } from '../../shared/contract/burn-record.ts';
import { AppError, type Issue } from '../base/app-error.ts';
import { issuesOf } from '../base/validation-issues.ts';
import { type RecordParts, splitRecord } from '../records/split-record.ts';
import { excerptAt, findJsonFault, jsonOffset, placeOf } from './json-position.ts';
import { parseRecord } from './parse-record.ts';

const FORMAT = 'stovebench-burn-record';
const NEWEST_VERSION = 1;
/** As many as a person would put right in one go. */
const MOST_ISSUES = 20;

/**
 * A burn record from its JSON text.
 * @param file its name, for the sentence that refuses it
 * @throws AppError import/json-broken, import/not-a-record, import/newer-record, import/record-wrong; the first and the
 *   last say at which line and column, and what was expected there
 */
export function readRecordFile(text: string, file: string): RecordParts {
  const value = parseJson(text, file);
  const { format, version } = (value ?? {}) as { format?: unknown; version?: unknown };
  if (format !== FORMAT) throw new AppError('import/not-a-record', { file, expected: FORMAT });
  if (typeof version === 'number' && version > NEWEST_VERSION)
    throw new AppError('import/newer-record', { file, version });
  const read = parseRecord(value);
  if (!read.success) throw wrong(text, file, issuesOf(read.error));
  const issues = [...checkRecord(read.data).filter(isStructural).map(asIssue), ...oversized(read.data)];
  if (issues.length > 0) throw wrong(text, file, issues);
  return splitRecord(read.data);
}

/** @throws AppError import/json-broken */
export function parseJson(text: string, file: string): unknown {
  try {
    return JSON.parse(text);
  } catch (error) {
    const { offset, expected } = findJsonFault(text) ?? { offset: 0, expected: 'value' };
    const found = excerptAt(text, offset);
    throw new AppError('import/json-broken', { file, ...placeOf(text, offset), expected, found }, { cause: error });
  }
}

/**
 * Without these a record could not be kept as it is. A probe that is described too briefly, or a weighing that says
 * nothing, can: the results say what is missing.
 */
function isStructural({ path, message }: RecordProblem): boolean {
  const always = ['twice', 'columnLength', 'notRising', 'readTwice', 'faultPlace', 'endBeforeStart', 'notADate'];
  return always.includes(message.code) || (message.code === 'unknownChannel' && path.startsWith('readings'));
}

function asIssue({ path, message: { code, params } }: RecordProblem): Issue {
  return { path, code: 'issue/record', params: { ...params, problem: code } };
}

/** The store keeps counts as boards send them, in 32 bits. */
function oversized(record: BurnRecord): Issue[] {
  return record.readings.flatMap(({ boardId, columns }, board) => {
    const again = boardId !== undefined && record.readings.findIndex((other) => other.boardId === boardId) < board;
    const places = columns.flatMap(({ counts }, column) => {
      let index = 0;
      while (index < counts.length && isNoneOrFits(counts[index]!)) index++;
      return index === counts.length ? [] : [`columns.${column}.counts.${index}`];
    });
    return [
      ...(again
        ? [
            {
              path: `readings.${board}.boardId`,
              code: 'issue/record' as const,
              params: { problem: 'twice', id: boardId },
            },
          ]
        : []),
      ...places.map((place) => ({
        path: `readings.${board}.${place}`,
        code: 'issue/too-big' as const,
        params: { limit: '2147483647', inclusive: 1 },
      })),
    ];
  });
}

function isNoneOrFits(count: number | null): boolean {
  return count === null || (count | 0) === count;
}

function wrong(text: string, file: string, issues: Issue[]): AppError {
  const placed = issues.slice(0, MOST_ISSUES).map((issue) => {
    const { line, column } = placeOf(text, jsonOffset(text, issue.path === '' ? [] : issue.path.split('.')));
    return { ...issue, line, column };
  });
  const { line, column, path } = placed[0]!;
  return new AppError(
    'import/record-wrong',
    { file, line, column, path },
    { issues: placed.map((issue) => ({ ...issue, path: `${issue.path} (${issue.line}:${issue.column})` })) },
  );
}
