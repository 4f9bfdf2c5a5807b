/** Schemas of probes that a person reads, such as a dial thermometer. */
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
/** Placing a probe under an existing id replaces its description. */
export const placeHandProbeSchema = handProbeSchema.partial({ id: true });
