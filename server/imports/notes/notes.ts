/** Readings copied from a notebook, in the many ways people write them: "10:05  23,5", "10h05 - 24°C", "5 min: 30", … */
import type { EnteredMark, NoteLine, NotesFormat, NotesPreview } from '../../../shared/contract/imports.ts';
import { AppError } from '../../base/app-error.ts';
import type { RecordParts } from '../../records/split-record.ts';
import { pastMidnight } from '../columns/written-times.ts';
import { mayBeClockSet, putForwardS } from '../common/clock-steps.ts';
import { fingerprintOf, importedBurn, type StatedOfBurn } from '../common/imported-burn.ts';
import type { NoteTime } from './note-times.ts';
import { type ReadLine, readLine } from './read-note-line.ts';

/** Characters of a line that somebody wrote by hand, at most. */
const LONGEST_LINE = 4096;

/**
 * @param corrected how a person says it is to be read; a guess when left out
 * @param file its name, for a refusal
 * @throws AppError import/note-wrong when a mark is said of a line that is not there; import/line-too-long
 */
export function previewNotes(text: string, corrected?: NotesFormat, file = ''): NotesPreview {
  const read = text.split(/\r\n|\r|\n/).map((whole, index) => {
    const line = index + 1;
    if (whole.length > LONGEST_LINE) {
      throw new AppError('import/line-too-long', { file, line, limitKb: LONGEST_LINE / 1024 });
    }
    return { line, ...readLine(whole) };
  });
  const format = corrected ?? guessFormat(read, text);
  const indices = read.flatMap(({ text: line }, index) => (line === '' ? [] : [index + 1]));
  const nowhere = format.marks?.find(({ line }) => !indices.includes(line));
  if (nowhere) throw new AppError('import/note-wrong', { line: nowhere.line, found: '', expected: 'noLine' });
  /** On the clock as it was written, and as if it had never been set. */
  let before: { clockS: number; atS: number } | undefined;
  let startS: number | undefined;
  const lines: NoteLine[] = [];
  for (const { time, line, doubts, ofRemark, ...understood } of read) {
    if (understood.text === '') continue;
    const given = withAnswer(
      understood,
      format.marks?.find((mark) => mark.line === line),
    );
    const published = new Set([...doubts, ...(given === understood ? ofRemark : [])]);
    const clockS = time && momentOf(time, format, before?.clockS);
    const isSet = format.clockSteps?.some((step) => step.line === line);
    if (before && clockS !== undefined && format.time === 'clock' && !isSet && mayBeClockSet(before.clockS, clockS))
      published.add('clockSet');
    const shown = { line, ...given, ...(published.size > 0 && { doubts: [...published] }) };
    if (clockS === undefined) {
      lines.push({ ...shown, problem: 'noTime' });
      continue;
    }
    const atS = clockS - putForwardS(format.clockSteps, line);
    if (before !== undefined && atS < before.atS) {
      lines.push({ ...shown, problem: 'laterTime' });
      continue;
    }
    before = { clockS, atS };
    startS ??= format.time === 'clock' ? atS : 0;
    const empty = given.values.length === 0 && given.mark === undefined && given.note === undefined;
    const tooMany = given.values.length > format.names.length;
    const problem = empty ? ('empty' as const) : tooMany ? ('values' as const) : undefined;
    lines.push({ ...shown, elapsedS: atS - startS, ...(problem && { problem }) });
  }
  const origin = lines.find(({ values, elapsedS }) => values.length > 0 && elapsedS !== undefined);
  const startClockS = format.time === 'clock' && origin ? startS! + origin.elapsedS! : undefined;
  return { format, lines, ...(startClockS !== undefined && { startClockS }) };
}

type Understood = Omit<ReadLine, 'time' | 'doubts' | 'ofRemark'>;

function withAnswer(understood: Understood, given: EnteredMark | undefined): Understood {
  if (!given) return understood;
  const { mark: _guessed, massKg: _read, ...rest } = understood;
  if (given.mark === 'none') return rest;
  return {
    ...rest,
    mark: given.mark,
    ...('massKg' in given && given.massKg !== undefined && { massKg: given.massKg }),
  };
}

function guessFormat(lines: readonly ReadLine[], text: string): NotesFormat {
  const timed = lines.flatMap(({ time }) => (time ? [time] : []));
  const clocks = timed.filter(({ kind }) => kind === 'clock');
  const beginsAtZero = clocks[0] !== undefined && clocks[0].s < 10 * 60;
  const time = clocks.length * 2 < timed.length ? 'minutes' : beginsAtZero ? 'h:mm' : 'clock';
  // A number too many before a remark is part of it, rather than a probe of its own.
  const bare = lines.filter(({ values, note }) => values.length > 0 && note === undefined);
  const width = Math.max(1, ...(bare.length > 0 ? bare : lines).map(({ values }) => values.length));
  return {
    time,
    unit: /[°º]\s*F\b|\d\s*F\b/.test(text) ? '[degF]' : 'Cel',
    names: Array.from({ length: Math.min(width, 16) }, (_, index) => (index === 0 ? 'water' : `column ${index + 1}`)),
  };
}

/** Seconds on the clock that the format names; undefined for a time of another kind. */
function momentOf(time: NoteTime, format: NotesFormat, beforeS: number | undefined): number | undefined {
  if (format.time === 'clock') return time.kind === 'clock' ? pastMidnight(time.s, beforeS) : undefined;
  if (format.time === 'h:mm') return time.s;
  // "5:30" among minutes is five and a half of them.
  return time.kind === 'clock' ? time.s / 60 : time.s;
}

/** As long as a note of a mark may be. */
const LONGEST_NOTE = 2000;

/** @throws AppError import/note-wrong with the line and what was expected; import/no-rows */
export function notesToBurn(
  text: string,
  file: string,
  format: NotesFormat,
  as: StatedOfBurn & { startedUtcMs: number },
): RecordParts {
  const { lines } = previewNotes(text, format, file);
  const wrong = lines.find(({ problem }) => problem !== undefined && problem !== 'empty');
  if (wrong)
    throw new AppError('import/note-wrong', {
      line: wrong.line,
      found: wrong.text.slice(0, 60),
      expected: wrong.problem!,
    });
  const readings = lines.filter(({ values }) => values.length > 0);
  if (readings.length === 0) throw new AppError('import/no-rows', { file, row: 1 });
  const originS = readings[0]!.elapsedS!;
  const stored = (value: number) => (format.unit === '[degF]' ? ((value - 32) * 5) / 9 : value);
  return importedBurn({
    fingerprint: fingerprintOf(Buffer.from(text), format),
    ...as,
    origin: 'enteredByHand',
    elapsedS: readings.map(({ elapsedS }) => elapsedS! - originS),
    channels: format.names.map((name, index) => ({
      name,
      role: index === 0 ? 'water' : 'other',
      unit: 'Cel',
      probe: { kind: 'dial' },
      handRead: true,
      values: readings.map(({ values }) => (values[index] === undefined ? null : stored(values[index]))),
      faults: [],
      decimals: format.unit === 'Cel' ? 3 : 4,
    })),
    marks: lines
      .filter(({ mark, elapsedS }) => mark !== undefined && elapsedS !== undefined)
      .map(({ mark, elapsedS, massKg, note }) => ({
        elapsedS: elapsedS! - originS,
        mark: {
          kind: mark!,
          ...(note !== undefined && { note: note.slice(0, LONGEST_NOTE) }),
          ...(massKg !== undefined && { massKg }),
        },
      })),
  });
}
