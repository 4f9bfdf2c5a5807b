import { describe, expect, test } from 'vitest';
import type { ComparedValue } from '../../shared/comparison/contributions.ts';
import { compareBlocks, compareGroups, limitsOf } from '../../shared/comparison/mean-difference.ts';
import { createRandom } from '../../shared/statistics/random.ts';
import fc from '../support/properties.ts';

const plain = (value: number, shared: Record<string, number> = {}, ownVariance = 0): ComparedValue => ({
  burnId: 'x',
  value,
  shared: new Map(Object.entries(shared)),
  ownVariance,
});
const sharedVariance = (a: ComparedValue[], b: ComparedValue[]) =>
  compareGroups(a, b).shared.reduce((sum, part) => sum + part.variance, 0);

// R, data set "sleep": see tests/reference/statistics-r.test.ts.
const first = [0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0, 2];
const second = [1.9, 0.8, 1.1, 0.1, -0.1, 4.4, 5.5, 1.6, 4.6, 3.4];

describe('without shared errors', () => {
  test('two groups compare as in R with Welch on the sleep data', () => {
    const result = compareGroups(
      first.map((value) => plain(value)),
      second.map((value) => plain(value)),
    );
    expect(result.difference).toBeCloseTo(1.58, 10);
    expect(result.degreesOfFreedom).toBeCloseTo(17.776, 3);
    expect(result.interval95[0]).toBeCloseTo(-0.2054832, 7);
    expect(result.interval95[1]).toBeCloseTo(3.3654832, 7);
  });

  test('blocks of one and one compare as pairs in R: t = 4.0621 on 9 degrees of freedom', () => {
    const result = compareBlocks(first.map((value, i) => ({ a: [plain(value)], b: [plain(second[i]!)] })));
    expect(result.difference / result.standardError).toBeCloseTo(4.0621, 4);
    expect(result.degreesOfFreedom).toBeCloseTo(9, 10);
  });
});

describe('errors shared between burns', () => {
  test('cancel where they contribute equally to both revisions', () => {
    const lot = { 'fuelLot oak moisture': 0.03 };
    const scatter = compareGroups([plain(1), plain(1.1)], [plain(1.2), plain(1.4)]);
    const shared = compareGroups([plain(1, lot), plain(1.1, lot)], [plain(1.2, lot), plain(1.4, lot)]);
    expect(shared.standardError).toBeCloseTo(scatter.standardError, 12);
    expect(shared.degreesOfFreedom).toBeCloseTo(scatter.degreesOfFreedom, 12);
  });

  test('remain in full where each revision has a lot of its own', () => {
    const a = [1, 1.1, 1.2].map((value) => plain(value, { 'fuelLot oak moisture': 0.03 }));
    const b = [1, 1.1, 1.2].map((value) => plain(value, { 'fuelLot ash moisture': 0.04 }));
    expect(sharedVariance(a, b)).toBeCloseTo(0.03 ** 2 + 0.04 ** 2, 12);
    expect(compareGroups(a, b).degreesOfFreedom).toBeGreaterThan(4);
  });

  test('leave the square of the difference where one error contributes more to one revision', () => {
    const a = [1, 1.1, 1.2].map((value) => plain(value, { 'scale kitchen gain': 0.01 }));
    const b = [1, 1.1, 1.2].map((value) => plain(value, { 'scale kitchen gain': -0.02 }));
    expect(sharedVariance(a, b)).toBeCloseTo(0.03 ** 2, 12);
  });

  test('are not counted twice where every burn has its own: the scatter contains them already', () => {
    const a = [1, 1.1, 1.2].map((value, i) => plain(value, { [`fuelLot a${i} moisture`]: 0.03 }));
    const b = [1, 1.1, 1.2].map((value, i) => plain(value, { [`fuelLot b${i} moisture`]: 0.03 }));
    expect(sharedVariance(a, b)).toBe(0);
  });

  test('count by the pairs that share them where a lot serves some burns only', () => {
    // Two of three burns share: 2 ordered pairs of 6, so a third of c².
    const a = [plain(1, { 'fuelLot oak moisture': 0.03 }), plain(1.1, { 'fuelLot oak moisture': 0.03 }), plain(1.2)];
    expect(sharedVariance(a, [plain(1), plain(2)])).toBeCloseTo(0.03 ** 2 / 3, 12);
  });

  test('never reduce the scatter, even where every lot serves one burn of each revision', () => {
    const lots = [0, 1, 2].map((i) => ({ [`fuelLot ${i} moisture`]: 0.5 }));
    const a = [1, 1.1, 1.2].map((value, i) => plain(value, lots[i]));
    const b = [2, 2.1, 2.2].map((value, i) => plain(value, lots[i]));
    const bare = compareGroups([plain(1), plain(1.1), plain(1.2)], [plain(2), plain(2.1), plain(2.2)]);
    expect(compareGroups(a, b).standardError).toBeCloseTo(bare.standardError, 12);
  });

  test('within blocks count only as far as they do not cancel within each block', () => {
    const block = (day: number) => ({
      a: [plain(1 + day, { 'scale kitchen gain': 0.02, [`fuelLot ${day} moisture`]: 0.03 })],
      b: [plain(2 + day * 1.1, { 'scale shop gain': 0.02, [`fuelLot ${day} moisture`]: 0.03 })],
    });
    const result = compareBlocks([block(0), block(1), block(2)]);
    expect(result.shared.reduce((sum, part) => sum + part.variance, 0)).toBeCloseTo(2 * 0.02 ** 2, 12);
  });
});

describe('too few data', () => {
  test('a single day of a revision does not take the scatter of the other', () => {
    expect(() => compareGroups([plain(1)], [plain(2), plain(2.2), plain(2.4)])).toThrow(/two days of each/);
  });

  test('values equal to the last digit have the uncertainty of the instruments', () => {
    const same = [plain(1, {}, 0.01), plain(1, {}, 0.01)];
    const result = compareGroups(same, same);
    expect(result.standardError).toBeCloseTo(0.1, 12);
    expect(result.degreesOfFreedom).toBe(Infinity);
  });

  test('one burn of each is refused', () => {
    expect(() => compareGroups([plain(1)], [plain(2)])).toThrow(/two days of each/);
    expect(() => compareBlocks([{ a: [plain(1)], b: [] }])).toThrow(/both/);
  });
});

// Two lots, three days each, scatter s and declared u of a lot. Student's t for 4 degrees of freedom at 99.9 % is 8.610 and of the normal
// distribution 3.2905, at 97.5 % 2.2414 (any table; here from memory); at every look 7.188 for three days each.
test.each([
  ['before the planned look', { outside: 0.001, looks: 'before' }, 8.61, 3.2905],
  ['at every look', { outside: 0.05, looks: 'every' }, 7.188, 2.2414],
] as const)('%s the limits of scatter and of the lots are added in quadrature', (_when, level, ofScatter, ofLots) => {
  const days = (lot: string) => [-0.05, 0, 0.05].map((value) => plain(value, { [lot]: 0.034 }));
  const [, high] = limitsOf(compareGroups(days('one'), days('another')), level)!;
  expect(high).toBeCloseTo(Math.hypot(ofScatter * 0.05 * Math.sqrt(2 / 3), ofLots * 0.034 * Math.SQRT2), 4);
});

test('the intervals have their 95 % with any shared errors, in burns simulated from exactly this model', () => {
  const random = createRandom('shared errors');
  const trials = 1500;
  for (const { count, lots, tolerance } of [
    { count: 3, lots: 2, tolerance: 0.02 },
    { count: 4, lots: 1, tolerance: 0.02 },
    { count: 6, lots: 2, tolerance: 0.02 },
  ]) {
    let held = 0;
    for (let trial = 0; trial < trials; trial++) {
      const lotErrors = [random.normal(), random.normal()];
      const scaleErrors = [random.normal(), random.normal()];
      const draw = (side: 0 | 1) =>
        Array.from({ length: count }, () => {
          const lot = lots === 1 ? 0 : side;
          const value = 0.08 * random.normal() + 0.034 * lotErrors[lot]! + 0.02 * scaleErrors[side]!;
          return plain(value, { [`fuelLot ${lot} moisture`]: 0.034, [`scale ${side} gain`]: 0.02 });
        });
      const [low, high] = compareGroups(draw(0), draw(1)).interval95;
      if (low <= 0 && high >= 0) held += 1;
    }
    expect(Math.abs(held / trials - 0.95), `${count} burns, ${lots} lots`).toBeLessThan(tolerance);
  }
});

test('exchanging the revisions changes the sign of the difference and not its uncertainty', () => {
  const group = fc.array(
    fc.tuple(fc.double({ min: -5, max: 5, noNaN: true }), fc.double({ min: -1, max: 1, noNaN: true })),
    {
      minLength: 2,
      maxLength: 6,
    },
  );
  fc.assert(
    fc.property(group, group, (a, b) => {
      const burns = (list: [number, number][], own: string) =>
        list.map(([value, c]) => plain(value, { 'scale one gain': c, [`fuelLot ${own} moisture`]: c / 2 }, 1e-6));
      const forward = compareGroups(burns(a, 'a'), burns(b, 'b'));
      const back = compareGroups(burns(b, 'b'), burns(a, 'a'));
      expect(forward.difference).toBeCloseTo(-back.difference, 10);
      expect(forward.standardError).toBeCloseTo(back.standardError, 10);
    }),
  );
});
