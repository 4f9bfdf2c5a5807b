/** Schemas of the inventory: things that are described once and used in many burns. */
import { z } from 'zod';
import { fuelLotSchema, placeSchema, revisionSchema, scaleSchema, stoveSchema, vesselSchema } from './burn-record.ts';
import { by } from './by.ts';

export const inventory = {
  stoves: stoveSchema,
  revisions: revisionSchema.required({ stoveId: true }),
  vessels: vesselSchema,
  fuelLots: fuelLotSchema,
  places: placeSchema,
  scales: scaleSchema,
} as const;
/** The schemas of an item of the inventory in an answer, when it is created and when it is changed. */
export const stored = <S extends z.ZodRawShape>(thing: z.ZodObject<S>) => thing.extend({ version: z.int().positive() });
export const stated = <S extends z.ZodRawShape>(thing: z.ZodObject<S>) => thing.extend({ id: z.uuid().optional(), by });
export const changed = <S extends z.ZodRawShape>(thing: z.ZodObject<S>) =>
  thing.extend({ id: z.uuid().optional(), version: z.int().optional(), expectedVersion: z.int().positive(), by });

export type InventoryKind = keyof typeof inventory;
export type InventoryItem<K extends InventoryKind> = z.infer<(typeof inventory)[K]> & { version: number };
