/**
 * The schema of an analysis: for every id either a value with its uncertainty and working, or the reason why it is
 * missing.
 */
import { z } from 'zod';

export const resultIds = [
  'localBoilingPoint',
  'timeToTarget',
  'timeToBoil',
  'meanHeatingRate',
  'meanUsefulPower',
  'cookingPower',
  'fuelEnergy',
  'equivalentDryFuel',
  'dryWoodPerBatch',
  'firepower',
  'burningRate',
  'thermalEfficiency',
  'thermalEfficiencyNoCharCredit',
  'sensibleEfficiency',
  'specificFuelConsumption',
  'turnDownRatio',
  'evaporatedWater',
  'longestUnattended',
  'typicalUnattended',
  'recoveryAfterFeed',
  'holdDuration',
  'holdBelowTarget',
  'holdLowest',
  'stackLoss',
  'stoveBodyHeat',
  'coolingTimeConstant',
  'lossCoefficient',
] as const;
export type ResultId = (typeof resultIds)[number];

/** A sentence of the language catalogue: its code and parameters. */
export const messageSchema = z.strictObject({
  code: z.string(),
  params: z.record(z.string(), z.union([z.string(), z.number()])),
});
export type Message = z.infer<typeof messageSchema>;

export const budgetEntrySchema = z.strictObject({
  input: z.string().describe('name of the input, e.g. "fuelLot.moisture"'),
  contribution: z.number().nonnegative().describe('standard uncertainty this input brings, in the unit of the result'),
  sign: z
    .union([z.literal(1), z.literal(-1)])
    .describe('whether the result rises (1) or falls (-1) when the input rises'),
  sharing: z
    .enum(['channel', 'board', 'scale', 'fuelLot', 'place', 'mark', 'none'])
    .describe('what this error is shared with'),
  sharedId: z.string().optional().describe('identity of the shared thing'),
});
export type BudgetEntry = z.infer<typeof budgetEntrySchema>;

export const workingSchema = z.strictObject({
  formula: z.string(),
  steps: z.array(z.strictObject({ name: z.string(), value: z.number(), unit: z.string() })),
  source: z.string(),
});

const valueFields = {
  id: z.enum(resultIds),
  value: z.number(),
  unit: z.string().describe('UCUM; fractions have unit 1, heating rates K/min'),
  window: z.enum(['toTarget', 'hold', 'whole', 'moment', 'cooling']),
  method: z.string(),
  standardUncertainty: z.number().nonnegative().optional(),
  interval95: z.tuple([z.number(), z.number()]).optional(),
  budget: z.array(budgetEntrySchema).optional().describe('largest first'),
  inputs: z.array(z.strictObject({ name: z.string(), value: z.number(), unit: z.string() })),
  working: workingSchema,
  defaults: z.array(messageSchema).describe('values taken because none was given'),
  remarks: z.array(messageSchema),
};

export const valueResultSchema = z.strictObject(valueFields);
export const missingResultSchema = z.strictObject({ id: z.enum(resultIds), missing: messageSchema });
export const resultSchema = z.union([valueResultSchema, missingResultSchema]);
export type ValueResult = z.infer<typeof valueResultSchema>;
export type MissingResult = z.infer<typeof missingResultSchema>;
export type Result = z.infer<typeof resultSchema>;

/** A moment found from the curves or entered by the person; the person's is used, both are stored. */
export const momentSchema = z.strictObject({
  kind: z.enum(['lit', 'potOn', 'target', 'boil', 'holdStart', 'holdEnd', 'fireOut']),
  elapsedS: z.number(),
  standardUncertaintyS: z.number().nonnegative().optional(),
  source: z.enum(['person', 'detected']),
  detectedElapsedS: z.number().optional().describe('what detection says where the person has said otherwise'),
});
export type Moment = z.infer<typeof momentSchema>;

/** A stretch of a channel that results do not use, and why. Readings themselves are never changed. */
export const flagSchema = z.strictObject({
  channelId: z.string(),
  code: z.enum(['open', 'shorted', 'stuck', 'spike', 'outOfRange', 'outOfWater', 'moved', 'gap', 'excluded']),
  fromS: z.number(),
  toS: z.number(),
});
export type Flag = z.infer<typeof flagSchema>;

/**
 * What a formula uses besides other quantities: a constant, or a number that was weighed, stated or read from a table.
 */
export const formulaNumberSchema = z.strictObject({
  name: z.string(),
  symbol: z.string(),
  of: z.string().optional().describe('name of the lot or the content it is of'),
  value: z.number(),
  unit: z.string().describe('UCUM'),
});
export type FormulaNumber = z.infer<typeof formulaNumberSchema>;

/** A quantity on the way to the results, with everything it is computed from. */
export const workedQuantitySchema = z.strictObject({
  name: z.string(),
  result: z.enum(resultIds).optional().describe('the result that it is'),
  symbol: z.string(),
  value: z.number(),
  unit: z.string().describe('UCUM'),
  formula: z.string(),
  source: z.string(),
  numbers: z.array(formulaNumberSchema).optional(),
});
export type WorkedQuantity = z.infer<typeof workedQuantitySchema>;

/** A part of the energy of the fuel, or all of it. */
export const heatPartSchema = z.strictObject({
  of: z
    .enum(['fuel', 'load', 'steam', 'pot', 'char', 'rest'])
    .describe('the fuel as a whole, then its parts: rest is what left with the flue or was not accounted for'),
  MJ: z.number(),
  standardUncertaintyMJ: z.number().nonnegative().optional(),
  interval95: z.tuple([z.number(), z.number()]).optional(),
});
export type HeatPart = z.infer<typeof heatPartSchema>;

export const analysisSchema = z.strictObject({
  burnId: z.string(),
  method: z.string(),
  methodVersion: z.string(),
  remarksVersion: z.int().optional().describe('of the remarks on the burn as a whole; left out by the first version'),
  results: z.array(resultSchema),
  heat: z
    .array(heatPartSchema)
    .optional()
    .describe('where the energy of the fuel went; left out where fuel, char or water are not known'),
  workings: z
    .array(workedQuantitySchema)
    .optional()
    .describe('every quantity on the way to the results, once and after what it is made of; enough to recompute them'),
  moments: z.array(momentSchema),
  suggestedFeedsS: z.array(z.number()).describe('feeds seen in the curves that no mark explains'),
  flags: z.array(flagSchema),
  excludedShare: z.record(z.string(), z.number()).describe('by channel id: share of its readings not used'),
  remarks: z.array(messageSchema),
});
export type Analysis = z.infer<typeof analysisSchema>;
