/** Weighings: what was on the scale (or read off a dipstick or a measuring jug) before and after the burn. */
import { z } from 'zod';
import { moistureSchema } from './moisture.ts';
import { massKg, massOrNoneKg } from './natural.ts';

const id = z.uuid();

export const weighedThings = ['fuelPile', 'brands', 'char', 'ash', 'water'] as const;

/**
 * `massKg` is net: the mass of the empty container is already subtracted. fuelPile at start and end give the wood
 * carried to the fire; brands is unburnt wood raked out of the firebox, without char and ash.
 */
export const weighingSchema = z.strictObject({
  id,
  of: z.enum(weighedThings),
  when: z.enum(['start', 'end']).describe('char at the start is old char left in the firebox, a mass in'),
  massKg: massOrNoneKg.optional().describe('left out while it is pending'),
  tareKg: massKg.optional().describe('of the container it was weighed in, already taken off massKg'),
  volumeL: z.number().positive().optional().describe('water only, instead of massKg; read at tempC'),
  tempC: z.number().min(-5).max(110).optional().describe('of the water when it was weighed or read'),
  lidOn: z.boolean().optional().describe('whether the lid stayed on between fire out and the weighing'),
  fuelLotId: z.uuid().optional().describe('for fuelPile and brands; the first wood lot when left out'),
  moisture: moistureSchema
    .optional()
    .describe('brands only, of the half-burnt wood itself; anything from none to all of its lot when left out'),
  scaleId: id.optional(),
  standardUncertaintyKg: z
    .number()
    .positive()
    .optional()
    .describe('of this weighing, instead of that of the scale; for char it must cover what burns on after raking out'),
  elapsedUs: z.int().optional(),
  pending: z.literal(true).optional().describe('to be weighed later, e.g. char when it is cold'),
});

export type Weighing = z.infer<typeof weighingSchema>;
