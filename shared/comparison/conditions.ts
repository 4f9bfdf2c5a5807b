/** The conditions of a burn for which an energy balance can adjust. Unknown ones are left out. */

import type { ResultId } from '../contract/results.ts';
import { withoutUndefined } from '../contract/without-undefined.ts';
import { moistureWetFromDry } from '../physics/moisture.ts';
import { waterMassKg } from '../physics/water.ts';
import { type BurnDocument, type ComparedBurn, resultOf, resultValue } from './compared-burn.ts';
import { addContributions, comparedValue } from './contributions.ts';

/** Specific heat of water over the usual rise, J/(kg·K): mean from 20 to 100 °C by IAPWS-IF97 is 4189. */
export const WATER_J_PER_KG_K = 4189;

/** Assumed temperature of water measured by volume without a stated temperature. */
const ROOM_C = 20;

export interface Conditions {
  /** Water and goods at the start, kg. */
  loadKg?: number;
  /** Heat capacity of water and goods, J/K. */
  loadJPerK?: number;
  /** Heat the load took up from lighting to the target, J. */
  demandJ?: number;
  /** Rise of the load's temperature from lighting to the target, K. */
  riseK?: number;
  /** Heat of load and vapour over the whole burn, J. */
  usefulJ?: number;
  usefulPowerW?: number;
  airTempC?: number;
  /** Moisture, wet basis, of the main wood lot. */
  moistureWet?: number;
}

/** Whether all conditions are known that the adjustment needs. */
export function isComplete({ demandJ, loadKg, loadJPerK }: Conditions): boolean {
  return demandJ !== undefined && loadKg !== undefined && loadJPerK !== undefined;
}

/** Errors shared with other burns in the heat demand and in the load, relative, by the identity of the error. */
export interface ConditionErrors {
  demand: ReadonlyMap<string, number>;
  load: ReadonlyMap<string, number>;
}

/** Of a burn that is not adjusted. */
export const noErrors: ConditionErrors = { demand: new Map(), load: new Map() };

/**
 * The demand is time × useful power; the load is equivalent dry fuel over specific fuel consumption. Their errors
 * follow from those results, so that errors that cancel (one scale for wood and water) do so here as well.
 */
export function conditionErrorsOf(compared: ComparedBurn): ConditionErrors {
  const sharedOf = (id: ResultId) => {
    const result = resultOf(compared, id);
    return (result && comparedValue(compared.burn.id, result, 'ratio')?.shared) ?? new Map<string, number>();
  };
  return {
    demand: addContributions([
      { shared: sharedOf('timeToTarget'), exponent: 1 },
      { shared: sharedOf('meanUsefulPower'), exponent: 1 },
    ]),
    load: addContributions([
      { shared: sharedOf('equivalentDryFuel'), exponent: 1 },
      { shared: sharedOf('specificFuelConsumption'), exponent: -1 },
    ]),
  };
}

/** Collects the conditions from the description and the results of a burn. */
export function conditionsOf(compared: ComparedBurn): Conditions {
  const { burn } = compared;
  const waterKg = weighedWaterKg(burn, 'start');
  const goods = burn.contents ?? [];
  const goodsKg = goods.reduce((sum, { massKg }) => sum + massKg, 0);
  const goodsJPerK = goods.reduce((sum, { massKg, specificHeatJPerKgK }) => sum + massKg * specificHeatJPerKgK, 0);
  const timeS = resultValue(compared, 'timeToTarget');
  const usefulPowerW = resultValue(compared, 'meanUsefulPower');
  const efficiency = resultValue(compared, 'thermalEfficiency');
  const fuelJ = resultValue(compared, 'fuelEnergy');
  const loadJPerK = waterKg === undefined ? undefined : waterKg * WATER_J_PER_KG_K + goodsJPerK;
  const demandJ = timeS !== undefined && usefulPowerW !== undefined ? timeS * usefulPowerW : undefined;
  return withoutUndefined({
    loadKg: waterKg === undefined ? undefined : waterKg + goodsKg,
    loadJPerK,
    demandJ,
    riseK: demandJ !== undefined && loadJPerK !== undefined ? demandJ / loadJPerK : undefined,
    usefulJ: efficiency !== undefined && fuelJ !== undefined ? efficiency * fuelJ : undefined,
    usefulPowerW,
    airTempC: burn.airTempC,
    moistureWet: mainMoistureWet(burn),
  });
}

/** Water weighed (or measured by volume) before the burn, or after it, in one or several lots, kg. */
export function weighedWaterKg(burn: Pick<BurnDocument, 'weighings'>, weighedAt: 'start' | 'end'): number | undefined {
  const weighings = burn.weighings.filter(({ of, when }) => of === 'water' && when === weighedAt);
  const masses = weighings.map(({ massKg, volumeL, tempC }) =>
    massKg === undefined && volumeL !== undefined ? waterMassKg(volumeL, tempC ?? ROOM_C) : massKg,
  );
  return masses.length > 0 && masses.every((mass) => mass !== undefined)
    ? masses.reduce((sum, mass) => sum + mass, 0)
    : undefined;
}

/** Moisture of the wood lot, wet basis; of several lots, that of the first, which is also the default of the record. */
function mainMoistureWet(burn: BurnDocument): number | undefined {
  const moisture = burn.fuelLots.find(({ kind }) => kind === 'wood')?.moisture;
  if (moisture === undefined) return undefined;
  return moisture.basis === 'wet' ? moisture.fraction : moistureWetFromDry(moisture.fraction);
}
