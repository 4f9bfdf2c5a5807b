/**
 * The burn record, version 1: the one document that analysis reads, exports contain and other people recompute results
 * from.
 *
 * Rules for all of it:
 * - a field that is not known is left out; there is no null, zero or empty string for "unknown";
 * - names contain the units; temperatures are °C, temperature differences and their uncertainties K, fractions 0 to 1;
 * - a standard uncertainty left out is replaced by a plain default when a result needs it, and the result lists that
 *   default;
 * - time is whole microseconds since the recording of the burn started (`elapsedUs`), on the recording machine's steady
 *   clock.
 */
import { z } from 'zod';
import { channelRoles } from './channel-roles.ts';
import { markSchema } from './marks.ts';
import { moistureSchema } from './moisture.ts';
import { massKg, tempC, zone } from './natural.ts';
import { weighingSchema } from './weighings.ts';

const id = z.uuid().describe('UUID (version 7 where we made it)');
const text = z.string().trim().min(1).max(2000);
const name = z.string().trim().min(1).max(120);
const positive = z.number().positive();
const nonNegative = z.number().nonnegative();
const elapsedUs = z.int().describe('whole microseconds since recording started');

export const stoveSchema = z.strictObject({ id, name });

/**
 * The planned number of days with burns of a revision, entered before its first burn: looks before that number have
 * stricter limits.
 */
export const plannedDaysSchema = z.strictObject({
  days: z
    .union([z.int().min(2).max(60), z.literal('untilClear')])
    .describe('days of each revision; untilClear: no number, judged at every look by an interval that allows for it'),
  setAtUtcMs: z.int().optional().describe('when it was said; set by the service'),
});

export const revisionSchema = z.strictObject({
  id,
  stoveId: id.optional(),
  label: name.describe('short, as said aloud: "2", "sleeve"'),
  parentId: id.optional().describe('the revision this one was made from'),
  change: text.optional().describe('what was changed since the parent'),
  dimensionsM: z.record(name, positive).optional().describe('lengths that matter, in metres, by name'),
  dimensionsM2: z.record(name, positive).optional().describe('areas that matter, in square metres, by name'),
  bodyMassKg: massKg.optional(),
  bodySpecificHeatJPerKgK: positive.optional(),
  photo: z.string().optional().describe('file name made from the hash of the photo'),
  plannedDays: plannedDaysSchema.optional(),
});

export const vesselSchema = z.strictObject({
  id,
  name,
  massKg: massKg.optional().describe('empty, without lid'),
  specificHeatJPerKgK: positive.optional(),
  material: name.optional(),
  innerDiameterM: positive.optional(),
});

export const placeSchema = z.strictObject({
  id,
  name,
  stationPressurePa: positive.optional().describe('absolute, at the place; not reduced to sea level'),
  standardUncertaintyPa: positive.optional(),
  altitudeM: z
    .number()
    .min(-500)
    .max(9000)
    .optional()
    .describe('geometric, above sea level; used when no pressure is given'),
  standardUncertaintyM: positive.optional(),
});

export const heatingValueSchema = z.strictObject({
  MJPerKg: positive,
  basis: z.enum(['netDry', 'grossDry', 'netAsReceived']).describe('net = lower; dry = per kg of oven-dry fuel'),
  standardUncertaintyMJPerKg: positive.optional(),
  hydrogenPercent: nonNegative.optional().describe('% of dry mass, for gross to net'),
});

export const fuelLotSchema = z.strictObject({
  id,
  name,
  kind: z.enum(['wood', 'kindling', 'firelighter', 'charcoal', 'gas']),
  species: name.optional(),
  moisture: moistureSchema.optional(),
  heatingValue: heatingValueSchema.optional(),
  charMJPerKg: positive.optional().describe('net heating value of the char this lot leaves'),
  standardUncertaintyCharMJPerKg: positive.optional(),
});

export const contentSchema = z.strictObject({
  id,
  name,
  massKg,
  standardUncertaintyKg: positive.optional(),
  specificHeatJPerKgK: positive,
  startTempC: tempC.optional().describe('taken as the start temperature of the water when left out'),
  radiusM: positive.optional().describe('of a jar or bundle, taken as a cylinder; its middle lags the bath'),
  diffusivityM2PerS: positive.optional().describe('thermal diffusivity, about 1.5e-7 for watery goods'),
  coreChannelId: id.optional(),
});

export const scaleSchema = z.strictObject({
  id,
  name,
  standardUncertaintyKg: positive
    .optional()
    .describe('of one reading: resolution and repeatability; its own in every weighing'),
  gainStandardUncertainty: positive.optional().describe('relative, shared by every weighing on this scale'),
  zeroStandardUncertaintyKg: positive
    .optional()
    .describe('tare error, shared by every weighing on this scale within the burn'),
});

export const targetSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('boil') }),
  z.strictObject({ kind: z.literal('temperature'), tempC: z.number().min(20).max(300) }),
]);

export const holdSchema = z.strictObject({
  durationS: positive,
  onDrop: z
    .enum(['restart', 'pause'])
    .describe('what a drop below the floor does to the count; chosen before lighting'),
});

export const probeSchema = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('thermocouple'),
    type: z.enum(['K', 'J', 'T', 'N', 'E', 'S', 'R', 'B']),
    toleranceClass: z.enum(['1', '2', '3']).optional().describe('IEC 60584'),
  }),
  z.strictObject({
    kind: z.literal('resistance'),
    nominalOhm: positive.describe('100 for Pt100'),
    toleranceClass: z.enum(['AA', 'A', 'B', 'C']).optional().describe('IEC 60751'),
  }),
  z.strictObject({
    kind: z.literal('thermistor'),
    steinhartHart: z.tuple([z.number(), z.number(), z.number()]).optional(),
    beta: z.strictObject({ betaK: positive, ohmAtReference: positive, referenceTempC: tempC }).optional(),
  }),
  z.strictObject({ kind: z.literal('dial') }),
  z.strictObject({ kind: z.literal('other') }),
]);

export const calibrationSchema = z.strictObject({
  version: z.int().positive(),
  method: z.enum(['icePoint', 'boilingPoint', 'icePointAndBoilingPoint', 'referenceProbe', 'byHand']),
  offset: z
    .number()
    .describe(
      'corrected = gain × indicated + offset; of the temperature in °C for every temperature channel, raw ones (uV, Ohm) included, else in `unit`',
    ),
  gain: positive,
  standardUncertainty: positive.describe(
    'of a corrected reading; K for every temperature channel, raw ones included, else in `unit`; covers the cold junction unless that channel states its own',
  ),
  madeAtUtcMs: z.int().optional(),
});

export const channelSchema = z.strictObject({
  id,
  boardId: id.optional(),
  index: z.int().nonnegative().optional().describe('place in the scan of its board'),
  name,
  role: z.enum(channelRoles).describe('water: every probe counted in the water temperature'),
  position: z.enum(['low', 'middle', 'high']).optional(),
  unit: z
    .enum(['Cel', 'uV', 'Ohm', 'kg', 'Pa', '%', '1'])
    .describe('UCUM; uV is a raw thermocouple voltage that needs coldJunctionChannelId; Ohm a raw resistance probe'),
  scale: positive.describe('value = count × scale + offset, in `unit`'),
  offset: z
    .number()
    .optional()
    .describe('in `unit`; 0 when left out. Where a board prints °F or K, scale and offset make °C of it'),
  probe: probeSchema.optional(),
  handRead: z
    .literal(true)
    .optional()
    .describe('read by a person, minutes apart and at no fixed times: no board sends it'),
  coldJunctionChannelId: id.optional(),
  standardUncertainty: positive
    .optional()
    .describe(
      'where there is no calibration; K for every temperature channel, raw ones included, else in `unit`; overrides the probe class. Of a coldJunction channel: how far the cold junction may be off',
    ),
  gainStandardUncertainty: positive
    .optional()
    .describe('relative, of the temperature rise above 0 °C; small beside the offset when left out'),
  noiseStandardDeviation: positive
    .optional()
    .describe('of one reading, in `unit`; estimated from the readings when left out'),
  truncationStep: positive
    .optional()
    .describe(
      'size of the steps, in `unit`, of an instrument that shows the step below: half of it is added to every reading. Left out where it shows the nearest',
    ),
  timeConstantS: positive.max(600).optional().describe('first-order lag of the probe in the water'),
  calibration: calibrationSchema.optional(),
});

export const faultCodes = ['open', 'shortToGround', 'shortToSupply', 'outOfRange', 'noAnswer', 'unreadable'] as const;

export const readingsSchema = z
  .strictObject({
    boardId: id.optional(),
    elapsedUs: z.array(z.int()).describe('one entry a scan, rising'),
    sequence: z.array(z.int().nonnegative()).optional(),
    boot: z.array(z.int().nonnegative()).optional(),
    columns: z.array(
      z.strictObject({
        channelId: id,
        counts: z.array(z.int().nullable()).describe('as the board sent them; null where there is a fault or nothing'),
        faults: z
          .array(z.tuple([z.int().nonnegative(), z.enum(faultCodes)]))
          .optional()
          .describe('[place in counts, fault]'),
      }),
    ),
  })
  .describe('the scans of one board, column by column');

export const gapSchema = z.strictObject({
  boardId: id.optional(),
  fromUs: elapsedUs,
  toUs: elapsedUs,
  cause: z.enum(['unplugged', 'silent', 'lost', 'reset', 'hostAsleep', 'serviceStopped']),
});

export const exclusionSchema = z.strictObject({
  id,
  channelId: id,
  fromUs: elapsedUs,
  toUs: elapsedUs,
  reason: text,
});

export const editSchema = z.strictObject({
  atUtcMs: z.int(),
  by: name.optional(),
  what: name.describe('what was edited, e.g. "mark fed"'),
  id: id.optional(),
  before: z.json(),
  after: z.json(),
});

export const primaryResults = [
  'dryWoodPerBatch',
  'timeToTarget',
  'thermalEfficiency',
  'specificFuelConsumption',
  'meanUsefulPower',
  'equivalentDryFuel',
] as const;

export const methodSets = [
  'bench-1',
  'water-boil-1985',
  'water-boil-4',
  'iso-19867-char-credit',
  'iso-19867-no-char-credit',
] as const;

/** Everything that a person enters about a burn, without readings; a planned burn consists of it as well. */
export const burnDescription = {
  title: name,
  purpose: z
    .literal('cooling')
    .optional()
    .describe('cooling: a pot of hot water off the fire, cooling by itself, without any fire; left out for a burn'),
  origin: z.enum(['measured', 'simulated', 'enteredByHand', 'imported']),
  status: z.enum(['planned', 'running', 'ended', 'complete', 'setAside']),
  setAsideReason: text.optional(),
  methodSet: z.enum(methodSets).default('bench-1'),
  primaryResult: z.enum(primaryResults).default('dryWoodPerBatch'),
  operator: name.optional(),
  startKind: z
    .enum(['cold', 'hot'])
    .optional()
    .describe('state of the stove body at lighting; the two are never pooled'),
  bodyStartTempC: tempC.optional(),
  airTempC: tempC.optional(),
  weatherNote: text.optional(),
  target: targetSchema,
  hold: holdSchema.optional(),
};

export const burnRecordSchema = z
  .strictObject({
    format: z.literal('stovebench-burn-record'),
    version: z.literal(1),
    id,
    ...burnDescription,
    startedUtcMs: z.int().optional().describe('wall-clock label of elapsedUs 0; never used in a computation'),
    zone: zone.optional().describe('IANA time zone of the place'),
    clockSource: z.enum(['machine', 'phone', 'none']).optional(),
    primaryChosenUtcMs: z.int().optional().describe('when the primary result was chosen; set by the service'),
    stove: stoveSchema.optional(),
    revision: revisionSchema.optional(),
    vessel: vesselSchema.optional(),
    place: placeSchema.optional(),
    fuelLots: z.array(fuelLotSchema),
    contents: z
      .array(contentSchema)
      .optional()
      .describe('goods or jars heated with the water, in the vessel at the start'),
    scales: z.array(scaleSchema).optional(),
    channels: z.array(channelSchema),
    readings: z.array(readingsSchema),
    gaps: z.array(gapSchema).optional(),
    exclusions: z.array(exclusionSchema).optional(),
    marks: z.array(markSchema),
    weighings: z.array(weighingSchema),
    edits: z.array(editSchema).optional(),
  })
  .describe('Stovebench burn record, version 1');

export type BurnRecord = z.infer<typeof burnRecordSchema>;
export type Stove = z.infer<typeof stoveSchema>;
export type Revision = z.infer<typeof revisionSchema>;
export type PlannedDays = z.infer<typeof plannedDaysSchema>;
export type Vessel = z.infer<typeof vesselSchema>;
export type Place = z.infer<typeof placeSchema>;
export type FuelLot = z.infer<typeof fuelLotSchema>;
export type Content = z.infer<typeof contentSchema>;
export type Scale = z.infer<typeof scaleSchema>;
export type Channel = z.infer<typeof channelSchema>;
export type Probe = z.infer<typeof probeSchema>;
export type Calibration = z.infer<typeof calibrationSchema>;
export type Readings = z.infer<typeof readingsSchema>;
export type Gap = z.infer<typeof gapSchema>;
export type FaultCode = (typeof faultCodes)[number];
export type MethodSet = (typeof methodSets)[number];
