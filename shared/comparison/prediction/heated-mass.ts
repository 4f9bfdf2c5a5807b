/** The heat capacity to be heated: water, the part of the goods that follows its temperature, and the vessel. */
import type { Vessel } from '../../contract/burn-record.ts';
import { findMaterial, SPECIFIC_HEAT_J_PER_KG_K } from '../../physics/heat-capacity.ts';
import { WATERY_GOODS_DIFFUSIVITY_M2_PER_S } from '../../physics/lagging-contents.ts';
import { WATER_J_PER_KG_K } from '../conditions.ts';

/** Goods heated with the water. */
export interface Goods {
  massKg: number;
  specificHeatJPerKgK: number;
  radiusM?: number | undefined;
  diffusivityM2PerS?: number | undefined;
}

type VesselFigures = Pick<Vessel, 'massKg' | 'specificHeatJPerKgK' | 'material'>;

/** The least share of the goods that counts, however far they lag. */
const LEAST_SHARE = 0.2;

/**
 * Heat capacity up to the target, J/K.
 * @param timeToTargetS duration of the heating: the mean of a cylinder is β·R²/(8α) behind a bath that warms at β
 */
export function capacityJPerK(
  waterKg: number,
  goods: readonly Goods[],
  vessel: VesselFigures | undefined,
  timeToTargetS: number,
): number {
  const goodsJPerK = goods.reduce((sum, { massKg, specificHeatJPerKgK, radiusM, diffusivityM2PerS }) => {
    const diffusivity = diffusivityM2PerS ?? WATERY_GOODS_DIFFUSIVITY_M2_PER_S;
    const behind = radiusM === undefined ? 0 : (radiusM * radiusM) / (8 * diffusivity * timeToTargetS);
    return sum + massKg * specificHeatJPerKgK * Math.max(LEAST_SHARE, 1 - behind);
  }, 0);
  return waterKg * WATER_J_PER_KG_K + goodsJPerK + vesselJPerK(vessel);
}

function vesselJPerK(vessel: VesselFigures | undefined): number {
  if (vessel?.massKg === undefined) return 0;
  const material = vessel.material === undefined ? undefined : findMaterial(vessel.material);
  const usual = SPECIFIC_HEAT_J_PER_KG_K[material ?? 'stainlessSteel'].value;
  return vessel.massKg * (vessel.specificHeatJPerKgK ?? usual);
}
