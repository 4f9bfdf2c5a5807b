/** Things described once and used in many burns. */
import type { z } from 'zod';
import { fuelLotSchema, placeSchema, revisionSchema, scaleSchema, stoveSchema, vesselSchema } from './burn-record.ts';

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
