/** The live stream: server-sent events on /api/stream; the name of an event is its `type`. */
import { z } from 'zod';
import { burnAlarmsSchema } from './alarms.ts';
import { boardSchema } from './boards.ts';
import { faultCodes, gapSchema } from './burn-record.ts';
import { burnSummarySchema, openGapSchema } from './burns.ts';
import { versionedExclusionSchema, versionedMarkSchema, versionedWeighingSchema } from './entries.ts';
import { handProbeSchema } from './hand-probes.ts';
import { estimateSchema } from './live-estimates.ts';
import { practiceSchema } from './practice.ts';
import { messageSchema } from './results.ts';
import { workSchema } from './work.ts';

const id = z.uuid();

/** The state of writing readings to disk. During a problem, scans wait in memory; those that exceed it are lost. */
export const storageSchema = z.strictObject({
  problem: messageSchema.optional(),
  waitingScans: z.int().nonnegative(),
  lostScans: z.int().nonnegative(),
});
export type Storage = z.infer<typeof storageSchema>;

export const liveEventSchema = z.discriminatedUnion('type', [
  z.strictObject({
    type: z.literal('snapshot'),
    epoch: z.string(),
    serviceUtcMs: z.int(),
    boards: z.array(boardSchema),
    handProbes: z.array(handProbeSchema),
    burns: z.array(burnSummarySchema),
    storage: storageSchema,
    calls: z.array(burnAlarmsSchema).describe('of the running burns'),
  }),
  z.strictObject({ type: z.literal('board'), board: boardSchema }),
  z.strictObject({ type: z.literal('boardGone'), boardId: id }),
  z.strictObject({ type: z.literal('handProbes'), handProbes: z.array(handProbeSchema) }),
  z.strictObject({
    type: z.literal('scan'),
    boardId: id,
    burnId: id.optional(),
    elapsedUs: z.int().optional(),
    values: z.record(z.string(), z.number()).describe('calibrated, by channel id'),
    faults: z.record(z.string(), z.enum(faultCodes)),
  }),
  z.strictObject({ type: z.literal('burn'), burn: burnSummarySchema }),
  z.strictObject({ type: z.literal('burnGone'), burnId: id }),
  z.strictObject({ type: z.literal('mark'), burnId: id, mark: versionedMarkSchema }),
  z.strictObject({ type: z.literal('weighing'), burnId: id, weighing: versionedWeighingSchema }),
  z.strictObject({ type: z.literal('exclusion'), burnId: id, exclusion: versionedExclusionSchema }),
  z
    .strictObject({ type: z.literal('gaps'), burnId: id, gaps: z.array(gapSchema), repairs: z.array(openGapSchema) })
    .describe('all gaps of a burn, whenever they change'),
  z.strictObject({ type: z.literal('calls'), ...burnAlarmsSchema.shape }),
  z.strictObject({ type: z.literal('storage'), storage: storageSchema }),
  z.strictObject({ type: z.literal('estimate'), estimate: estimateSchema }),
  z.strictObject({ type: z.literal('practice'), practice: practiceSchema }),
  z
    .strictObject({ type: z.literal('work'), work: z.array(workSchema) })
    .describe('all long work that is under way, whenever it changes'),
]);
export type LiveEvent = z.infer<typeof liveEventSchema>;
