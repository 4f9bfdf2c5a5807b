/** Where the heat of the fuel went: its parts add up to it by definition, and share the draws that their intervals come from. */
import type { HeatPart } from '../contract/results.ts';
import { spreads } from './engine/draws.ts';
import { plan } from './engine/plan.ts';
import { charMJ } from './quantities/char.ts';
import type { BurnEvaluation, BurnQuantity } from './quantities/declare.ts';
import { vapourMJ } from './quantities/evaporated-water.ts';
import { fuelMJ } from './quantities/fuel.ts';
import { restMJ, restWithPotMJ } from './quantities/heat-rest.ts';
import { loadMJ, vesselMJ } from './quantities/load.ts';

/** Intervals of a picture need no third digit. */
const MOST_DRAWS = 20_000;

/**
 * The fuel first, then its parts; empty where one of them is not known.
 * @param draws Monte Carlo draws; 0 gives values without uncertainty
 */
export function heatPartsOf(burn: BurnEvaluation, draws: number, seed: number | string): HeatPart[] {
  const isKnown = (quantity: BurnQuantity) => {
    const { best, missing } = burn.quantity(quantity);
    return missing === undefined && Number.isFinite(best);
  };
  const hasPot = isKnown(restMJ) && burn.quantity(vesselMJ).best > 0;
  const parts: readonly (readonly [HeatPart['of'], BurnQuantity])[] = [
    ['fuel', fuelMJ],
    ['load', loadMJ],
    ['steam', vapourMJ],
    ...(hasPot ? [['pot', vesselMJ] as const] : []),
    ['char', charMJ],
    ['rest', hasPot ? restMJ : restWithPotMJ],
  ];
  const quantities = parts.map(([, quantity]) => quantity);
  if (!quantities.every(isKnown)) return [];
  const values = quantities.map((quantity) => burn.quantity(quantity).best);
  const spread = draws > 0 ? spreads(plan(burn, quantities), values, Math.min(draws, MOST_DRAWS), seed) : [];
  return parts.map(([of], at) => ({
    of,
    MJ: values[at]!,
    ...(spread[at] && { standardUncertaintyMJ: spread[at].standardUncertainty, interval95: spread[at].interval95 }),
  }));
}
