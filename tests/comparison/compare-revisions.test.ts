import { describe, expect, test } from 'vitest';
import { compareRevisions } from '../../shared/comparison/compare-revisions.ts';
import { comparisonSchema, type Difference } from '../../shared/contract/comparison.ts';
import type { ResultId } from '../../shared/contract/results.ts';
import { constructedBurn, onDay, owes, woodBurns } from './constructed-burn.ts';

const isDifference = (entry: unknown): entry is Difference =>
  typeof entry === 'object' && entry !== null && 'verdict' in entry;

function differenceOf(comparison: ReturnType<typeof compareRevisions>, id: ResultId): Difference {
  const entry = comparison.differences.find((candidate) => candidate.id === id);
  if (!isDifference(entry)) throw new Error(`${id} is missing: ${JSON.stringify(entry)}`);
  return entry;
}

describe('the verdict', () => {
  test('is better when less wood is needed and the interval excludes zero, in figures worked by hand', () => {
    const a = woodBurns('a', [Math.E * 0.99, Math.E, Math.E * 1.01]);
    const b = woodBurns('b', [0.8 * Math.E * 0.99, 0.8 * Math.E, 0.8 * Math.E * 1.01]);
    const comparison = compareRevisions(a, b, { names: { a: 'revision 1', b: 'revision 2' }, plannedDays: 3 });
    const wood = differenceOf(comparison, 'dryWoodPerBatch');
    expect(wood.verdict).toBe('better');
    expect(wood.relative).toBeCloseTo(-0.2, 10);
    expect(wood.b / wood.a).toBeCloseTo(0.8, 10);
    // s of the logarithms is 0.0100003, so SE = s·√(2/3); t with 4 degrees of freedom is 2.776 (t table).
    const half = 2.776445 * 0.0100003 * Math.sqrt(2 / 3);
    expect(wood.relativeInterval95[0]).toBeCloseTo(0.8 * Math.exp(-half) - 1, 4);
    expect(wood.relativeInterval95[1]).toBeCloseTo(0.8 * Math.exp(half) - 1, 4);
    expect(comparison.sentence).toMatch(/^Revision 2 is better than revision 1: dry wood per batch is 20 % less/);
  });

  test('has an interval in kilograms that allows for the uncertainty of both levels', () => {
    // Both logarithms scatter by s; b − a then by s·√(a² + b²)/√3, where the scatter of b alone would give s·b·√2/√3.
    const spread = 0.001;
    const around = (level: number) => [level * (1 - spread), level, level * (1 + spread)];
    const wood = differenceOf(
      compareRevisions(woodBurns('a', around(5)), woodBurns('b', around(3))),
      'dryWoodPerBatch',
    );
    const half = (wood.interval95[1] - wood.interval95[0]) / 2;
    expect(wood.difference).toBeCloseTo(-2, 5);
    // t with 4 degrees of freedom is 2.776 (t table).
    expect(half / (2.776445 * spread * Math.sqrt((5 ** 2 + 3 ** 2) / 3))).toBeGreaterThan(0.96);
    expect(half / (2.776445 * spread * Math.sqrt((5 ** 2 + 3 ** 2) / 3))).toBeLessThan(1.01);
  });

  test('is worse when more is needed', () => {
    const comparison = compareRevisions(woodBurns('a', [1, 1.01, 1.02]), woodBurns('b', [1.3, 1.31, 1.32]), {
      plannedDays: 3,
    });
    expect(comparison.verdict).toBe('worse');
  });

  test('is never "no difference": it is open, with the number of days still needed', () => {
    const comparison = compareRevisions(woodBurns('a', [1, 1.1, 1.2]), woodBurns('b', [1.02, 1.12, 1.18]));
    expect(comparison.verdict).toBe('cannotTell');
    expect(comparison.sentence).toMatch(/^Cannot tell yet/);
    expect(comparison.plan?.sentences[0]).toMatch(/more days of each/);
  });

  test('is in French on request', () => {
    const a = woodBurns('a', [2, 2.02, 2.04]);
    const b = woodBurns('b', [1.6, 1.61, 1.63]);
    const comparison = compareRevisions(a, b, {
      language: 'fr',
      names: { a: 'révision 1', b: 'révision 2' },
      plannedDays: 3,
    });
    expect(comparison.sentence).toMatch(
      /^Révision 2\u202f: mieux que révision 1\. Bois sec par fournée\u202f: 20\u00a0% de moins/,
    );
  });

  test('takes efficiency in points, higher being better', () => {
    const burns = (side: string, values: number[]) =>
      values.map((value, i) =>
        constructedBurn({
          id: `${side}${i}`,
          results: { thermalEfficiency: { value, unit: '1' } },
          burn: onDay(side, i),
        }),
      );
    const comparison = compareRevisions(burns('a', [0.2, 0.21, 0.22]), burns('b', [0.3, 0.31, 0.32]), {
      primary: 'thermalEfficiency',
      plannedDays: 3,
    });
    const efficiency = differenceOf(comparison, 'thermalEfficiency');
    expect(efficiency.difference).toBeCloseTo(0.1, 10);
    expect(efficiency.verdict).toBe('better');
    expect(efficiency.sentence).toContain('10.0 points higher');
  });

  test('is neutral for firepower: it states the change', () => {
    const burns = (side: string, values: number[]) =>
      values.map((value, i) =>
        constructedBurn({
          id: `${side}${i}`,
          results: { firepower: { value, unit: 'W' } },
          burn: onDay(side, i),
        }),
      );
    const comparison = compareRevisions(burns('a', [9000, 9100]), burns('b', [12000, 12100]), {
      primary: 'firepower',
      plannedDays: 2,
    });
    expect(comparison.verdict).toBe('cannotTell');
    expect(comparison.sentence).toMatch(/neither better nor worse/);
  });
});

describe('what cannot be compared', () => {
  test('one burn of each proves nothing', () => {
    const comparison = compareRevisions(woodBurns('a', [2]), woodBurns('b', [1]));
    expect(comparison.verdict).toBe('cannotTell');
    expect(comparison.differences[0]).toMatchObject({
      id: 'dryWoodPerBatch',
      missing: { code: 'missing/tooFewDays', params: { daysA: 1, daysB: 1, moreA: 1, moreB: 1 } },
    });
    expect(comparison.sentence).toMatch(/A second burn on one day helps less than one on another day\.$/);
    expect(comparison.differences[0]!.points).toHaveLength(2);
  });

  test('one day against several gives a figure, not a verdict, with the number of days needed', () => {
    const comparison = compareRevisions(woodBurns('a', [2]), woodBurns('b', [1, 1.1, 1.2]));
    expect(comparison.verdict).toBe('cannotTell');
    expect(comparison.differences[0]).toMatchObject({
      missing: { code: 'missing/tooFewDays', params: { daysA: 1, daysB: 3, moreA: 1, moreB: 0 } },
      levels: { a: 2 },
    });
    expect(comparison.sentence).toContain('Still to burn: 1 more day of A.');
    expect(comparison.plan).toBeUndefined();
  });

  test('a result that no burn of one revision has is missing with the reason', () => {
    const comparison = compareRevisions(woodBurns('a', [1, 2]), [
      constructedBurn({ id: 'b0', results: {} }),
      constructedBurn({ id: 'b1', results: {} }),
    ]);
    expect(comparison.differences[0]).toMatchObject({ missing: { code: 'missing/noBurns' } });
    expect(comparison.sentence).toMatch(/none of the burns of B/);
  });

  test('burns without a result are left out of it and counted', () => {
    const a = [...woodBurns('a', [1, 1.1, 1.2]), constructedBurn({ id: 'a9', results: {} })];
    const wood = differenceOf(compareRevisions(a, woodBurns('b', [1, 1.1])), 'dryWoodPerBatch');
    expect(wood.counts).toEqual({ a: 3, b: 2 });
    expect(wood.remarks).toContainEqual({ code: 'remark/lackResult', params: { count: 1 } });
  });

  test('a burn given twice is refused', () => {
    const [burn] = woodBurns('a', [1]);
    expect(() => compareRevisions([burn!], [burn!])).toThrow(/given twice/);
  });

  test('a maximum is compared by ranks, and three against three are too few', () => {
    const burns = (side: string, values: number[]) =>
      values.map((value, i) =>
        constructedBurn({
          id: `${side}${i}`,
          results: { longestUnattended: { value, unit: 's' } },
          burn: onDay(side, i),
        }),
      );
    const few = compareRevisions(burns('a', [600, 700, 800]), burns('b', [1600, 1700, 1800]), {
      primary: 'longestUnattended',
    });
    expect(few.differences[0]).toMatchObject({ missing: { code: 'missing/tooFewForRanks' } });
    const more = compareRevisions(burns('a', [600, 700, 800, 900, 650]), burns('b', [1600, 1700, 1800, 1750, 1650]), {
      primary: 'longestUnattended',
      plannedDays: 5,
    });
    expect(differenceOf(more, 'longestUnattended')).toMatchObject({
      scale: 'ranks',
      verdict: 'better',
      difference: 1000,
    });
  });
});

describe('burns set aside', () => {
  test('appear with their reason: by the person, another start, another target', () => {
    const odd = (id: string, burn: Parameters<typeof constructedBurn>[0]['burn']) =>
      constructedBurn({ id, results: { dryWoodPerBatch: { value: 9 } }, ...(burn ? { burn } : {}) });
    const a = [
      ...woodBurns('a', [1, 1.1, 1.2]),
      odd('spoilt', { status: 'setAside', setAsideReason: 'the probe came loose' }),
      odd('hot', { startKind: 'hot' }),
      odd('ninety', { target: { kind: 'temperature', tempC: 90 } }),
    ];
    const comparison = compareRevisions(a, woodBurns('b', [1, 1.1, 1.2]));
    expect(comparison.burns.a).toEqual(['a0', 'a1', 'a2']);
    expect(comparison.setAside.map(({ burnId, sentence }) => [burnId, sentence])).toEqual([
      ['spoilt', 'Not counted: the probe came loose'],
      ['hot', 'Started hot, the others cold: cold and hot starts are never compared with each other.'],
      ['ninety', 'Another target (90 °C; the others: the boil).'],
    ]);
  });

  test('a burn without a recorded start is not left out', () => {
    const { startKind: _, ...unknown } = woodBurns('a', [1])[0]!.burn;
    const a = [...woodBurns('a', [1, 1.1]), { ...woodBurns('x', [1.2])[0]!, burn: { ...unknown, id: 'x0' } }];
    expect(compareRevisions(a, woodBurns('b', [1, 1.1])).burns.a).toHaveLength(3);
  });
});

describe('shared errors in the comparison', () => {
  // A two-lot comparison with 2.85 % from moisture and 1.78 % from the heating value of each lot.
  const lotBudget = (lot: string) => (value: number) => [
    owes('moisture', -0.0285 * value, 'fuelLot', lot),
    owes('heatingValue', 0.0178 * value, 'fuelLot', lot),
    owes('weighing', 0.001 * value),
  ];
  const values = [1, 1.05, 1.1];

  test('two lots add nearly 5 % of uncertainty, which one lot does not', () => {
    const one = compareRevisions(woodBurns('a', values, lotBudget('oak')), woodBurns('b', values, lotBudget('oak')));
    const two = compareRevisions(woodBurns('a', values, lotBudget('oak')), woodBurns('b', values, lotBudget('ash')));
    const [seOne, seTwo] = [one, two].map((c) => differenceOf(c, 'dryWoodPerBatch').standardError!);
    const added = Math.sqrt(seTwo! ** 2 - seOne! ** 2);
    expect(added).toBeCloseTo(Math.sqrt(2 * (0.0285 ** 2 + 0.0178 ** 2)), 10);
    expect(added).toBeGreaterThan(0.045);
  });

  test('the plan has the measurement to improve first, and reports when no number of days is enough', () => {
    const steady = [1, 1.001, 1.002];
    const comparison = compareRevisions(
      woodBurns('a', steady, lotBudget('oak')),
      woodBurns('b', steady, lotBudget('ash')),
    );
    expect(comparison.plan?.improveFirst).toBe('moisture');
    expect(comparison.plan?.furtherDays).toEqual({});
    expect(comparison.plan?.sentences[0]).toMatch(/^No number of days/);
  });

  test('with one lot the scatter is the largest uncertainty', () => {
    const comparison = compareRevisions(
      woodBurns('a', values, lotBudget('oak')),
      woodBurns('b', values, lotBudget('oak')),
    );
    expect(comparison.plan?.improveFirst).toBe('scatter');
  });
});

describe('blocks by day', () => {
  const burnOn = (id: string, day: number, value: number) =>
    constructedBurn({
      id,
      results: { dryWoodPerBatch: { value } },
      burn: { startedUtcMs: Date.UTC(2026, 5, day, 9), zone: 'Europe/Paris' },
    });
  const a = [burnOn('a0', 1, 1), burnOn('a1', 2, 2), burnOn('a2', 3, 4)];
  const b = [burnOn('b0', 1, 0.9), burnOn('b1', 2, 1.79), burnOn('b2', 3, 3.62)];

  test('find a difference that differences between days hide in separate groups', () => {
    expect(compareRevisions(a, b, { plannedDays: 3 }).verdict).toBe('cannotTell');
    expect(compareRevisions(a, b, { plannedDays: 3, blocks: 'day' }).verdict).toBe('better');
  });

  test('give way to two groups, with a remark, where fewer than two days have both', () => {
    const difference = [burnOn('b0', 11, 0.9), burnOn('b1', 12, 1.79)];
    const wood = differenceOf(compareRevisions(a, difference, { blocks: 'day' }), 'dryWoodPerBatch');
    expect(wood.remarks.map(({ code }) => code)).toContain('remark/blocksIncomplete');
  });
});

test('two lots of one name count as different', () => {
  const from = (lot: string) => ({ fuelLots: [{ id: lot, name: 'oak', kind: 'wood' as const }] });
  const comparison = compareRevisions(
    woodBurns('a', [1, 1.1], undefined, from('first lot')),
    woodBurns('b', [1, 1.1], undefined, from('second lot')),
  );
  expect(comparison.alsoDiffered).toContainEqual({
    message: { code: 'differed/sameName', params: { kind: 'fuelLot', name: 'oak' } },
    sentence: 'Wood lot: two of one name, oak.',
  });
});

test('other differences are listed with the verdict', () => {
  const burns = (side: string, day: number, operator: string, lot: string) =>
    [0, 1, 2].map((i) =>
      constructedBurn({
        id: `${side}${i}`,
        results: { dryWoodPerBatch: { value: 1 + i / 10 } },
        burn: {
          operator,
          startedUtcMs: Date.UTC(2026, 5, day + i),
          fuelLots: [{ id: lot, name: lot, kind: 'wood' }],
        },
      }),
    );
  const comparison = compareRevisions(burns('a', 1, 'first', 'oak'), burns('b', 11, 'second', 'ash'));
  expect(comparison.alsoDiffered.map(({ message }) => message.code)).toEqual([
    'differed/order',
    'differed/operator',
    'differed/fuelLot',
  ]);
  expect(comparison.alsoDiffered[0]!.sentence).toMatch(/^All burns of A came before those of B/);
});

test('the whole answer conforms to its schema', () => {
  const comparison = compareRevisions(woodBurns('a', [1, 1.1, 1.2]), woodBurns('b', [1.02, 1.12, 1.18]));
  expect(comparisonSchema.parse(JSON.parse(JSON.stringify(comparison)))).toEqual(comparison);
});

describe('other results', () => {
  const ids = ['dryWoodPerBatch', 'timeToTarget', 'equivalentDryFuel', 'meanUsefulPower'] as const;
  const burns = (side: string, factor: number) =>
    [1, 1.01, 1.02, 0.99].map((value, i) =>
      constructedBurn({
        id: `${side}${i}`,
        results: {
          ...Object.fromEntries(ids.map((id) => [id, { value }])),
          timeToTarget: { value: value * factor, unit: 's' },
        },
        burn: onDay(side, i),
      }),
    );

  test('are never better or worse: one with a large difference stands out', () => {
    const comparison = compareRevisions(burns('a', 1), burns('b', 0.7), { plannedDays: 4 });
    const time = differenceOf(comparison, 'timeToTarget');
    expect(time.verdict).toBe('cannotTell');
    expect(time.standsOut).toMatchObject({ among: 3, holds: true });
    expect(time.standsOut!.confidence).toBeCloseTo(1 - 0.05 / 3, 12);
    expect(time.sentence).toContain('stands out among 3, even at 98.33\u00a0%');
    expect(comparison.otherResults?.message).toMatchObject({ code: 'seen/shared', params: { among: 3 } });
    for (const { sentence } of comparison.differences.slice(1)) expect(sentence).not.toMatch(/\b(better|worse)\b/);
  });

  test('do not stand out where only their own 95 % interval excludes zero', () => {
    const found = [0.95, 0.96, 0.97, 0.975, 0.98].map((factor) =>
      differenceOf(compareRevisions(burns('a', 1), burns('b', factor), { plannedDays: 4 }), 'timeToTarget'),
    );
    const differing = found.filter(({ relativeInterval95: [, high] }) => high < 0);
    expect(differing.some(({ standsOut }) => !standsOut!.holds)).toBe(true);
    expect(found.every(({ verdict }) => verdict === 'cannotTell')).toBe(true);
  });

  test('have no remark on their number where there are none', () => {
    expect(compareRevisions(woodBurns('a', [1, 2]), woodBurns('b', [1, 2])).otherResults).toBeUndefined();
  });
});
