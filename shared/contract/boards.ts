/** Boards, their ports, and the probes connected to them. */
import { z } from 'zod';
import { calibrationSchema, channelSchema, faultCodes } from './burn-record.ts';
import { messageSchema } from './results.ts';
import { columnUnits } from './ucum-units.ts';
import { USUAL_BAUD_RATE } from './usual-baud-rate.ts';

const id = z.uuid();

const plainLayout = {
  layout: z
    .enum(['columns', 'labelled', 'json'])
    .optional()
    .describe(
      'how a value is found: by its column, by the label before it, or by its path in JSON; columns when left out',
    ),
  separator: z.enum(['comma', 'semicolon', 'tab', 'blanks']),
  decimal: z.enum(['point', 'comma']),
  headerLines: z.int().min(0).max(20).default(0),
  leadingClock: z
    .literal(true)
    .optional()
    .describe('a clock stands in front of every line, in brackets, before an arrow or before a blank, and is not read'),
  timeColumn: z.int().nonnegative().optional(),
  timeKey: z
    .string()
    .min(1)
    .max(120)
    .optional()
    .describe('label or path of the board’s clock, where columns have keys'),
  timeUnit: z.enum(['s', 'ms']).optional(),
};

const plainColumn = {
  column: z.int().nonnegative().optional().describe('place on the line, from 0'),
  key: z.string().min(1).max(120).optional().describe('label, or path in JSON such as "temps[0]"'),
  name: z.string().min(1).max(120),
  decimals: z
    .int()
    .min(0)
    .max(4)
    .optional()
    .describe(
      'so many digits behind the decimal mark are stored; four when left out, fewer where the numbers are large',
    ),
  printed: z
    .enum(columnUnits)
    .optional()
    .describe('the unit that stood behind its numbers when it was mapped; one that stands there later is converted'),
  unitFrom: z
    .enum(['number', 'heading', 'nowhere'])
    .optional()
    .describe('where the board prints the unit; nowhere: a person has to name it'),
};

/** Whether each column of a layout is identified, by index or by label or path. */
function hasItsPlaces({
  layout,
  columns,
}: {
  layout?: 'columns' | 'labelled' | 'json' | undefined;
  columns: readonly { column?: number | undefined; key?: string | undefined }[];
}): boolean {
  const isByPlace = layout === undefined || layout === 'columns';
  return columns.every(({ column, key }) =>
    isByPlace ? column !== undefined && key === undefined : key !== undefined,
  );
}

const PLACES = 'every column has its "column", or its "key" where the layout is labelled or json';

export const plainFormatSchema = z
  .strictObject({
    ...plainLayout,
    columns: z.array(z.strictObject({ ...plainColumn, unit: z.enum(columnUnits) })).min(1),
  })
  .refine(hasItsPlaces, PLACES);
export type PlainFormat = z.infer<typeof plainFormatSchema>;

/** A layout as guessed from the lines: a column without a printed unit has none until a person chooses it. */
export const guessedFormatSchema = z
  .strictObject({
    ...plainLayout,
    columns: z.array(z.strictObject({ ...plainColumn, unit: z.enum(columnUnits).optional() })).min(1),
  })
  .refine(hasItsPlaces, PLACES);
export type GuessedFormat = z.infer<typeof guessedFormatSchema>;

export const attachBoardSchema = z.strictObject({
  path: z.string().trim().min(1).describe('e.g. /dev/ttyUSB0, COM3, or a pseudo-terminal'),
  baudRate: z.int().positive().default(USUAL_BAUD_RATE),
  plain: guessedFormatSchema
    .optional()
    .describe('only for a board that prints numbers without the protocol; every column with its unit'),
});
export type AttachBoard = z.infer<typeof attachBoardSchema>;

export const previewBoardSchema = attachBoardSchema.omit({ plain: true });

/**
 * What a plain board prints, and how its columns are probably laid out: `ambiguous` when another layout fits equally
 * well.
 */
export const boardPreviewSchema = z.strictObject({
  lines: z.array(z.string()),
  format: guessedFormatSchema.nullable(),
  ambiguous: z.boolean(),
  alternatives: z.array(guessedFormatSchema),
});
export type BoardPreview = z.infer<typeof boardPreviewSchema>;

/** A probe as it is connected to the bench now. A burn stores its own copy when it starts. */
export const setupChannelSchema = channelSchema.extend({
  boardId: id,
  index: z.int().nonnegative(),
  latest: z
    .strictObject({
      value: z.number().optional().describe('calibrated, in `displayUnit`'),
      fault: z.enum(faultCodes).optional(),
      ratePerMin: z.number().optional(),
      noise: z.number().optional().describe('standard deviation of the last readings'),
      agoS: z.number().nonnegative().optional().describe('how old it was when this was told, s of the service'),
    })
    .optional(),
});
export type SetupChannel = z.infer<typeof setupChannelSchema>;

export const boardSchema = z.strictObject({
  id,
  path: z.string(),
  mode: z.enum(['protocol', 'plain']),
  baudRate: z.int().positive(),
  state: z.enum(['searching', 'opening', 'waiting', 'live', 'silent', 'lost']),
  problem: messageSchema.optional(),
  name: z.string().optional(),
  firmware: z.string().optional(),
  simulated: z.boolean(),
  periodMs: z.number().optional(),
  repeatDepthScans: z.int().optional(),
  counters: z.record(z.string(), z.int()),
  channels: z.array(setupChannelSchema),
});
export type Board = z.infer<typeof boardSchema>;

export const portsSchema = z.strictObject({
  ports: z.array(z.strictObject({ path: z.string(), label: z.string().optional() })),
  problem: messageSchema.optional(),
});
export type Ports = z.infer<typeof portsSchema>;

/** What a person may set on a bench channel: the position of the probe and its uncertainty. */
export const channelPlacementSchema = channelSchema
  .pick({
    name: true,
    role: true,
    position: true,
    probe: true,
    coldJunctionChannelId: true,
    standardUncertainty: true,
    truncationStep: true,
    timeConstantS: true,
  })
  .partial()
  .extend({ calibration: calibrationSchema.omit({ version: true }).optional() });
export type ChannelPlacement = z.infer<typeof channelPlacementSchema>;
