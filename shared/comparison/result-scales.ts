/** The scale on which each result is compared, and which direction is better. */
import type { ResultId } from '../contract/results.ts';

/**
 * ratio: times, masses and powers scatter in proportion to their size, so their logarithms are compared and shown as percent.
 * points: fractions (and turn-down) are compared as they are. ranks: a maximum has no useful mean.
 */
export type ComparingScale = 'ratio' | 'points' | 'ranks';

export interface ResultScale {
  scale: ComparingScale;
  betterWhen: 'lower' | 'higher' | 'neither';
}

/**
 * Scales by result. Results that describe the place or the setup rather than the stove are not listed and not compared.
 */
export const resultScales: Readonly<Partial<Record<ResultId, ResultScale>>> = {
  dryWoodPerBatch: { scale: 'ratio', betterWhen: 'lower' },
  timeToTarget: { scale: 'ratio', betterWhen: 'lower' },
  timeToBoil: { scale: 'ratio', betterWhen: 'lower' },
  thermalEfficiency: { scale: 'points', betterWhen: 'higher' },
  thermalEfficiencyNoCharCredit: { scale: 'points', betterWhen: 'higher' },
  sensibleEfficiency: { scale: 'points', betterWhen: 'higher' },
  specificFuelConsumption: { scale: 'ratio', betterWhen: 'lower' },
  equivalentDryFuel: { scale: 'ratio', betterWhen: 'lower' },
  fuelEnergy: { scale: 'ratio', betterWhen: 'lower' },
  meanUsefulPower: { scale: 'ratio', betterWhen: 'higher' },
  meanHeatingRate: { scale: 'ratio', betterWhen: 'higher' },
  cookingPower: { scale: 'ratio', betterWhen: 'neither' },
  firepower: { scale: 'ratio', betterWhen: 'neither' },
  burningRate: { scale: 'ratio', betterWhen: 'neither' },
  evaporatedWater: { scale: 'ratio', betterWhen: 'neither' },
  turnDownRatio: { scale: 'ratio', betterWhen: 'higher' },
  longestUnattended: { scale: 'ranks', betterWhen: 'higher' },
  typicalUnattended: { scale: 'ratio', betterWhen: 'higher' },
  recoveryAfterFeed: { scale: 'ratio', betterWhen: 'lower' },
  holdLowest: { scale: 'points', betterWhen: 'neither' },
  stackLoss: { scale: 'points', betterWhen: 'lower' },
};

/** Results in the order in which they are listed. */
export const comparedResults = Object.keys(resultScales) as ResultId[];
