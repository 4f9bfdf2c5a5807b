import type { TypicalValue } from './fuel.ts';
import { requireWithin } from './range.ts';

/**
 * Specific heats of pots and their contents, J/(kg·K), between 20 and 100 °C.
 *
 * Sources:
 * - metals and glass: published tables of engineering materials (austenitic steel 500, mild steel 490–510, grey cast
 *   iron 460, aluminium 896–910, copper 385–390, brass 380, glass 840); the spread covers their disagreement.
 * - enamelled steel as mild steel with its glass; earthenware from memory.
 * - fibres, air-dry: W. E. Morton and J. W. S. Hearle, Physical Properties of Textile Fibres, from memory.
 * - vegetables and fruit: R. L. Earle, Unit Operations in Food Processing, Appendix 7 (3350 for 75 % water to 4060 for
 *   92 %); brine and syrup packs lie inside the spread. Better: `wateryGoodsSpecificHeatJPerKgK`.
 */
export type Material =
  | 'stainlessSteel'
  | 'mildSteel'
  | 'castIron'
  | 'enamelledSteel'
  | 'aluminium'
  | 'copper'
  | 'brass'
  | 'glass'
  | 'earthenware'
  | 'wool'
  | 'linen'
  | 'cotton'
  | 'vegetables';

export const SPECIFIC_HEAT_J_PER_KG_K: Readonly<Record<Material, TypicalValue>> = {
  stainlessSteel: { value: 500, standardUncertainty: 15 },
  mildSteel: { value: 490, standardUncertainty: 15 },
  castIron: { value: 460, standardUncertainty: 30 },
  enamelledSteel: { value: 510, standardUncertainty: 25 },
  aluminium: { value: 900, standardUncertainty: 15 },
  copper: { value: 387, standardUncertainty: 5 },
  brass: { value: 380, standardUncertainty: 5 },
  glass: { value: 840, standardUncertainty: 40 },
  earthenware: { value: 900, standardUncertainty: 80 },
  wool: { value: 1360, standardUncertainty: 100 },
  linen: { value: 1340, standardUncertainty: 100 },
  cotton: { value: 1340, standardUncertainty: 100 },
  vegetables: { value: 3800, standardUncertainty: 150 },
};

/** The material with `name`, in whatever case; `undefined` when it is not in the table. */
export function findMaterial(name: string): Material | undefined {
  const wanted = name.trim().toLowerCase();
  return (Object.keys(SPECIFIC_HEAT_J_PER_KG_K) as Material[]).find((material) => material.toLowerCase() === wanted);
}

/**
 * Specific heat, J/(kg·K), of goods that are water and dry matter: 4190·w + 840·(1 − w), w the water by mass, 0 to 1.
 * Source: R. L. Earle, Unit Operations in Food Processing, Appendix 7, which calls it a considerable simplification:
 * within 5.5 % of its own table from 60 % water upwards, a quarter too low for bread and bacon.
 * @throws RangeError outside the range.
 */
export function wateryGoodsSpecificHeatJPerKgK(waterFraction: number): number {
  requireWithin('The share of water in the goods', waterFraction, 0, 1, '(a fraction)');
  return 4190 * waterFraction + 840 * (1 - waterFraction);
}
