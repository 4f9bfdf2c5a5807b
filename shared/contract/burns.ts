/** Schemas of burns: created, edited, listed, and one burn in full. */
import { z } from 'zod';
import { burnDescription, channelSchema, contentSchema, editSchema, gapSchema } from './burn-record.ts';
import { versionedExclusionSchema, versionedMarkSchema, versionedWeighingSchema } from './entries.ts';
import { zone } from './natural.ts';
import { valueResultSchema } from './results.ts';
import { weighedThings } from './weighings.ts';

const id = z.uuid();

/**
 * A burn to create. Items of the inventory are referenced by id; everything but the target may be entered later.
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
  zone: zone.optional(),
});
export type CreateBurn = z.input<typeof createBurnSchema>;

/** The burn as the service stores it: a versioned document; readings, marks and weighings are stored separately. */
export const burnSchema = createBurnSchema.required({ id: true, title: true }).extend({
  status: burnDescription.status,
  version: z.int().positive(),
  zone: z.string().optional().describe('a bench may hold one that another machine did not know'),
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
 * Fields to change on a burn, with the version they were read from. A field left out stays unchanged, null clears an
 * optional field. The defaults of creation do not apply here, or stopping a burn would reset its target and its wood.
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
    // Optional fields of a burn.
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

/** A result in a list: without its working. */
export const listedFigureSchema = valueResultSchema.pick({ id: true, value: true, unit: true, interval95: true });
export type ListedFigure = z.infer<typeof listedFigureSchema>;

/** The part of a burn that differs from what was written, because the disk changed it. */
export const diskChangeSchema = z.enum(['readings', 'entries']);
export type DiskChange = z.infer<typeof diskChangeSchema>;

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
  target: burnDescription.target,
  hold: burnDescription.hold,
  startKind: burnDescription.startKind,
  methodSet: burnDescription.methodSet,
  primaryResult: burnDescription.primaryResult,
  toWeigh: z.array(z.enum(weighedThings)).optional().describe('of a burn that has ended: what is not weighed yet'),
  changedOnDisk: z
    .array(diskChangeSchema)
    .optional()
    .describe(
      'what does not match its checksum any more, found while nothing was recorded; left out where nothing was found',
    ),
  curve: z
    .array(z.tuple([z.number(), z.number()]))
    .describe('the water, [elapsed s, °C], a few dozen points; empty in lists that were not asked for curves'),
  figures: z
    .array(listedFigureSchema)
    .optional()
    .describe('in lists that were asked for figures: left out while the results of the burn are not worked out'),
});
export type BurnSummary = z.infer<typeof burnSummarySchema>;

export const burnPageSchema = z.strictObject({
  burns: z.array(burnSummarySchema).describe('newest first'),
  next: id.optional().describe('to be sent as `after` for the burns that follow; left out at the end'),
});
export type BurnPage = z.infer<typeof burnPageSchema>;

/** Missing scans that may still be fetched from their board. */
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
