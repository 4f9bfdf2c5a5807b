/**
 * After ISO 19867-1:2018, with and without credit for the char left. Its equations are given from memory; the text was not at hand.
 * The standard is meant for vessels below 150 L and firepower below 20 kW.
 */

import type { Definition, Method } from '../engine/definition.ts';
import { remark } from '../engine/messages.ts';
import type { Quantities, QuantityName } from '../engine/quantities.ts';
import { commonDefinition } from './shared-definitions.ts';

type Draw = Readonly<Quantities>;

const SOURCE = 'After ISO 19867-1:2018; from memory';
const WATER_MJ_PER_KG_K = 4.186e-3;
const VAPOUR_MJ_PER_KG = 2.257;
const USEFUL: readonly QuantityName[] = ['waterStartKg', 'startTempC', 'endTempC', 'evaporatedKg'];

const usefulMJ = (i: Draw) =>
  WATER_MJ_PER_KG_K * i.waterStartKg * (i.endTempC - i.startTempC) + VAPOUR_MJ_PER_KG * i.evaporatedKg;
const memory = () => [remark('fromMemory')];

function iso19867(credit: boolean): Method {
  const fuelNeeds: readonly QuantityName[] = credit ? ['fuelMJ', 'charMJ'] : ['fuelMJ'];
  const fuelMJ = (i: Draw) => (credit ? i.fuelMJ - i.charMJ : i.fuelMJ);
  const fuelFormula = credit ? '(E_fuel − E_char)' : 'E_fuel';
  const common = { window: 'whole', source: SOURCE, remarks: memory } as const;
  const useful = (i: Draw) => [{ name: 'usefulMJ', value: usefulMJ(i), unit: 'MJ' }];
  const definitions: readonly Definition[] = [
    commonDefinition('localBoilingPoint'),
    commonDefinition('timeToTarget'),
    commonDefinition('timeToBoil'),
    commonDefinition('evaporatedWater'),
    {
      ...common,
      id: 'fuelEnergy',
      unit: 'MJ',
      needs: fuelNeeds,
      value: fuelMJ,
      formula: `${fuelFormula}; E_fuel = fcm·LHV as received`,
    },
    {
      ...common,
      id: 'firepower',
      unit: 'W',
      needs: [...fuelNeeds, 'wholeS'],
      value: (i) => (1e6 * fuelMJ(i)) / i.wholeS,
      formula: `${fuelFormula} / Δt`,
    },
    {
      ...common,
      id: 'cookingPower',
      unit: 'W',
      needs: [...USEFUL, 'wholeS'],
      value: (i) => (1e6 * usefulMJ(i)) / i.wholeS,
      formula: '(4.186·W0·(T1 − T0) + 2257·w) / Δt',
      steps: useful,
    },
    {
      ...common,
      id: 'thermalEfficiency',
      unit: '1',
      needs: [...USEFUL, ...fuelNeeds],
      value: (i) => usefulMJ(i) / fuelMJ(i),
      formula: `(4.186·W0·(T1 − T0) + 2257·w) / ${fuelFormula}`,
      steps: (i) => [...useful(i), { name: 'fuelMJ', value: fuelMJ(i), unit: 'MJ' }],
    },
    {
      ...common,
      id: 'thermalEfficiencyNoCharCredit',
      unit: '1',
      needs: [...USEFUL, 'fuelMJ'],
      value: (i) => usefulMJ(i) / i.fuelMJ,
      formula: '(4.186·W0·(T1 − T0) + 2257·w) / E_fuel',
      steps: (i) => [...useful(i), { name: 'fuelMJ', value: i.fuelMJ, unit: 'MJ' }],
    },
    {
      ...common,
      id: 'specificFuelConsumption',
      unit: 'MJ/MJ',
      needs: [...fuelNeeds, ...USEFUL],
      value: (i) => fuelMJ(i) / usefulMJ(i),
      formula: `${fuelFormula} / (4.186·W0·(T1 − T0) + 2257·w)`,
      steps: useful,
    },
  ];
  return { name: credit ? 'iso-19867-char-credit' : 'iso-19867-no-char-credit', definitions };
}

export const isoMethods: readonly Method[] = [iso19867(true), iso19867(false)];
