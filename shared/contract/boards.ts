/** Boards, their ports, and the probes that hang on them. */
import { z } from 'zod';
import { calibrationSchema, channelSchema, faultCodes } from './burn-record.ts';
import { messageSchema } from './results.ts';

const id = z.uuid();

export const plainFormatSchema = z.strictObject({
  separator: z.enum(['comma', 'semicolon', 'tab', 'blanks']),
  decimal: z.enum(['point', 'comma']),
  headerLines: z.int().min(0).max(20).default(0),
  timeColumn: z.int().nonnegative().optional(),
  timeUnit: z.enum(['s', 'ms']).optional(),
  columns: z
    .array(
      z.strictObject({
        column: z.int().nonnegative(),
        name: z.string().min(1).max(120),
        unit: channelSchema.shape.unit,
      }),
    )
    .min(1),
});
export type PlainFormat = z.infer<typeof plainFormatSchema>;

export const attachBoardSchema = z.strictObject({
  path: z.string().trim().min(1).describe('e.g. /dev/ttyUSB0, COM3, or a pseudo-terminal'),
  baudRate: z.int().positive().default(115200),
  plain: plainFormatSchema.optional().describe('only for a board that prints numbers in columns'),
});
export type AttachBoard = z.infer<typeof attachBoardSchema>;

export const previewBoardSchema = attachBoardSchema.omit({ plain: true });

/** What a plain board prints, and how its columns are probably laid out: `ambiguous` when another reading fits as well. */
export const boardPreviewSchema = z.strictObject({
  lines: z.array(z.string()),
  format: plainFormatSchema.nullable(),
  ambiguous: z.boolean(),
  alternatives: z.array(plainFormatSchema),
});
export type BoardPreview = z.infer<typeof boardPreviewSchema>;

/** A probe as it hangs on the bench now. A burn keeps its own copy from the moment it starts. */
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

/** What a person may set on a bench channel: where the probe sits and how far it is trusted. */
export const channelPlacementSchema = channelSchema
  .pick({
    name: true,
    role: true,
    position: true,
    probe: true,
    coldJunctionChannelId: true,
    standardUncertainty: true,
    timeConstantS: true,
  })
  .partial()
  .extend({ calibration: calibrationSchema.omit({ version: true }).optional() });
export type ChannelPlacement = z.infer<typeof channelPlacementSchema>;
