/** The power that warms the load over time, for overlays of burns with different loads. */
import type { BurnRecord } from '../contract/burn-record.ts';
import { WATER_J_PER_KG_K, weighedWaterKg } from './conditions.ts';

/** Specific heat, J/(kg·K), of goods added by a mark without one: the default of the results, too. */
const USUAL_GOODS_J_PER_KG_K = 1400;

/** Heat capacity of what is in the pot, J/K, at the start and after each change. */
export interface PotLoad {
  readonly startJPerK: number;
  readonly changes: readonly { readonly atS: number; readonly jPerK: number }[];
}

/**
 * Returns the heated load: water and goods as weighed at the start, then each addition and removal. It ignores
 * evaporation (one kilogram of thirty changes the power by 3 %) and the vessel.
 * @returns undefined where the water was not weighed before the burn
 */
export function potLoadOf(burn: Pick<BurnRecord, 'weighings' | 'contents' | 'marks'>): PotLoad | undefined {
  const waterKg = weighedWaterKg(burn, 'start');
  if (waterKg === undefined) return undefined;
  const goods = burn.contents ?? [];
  const goodsJPerKgK = goods[0]?.specificHeatJPerKgK ?? USUAL_GOODS_J_PER_KG_K;
  const changes = burn.marks.flatMap((mark) => {
    const atS = mark.elapsedUs / 1e6;
    switch (mark.kind) {
      case 'waterIn':
        return [{ atS, jPerK: mark.massKg * WATER_J_PER_KG_K }];
      case 'waterOut':
        return [{ atS, jPerK: -mark.massKg * WATER_J_PER_KG_K }];
      case 'goodsIn':
        return [{ atS, jPerK: mark.massKg * (mark.specificHeatJPerKgK ?? goodsJPerKgK) }];
      case 'goodsOut':
        return [{ atS, jPerK: -mark.massKg * goodsJPerKgK - (mark.waterCarriedOutKg ?? 0) * WATER_J_PER_KG_K }];
      default:
        return [];
    }
  });
  return {
    startJPerK:
      waterKg * WATER_J_PER_KG_K +
      goods.reduce((sum, { massKg, specificHeatJPerKgK }) => sum + massKg * specificHeatJPerKgK, 0),
    changes: changes.sort((x, y) => x.atS - y.atS),
  };
}

/**
 * Returns heating rate times heat capacity, W; null where there is no rate. Negative while the load cools.
 * @param timeS rising, on the clock of the burn
 * @param rateKPerMin heating rate of the water, K/min
 */
export function heatingPowerW(
  timeS: readonly number[],
  rateKPerMin: readonly (number | null)[],
  load: PotLoad,
): (number | null)[] {
  let capacityJPerK = load.startJPerK;
  let next = 0;
  return rateKPerMin.map((rate, index) => {
    for (; next < load.changes.length && load.changes[next]!.atS <= timeS[index]!; next++)
      capacityJPerK += load.changes[next]!.jPerK;
    return rate === null ? null : (rate / 60) * Math.max(0, capacityJPerK);
  });
}
