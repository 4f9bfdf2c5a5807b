/** How often the stated 95 % intervals contain the truth. */
import type { BurnTruth } from '../../../server/simulator/truth.ts';
import { analyse } from '../../../shared/analysis/analyse.ts';
import { hasValue } from '../../../shared/contract/has-value.ts';
import type { ResultId } from '../../../shared/contract/results.ts';
import { type SetupKind, variedBurn } from './varied-burns.ts';

/** Results whose intervals are tested. */
export const claimed = [
  'thermalEfficiency',
  'dryWoodPerBatch',
  'meanUsefulPower',
  'timeToBoil',
  'timeToTarget',
  'meanHeatingRate',
  'cookingPower',
  'holdLowest',
] as const;
export type Claimed = (typeof claimed)[number];

export interface Coverage {
  readonly id: Claimed;
  readonly bench: SetupKind;
  /** Burns with a true value and an interval. */
  readonly trials: number;
  readonly held: number;
  readonly truthBelow: number;
  readonly truthAbove: number;
  /** Burns with a true value for which the analysis gave none. */
  readonly refused: number;
  /** Mean width of the interval over the value. */
  readonly relativeWidth: number;
}

const DRAWS = 10_000;

/** Analyses `count` burns of one bench and counts the intervals that contain the truth. */
export function coverage(setup: SetupKind, count: number): Coverage[] {
  const tallies = claimed.map((id) => ({
    id,
    bench: setup,
    trials: 0,
    held: 0,
    truthBelow: 0,
    truthAbove: 0,
    refused: 0,
    width: 0,
  }));
  for (let number = 0; number < count; number++) {
    const { record, truth } = variedBurn(setup, number);
    const { results } = analyse(record, { draws: DRAWS });
    for (const tally of tallies) {
      const exact = exactValue(truth, tally.id);
      const result = results.find(({ id }) => id === tally.id)!;
      if (exact === undefined) continue;
      if (!hasValue(result)) {
        tally.refused += 1;
        continue;
      }
      const [low, high] = result.interval95!;
      tally.trials += 1;
      if (exact < low) tally.truthBelow += 1;
      else if (exact > high) tally.truthAbove += 1;
      else tally.held += 1;
      tally.width += (high - low) / result.value;
    }
  }
  return tallies.map(({ width, ...tally }) => ({ ...tally, relativeWidth: width / Math.max(1, tally.trials) }));
}

function exactValue(truth: BurnTruth, id: ResultId): number | undefined {
  return truth[id];
}
