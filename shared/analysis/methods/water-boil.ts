/**
 * The international water boiling tests: the 1985 text (with the 3.0 revision's form) and protocol 4.x. Their equations are given
 * from memory, as widely repeated; the published pages were not at hand.
 *
 * Symbols: fcm fuel burnt as weighed, m its wet-basis moisture, Δc char left, W0 water at the start, W1 at the end, w evaporated,
 * T0 and T1 water at start and end, LHV net heating value of the dry fuel, LHVc of the char.
 */
import type { MethodSet } from '../../contract/burn-record.ts';
import type { Message } from '../../contract/results.ts';
import { missing, remark } from '../messages/messages.ts';
import { charKg, charMJ, charMJPerKg } from '../quantities/char.ts';
import { type BurnQuantity, formula, type GivenBurn } from '../quantities/declare.ts';
import { endTempC, startTempC } from '../quantities/edge-temperatures.ts';
import { evaporatedKg, waterLeftKg } from '../quantities/evaporated-water.ts';
import { fuelInHoldKg, fuelToTargetKg } from '../quantities/firebox.ts';
import { fuelKg, fuelMJ, meanDryMJPerKg, moistureWet } from '../quantities/fuel.ts';
import { holdWindowS } from '../quantities/hold.ts';
import { waterStartKg } from '../quantities/load.ts';
import { wholeS } from '../quantities/moments.ts';
import { airTempC } from '../quantities/surroundings.ts';
import { litToBoilS, litToTargetS } from '../quantities/target.ts';
import { boilingTempC } from '../quantities/water-temperature.ts';
import type { Method } from './method.ts';

const WATER_MJ_PER_KG_K = 4.186e-3;
const VAPOUR_MJ_PER_KG = 2.26;
const MOISTURE_VAPOUR_MJ_PER_KG = 2.257;
/** Time and specific consumption are also given for a rise of 75 K. */
const CORRECTED_RISE_K = 75;
const LEAST_RISE_K = 1;
const SOURCE_1985 = 'Water boiling test, international standard text of 1985, revised as 3.0; from memory';
const SOURCE_4 = 'Water boiling test, protocol 4.x; from memory';

const fromMemory = () => [remark('fromMemory')];

const riseK = formula({
  name: 'water-boil.riseK',
  label: 'riseK',
  symbol: 'T1 − T0',
  unit: 'K',
  formula: 'T1 − T0',
  source: SOURCE_4,
  inputs: [startTempC, endTempC],
  compute: (startC, endC) => endC - startC,
});

const usefulMJ = formula({
  name: 'water-boil.usefulMJ',
  label: 'usefulMJ',
  symbol: 'H_useful',
  unit: 'MJ',
  formula: '4.186·W0·(T1 − T0) + 2260·w',
  source: SOURCE_4,
  inputs: [waterStartKg, startTempC, endTempC, evaporatedKg],
  compute: (waterKg, startC, endC, vapourKg) =>
    WATER_MJ_PER_KG_K * waterKg * (endC - startC) + VAPOUR_MJ_PER_KG * vapourKg,
});

/** Converts a time or a consumption to a rise of 75 K. */
function correctedTo75K(value: number, rise: number): Message[] {
  if (Number.isNaN(rise) || Math.abs(rise) < LEAST_RISE_K) return [];
  return [remark('temperatureCorrected', { corrected: (value * CORRECTED_RISE_K) / rise, riseK: rise })];
}

const timeToTargetS = formula({
  name: 'water-boil.timeToTargetS',
  symbol: 'Δt_target',
  unit: 's',
  window: 'toTarget',
  formula: litToTargetS.formula,
  source: litToTargetS.source,
  inputs: [litToTargetS],
  alsoShown: [riseK],
  compute: (lastsS) => lastsS,
  remarks: (given) => correctedTo75K(given.best(litToTargetS), given.best(riseK)),
});

const timeToBoilS = formula({
  name: 'water-boil.timeToBoilS',
  symbol: 'Δt_boil',
  unit: 's',
  window: 'toTarget',
  formula: litToBoilS.formula,
  source: litToBoilS.source,
  inputs: [litToBoilS],
  alsoShown: [riseK],
  compute: (lastsS) => lastsS,
  remarks: (given) => correctedTo75K(given.best(litToBoilS), given.best(riseK)),
});

const noDryFuel = (kg: number, given: GivenBurn) =>
  kg > 0 ? undefined : missing('charExceedsFuel', { charMJ: given.best(charMJ), fuelMJ: given.best(fuelMJ) });

const dryFuel1985Kg = formula({
  name: 'water-boil-1985.dryFuelKg',
  label: 'fd',
  symbol: 'fd',
  unit: 'kg',
  formula: 'fd = fcm·(1 − 1.12·m) − 1.5·Δc',
  source: SOURCE_1985,
  inputs: [fuelKg, charKg, moistureWet],
  alsoShown: [charMJ, fuelMJ],
  compute: (burntKg, leftKg, moisture) => burntKg * (1 - 1.12 * moisture) - 1.5 * leftKg,
  refuse: noDryFuel,
  remarks: fromMemory,
});

const dryFuel4Kg = formula({
  name: 'water-boil-4.dryFuelKg',
  label: 'fd',
  symbol: 'fd',
  unit: 'kg',
  formula: 'fd = [fcm·(LHV·(1 − m) − m·(4.186·(T_b − T_air) + 2257)) − Δc·LHVc] / LHV',
  source: SOURCE_4,
  inputs: [fuelKg, charKg, charMJPerKg, moistureWet, meanDryMJPerKg, boilingTempC, airTempC],
  alsoShown: [charMJ, fuelMJ],
  compute(burntKg, leftKg, leftMJPerKg, moisture, LHV, boilingC, airC) {
    const dryingMJPerKg = WATER_MJ_PER_KG_K * (boilingC - airC) + MOISTURE_VAPOUR_MJ_PER_KG;
    const burntMJ = burntKg * (LHV * (1 - moisture) - moisture * dryingMJPerKg);
    return (burntMJ - leftKg * leftMJPerKg) / LHV;
  },
  refuse: noDryFuel,
  remarks: fromMemory,
});

const effectiveWater4Kg = formula({
  name: 'water-boil-4.effectiveWaterKg',
  label: 'effectiveWaterKg',
  symbol: 'W_eff',
  unit: 'kg',
  formula: 'W1·(T1 − T0)/(T_b − T0)',
  source: SOURCE_4,
  inputs: [waterLeftKg, startTempC, endTempC, boilingTempC],
  compute: (leftKg, startC, endC, boilingC) => (leftKg * (endC - startC)) / (boilingC - startC),
});

interface Variant {
  readonly name: MethodSet & `water-boil-${string}`;
  readonly source: string;
  readonly dryFuelKg: BurnQuantity;
  readonly waterKg: BurnQuantity;
  readonly consumptionFormula: string;
}

function waterBoil({ name, source, dryFuelKg, waterKg, consumptionFormula }: Variant): Method {
  const common = { source, remarks: fromMemory };
  const dryFuelMJ = formula({
    ...common,
    name: `${name}.fuelMJ`,
    label: 'fuelMJ',
    symbol: 'E',
    unit: 'MJ',
    formula: 'fd·LHV',
    inputs: [dryFuelKg, meanDryMJPerKg],
    compute: (kg, MJPerKg) => kg * MJPerKg,
  });
  const consumption: BurnQuantity = formula({
    name: `${name}.specificFuelConsumption`,
    symbol: 'SC',
    unit: 'kg/kg',
    formula: consumptionFormula,
    source,
    inputs: [dryFuelKg, waterKg],
    alsoShown: [riseK],
    compute: (kg, ofWaterKg) => kg / ofWaterKg,
    refuse: (_best, given) => (given.best(waterKg) > 0 ? undefined : missing('noRise')),
    remarks: (given) => {
      const rise = given.best(riseK);
      const value = given.best(dryFuelKg) / given.best(waterKg);
      return [...fromMemory(), ...correctedTo75K(value, rise)];
    },
  });
  return {
    name,
    results: {
      localBoilingPoint: boilingTempC,
      timeToTarget: timeToTargetS,
      timeToBoil: timeToBoilS,
      evaporatedWater: evaporatedKg,
      equivalentDryFuel: dryFuelKg,
      fuelEnergy: dryFuelMJ,
      burningRate: formula({
        ...common,
        name: `${name}.burningRateKgPerH`,
        symbol: 'fd / Δt',
        unit: 'kg/h',
        formula: 'fd / Δt',
        inputs: [dryFuelKg, wholeS],
        compute: (kg, lastsS) => (3600 * kg) / lastsS,
      }),
      firepower: formula({
        ...common,
        name: `${name}.firepowerW`,
        symbol: 'P_fire',
        unit: 'W',
        formula: 'fd·LHV / Δt',
        inputs: [dryFuelMJ, wholeS],
        compute: (MJ, lastsS) => (1e6 * MJ) / lastsS,
      }),
      thermalEfficiency: formula({
        ...common,
        name: `${name}.thermalEfficiency`,
        symbol: 'η',
        unit: '1',
        formula: '(4.186·W0·(T1 − T0) + 2260·w) / (fd·LHV); the char is in fd, not credited again',
        inputs: [usefulMJ, dryFuelMJ],
        compute: (useful, fuel) => useful / fuel,
      }),
      specificFuelConsumption: consumption,
      turnDownRatio: formula({
        ...common,
        name: `${name}.turnDownRatio`,
        symbol: 'TDR',
        unit: '1',
        formula: 'firepower to target / firepower in hold',
        inputs: [fuelToTargetKg, fuelInHoldKg, litToTargetS, holdWindowS],
        compute: (toTargetKg, inHoldKg, toTargetS, holdS) => toTargetKg / toTargetS / (inHoldKg / holdS),
      }),
    },
  };
}

export const waterBoilMethods: readonly Method[] = [
  waterBoil({
    name: 'water-boil-1985',
    source: SOURCE_1985,
    dryFuelKg: dryFuel1985Kg,
    waterKg: waterLeftKg,
    consumptionFormula: 'fd / W1',
  }),
  waterBoil({
    name: 'water-boil-4',
    source: SOURCE_4,
    dryFuelKg: dryFuel4Kg,
    waterKg: effectiveWater4Kg,
    consumptionFormula: 'fd / (W1·(T1 − T0)/(T_b − T0))',
  }),
];
