/**
 * The recommended method set. Its headline is wood per batch, since "useful heat" can be half steam, and steam is not
 * the purpose.
 */
import { longestUnattendedS, recoveryS, typicalUnattendedS } from '../quantities/attention.ts';
import { coolingTimeConstantS, lossCoefficientWPerK } from '../quantities/cooling.ts';
import { evaporatedKg } from '../quantities/evaporated-water.ts';
import { heatingRateKPerMin } from '../quantities/heating-rate.ts';
import { holdBelowS, holdCountedS, holdLowestC } from '../quantities/hold.ts';
import {
  burningRateKgPerH,
  dryFuelKg,
  dryFuelPerBatchKg,
  firepowerW,
  netFuelMJ,
  specificFuelConsumption,
} from '../quantities/net-fuel.ts';
import { bodyMJ, stackLoss } from '../quantities/surroundings.ts';
import { litToBoilS, litToTargetS } from '../quantities/target.ts';
import { turnDownRatio } from '../quantities/turn-down.ts';
import {
  cookingPowerW,
  sensibleEfficiency,
  thermalEfficiency,
  thermalEfficiencyNoCharCredit,
  usefulPowerToTargetW,
} from '../quantities/useful-heat.ts';
import { boilingTempC } from '../quantities/water-temperature.ts';
import type { Method } from './method.ts';

export const bench1: Method = {
  name: 'bench-1',
  results: {
    localBoilingPoint: boilingTempC,
    timeToTarget: litToTargetS,
    timeToBoil: litToBoilS,
    meanHeatingRate: heatingRateKPerMin,
    meanUsefulPower: usefulPowerToTargetW,
    cookingPower: cookingPowerW,
    fuelEnergy: netFuelMJ,
    equivalentDryFuel: dryFuelKg,
    dryWoodPerBatch: dryFuelPerBatchKg,
    firepower: firepowerW,
    burningRate: burningRateKgPerH,
    thermalEfficiency,
    thermalEfficiencyNoCharCredit,
    sensibleEfficiency,
    specificFuelConsumption,
    turnDownRatio,
    evaporatedWater: evaporatedKg,
    longestUnattended: longestUnattendedS,
    typicalUnattended: typicalUnattendedS,
    recoveryAfterFeed: recoveryS,
    holdDuration: holdCountedS,
    holdBelowTarget: holdBelowS,
    holdLowest: holdLowestC,
    stackLoss,
    stoveBodyHeat: bodyMJ,
    coolingTimeConstant: coolingTimeConstantS,
    lossCoefficient: lossCoefficientWPerK,
  },
};
