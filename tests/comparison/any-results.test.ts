import { expect, test } from 'vitest';
import { compareRevisions } from '../../shared/comparison/compare-revisions.ts';
import { comparedResults } from '../../shared/comparison/result-scales.ts';
import { comparisonSchema } from '../../shared/contract/comparison.ts';
import type { BudgetEntry, ResultId } from '../../shared/contract/results.ts';
import fc from '../support/properties.ts';
import { constructedBurn, owes } from './constructed-burn.ts';

/** Down to a billionth and up to a million of a unit, zero and negative: more than any stove could give. */
const value = fc.oneof(
  fc.double({ min: -10, max: 1e6, noNaN: true }).map((x) => Math.round(x * 1e9) / 1e9),
  fc.constantFrom(0, 1, 1e-9),
);
const budget: fc.Arbitrary<BudgetEntry[]> = fc.array(
  fc
    .tuple(
      fc.constantFrom('moisture', 'gain'),
      fc.double({ min: -1, max: 1, noNaN: true }).map((x) => Math.round(x * 1e6) / 1e6),
      fc.constantFrom('one', 'two', undefined),
    )
    .map(([input, size, sharedId]) => owes(input, size, sharedId === undefined ? 'none' : 'fuelLot', sharedId)),
  { maxLength: 4 },
);
const results = fc.dictionary(fc.constantFrom(...comparedResults), fc.record({ value, budget }), { maxKeys: 6 });
const group = fc.array(results, { maxLength: 5 });

test('whatever the results, the answer is whole: every number finite, every absence with its reason', () => {
  fc.assert(
    fc.property(group, group, (a, b) => {
      const burns = (side: string, list: Partial<Record<ResultId, { value: number; budget: BudgetEntry[] }>>[]) =>
        list.map((own, place) => constructedBurn({ id: `${side}${place}`, results: own }));
      const comparison = compareRevisions(burns('a', a), burns('b', b));
      // A number that is not finite would turn into null on the way.
      expect(comparisonSchema.safeParse(JSON.parse(JSON.stringify(comparison))).error).toBeUndefined();
      for (const entry of comparison.differences) {
        expect(entry.sentence).not.toMatch(/NaN|undefined|Infinity/);
        if ('verdict' in entry) {
          expect(entry.interval95[0]).toBeLessThanOrEqual(entry.difference);
          expect(entry.interval95[1]).toBeGreaterThanOrEqual(entry.difference);
        }
      }
    }),
    { numRuns: 200 },
  );
});
