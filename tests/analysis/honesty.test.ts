import { describe, expect, it } from 'vitest';
import { coverage } from '../../scripts/study/honesty/coverage.ts';
import { setupKinds } from '../../scripts/study/honesty/varied-burns.ts';
import { honestyClaims } from '../../scripts/study/honesty.ts';

/** The small version of `npm run study`, with fixed seeds; the large one counts 1200 burns a bench. */
describe('95 % intervals', () => {
  it.each(setupKinds)(
    'contain the truth as often as they state, on a bench of kind "%s"',
    (bench) => {
      const counts = coverage(bench, 30);
      expect(honestyClaims(counts)).toEqual([]);
      for (const { trials, refused } of counts) expect(refused).toBeLessThanOrEqual(0.1 * (trials + refused));
    },
    120_000,
  );

  it('fail the test when they are too narrow or too wide', () => {
    const count = {
      id: 'thermalEfficiency',
      bench: 'calibrated',
      truthBelow: 0,
      truthAbove: 0,
      refused: 0,
      relativeWidth: 0.1,
    } as const;
    expect(honestyClaims([{ ...count, trials: 1000, held: 900 }])).toHaveLength(1);
    expect(honestyClaims([{ ...count, trials: 1000, held: 990 }])).toHaveLength(1);
    expect(honestyClaims([{ ...count, trials: 1000, held: 950 }])).toEqual([]);
  });
});
