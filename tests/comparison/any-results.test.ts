import { expect, test } from 'vitest';
import { compareRevisions } from '../../shared/comparison/compare-revisions.ts';
import { comparedResults } from '../../shared/comparison/result-scales.ts';
import { comparisonSchema } from '../../shared/contract/comparison.ts';
import type { BudgetEntry, ResultId } from '../../shared/contract/results.ts';
import fc from '../support/properties.ts';
import { constructedBurn, onDay, owes } from './constructed-burn.ts';

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
const plannedDays = fc.constantFrom(undefined, 2, 3, 'untilClear' as const);

test('for any results, every number of a comparison is finite, and every missing one has its reason', () => {
  fc.assert(
    fc.property(
      group,
      group,
      fc.array(group, { maxLength: 2 }),
      plannedDays,
      fc.boolean(),
      (a, b, more, planned, sameDay) => {
        const burns = (side: string, list: Partial<Record<ResultId, { value: number; budget: BudgetEntry[] }>>[]) =>
          list.map((own, index) =>
            constructedBurn({
              id: `${side}${index}`,
              results: own,
              burn: onDay(side, sameDay ? index >> 1 : index),
            }),
          );
        const comparison = compareRevisions(burns('a', a), burns('b', b), {
          others: more.map((list, index) => burns('cd'[index]!, list)),
          ...(planned === undefined ? {} : { plannedDays: planned }),
        });
        // A number that is not finite would become null in JSON.
        expect(comparisonSchema.safeParse(JSON.parse(JSON.stringify(comparison))).error).toBeUndefined();
        expect(JSON.stringify(comparison)).not.toMatch(/NaN|undefined|Infinity|e\+\d\d[^,\]}]/);
        for (const entry of comparison.differences) {
          if ('verdict' in entry) {
            expect(entry.interval95[0]).toBeLessThanOrEqual(entry.difference);
            expect(entry.interval95[1]).toBeGreaterThanOrEqual(entry.difference);
          }
        }
      },
    ),
    { numRuns: 200 },
  );
});
