/**
 * The international water boiling tests: the 1985 text (with the 3.0 revision's form) and protocol 4.x. Their equations are given
 * from memory, as widely repeated; the published pages were not at hand.
 *
 * Symbols: fcm fuel burnt as weighed, m its wet-basis moisture, Δc char left, W0 water at the start, W1 at the end, w evaporated,
 * T0 and T1 water at start and end, LHV net heating value of the dry fuel, LHVc of the char.
 */

import type { Definition, Method } from '../engine/definition.ts';
import { missing, remark } from '../engine/messages.ts';
import type { Quantities, QuantityName } from '../engine/quantities.ts';
import { commonDefinition } from './shared-definitions.ts';

type Draw = Readonly<Quantities>;

const WATER_MJ_PER_KG_K = 4.186e-3;
const VAPOUR_MJ_PER_KG = 2.26;
const MOISTURE_VAPOUR_MJ_PER_KG = 2.257;
/** Time and specific consumption are also given for a rise of 75 K. */
const CORRECTED_RISE_K = 75;
const LEAST_RISE_K = 1;

interface Variant {
  readonly name: 'water-boil-1985' | 'water-boil-4';
  readonly source: string;
  readonly dryFuelNeeds: readonly QuantityName[];
  readonly dryFuelKg: (i: Draw) => number;
  readonly dryFuelFormula: string;
  readonly consumptionNeeds: readonly QuantityName[];
  readonly consumption: (i: Draw) => number;
  readonly consumptionFormula: string;
}

const variants: readonly Variant[] = [
  {
    name: 'water-boil-1985',
    source: 'Water boiling test, international standard text of 1985, revised as 3.0; from memory',
    dryFuelNeeds: ['fuelKg', 'charKg', 'moistureWet', 'meanDryMJPerKg'],
    dryFuelKg: (i) => i.fuelKg * (1 - 1.12 * i.moistureWet) - 1.5 * i.charKg,
    dryFuelFormula: 'fcm·(1 − 1.12·m) − 1.5·Δc',
    consumptionNeeds: ['waterLeftKg'],
    consumption: (i) => i.waterLeftKg,
    consumptionFormula: 'fd / W1',
  },
  {
    name: 'water-boil-4',
    source: 'Water boiling test, protocol 4.x; from memory',
    dryFuelNeeds: ['fuelKg', 'charKg', 'charMJPerKg', 'moistureWet', 'meanDryMJPerKg', 'boilingTempC', 'airTempC'],
    dryFuelKg: (i) => {
      const dryingMJPerKg = WATER_MJ_PER_KG_K * (i.boilingTempC - i.airTempC) + MOISTURE_VAPOUR_MJ_PER_KG;
      const fuelMJ = i.fuelKg * (i.meanDryMJPerKg * (1 - i.moistureWet) - i.moistureWet * dryingMJPerKg);
      return (fuelMJ - i.charKg * i.charMJPerKg) / i.meanDryMJPerKg;
    },
    dryFuelFormula: '[fcm·(LHV·(1 − m) − m·(4.186·(T_b − T_air) + 2257)) − Δc·LHVc] / LHV',
    consumptionNeeds: ['waterLeftKg', 'startTempC', 'endTempC', 'boilingTempC'],
    consumption: (i) => (i.waterLeftKg * (i.endTempC - i.startTempC)) / (i.boilingTempC - i.startTempC),
    consumptionFormula: 'fd / (W1·(T1 − T0)/(T_b − T0))',
  },
];

function waterBoil(variant: Variant): Method {
  const { source, dryFuelKg, dryFuelNeeds, dryFuelFormula } = variant;
  const riseK = (i: Draw) => i.endTempC - i.startTempC;
  const usefulMJ = (i: Draw) => WATER_MJ_PER_KG_K * i.waterStartKg * riseK(i) + VAPOUR_MJ_PER_KG * i.evaporatedKg;
  const dryFuelMJ = (i: Draw) => dryFuelKg(i) * i.meanDryMJPerKg;
  const refuse = (i: Draw) =>
    dryFuelKg(i) > 0 ? undefined : missing('charExceedsFuel', { charMJ: i.charMJ, fuelMJ: i.fuelMJ });
  const fdStep = (i: Draw) => ({ name: 'fd', value: dryFuelKg(i), unit: 'kg' });
  const corrected = (value: (i: Draw) => number) => (i: Draw) => {
    const rise = riseK(i);
    return Math.abs(rise) < LEAST_RISE_K || Number.isNaN(rise)
      ? []
      : [remark('temperatureCorrected', { corrected: (value(i) * CORRECTED_RISE_K) / rise, riseK: rise })];
  };
  const memory = () => [remark('fromMemory')];
  const time = (id: 'timeToTarget' | 'timeToBoil'): Definition => {
    const definition = commonDefinition(id);
    return { ...definition, remarks: corrected(definition.value) };
  };
  const consumption = (i: Draw) => dryFuelKg(i) / variant.consumption(i);
  const definitions: readonly Definition[] = [
    commonDefinition('localBoilingPoint'),
    time('timeToTarget'),
    time('timeToBoil'),
    commonDefinition('evaporatedWater'),
    {
      id: 'equivalentDryFuel',
      unit: 'kg',
      window: 'whole',
      needs: dryFuelNeeds,
      value: dryFuelKg,
      formula: `fd = ${dryFuelFormula}`,
      source,
      refuse,
      remarks: memory,
    },
    {
      id: 'fuelEnergy',
      unit: 'MJ',
      window: 'whole',
      needs: dryFuelNeeds,
      value: dryFuelMJ,
      formula: 'fd·LHV',
      source,
      refuse,
      steps: (i) => [fdStep(i)],
      remarks: memory,
    },
    {
      id: 'burningRate',
      unit: 'kg/h',
      window: 'whole',
      needs: [...dryFuelNeeds, 'wholeS'],
      value: (i) => (3600 * dryFuelKg(i)) / i.wholeS,
      formula: 'fd / Δt',
      source,
      refuse,
      steps: (i) => [fdStep(i)],
      remarks: memory,
    },
    {
      id: 'firepower',
      unit: 'W',
      window: 'whole',
      needs: [...dryFuelNeeds, 'wholeS'],
      value: (i) => (1e6 * dryFuelMJ(i)) / i.wholeS,
      formula: 'fd·LHV / Δt',
      source,
      refuse,
      steps: (i) => [fdStep(i)],
      remarks: memory,
    },
    {
      id: 'thermalEfficiency',
      unit: '1',
      window: 'whole',
      needs: ['waterStartKg', 'startTempC', 'endTempC', 'evaporatedKg', ...dryFuelNeeds],
      value: (i) => usefulMJ(i) / dryFuelMJ(i),
      formula: '(4.186·W0·(T1 − T0) + 2260·w) / (fd·LHV); the char is in fd, not credited again',
      source,
      refuse,
      steps: (i) => [
        { name: 'usefulMJ', value: usefulMJ(i), unit: 'MJ' },
        fdStep(i),
        { name: 'fuelMJ', value: dryFuelMJ(i), unit: 'MJ' },
      ],
      remarks: memory,
    },
    {
      id: 'specificFuelConsumption',
      unit: 'kg/kg',
      window: 'whole',
      needs: [...dryFuelNeeds, ...variant.consumptionNeeds],
      value: consumption,
      formula: variant.consumptionFormula,
      source,
      refuse: (i) => refuse(i) ?? (variant.consumption(i) > 0 ? undefined : missing('noRise')),
      steps: (i) => [fdStep(i), { name: 'effectiveWaterKg', value: variant.consumption(i), unit: 'kg' }],
      remarks: (i) => [...memory(), ...corrected(consumption)(i)],
    },
    {
      id: 'turnDownRatio',
      unit: '1',
      window: 'whole',
      needs: ['fuelToTargetKg', 'fuelInHoldKg', 'litToTargetS', 'holdWindowS'],
      value: (i) => i.fuelToTargetKg / i.litToTargetS / (i.fuelInHoldKg / i.holdWindowS),
      formula: 'firepower to target / firepower in hold',
      source,
      remarks: memory,
    },
  ];
  return { name: variant.name, definitions };
}

export const waterBoilMethods: readonly Method[] = variants.map(waterBoil);
