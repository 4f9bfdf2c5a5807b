import { describe, expect, test } from 'vitest';
import { compareRevisions } from '../../shared/comparison/compare-revisions.ts';
import type { BurnDocument } from '../../shared/comparison/compared-burn.ts';
import { nextTestOf } from '../../shared/comparison/next-test.ts';
import { ideaSchema } from '../../shared/contract/next-test.ts';
import { coverageFactor } from '../../shared/statistics/student-t.ts';
import { combineUncertainty } from '../../shared/statistics/uncertainty-law.ts';
import { pooledVariance } from '../../shared/statistics/within-groups.ts';
import { owes, woodBurns } from './constructed-burn.ts';

const labels = 'abcdefgh';
const revision = (index: number, dimensionsM?: Record<string, number>): Partial<BurnDocument> => ({
  revision: {
    id: `revision ${index + 1}`,
    stoveId: 'stove',
    label: `${index + 1}`,
    change: `change ${index + 1}`,
    ...(index > 0 ? { parentId: `revision ${index}` } : {}),
    ...(dimensionsM ? { dimensionsM } : {}),
  },
});
const lot = (name: string) => ({ fuelLots: [{ id: name, name, kind: 'wood' as const }] });
const lotBudget = (name: string) => (value: number) => [owes('fuelLot.moisture', 0.03 * value, 'fuelLot', name)];

const levels = [
  [2.0, 2.06, 1.97],
  [1.8, 1.83, 1.79],
  [1.78, 1.84, 1.8],
];
const rungs = levels.map((values, index) =>
  woodBurns(labels[index]!, values, lotBudget('oak'), { ...revision(index), ...lot('oak') }),
);
const laddered = (plannedDays?: number) =>
  compareRevisions(rungs[1]!, rungs[2]!, { others: [rungs[0]!], ...(plannedDays ? { plannedDays } : {}) });

describe('a ladder of three revisions', () => {
  test('pools the scatter over days within revisions and gives each of two steps 2.5 %', () => {
    const { ladder, differences } = laddered(3);
    const pool = pooledVariance(levels.map((values) => values.map(Math.log)))!;
    expect(ladder!.scatter!.degreesOfFreedom).toBe(6);
    expect(ladder!.scatter!.standardDeviation).toBeCloseTo(Math.sqrt(pool.variance), 12);
    const half = coverageFactor(1 - 0.05 / 2, 6) * Math.sqrt((pool.variance * 2) / 3);
    const [low, high] = ladder!.steps[0]!.deciding!.relativeInterval!.map(Math.log1p) as [number, number];
    expect((high - low) / 2).toBeCloseTo(half, 12);
    expect(ladder!.steps.map(({ verdict }) => verdict)).toEqual(['better', 'cannotTell']);
    // The comparison of the two is also the step between them.
    expect(differences[0]).toMatchObject({ deciding: ladder!.steps[1]!.deciding });
  });

  test('labels groups that are not exactly one revision by letters, and does not compare their dimensions', () => {
    const [first, ...rest] = rungs[0]!;
    const { ladder } = compareRevisions([first!, ...rungs[1]!], rest, {});
    expect(ladder!.rungs.map(({ label, revisionId }) => [label, revisionId])).toEqual([
      ['A', undefined],
      ['B', undefined],
    ]);
    expect(ladder!.steps[0]!.changed).toMatchObject({ dimensions: [], together: 1 });
  });

  test('divides 0.1 % among the steps before the planned number of days, and 5 % at every look after it', () => {
    expect(laddered(4).ladder!.steps[0]!.deciding).toMatchObject({ confidence: 1 - 0.001 / 2, everyLook: false });
    expect(laddered().ladder!.steps[0]!.deciding).toMatchObject({ confidence: 1 - 0.05 / 2, everyLook: true });
  });

  test('has the degrees of freedom of Satterthwaite where two lots add to the scatter (JCGM 100, G.4)', () => {
    const ash = woodBurns('c', levels[2]!, lotBudget('ash'), { ...revision(2), ...lot('ash') });
    const { ladder, differences } = compareRevisions(rungs[1]!, ash, { others: [rungs[0]!], plannedDays: 3 });
    const pool = pooledVariance(levels.map((values) => values.map(Math.log)))!;
    const { standardUncertainty, degreesOfFreedom } = combineUncertainty([
      { contribution: Math.sqrt((pool.variance * 2) / 3), degreesOfFreedom: 6 },
      { contribution: 0.03 },
      { contribution: 0.03 },
    ]);
    expect(differences[0]).toMatchObject({
      standardError: expect.closeTo(standardUncertainty, 12),
      degreesOfFreedom: expect.closeTo(degreesOfFreedom, 8),
    });
    expect(ladder!.steps[1]!.remarks.map(({ sentence }) => sentence)).toContain(
      'Wood and stove changed together: the interval rests on the declared uncertainty of the lots.',
    );
    expect(ladder!.steps[1]!.changed.together).toBe(2);
    expect(ladder!.steps[1]!.remarks.at(-1)!.sentence).toMatch(
      /^2 things changed at once \(the stove, wood lot\): change one/,
    );
  });

  test('lists which may be the best, without a probability', () => {
    const { best } = laddered(3).ladder!;
    expect(best).toMatchObject({ seen: 2, mayBe: [1, 2] });
    expect(best!.sentence).toBe(
      'May be the best: revision 2, revision 3. The best seen is revision 3; the burns do not tell these apart from it.',
    );
  });

  test('is refused where the days of all, less the revisions, are fewer than three', () => {
    const few = rungs.map((burns, index) => burns.slice(0, index === 2 ? 1 : 2));
    const { ladder, verdict } = compareRevisions(few[0]!, few[1]!, { others: [few[2]!], plannedDays: 2 });
    expect(verdict).toBe('cannotTell');
    expect(ladder!.missing?.message).toMatchObject({ code: 'missing/ladderTooFew', params: { freedom: 2 } });
    expect(ladder!.steps.every(({ deciding }) => deciding === undefined)).toBe(true);
    expect(ladder!.best).toBeUndefined();
  });

  test('shows a revision of a single day as a figure without a verdict', () => {
    const { ladder } = compareRevisions(rungs[0]!, rungs[1]!, { others: [rungs[2]!.slice(0, 1)], plannedDays: 3 });
    expect(ladder!.steps[1]).toMatchObject({ verdict: 'cannotTell', relative: expect.any(Number) });
    expect(ladder!.steps[1]!.deciding).toBeUndefined();
    expect(ladder!.steps[1]!.sentence).toContain('Still to burn: 1 more day of revision 3.');
  });
});

describe('the effect of a dimension', () => {
  const height = [0.3, 0.4, 0.5, 0.6, 0.45];
  const built = (heights: readonly number[], width?: (index: number) => number) => {
    const groups = heights.map((riser, index) =>
      woodBurns(
        labels[index]!,
        [1, 1.02].map((scatter) => 2 * Math.exp(-0.5 * riser + 0.004 * (index % 2)) * scatter),
        undefined,
        revision(index, { riser, ...(width ? { width: width(index) } : {}) }),
      ),
    );
    const [a, b, ...others] = groups;
    return compareRevisions(a!, b!, { others, plannedDays: 2 }).ladder!;
  };

  test('uses revisions as replicates: half a percent less wood per centimetre', () => {
    const [effect] = built(height).effects;
    expect(effect).toMatchObject({ name: 'riser', unit: 'm', per: 0.01, confidence: 0.95 });
    expect(effect!.effect).toBeCloseTo(Math.expm1(-0.005), 3);
    expect(effect!.interval[0]).toBeLessThan(effect!.effect);
    expect(effect!.interval[1]).toBeLessThan(0);
  });

  test('is not stated from too few revisions, nor where two dimensions always changed together', () => {
    expect(built(height.slice(0, 4)).noEffects?.message).toMatchObject({
      code: 'effect/tooFewRevisions',
      params: { revisions: 4, dimensions: 1, needed: 5 },
    });
    const six = [...height, 0.55];
    expect(built(six, (index) => 2 * six[index]!).noEffects?.message.code).toBe('effect/inseparable');
  });
});

describe('the next test', () => {
  const ask = (idea: Partial<Parameters<typeof ideaSchema.parse>[0] & object> = {}) =>
    nextTestOf(ideaSchema.parse({ change: 'taller riser', ...idea }), rungs[1]!, [rungs[0]!, rungs[2]!]);
  const codes = (test: ReturnType<typeof ask>) => test.says.map(({ message }) => message.code);

  test('is a schedule in which the revisions alternate, each pair of days from one lot', () => {
    const { card } = ask({
      days: 3,
      lots: [
        { name: 'oak', burns: 3 },
        { name: 'ash', burns: 4 },
      ],
    });
    expect(card.map(({ revision: of }) => of)).toEqual(['base', 'new', 'base', 'new', 'base', 'new']);
    expect(card.map(({ lot: from }) => from)).toEqual(['oak', 'oak', 'ash', 'ash', 'ash', 'ash']);
  });

  test('reports what two changes at once would confound, and when the wood is not enough', () => {
    const test = ask({ days: 3, parts: ['riser height', 'throat'], lots: [{ name: 'oak', burns: 4 }] });
    expect(codes(test)).toContain('next/several');
    expect(test.says.find(({ message }) => message.code === 'next/lotsShort')!.message.params).toEqual({
      lasts: 4,
      needed: 6,
    });
    expect(codes(ask({ lots: [{ name: 'oak', burns: 1 }] }))).toContain('next/lotsApart');
    expect(codes(ask({ parts: ['riser height'] }))).toContain('next/oneThing');
  });

  test('proposes days from the observed scatter and the difference worth having, and predicts no gain', () => {
    const [tenth, twentieth] = [ask(), ask({ worthKnowing: 0.05 })];
    expect(twentieth.proposedDays!.likely!).toBeGreaterThan(tenth.proposedDays!.likely!);
    expect(tenth.days).toBe(tenth.proposedDays!.likely);
    expect(JSON.stringify(tenth)).not.toMatch(/gain|probab/i);
    const unknown = nextTestOf(ideaSchema.parse({ change: 'x' }), rungs[0]!.slice(0, 1), []);
    expect(unknown.proposedDays).toBeUndefined();
    expect(unknown.days).toBe(3);
  });
});
