/** A file of another logger: what it seems to hold, and the burn it becomes. */
import type { ColumnFormat, ColumnPreview } from '../../../shared/contract/imports.ts';
import { storedUnits } from '../../../shared/plain-lines/stored-units.ts';
import { AppError } from '../../base/app-error.ts';
import type { RecordParts } from '../../records/split-record.ts';
import { clockSetsIn, likelySets } from '../common/clock-steps.ts';
import { fingerprintOf, importedBurn, type StatedOfBurn } from '../common/imported-burn.ts';
import { utcOfLocal } from '../common/local-time.ts';
import { decode, guessEncoding } from '../common/text-encoding.ts';
import { guessColumns, type KnownOfColumns } from './guess-format.ts';
import { type ColumnReadings, readColumns } from './read-columns.ts';
import { firstRows, openQuoteLine } from './split-rows.ts';

const ROWS_SHOWN = 12;
const POINTS_DRAWN = 120;
/** A value that was converted says no more than its logger did; four digits behind the separator say all of it. */
const CONVERTED_DECIMALS = 4;

/**
 * @param corrected how a person says it is to be read; a guess when left out
 * @param known what the person has said of it, for the guess
 * @param onLine is told the line that has been reached, now and then
 * @throws AppError import/no-columns when nothing in the file is a number, import/quote-open
 */
export function previewColumns(
  bytes: Uint8Array,
  file: string,
  corrected?: ColumnFormat,
  known: KnownOfColumns = {},
  onLine?: (line: number) => void,
): ColumnPreview {
  const encoding = corrected?.encoding ?? known.encoding ?? guessEncoding(bytes);
  const text = decode(bytes, encoding, file);
  const guess = corrected ? { format: corrected, doubts: [] } : guessColumns(text, encoding, known);
  if (!guess) throw new AppError('import/no-columns', { file });
  const asGuessed = read(text, guess.format, file, onLine);
  const clockSets = clockSetsIn(asGuessed.rawTimes);
  const clockSteps = corrected ? [] : likelySets(clockSets, asGuessed.rawTimes);
  const format = clockSteps.length > 0 ? { ...guess.format, clockSteps } : guess.format;
  const readings = clockSteps.length > 0 ? read(text, format, file, onLine) : asGuessed;
  const doubts: ColumnPreview['doubts'] = [...guess.doubts];
  if (clockSets.length > 0 && !corrected) doubts.push('clockSet');
  const quoteLine = openQuoteLine(text, format.separator);
  return {
    format,
    doubts,
    sample: firstRows(text, format, ROWS_SHOWN + format.firstRow - 1),
    read: readings.elapsedS.slice(0, ROWS_SHOWN).map((elapsedS, row) => ({
      line: readings.lines[row]!,
      elapsedS,
      values: readings.columns.map(({ values }) => values[row] ?? null),
    })),
    curves: readings.columns.map(({ values }) => thinned(values)),
    rows: readings.elapsedS.length,
    durationS: readings.elapsedS.at(-1) ?? 0,
    ...(readings.startedUtc && { startedUtcMs: readings.startedUtc.ms }),
    ...(readings.startClockS !== undefined && { startClockS: readings.startClockS }),
    ...(quoteLine !== undefined && { openQuoteLine: quoteLine }),
    ...(clockSets.length > 0 && { clockSets }),
    problems: readings.problems,
    problemCount: readings.problemCount,
  };
}

/** Every n-th value, as many as a small picture shows. */
function thinned(values: readonly (number | null)[]): (number | null)[] {
  const step = Math.max(1, Math.ceil(values.length / POINTS_DRAWN));
  return values.filter((_, row) => row % step === 0);
}

export interface ColumnsAsBurn extends StatedOfBurn {
  /** Used when the file does not say when it was written. */
  startedUtcMs: number;
  /** IANA name of the zone whose time the file tells, unless it names one itself. */
  zone: string;
}

/** @throws AppError import/cell-wrong with line, column and what was expected; import/no-rows, import/quote-open */
export function columnsToBurn(
  bytes: Uint8Array,
  file: string,
  format: ColumnFormat,
  as: ColumnsAsBurn,
  onLine?: (line: number) => void,
): RecordParts {
  const readings = read(decode(bytes, format.encoding, file), format, file, onLine);
  const [problem] = readings.problems;
  if (problem && format.unreadable === 'refuse') {
    throw new AppError('import/cell-wrong', { file, ...problem, count: readings.problemCount });
  }
  if (readings.elapsedS.length === 0) throw new AppError('import/no-rows', { file, row: format.firstRow });
  return importedBurn({
    fingerprint: fingerprintOf(bytes, format),
    ...as,
    origin: 'imported',
    elapsedS: readings.elapsedS,
    marks: [],
    startedUtcMs: startOf(readings, as),
    channels: format.columns.map(({ name, role, position, unit }, index) => {
      const { values, faults, decimals } = readings.columns[index]!;
      const converted = unit !== storedUnits[unit].unit;
      return {
        name,
        role,
        ...(position && { position }),
        unit: storedUnits[unit].unit,
        values,
        faults,
        decimals: converted ? Math.max(CONVERTED_DECIMALS, decimals) : decimals,
      };
    }),
  });
}

function read(text: string, format: ColumnFormat, file: string, onLine?: (line: number) => void): ColumnReadings {
  try {
    return readColumns(text, format, onLine);
  } catch (error) {
    if (error instanceof Error && 'code' in error && 'lines' in error) {
      throw new AppError('import/quote-open', { file, line: Number(error.lines) }, { cause: error });
    }
    throw error;
  }
}

function startOf({ startedUtc }: ColumnReadings, as: ColumnsAsBurn): number {
  if (!startedUtc) return as.startedUtcMs;
  return startedUtc.zoned ? startedUtc.ms : utcOfLocal(startedUtc.ms, as.zone);
}
