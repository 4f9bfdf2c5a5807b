/** Schemas of a prediction for another load: request and answer. */
import { z } from 'zod';
import { targetSchema } from './burn-record.ts';
import { messageSchema } from './results.ts';

const positive = z.number().positive();

/** A field left out takes its value from the burns. */
export const loadSchema = z
  .strictObject({
    waterKg: positive.describe('water in the pot at the start, kg'),
    startTempC: z.number().min(0).max(99).optional().describe('of water and contents'),
    contents: z
      .array(
        z.strictObject({
          massKg: positive,
          specificHeatJPerKgK: positive,
          radiusM: positive.optional().describe('of a jar or bundle, taken as a cylinder; its middle lags the bath'),
          diffusivityM2PerS: positive.optional(),
        }),
      )
      .optional()
      .describe('jars or goods heated with the water; none when left out'),
    target: targetSchema.optional(),
    holdDurationS: positive.optional().describe('how long the target is then held, s'),
    lid: z.enum(['on', 'off']).optional().describe('on the way to the target'),
    airTempC: z.number().min(-40).max(50).optional(),
    stationPressurePa: z.number().min(45_000).max(110_000).optional().describe('absolute, at the place'),
    altitudeM: z.number().min(-500).max(6000).optional().describe('used when no pressure is given'),
    moistureWet: z.number().min(0).max(0.6).optional().describe('of the wood, water / wet wood; 0.18 is 18 %'),
    startKind: z.enum(['cold', 'hot']).optional().describe('state of the stove body at lighting'),
    vessel: z
      .strictObject({
        massKg: positive.optional(),
        specificHeatJPerKgK: positive.optional(),
        innerDiameterM: positive.optional(),
      })
      .optional()
      .describe('only for another vessel than in the burns'),
  })
  .describe('Stovebench load to predict for, version 1');
export type Load = z.infer<typeof loadSchema>;

const predictedSchema = z.union([
  z.strictObject({
    value: z.number(),
    unit: z.string(),
    interval90: z.tuple([z.number(), z.number()]).describe('for a new burn, its run-to-run scatter included'),
  }),
  z.strictObject({ missing: messageSchema, sentence: z.string() }),
]);
export type Predicted = z.infer<typeof predictedSchema>;

const spokenSchema = z.strictObject({ message: messageSchema, sentence: z.string() });

export const fittedBurnSchema = z.strictObject({
  burnId: z.string(),
  heatInputW: z.number().describe('heat entering load and vessel once the stove is warm'),
  warmUpS: z.number().describe('time constant of the warming stove'),
  residualK: z.number().describe('root mean square of the residuals'),
  curve: z.array(z.tuple([z.number(), z.number(), z.number()])).describe('[s after lighting, °C seen, °C fitted]'),
});
export type FittedBurn = z.infer<typeof fittedBurnSchema>;

export const predictionSchema = z.strictObject({
  timeToTarget: predictedSchema,
  course: z
    .array(z.strictObject({ tempC: z.number(), value: z.number(), interval90: z.tuple([z.number(), z.number()]) }))
    .describe(
      'when a new burn would be how warm, s after lighting, from its start to the target; empty where it never gets there',
    ),
  dryWoodForBatch: predictedSchema.describe(
    'of a whole new burn: to the target, and for the hold where one is asked for',
  ),
  dryWoodToTarget: predictedSchema,
  dryWoodForHold: predictedSchema,
  feeding: z
    .strictObject({ chargeKg: z.number(), everyS: z.number(), charges: z.number() })
    .optional()
    .describe('rhythm on the way to the target, as in the burns'),
  supported: z.boolean(),
  why: z.string().describe('what the burns support or do not'),
  reasons: z.array(spokenSchema).describe('each point in which the question is outside what the burns support'),
  assumptions: z.array(spokenSchema),
  fits: z.array(fittedBurnSchema),
  leftOut: z.array(z.strictObject({ burnId: z.string(), ...spokenSchema.shape })),
});
export type Prediction = z.infer<typeof predictionSchema>;
