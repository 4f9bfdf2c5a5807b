/** Schemas of requests and answers for importing data. */

import { z } from 'zod';
import { burnDescription, channelSchema } from './burn-record.ts';
import { by } from './by.ts';
import { noteMarks, weighedNoteMarks } from './mark-kinds.ts';
import { dateUtcMs } from './natural.ts';
import { columnUnits } from './ucum-units.ts';

const id = z.uuid();

export const importItemKinds = [
  'stove',
  'revision',
  'vessel',
  'place',
  'fuelLot',
  'scale',
  'burn',
  'readings',
  'mark',
  'weighing',
  'exclusion',
] as const;

export const importChoices = ['mine', 'theirs'] as const;
export type ImportChoice = (typeof importChoices)[number];

/** One item of an imported file, compared with the stored item of the same identity. */
export const importItemSchema = z.strictObject({
  kind: z.enum(importItemKinds),
  id,
  burnId: id.optional(),
  name: z.string(),
  state: z.enum(['new', 'same', 'differs']),
  mine: z.json().optional().describe('as it is here; null when it was taken back here'),
  theirs: z.json().optional().describe('as the file has it; null when it was taken back there'),
  choices: z
    .array(z.enum(importChoices))
    .optional()
    .describe('what may be done where the two differ; with one choice only there is nothing to decide'),
});
export type ImportItem = z.infer<typeof importItemSchema>;

export const importDecisionSchema = z.strictObject({
  kind: z.enum(importItemKinds),
  id,
  take: z.enum(importChoices),
});
export type ImportDecision = z.infer<typeof importDecisionSchema>;

/** The outcome of an import. An import that changed nothing has two empty lists. */
export const importOutcomeSchema = z.strictObject({
  burns: z.array(z.strictObject({ id, title: z.string(), state: z.enum(['new', 'same', 'changed']) })),
  created: z.array(z.strictObject({ kind: z.enum(importItemKinds), id })),
  changed: z.array(z.strictObject({ kind: z.enum(importItemKinds), id })),
});
export type ImportOutcome = z.infer<typeof importOutcomeSchema>;

/* ---- files of other loggers: numbers in columns ---- */

const column = z.int().nonnegative().describe('place in the row, from 0');

export const columnTimeSchema = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('elapsed'),
    column,
    unit: z.enum(['ms', 's', 'min', 'h', 'h:mm:ss', 'mm:ss']),
  }),
  z.strictObject({ kind: z.literal('clock'), column }).describe('time of day; may pass midnight'),
  z
    .strictObject({
      kind: z.literal('dateTime'),
      column,
      timeColumn: column.optional().describe('where date and time stand apart'),
      order: z.enum(['ymd', 'dmy', 'mdy']),
    })
    .describe('local time unless a zone stands beside it'),
  z.strictObject({ kind: z.literal('serial'), column }).describe('days, as spreadsheets count them'),
  z.strictObject({ kind: z.literal('unix'), column, unit: z.enum(['s', 'ms']) }),
  z.strictObject({ kind: z.literal('every'), everyS: z.number().positive() }).describe('no time in the file'),
]);
export type ColumnTime = z.infer<typeof columnTimeSchema>;

/** A clock that was set forward or back during the file, such as at the change to or from summer time. */
export const clockStepsSchema = z
  .array(
    z.strictObject({
      line: z.int().positive().describe('the first line after the clock was set'),
      byS: z.number().min(-86_400).max(86_400).describe('how far it was put forward; negative for back'),
    }),
  )
  .max(20);
export type ClockStep = z.infer<typeof clockStepsSchema>[number];

/** How to read a file of columns. Rows are counted from 1 as lines of the table, blank ones left out. */
export const columnFormatSchema = z.strictObject({
  encoding: z.enum(['utf-8', 'utf-16le', 'utf-16be', 'windows-1252']),
  separator: z.enum(['comma', 'semicolon', 'tab', 'pipe', 'blanks']),
  decimal: z.enum(['point', 'comma']),
  firstRow: z.int().positive().describe('the first row of readings'),
  time: columnTimeSchema,
  columns: z
    .array(
      z.strictObject({
        column,
        name: channelSchema.shape.name,
        unit: z.enum(columnUnits),
        role: channelSchema.shape.role,
        position: channelSchema.shape.position,
      }),
    )
    .min(1)
    .max(64),
  thousands: z
    .enum(['comma', 'point', 'blank', 'apostrophe'])
    .optional()
    .describe('what sets thousands apart; nothing does when left out'),
  quotes: z
    .literal('plain')
    .optional()
    .describe('quotation marks are letters like others, and every line is a row; left out, they enclose cells'),
  clockSteps: clockStepsSchema.optional(),
  unreadable: z
    .enum(['refuse', 'skip'])
    .default('refuse')
    .describe('skip: a cell that is no number becomes a fault, a row without a time is left out'),
});
export type ColumnFormat = z.infer<typeof columnFormatSchema>;

/** Points of the guess that a person has to check. */
export const columnDoubts = [
  'decimal',
  'thousands',
  'dayMonth',
  'timeUnit',
  'noTime',
  'clockSet',
  'openQuote',
  'rowNumbers',
  'unit',
  'fahrenheit',
  'role',
] as const;

export const columnProblemSchema = z.strictObject({
  line: z.int(),
  column: z.int().describe('place in the row, from 1'),
  expected: z.enum(['number', 'time', 'laterTime', 'cells']),
  found: z.string(),
});
export type ColumnProblem = z.infer<typeof columnProblemSchema>;

export const columnPreviewSchema = z.strictObject({
  format: columnFormatSchema,
  doubts: z.array(z.enum(columnDoubts)),
  sample: z
    .array(z.strictObject({ line: z.int(), cells: z.array(z.string()) }))
    .describe('the first rows as they stand'),
  read: z
    .array(
      z.strictObject({
        line: z.int(),
        elapsedS: z.number(),
        values: z.array(z.number().nullable()).describe('in °C, kg, Pa, as they would be kept'),
      }),
    )
    .describe('the first rows as they would be kept'),
  curves: z
    .array(z.array(z.number().nullable()))
    .describe('each column of the format over the whole file, thinned, as it would be kept'),
  rows: z.int(),
  durationS: z.number(),
  startedUtcMs: z.int().optional(),
  startClockS: z.number().optional().describe('time of day of the first row, where the file tells no date'),
  openQuoteLine: z.int().optional().describe('where a quotation mark is opened that would swallow rows'),
  clockSets: clockStepsSchema
    .optional()
    .describe('where the times look as if the clock was set, whether or not the format says so'),
  problems: z.array(columnProblemSchema),
  problemCount: z.int(),
});
export type ColumnPreview = z.infer<typeof columnPreviewSchema>;

/* ---- notes from a notebook ---- */

/** Points of a line that a person has to check. None of them stops the import. */
export const noteDoubts = ['unsure', 'several', 'mass', 'thousands', 'value', 'clockSet'] as const;
export type NoteDoubt = (typeof noteDoubts)[number];

export const noteLineSchema = z.strictObject({
  line: z.int(),
  text: z.string(),
  elapsedS: z.number().optional(),
  values: z.array(z.number()).describe('as written'),
  mark: z.enum(noteMarks).optional().describe('what is kept of the remark; nothing when left out'),
  massKg: z.number().optional(),
  note: z.string().optional(),
  doubts: z.array(z.enum(noteDoubts)).optional(),
  problem: z.enum(['noTime', 'laterTime', 'values', 'empty']).optional(),
});
export type NoteLine = z.infer<typeof noteLineSchema>;

/** What a line becomes by the person's choice, instead of how it was read. */
export const enteredMarkSchema = z.union([
  z.strictObject({
    line: z.int().positive(),
    mark: z.enum(weighedNoteMarks),
    massKg: z.number().positive().max(500).optional(),
  }),
  z.strictObject({
    line: z.int().positive(),
    mark: z.enum(['none', ...noteMarks]).describe('none: no mark, and no note either'),
  }),
]);
export type EnteredMark = z.infer<typeof enteredMarkSchema>;

export const notesFormatSchema = z.strictObject({
  time: z
    .enum(['clock', 'minutes', 'h:mm'])
    .describe('of the day; minutes since the beginning; hours and minutes since then'),
  unit: z.enum(['Cel', '[degF]']),
  names: z.array(channelSchema.shape.name).min(1).max(16),
  marks: z.array(enteredMarkSchema).max(2000).optional().describe('only of lines that are to become something else'),
  clockSteps: clockStepsSchema.optional(),
});
export type NotesFormat = z.infer<typeof notesFormatSchema>;

export const notesPreviewSchema = z.strictObject({
  format: notesFormatSchema,
  lines: z.array(noteLineSchema),
  startClockS: z.number().optional().describe('time of day of the first reading, where the notes tell it'),
});
export type NotesPreview = z.infer<typeof notesPreviewSchema>;

/* ---- the routes ---- */

export const importPreviewSchema = z.discriminatedUnion('kind', [
  z.strictObject({ id, kind: z.literal('burns'), file: z.string(), items: z.array(importItemSchema) }),
  z.strictObject({ id, kind: z.literal('columns'), file: z.string(), columns: columnPreviewSchema }),
  z.strictObject({ id, kind: z.literal('notes'), file: z.string(), notes: notesPreviewSchema }),
]);
export type ImportPreview = z.infer<typeof importPreviewSchema>;

const correctedSchema = z.strictObject({
  columns: columnFormatSchema.optional(),
  notes: notesFormatSchema.optional(),
});

/** How the file is to be read, as the person corrected it. */
export const correctImportSchema = correctedSchema.extend({
  guess: columnFormatSchema
    .pick({ encoding: true, separator: true, decimal: true })
    .partial()
    .optional()
    .describe('columns: what the person said; everything else is guessed again by it'),
});
export type CorrectImport = z.infer<typeof correctImportSchema>;

export const saveImportSchema = correctedSchema.extend({
  decisions: z.array(importDecisionSchema).optional(),
  otherwise: z.enum(importChoices).optional().describe('for everything that differs and is not decided one by one'),
  into: id.optional().describe('columns and notes: the burn these readings belong to; a new one when left out'),
  atElapsedS: z.number().optional().describe('with into: where on the clock of that burn the file begins'),
  title: channelSchema.shape.name.optional().describe('of the new burn'),
  startedUtcMs: dateUtcMs.optional().describe('when the file does not say it'),
  litElapsedS: z.number().optional().describe('of the new burn: when it was lit, after the first reading'),
  target: burnDescription.target.optional().describe('of the new burn; to the boil when left out'),
  hold: burnDescription.hold.describe('of the new burn'),
  by,
});
export type SaveImport = z.infer<typeof saveImportSchema>;
