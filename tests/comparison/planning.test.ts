import { describe, expect, test } from 'vitest';
import { unadjusted } from '../../shared/comparison/adjustment.ts';
import { compareResult, type Entry } from '../../shared/comparison/compare-result.ts';
import { furtherBurns, largestDoubt } from '../../shared/comparison/planning.ts';
import { sampleSize } from '../../shared/statistics/power.ts';
import { woodBurns } from './constructed-burn.ts';

function compared(a: number[], b: number[]) {
  const entries = [
    ...woodBurns('a', a).map((burn) => ['a', burn] as const),
    ...woodBurns('b', b).map((burn) => ['b', burn] as const),
  ];
  const result = compareResult(
    'dryWoodPerBatch',
    entries.map(
      ([side, burn]): Entry => ({
        compared: burn,
        side,
        block: undefined,
        adjustment: () => unadjusted,
        errors: { demand: new Map(), load: new Map() },
      }),
    ),
    false,
  );
  if ('missing' in result) throw new Error('missing');
  return result;
}

describe('further burns for 80 % power', () => {
  const spread = (scatter: number) => [-1, 0, 1].map((step) => Math.exp(step * scatter));

  test('add up to the sample size of the power calculation when nothing is shared', () => {
    const further = furtherBurns(compared(spread(0.1), spread(0.1)), 0.1);
    expect(further?.likely).toBe(Math.ceil(sampleSize('twoSample', 0.8, Math.log(1.1), 0.1)) - 3);
    expect(further!.low!).toBeLessThan(further!.likely!);
    expect(further!.high!).toBeGreaterThan(further!.likely!);
  });

  test('are none when the burns at hand are enough', () => {
    expect(furtherBurns(compared(spread(0.005), spread(0.005)), 0.1)).toEqual({ low: 0, likely: 0, high: 0 });
  });

  test('leave the upper end open when two hundred would not do', () => {
    const further = furtherBurns(compared(spread(0.4), spread(0.4)), 0.1);
    expect(further?.high).toBeUndefined();
    expect(further?.low).toBeGreaterThan(20);
  });

  test('are not guessed from a single burn', () => {
    expect(furtherBurns(compared([1], spread(0.1)), 0.1)).toBeUndefined();
  });
});

test('the largest doubt is the scatter where nothing shared stays', () => {
  const doubt = largestDoubt(compared([1, 1.1], [1, 1.2]));
  expect(doubt?.source).toBe('scatter');
  expect(doubt?.share).toBeCloseTo(1, 12);
});
