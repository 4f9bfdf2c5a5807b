/**
 * After ISO 19867-1:2018, with and without credit for the char left. Its equations are given from memory; the text was not at hand.
 * The standard is meant for vessels below 150 L and firepower below 20 kW.
 */
import type { MethodSet } from '../../contract/burn-record.ts';
import { remark } from '../messages/messages.ts';
import { type BurnQuantity, formula } from '../quantities/declare.ts';
import { endTempC, startTempC } from '../quantities/edge-temperatures.ts';
import { evaporatedKg } from '../quantities/evaporated-water.ts';
import { fuelMJ } from '../quantities/fuel.ts';
import { waterStartKg } from '../quantities/load.ts';
import { wholeS } from '../quantities/moments.ts';
import { netFuelMJ } from '../quantities/net-fuel.ts';
import { litToBoilS, litToTargetS } from '../quantities/target.ts';
import { boilingTempC } from '../quantities/water-temperature.ts';
import type { Method } from './method.ts';

const WATER_MJ_PER_KG_K = 4.186e-3;
const VAPOUR_MJ_PER_KG = 2.257;
const USEFUL = '(4.186·W0·(T1 − T0) + 2257·w)';

const common = { source: 'After ISO 19867-1:2018; from memory', remarks: () => [remark('fromMemory')] };

const usefulMJ = formula({
  ...common,
  name: 'iso.usefulMJ',
  label: 'usefulMJ',
  symbol: 'H_useful',
  unit: 'MJ',
  formula: USEFUL,
  inputs: [waterStartKg, startTempC, endTempC, evaporatedKg],
  compute: (waterKg, startC, endC, vapourKg) =>
    WATER_MJ_PER_KG_K * waterKg * (endC - startC) + VAPOUR_MJ_PER_KG * vapourKg,
});

const thermalEfficiencyNoCharCredit = formula({
  ...common,
  name: 'iso.thermalEfficiencyNoCharCredit',
  symbol: 'η_fuel',
  unit: '1',
  formula: `${USEFUL} / E_fuel`,
  inputs: [usefulMJ, fuelMJ],
  compute: (useful, fuel) => useful / fuel,
});

const cookingPowerW = formula({
  ...common,
  name: 'iso.cookingPowerW',
  symbol: 'P_cooking',
  unit: 'W',
  formula: `${USEFUL} / Δt`,
  inputs: [usefulMJ, wholeS],
  compute: (useful, lastsS) => (1e6 * useful) / lastsS,
});

/** @param fuelHeatMJ the heat of the fuel, less that of the char or not */
function iso19867(name: MethodSet & `iso-${string}`, fuelHeatMJ: BurnQuantity, symbol: string): Method {
  const fuelEnergy = formula({
    ...common,
    name: `${name}.fuelMJ`,
    label: 'fuelMJ',
    symbol: 'E',
    unit: 'MJ',
    formula: `${symbol}; E_fuel = fcm·LHV as received`,
    inputs: [fuelHeatMJ],
    compute: (MJ) => MJ,
  });
  return {
    name,
    results: {
      localBoilingPoint: boilingTempC,
      timeToTarget: litToTargetS,
      timeToBoil: litToBoilS,
      evaporatedWater: evaporatedKg,
      fuelEnergy,
      firepower: formula({
        ...common,
        name: `${name}.firepowerW`,
        symbol: 'P_fire',
        unit: 'W',
        formula: `${symbol} / Δt`,
        inputs: [fuelEnergy, wholeS],
        compute: (MJ, lastsS) => (1e6 * MJ) / lastsS,
      }),
      cookingPower: cookingPowerW,
      thermalEfficiency: formula({
        ...common,
        name: `${name}.thermalEfficiency`,
        symbol: 'η',
        unit: '1',
        formula: `${USEFUL} / ${symbol}`,
        inputs: [usefulMJ, fuelEnergy],
        compute: (useful, fuel) => useful / fuel,
      }),
      thermalEfficiencyNoCharCredit,
      specificFuelConsumption: formula({
        ...common,
        name: `${name}.specificFuelConsumption`,
        symbol: 'SC',
        unit: 'MJ/MJ',
        formula: `${symbol} / ${USEFUL}`,
        inputs: [fuelEnergy, usefulMJ],
        compute: (fuel, useful) => fuel / useful,
      }),
    },
  };
}

export const isoMethods: readonly Method[] = [
  iso19867('iso-19867-char-credit', netFuelMJ, '(E_fuel − E_char)'),
  iso19867('iso-19867-no-char-credit', fuelMJ, 'E_fuel'),
];
