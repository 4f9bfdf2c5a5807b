/**
 * Divides the heat of the fuel into parts, which add up to it by definition and share the draws for their intervals.
 */
import type { HeatPart } from '../contract/results.ts';
import type { Uncertainty } from './engine/uncertainty.ts';
import { charMJ } from './quantities/char.ts';
import type { BurnEvaluation, BurnQuantity } from './quantities/declare.ts';
import { vapourMJ } from './quantities/evaporated-water.ts';
import { fuelMJ } from './quantities/fuel.ts';
import { restMJ, restWithPotMJ } from './quantities/heat-rest.ts';
import { loadMJ, vesselMJ } from './quantities/load.ts';

/** A part of the picture and the quantity behind it. */
type Part = readonly [of: HeatPart['of'], quantity: BurnQuantity];

/** Returns the fuel first, then its parts; empty where one of them is missing. */
export function partsOfHeat(burn: BurnEvaluation): readonly Part[] {
  const isKnown = (quantity: BurnQuantity) => {
    const { best, missing } = burn.quantity(quantity);
    return missing === undefined && Number.isFinite(best);
  };
  const hasPot = isKnown(restMJ) && burn.quantity(vesselMJ).best > 0;
  const parts: readonly Part[] = [
    ['fuel', fuelMJ],
    ['load', loadMJ],
    ['steam', vapourMJ],
    ...(hasPot ? [['pot', vesselMJ] as const] : []),
    ['char', charMJ],
    ['rest', hasPot ? restMJ : restWithPotMJ],
  ];
  return parts.every(([, quantity]) => isKnown(quantity)) ? parts : [];
}

/** @param uncertainties of the quantities of all parts */
export function heatPartsOf(
  parts: readonly Part[],
  burn: BurnEvaluation,
  uncertainties: ReadonlyMap<BurnQuantity, Uncertainty>,
): HeatPart[] {
  return parts.map(([of, quantity]) => {
    const { spread } = uncertainties.get(quantity)!;
    return {
      of,
      MJ: burn.quantity(quantity).best,
      ...(spread && { standardUncertaintyMJ: spread.standardUncertainty, interval95: spread.interval95 }),
    };
  });
}
