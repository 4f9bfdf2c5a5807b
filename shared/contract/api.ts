/** What crosses the border between the service and its page (or any other client) under /api. */
import { z } from 'zod';
import {
  burnDescription,
  calibrationSchema,
  channelSchema,
  contentSchema,
  editSchema,
  exclusionSchema,
  faultCodes,
  fuelLotSchema,
  gapSchema,
  placeSchema,
  revisionSchema,
  scaleSchema,
  stoveSchema,
  vesselSchema,
} from './burn-record.ts';
import { markSchema } from './marks.ts';
import { messageSchema } from './results.ts';
import { weighingSchema } from './weighings.ts';

const id = z.uuid();

/** Every refusal has this shape; the code is one of shared/language's error codes, the message a sentence to act on. */
export const problemSchema = z.strictObject({
  code: z.string(),
  message: z.string(),
  issues: z.array(z.strictObject({ path: z.string(), message: z.string() })).optional(),
  details: z.record(z.string(), z.json()).optional(),
});
export type Problem = z.infer<typeof problemSchema>;

/* ---- backups ---- */

export const backupSchema = z.strictObject({
  folder: z.string().describe('on the machine of the service'),
  burns: z.int(),
  madeAtUtcMs: z.int(),
});
export type Backup = z.infer<typeof backupSchema>;

/* ---- health ---- */

export const offeredClockSchema = z.strictObject({ utcMs: z.int().describe('UTC milliseconds since 1970') });

export const serviceClockSchema = z.strictObject({
  serviceUtcMs: z.int(),
  clockSource: z
    .enum(['machine', 'phone', 'none'])
    .describe('none: the machine has no clock, and nobody has offered one'),
});

export const healthSchema = z.strictObject({
  ...serviceClockSchema.shape,
  status: z.literal('ok'),
  version: z.string(),
  epoch: z.string().describe('new at every start of the service'),
  demo: z.boolean(),
  timeScale: z.number(),
  simulatorAvailable: z.boolean(),
});
export type Health = z.infer<typeof healthSchema>;

/** The invented burns that show what a bench looks like after a while. */
export const samplesSchema = z.strictObject({ kept: z.int().nonnegative(), of: z.int().positive() });
export type Samples = z.infer<typeof samplesSchema>;

/** A photo as revisions and marks name it. */
export const photoNameSchema = z.string().regex(/^[0-9a-f]{64}\.(jpg|png|webp)$/);
export const photoSchema = z.strictObject({ photo: photoNameSchema });

/* ---- boards ---- */

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
export const benchChannelSchema = channelSchema.extend({
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
export type BenchChannel = z.infer<typeof benchChannelSchema>;

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
  channels: z.array(benchChannelSchema),
});
export type Board = z.infer<typeof boardSchema>;

export const portSchema = z.strictObject({ path: z.string(), label: z.string().optional() });

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

/* ---- hand-read probes: a dial thermometer and a person instead of a board ---- */

/** Units a person can read off something. */
export const handUnits = ['Cel', 'kg', 'Pa', '%'] as const;
export const handProbeSchema = channelSchema
  .pick({
    id: true,
    name: true,
    role: true,
    position: true,
    probe: true,
    standardUncertainty: true,
    noiseStandardDeviation: true,
    timeConstantS: true,
  })
  .extend({ unit: z.enum(handUnits) });
export type HandProbe = z.infer<typeof handProbeSchema>;
/** Placed anew under the same id, a probe is described anew. */
export const placeHandProbeSchema = handProbeSchema.partial({ id: true });

/* ---- the shelf: things described once and used in many burns ---- */

export const inventory = {
  stoves: stoveSchema,
  revisions: revisionSchema.required({ stoveId: true }),
  vessels: vesselSchema,
  fuelLots: fuelLotSchema,
  places: placeSchema,
  scales: scaleSchema,
} as const;
export type InventoryKind = keyof typeof inventory;
export type InventoryItem<K extends InventoryKind> = z.infer<(typeof inventory)[K]> & { version: number };

/* ---- burns ---- */

/**
 * A burn to create. Things on the shelf may be named by their id; everything but the target may wait until later.
 * Sending the same id twice creates one burn.
 */
export const createBurnSchema = z.strictObject({
  ...burnDescription,
  id: id.optional(),
  title: burnDescription.title.optional(),
  origin: burnDescription.origin.default('measured'),
  status: z.enum(['planned', 'running']).default('planned').describe('running starts to record at once'),
  target: burnDescription.target.default({ kind: 'boil' }),
  revisionId: id.optional(),
  vesselId: id.optional(),
  placeId: id.optional(),
  fuelLotIds: z.array(id).default([]),
  scaleIds: z.array(id).default([]),
  contents: z.array(contentSchema).optional(),
  stationPressurePa: z
    .number()
    .positive()
    .optional()
    .describe('absolute, at the place, on the day; goes before the one of the place'),
  standardUncertaintyPa: z.number().positive().optional(),
  zone: z.string().optional(),
});
export type CreateBurn = z.input<typeof createBurnSchema>;

/** The burn as the service keeps it: a versioned document; readings, marks and weighings stand apart. */
export const burnSchema = createBurnSchema.required({ id: true, title: true }).extend({
  status: burnDescription.status,
  version: z.int().positive(),
  startedUtcMs: z.int().optional(),
  endedElapsedUs: z.int().optional(),
  clockSource: z.enum(['machine', 'phone', 'none']).optional(),
  primaryChosenUtcMs: z.int().optional().describe('when the primary result was chosen'),
  channels: z.array(channelSchema).describe('the probes as they hung when recording started'),
  edits: z.array(editSchema).optional().describe('made on the bench that this burn was brought from'),
});
export type Burn = z.infer<typeof burnSchema>;

const { shape: burnField } = createBurnSchema;

/**
 * Fields to change on a burn, with the version they were read at. What is left out stays as it is, null empties what a burn
 * may be without: the defaults of creation must not come back here, or stopping a burn would forget its target and its wood.
 */
export const editBurnSchema = createBurnSchema
  .omit({ id: true, status: true })
  .partial()
  .extend({
    origin: burnDescription.origin.optional(),
    methodSet: burnDescription.methodSet.unwrap().optional(),
    primaryResult: burnDescription.primaryResult.unwrap().optional(),
    target: burnDescription.target.optional(),
    fuelLotIds: z.array(id).optional(),
    scaleIds: z.array(id).optional(),
    expectedVersion: z.int().positive(),
    status: z.enum(['running', 'ended', 'complete', 'setAside']).optional(),
    channels: z.array(channelSchema).optional(),
    by: z.string().optional(),
    // What a burn may be without.
    revisionId: burnField.revisionId.nullable(),
    vesselId: burnField.vesselId.nullable(),
    placeId: burnField.placeId.nullable(),
    hold: burnField.hold.nullable(),
    startKind: burnField.startKind.nullable(),
    operator: burnField.operator.nullable(),
    bodyStartTempC: burnField.bodyStartTempC.nullable(),
    airTempC: burnField.airTempC.nullable(),
    weatherNote: burnField.weatherNote.nullable(),
    stationPressurePa: burnField.stationPressurePa.nullable(),
    standardUncertaintyPa: burnField.standardUncertaintyPa.nullable(),
  });
export type EditBurn = z.input<typeof editBurnSchema>;

export const burnSummarySchema = z.strictObject({
  id,
  title: z.string(),
  status: burnDescription.status,
  setAsideReason: z.string().optional(),
  origin: burnDescription.origin,
  operator: z.string().optional(),
  startedUtcMs: z.int().optional(),
  durationS: z.number().optional(),
  stove: z.strictObject({ id, name: z.string() }).optional(),
  revision: z.strictObject({ id, label: z.string() }).optional(),
  fuelLots: z.array(z.strictObject({ id, name: z.string() })),
  primaryResult: burnDescription.primaryResult,
  curve: z.array(z.tuple([z.number(), z.number()])).describe('the water, [elapsed s, °C], a few dozen points'),
});
export type BurnSummary = z.infer<typeof burnSummarySchema>;

const versioned = { version: z.int().positive(), withdrawn: z.boolean() };
/** A mark or a weighing as kept: withdrawing is a version too, so an undo can itself be undone. */
export const versionedMarkSchema = z.strictObject({ mark: markSchema, ...versioned });
export const versionedWeighingSchema = z.strictObject({ weighing: weighingSchema, ...versioned });
export const versionedExclusionSchema = z.strictObject({ exclusion: exclusionSchema, ...versioned });
export type VersionedMark = z.infer<typeof versionedMarkSchema>;
export type VersionedWeighing = z.infer<typeof versionedWeighingSchema>;
export type VersionedExclusion = z.infer<typeof versionedExclusionSchema>;

/**
 * All that was weighed after a burn, in one request: every part of it is kept, or none.
 * Sent again after its answer got lost, it changes nothing.
 */
export const weighUpSchema = z.strictObject({
  weighings: z
    .array(
      z.strictObject({
        weighing: weighingSchema,
        expectedVersion: z.int().positive().optional().describe('of the weighing it corrects; left out for a new one'),
      }),
    )
    .max(100),
  takeBack: z
    .array(z.strictObject({ id, expectedVersion: z.int().positive() }))
    .max(100)
    .optional(),
  status: z
    .enum(['ended', 'complete'])
    .optional()
    .describe('what becomes of the burn; either stops a recording that runs. Left out, it stays as it is'),
  by: z.string().trim().min(1).max(120).optional(),
});
export type WeighUp = z.infer<typeof weighUpSchema>;

/** Scans that are missing and may still be fetched from their board. */
export const openGapSchema = gapSchema.extend({
  missingScans: z.int().positive().optional().describe('left out where nobody knows how many there are'),
});
export type OpenGap = z.infer<typeof openGapSchema>;

export const burnDetailSchema = z.strictObject({
  burn: burnSchema,
  summary: burnSummarySchema,
  elapsedUs: z.int().optional().describe('now, on the burn clock, while it runs'),
  marks: z.array(versionedMarkSchema),
  weighings: z.array(versionedWeighingSchema),
  exclusions: z.array(versionedExclusionSchema),
  largestFeedKg: z.number().optional().describe('the heaviest feed in other burns of the same stove'),
  gaps: z.array(gapSchema).describe('scans that will never come'),
  repairs: z
    .array(openGapSchema)
    .describe('scans that are still being fetched; results may change until there are none'),
  completeness: z
    .strictObject({ stored: z.int(), missing: z.int().describe('numbers that lie in gaps') })
    .optional()
    .describe('the scans of a burn that has ended, once nothing is being fetched any more'),
});
export type BurnDetail = z.infer<typeof burnDetailSchema>;

/**
 * A mark as it is sent. `elapsedUs` may be left out: the service puts its own now, less `agoS`.
 * `id` may be left out by a client that will not repeat the request.
 */
export const createMarkSchema = z.looseObject({
  id: id.optional(),
  kind: z.string(),
  elapsedUs: z.int().optional(),
  agoS: z.number().nonnegative().optional(),
});

/** Curves for a chart: at most about two points a pixel, extremes and gaps kept. `null` is a gap. */
export const seriesSchema = z.strictObject({
  burnId: id,
  litS: z.number().optional(),
  curves: z.array(
    z.strictObject({
      id: z.string().describe('channel id, or "water" for the mean of the water probes, or "waterRate"'),
      role: z.string(),
      name: z.string(),
      unit: z.string(),
      handRead: z.literal(true).optional().describe('read by a person: every point is one reading'),
      t: z.array(z.number()).describe('elapsed s'),
      v: z.array(z.number().nullable()),
    }),
  ),
});
export type Series = z.infer<typeof seriesSchema>;

/* ---- live stream: server-sent events on /api/stream; the event name is `type` ---- */

export const estimateSchema = z.strictObject({
  burnId: id,
  elapsedUs: z.int(),
  waterTempC: z.number().optional(),
  standardUncertaintyK: z.number().optional(),
  rateKPerMin: z.number().optional(),
  targetTempC: z.number().optional(),
  aboveBoilK: z
    .number()
    .optional()
    .describe('steady water is so much hotter than it can boil here, beyond what the probes may err'),
  toTargetS: z.strictObject({ value: z.number(), interval95: z.tuple([z.number(), z.number()]) }).optional(),
  sinceAttentionS: z.number().optional(),
  usualAttentionS: z.number().optional(),
  waterReadUs: z.int().optional().describe('when a person read the water; left out while a board reads it'),
  waterMeasuredUs: z.int().optional().describe('when a board last read the water, while one does'),
  hold: z
    .strictObject({
      state: z
        .enum(['notYet', 'counting', 'dropped', 'paused', 'done', 'ended'])
        .describe('`ended`: by a mark of the person, whatever is counted'),
      countedS: z.number(),
      neededS: z.number(),
      floorTempC: z.number(),
    })
    .optional(),
});
export type Estimate = z.infer<typeof estimateSchema>;

const calling = { id, sinceUs: z.int().describe('on the clock of the burn') };
/** Something that wants the person at the stove. It holds as long as it stands in the newest list of its burn. */
export const callSchema = z.discriminatedUnion('kind', [
  z.strictObject({ ...calling, kind: z.literal('boardGone'), subject: z.string() }),
  z.strictObject({ ...calling, kind: z.literal('notRecorded'), subject: z.string() }),
  z.strictObject({ ...calling, kind: z.literal('probe'), subject: z.string(), fault: z.enum(faultCodes) }),
  z.strictObject({ ...calling, kind: z.literal('holdLow'), floorTempC: z.number() }),
  z.strictObject({ ...calling, kind: z.literal('holdDone') }),
  z.strictObject({ ...calling, kind: z.literal('target') }),
  z.strictObject({ ...calling, kind: z.literal('needsWood'), sinceS: z.number() }),
  z.strictObject({ ...calling, kind: z.literal('nearlyThere'), leftS: z.number() }),
  z.strictObject({ ...calling, kind: z.literal('readingDue'), sinceS: z.number() }),
]);
export type Call = z.infer<typeof callSchema>;
export const burnCallsSchema = z.strictObject({ burnId: id, calls: z.array(callSchema) });
export type BurnCalls = z.infer<typeof burnCallsSchema>;

/** How the disk takes what is measured. With a problem, scans wait in memory; what no longer fits there is lost. */
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
    calls: z.array(burnCallsSchema).describe('of the running burns'),
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
  z.strictObject({ type: z.literal('calls'), ...burnCallsSchema.shape }),
  z.strictObject({ type: z.literal('storage'), storage: storageSchema }),
  z.strictObject({ type: z.literal('estimate'), estimate: estimateSchema }),
]);
export type LiveEvent = z.infer<typeof liveEventSchema>;
