/**
 * The layout of the picture of the heat balance: one column of fuel on the left, split into bands that lead to its
 * parts. Pure.
 */
import type { HeatPart } from '../../../shared/contract/results.ts';

export interface HeatBand {
  readonly of: HeatPart['of'];
  /** Part of the column of fuel, from its top, px. */
  readonly from: { readonly top: number; readonly height: number };
  /** Place of the right end of the band, px. */
  readonly to: { readonly top: number; readonly height: number };
  /** Space for its text, px. */
  readonly slot: { readonly top: number; readonly height: number };
}

export interface HeatLayout {
  readonly height: number;
  readonly bands: readonly HeatBand[];
}

/** Height of all of the fuel, px. */
const COLUMN = 200;
/** Three lines of text on a phone. */
const LEAST_SLOT = 68;
/** The least visible height of a band. */
const LEAST_BAND = 1.5;

/** Undefined where a part is negative: more heat than there was, which no picture can show. */
export function heatLayout(fuelMJ: number, parts: readonly HeatPart[]): HeatLayout | undefined {
  if (!(fuelMJ > 0) || parts.some(({ MJ }) => MJ < 0)) return undefined;
  const shares = parts.map(({ MJ }) => (MJ / fuelMJ) * COLUMN);
  const slots = shares.map((share) => Math.max(LEAST_SLOT, share));
  const height = slots.reduce((sum, slot) => sum + slot, 0);
  let [fromTop, slotTop] = [(height - COLUMN) / 2, 0];
  const bands = parts.map(({ of }, index): HeatBand => {
    const [share, slot] = [shares[index]!, slots[index]!];
    const seen = Math.max(LEAST_BAND, share);
    const band = {
      of,
      from: { top: fromTop, height: share },
      to: { top: slotTop + (slot - seen) / 2, height: seen },
      slot: { top: slotTop, height: slot },
    };
    fromTop += share;
    slotTop += slot;
    return band;
  });
  return { height, bands };
}

/**
 * Values rounded so that the printed numbers add up: the values that lost most by rounding down get the remainder of
 * the sum.
 * @param total sum of the values
 */
export function roundedToSum(values: readonly number[], total: number, decimals: number): number[] {
  const scale = 10 ** decimals;
  const floors = values.map((value) => Math.floor(value * scale));
  const shortBy = Math.round(total * scale) - floors.reduce((sum, value) => sum + value, 0);
  const byLoss = values
    .map((value, index) => ({ index, loss: value * scale - floors[index]! }))
    .sort((a, b) => b.loss - a.loss);
  for (const { index } of byLoss.slice(0, Math.max(0, shortBy))) floors[index]! += 1;
  return floors.map((value) => value / scale);
}
