/** Probes read by hand: a dial thermometer and a person instead of a board. */
import { z } from 'zod';
import { channelSchema } from './burn-record.ts';
import { handUnits } from './ucum-units.ts';

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
