/** Marks: the person's own actions on the time axis of a burn. A mark is never changed in place; a correction is a new version. */
import { z } from 'zod';
import { by } from './by.ts';
import { massKg, massOrNoneKg } from './natural.ts';

const id = z.uuid();
/** Temperature of water or of what is added to it, °C. */
const tempC = z.number().min(-30).max(120);
const base = {
  id,
  elapsedUs: z.int().describe('whole microseconds since recording started; may be negative for something done before'),
  standardUncertaintyS: z.number().positive().optional().describe('how well the moment is known'),
  by,
  note: z.string().trim().min(1).max(2000).optional(),
  source: z.enum(['person', 'detected']).optional().describe('person when left out'),
};
const plain = <K extends string>(kind: K) => z.strictObject({ ...base, kind: z.literal(kind) });
const moved = <K extends string>(kind: K) =>
  z.strictObject({ ...base, kind: z.literal(kind), massKg, tempC, scaleId: id.optional() });

export const markSchema = z.discriminatedUnion('kind', [
  plain('lit').describe('flame holds in the kindling; the first one starts the clock of the burn'),
  plain('relit'),
  plain('potOn'),
  plain('potOff'),
  z.strictObject({
    ...base,
    kind: z.literal('fed'),
    massKg: massKg.optional().describe('left out when it was not weighed'),
    fuelLotId: id.optional().describe('the first wood lot when left out'),
    scaleId: id.optional(),
  }),
  plain('nudged'),
  z.strictObject({
    ...base,
    kind: z.literal('logOut'),
    massKg: massKg.optional(),
    fuelLotId: id.optional(),
    scaleId: id.optional(),
  }),
  plain('lidOn'),
  plain('lidOff'),
  moved('waterIn'),
  moved('waterOut'),
  z.strictObject({
    ...base,
    kind: z.literal('goodsIn'),
    massKg,
    tempC,
    specificHeatJPerKgK: z.number().positive().optional(),
  }),
  z.strictObject({
    ...base,
    kind: z.literal('goodsOut'),
    massKg: massKg.describe('dry goods'),
    waterCarriedOutKg: massOrNoneKg.optional(),
    tempC,
  }),
  plain('targetReached'),
  plain('holdStart'),
  plain('holdEnd'),
  plain('fireOut').describe('raked out, or nothing left that heats the pot'),
  z.strictObject({ ...base, kind: z.literal('probeMoved'), channelId: id }),
  z
    .strictObject({ ...base, kind: z.literal('reading'), channelId: id, value: z.number() })
    .describe(
      'a hand-read probe was read; value in the unit of its channel. The readings of the record are made of these',
    ),
  z.strictObject({ ...base, kind: z.literal('wind'), step: z.int().min(0).max(3) }),
  z.strictObject({ ...base, kind: z.literal('rain'), step: z.int().min(0).max(3) }),
  plain('away'),
  plain('back'),
  plain('note'),
  z.strictObject({ ...base, kind: z.literal('photo'), photo: z.string() }),
]);

export type Mark = z.infer<typeof markSchema>;
export type MarkKind = Mark['kind'];
