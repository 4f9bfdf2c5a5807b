/**
 * What a burn's results would have been at common conditions, by the energy balance.
 *
 * Three assumptions: the pot takes up heat at the same mean power, the stove burns its wood at the same efficiency, and
 * the outside of the pot loses heat to the air in proportion to the difference in temperature. A time is therefore
 * proportional to the heat the load needs, wood changes by the change of that heat over the efficiency, and colder air
 * reduces the power a little. Moisture is not adjusted for: net heating value as received already allows for its
 * evaporation.
 */
import type { ResultId } from '../contract/results.ts';
import { mean } from '../statistics/moments.ts';
import type { Conditions } from './conditions.ts';

/** Relative difference of conditions below which they count as equal and nothing is adjusted. */
const SAME_WITHIN = 0.01;
const SAME_AIR_WITHIN_K = 3;

/** Loss of a pot's outside per kelvin above the air and square metre ("common practice, no source"). */
const POT_LOSS_W_PER_M2_K = 10;

/** The conditions to which results are adjusted: the mean over all burns compared. */
export interface CommonConditions {
  demandJ: number;
  loadKg: number;
  loadJPerK: number;
  airTempC?: number;
}

/** Common conditions, or undefined when the burns had the same conditions or some are unknown. */
export function commonConditions(all: readonly Conditions[]): CommonConditions | undefined {
  const demands = complete(all, 'demandJ');
  const masses = complete(all, 'loadKg');
  const capacities = complete(all, 'loadJPerK');
  if (!demands || !masses || !capacities) return undefined;
  const airs = complete(all, 'airTempC');
  const spread = (values: number[]) => Math.max(...values) - Math.min(...values);
  const sameDemand = spread(demands) < SAME_WITHIN * mean(demands) && spread(masses) < SAME_WITHIN * mean(masses);
  const sameAir = airs === undefined || spread(airs) < SAME_AIR_WITHIN_K;
  if (sameDemand && sameAir) return undefined;
  return {
    demandJ: mean(demands),
    loadKg: mean(masses),
    loadJPerK: mean(capacities),
    ...(airs && !sameAir ? { airTempC: mean(airs) } : {}),
  };
}

/** The adjustment of a result to the common conditions: its factor, and how the factor depends on what was measured. */
export interface Adjustment {
  factor: number;
  /**
   * d ln factor / d ln of the burn's heat demand, and of its load: through them, errors of demand and load enter the
   * adjusted result.
   */
  demandExponent: number;
  loadExponent: number;
}

/** No adjustment: the result as measured. */
export const unadjusted: Adjustment = { factor: 1, demandExponent: 0, loadExponent: 0 };

/** Returns the adjustment of a result of a burn; its factor is 1 for results that do not depend on the conditions. */
export function adjustmentOf(id: ResultId, burn: Conditions, common: CommonConditions): Adjustment {
  switch (id) {
    case 'timeToTarget':
    case 'timeToBoil':
      return { ...unadjusted, factor: common.demandJ / burn.demandJ! / powerFactor(burn, common), demandExponent: -1 };
    case 'meanHeatingRate':
      return {
        ...unadjusted,
        factor: (burn.loadJPerK! / common.loadJPerK) * powerFactor(burn, common),
        loadExponent: 1,
      };
    case 'meanUsefulPower':
      return { ...unadjusted, factor: powerFactor(burn, common) };
    case 'dryWoodPerBatch':
    case 'equivalentDryFuel':
    case 'fuelEnergy':
      return woodAdjustment(burn, common);
    case 'specificFuelConsumption': {
      const wood = woodAdjustment(burn, common);
      return { ...wood, factor: wood.factor * (burn.loadKg! / common.loadKg), loadExponent: 1 };
    }
    default:
      return unadjusted;
  }
}

/** Useful power in the common air over that in the air of the burn. */
function powerFactor(burn: Conditions, common: CommonConditions): number {
  if (common.airTempC === undefined || burn.airTempC === undefined || !burn.usefulPowerW) return 1;
  return 1 + (potLossWPerK(burn.loadKg!) * (common.airTempC - burn.airTempC)) / burn.usefulPowerW;
}

function woodAdjustment(burn: Conditions, common: CommonConditions): Adjustment {
  const { demandJ, usefulJ } = burn as { demandJ: number; usefulJ?: number };
  if (usefulJ === undefined) return { ...unadjusted, factor: common.demandJ / demandJ, demandExponent: -1 };
  const factor = 1 + (common.demandJ - demandJ) / usefulJ;
  return { ...unadjusted, factor, demandExponent: -demandJ / usefulJ / factor };
}

/** A pot as high as it is wide, full to the brim: surface 6·V/d. */
function potLossWPerK(loadKg: number): number {
  const volumeM3 = loadKg / 1000;
  const diameterM = Math.cbrt((4 * volumeM3) / Math.PI);
  return (POT_LOSS_W_PER_M2_K * 6 * volumeM3) / diameterM;
}

function complete(all: readonly Conditions[], key: keyof Conditions): number[] | undefined {
  const values = all.flatMap((conditions) => conditions[key] ?? []);
  return values.length === all.length && values.length > 0 ? values : undefined;
}
