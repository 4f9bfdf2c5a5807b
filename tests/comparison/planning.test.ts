import { describe, expect, test } from 'vitest';
import { unadjusted } from '../../shared/comparison/adjustment.ts';
import { compareResult, type Entry } from '../../shared/comparison/compare-result.ts';
import type { Intended } from '../../shared/comparison/looks.ts';
import {
  daysAsked,
  daysFor,
  isHiddenByShared,
  largestDoubt,
  largestSharedDoubt,
} from '../../shared/comparison/planning.ts';
import { sampleSize } from '../../shared/statistics/power.ts';
import { woodBurns } from './constructed-burn.ts';

type Budget = NonNullable<Parameters<typeof woodBurns>[2]>;

function compared(
  a: number[],
  b: number[],
  intended: Intended = { kind: 'days', days: 60 },
  budgets: { a?: Budget; b?: Budget } = {},
) {
  const entries = [
    ...woodBurns('a', a, budgets.a).map((burn) => ['a', burn] as const),
    ...woodBurns('b', b, budgets.b).map((burn) => ['b', burn] as const),
  ];
  const result = compareResult(
    'dryWoodPerBatch',
    entries.map(
      ([side, burn]): Entry => ({
        compared: burn,
        place: side === 'a' ? 0 : 1,
        day: burn.burn.id,
        block: undefined,
        adjustment: () => unadjusted,
        errors: { demand: new Map(), load: new Map() },
      }),
    ),
    { inBlocks: false, intended, steps: 1 },
  );
  if ('missing' in result) throw new Error('missing');
  return result;
}

function furtherDays(...asked: Parameters<typeof daysAsked>) {
  return daysFor(daysAsked(...asked)!);
}

describe('further days for 80 % power', () => {
  const spread = (scatter: number) => [-1, 0, 1].map((step) => Math.exp(step * scatter));

  test('add up to the sample size of the power calculation when nothing is shared', () => {
    const further = furtherDays(compared(spread(0.1), spread(0.1)), 0.1);
    expect(further?.likely).toBe(Math.ceil(sampleSize('twoSample', 0.8, Math.log(1.1), 0.1)) - 3);
    expect(further!.low!).toBeLessThan(further!.likely!);
    expect(further!.high!).toBeGreaterThan(further!.likely!);
  });

  test('are computed with the limits of every look where those will apply, also beyond the planned number', () => {
    const atOneLook = furtherDays(compared(spread(0.05), spread(0.05)), 0.1)!.likely!;
    const atEvery = furtherDays(compared(spread(0.05), spread(0.05), { kind: 'notSaid' }), 0.1)!.likely!;
    expect(atEvery).toBeGreaterThan(atOneLook);
    expect(furtherDays(compared(spread(0.05), spread(0.05), { kind: 'days', days: 3 }), 0.1)!.likely).toBe(atEvery);
    expect(furtherDays(compared(spread(0.005), spread(0.005), { kind: 'days', days: 3 }), 0.1)!.likely).toBe(0);
  });

  test('are none when the days at hand are enough', () => {
    expect(furtherDays(compared(spread(0.005), spread(0.005)), 0.1)).toEqual({ low: 0, likely: 0, high: 0 });
  });

  test('have no upper end when two hundred are not enough', () => {
    const further = furtherDays(compared(spread(0.4), spread(0.4)), 0.1);
    expect(further?.high).toBeUndefined();
    expect(further?.low).toBeGreaterThan(20);
  });

  test('are more where the share of wrong verdicts is divided among the steps of a ladder', () => {
    const result = compared(spread(0.1), spread(0.1));
    expect(furtherDays(result, 0.1, 3)!.likely!).toBeGreaterThan(furtherDays(result, 0.1)!.likely!);
  });
});

test('the largest uncertainty is the scatter where all shared errors cancel', () => {
  const doubt = largestDoubt(compared([1, 1.1], [1, 1.2]));
  expect(doubt?.source).toBe('scatter');
  expect(doubt?.share).toBeCloseTo(1, 12);
});

describe('a difference that no number of days will find', () => {
  /** Heating value of a lot, 6 % of the wood: each revision burnt a lot of its own. */
  const lot =
    (sharedId: string): Budget =>
    (value) => [{ input: 'fuelLot.heatingValue', contribution: 0.06 * value, sign: -1, sharing: 'fuelLot', sharedId }];
  const wide = [0.7, 1, 1.4];

  test('is hidden by two lots, whatever the scatter between days, and the lots are named', () => {
    const result = compared(wide, wide, { kind: 'days', days: 60 }, { a: lot('oak'), b: lot('ash') });
    const asked = daysAsked(result, 0.1)!;
    expect(daysFor(asked).low).toBeUndefined();
    expect(largestDoubt(result)!.source).toBe('scatter');
    expect(isHiddenByShared(asked)).toBe(true);
    expect(largestSharedDoubt(result)!.source).toBe('fuelLot.heatingValue');
  });

  test('is not hidden by shared errors where both burnt one lot', () => {
    const result = compared(wide, wide, { kind: 'days', days: 60 }, { a: lot('oak'), b: lot('oak') });
    expect(isHiddenByShared(daysAsked(result, 0.1)!)).toBe(false);
  });
});
