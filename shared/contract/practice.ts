/** A burn on a simulated stove, for practice. */
import { z } from 'zod';
import { practiceSpeeds } from './practice-speeds.ts';

export const beginPracticeSchema = z.strictObject({
  speed: z.literal(practiceSpeeds).describe('times as fast as real time'),
});

const kg = z.number().nonnegative();

export const practiceSchema = z.strictObject({
  timeScale: z.number().describe('how many times faster than real time the service runs now'),
  burnId: z.uuid().optional(),
  scales: z
    .strictObject({ woodKg: kg, kindlingKg: kg, brandsKg: kg, charKg: kg, waterKg: kg, waterTempC: z.number() })
    .optional()
    .describe('what the simulated scales show, once the fire is out'),
});
export type Practice = z.infer<typeof practiceSchema>;
