import { join } from 'node:path';
import { expect, test } from 'vitest';
import { driftOf, stepOf } from '../../server/survey/conclusions.ts';
import { questionNames, questions, type SurveyChoice } from '../../server/survey/questions.ts';
import { sqlOf, survey } from '../../server/survey/survey.ts';
import { surveyEn } from '../../shared/language/survey/survey.en.ts';
import { createRandom } from '../../shared/statistics/random.ts';
import { summarise, welchComparison } from '../../shared/statistics/two-samples.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';
import * as own from './without-sql.ts';
import { type GivenBurn, publishedBurns } from './written-burns.ts';

const wood: SurveyChoice = { result: 'dryWoodPerBatch', simulated: false, start: 'cold' };

/**
 * Sulfur in coal, % (m/m), of eight laboratories at four levels: ISO 5725-2:1994, annex B, example 1. Data and results
 * from memory; they agree to the last printed digit at every level, which supports both.
 */
const coal = {
  '1': [
    [0.71, 0.71, 0.7, 0.71],
    [0.69, 0.67, 0.68],
    [0.66, 0.65, 0.69],
    [0.67, 0.65, 0.66],
    [0.7, 0.69, 0.66, 0.71, 0.69],
    [0.73, 0.74, 0.73],
    [0.71, 0.71, 0.69],
    [0.7, 0.65, 0.68],
  ],
  '2': [
    [1.2, 1.18, 1.23, 1.21],
    [1.22, 1.21, 1.22],
    [1.28, 1.31, 1.3],
    [1.23, 1.18, 1.2],
    [1.31, 1.22, 1.22, 1.24],
    [1.39, 1.36, 1.37],
    [1.2, 1.26, 1.26],
    [1.24, 1.22, 1.3],
  ],
  '3': [
    [1.68, 1.7, 1.68, 1.69],
    [1.64, 1.64, 1.65],
    [1.61, 1.61, 1.62],
    [1.68, 1.66, 1.66],
    [1.64, 1.67, 1.6, 1.66, 1.68],
    [1.7, 1.73, 1.73],
    [1.69, 1.7, 1.68],
    [1.67, 1.68, 1.67],
  ],
  '4': [
    [3.26, 3.26, 3.2, 3.24],
    [3.2, 3.2, 3.2],
    [3.37, 3.36, 3.38],
    [3.16, 3.22, 3.23],
    [3.2, 3.19, 3.18, 3.27, 3.24],
    [3.27, 3.31, 3.29],
    [3.27, 3.24, 3.23],
    [3.25, 3.26, 3.26],
  ],
};

test('repeatability and reproducibility of the example of ISO 5725-2 are those printed in the standard', async () => {
  const burns = Object.entries(coal).flatMap(([revision, laboratories]) =>
    laboratories.flatMap((results, bench) =>
      results.map((value, number) => ({
        bench: `laboratory ${bench + 1}`,
        burn: `${revision} ${bench} ${number}`,
        stove: 'coal',
        revision,
        results: { dryWoodPerBatch: [value] as const },
      })),
    ),
  );
  const { findings } = await survey(publishedBurns(burns), wood);
  const figures = findings.repeatability.map((row) => [
    row.revision,
    row.mean!.toFixed(3),
    row.repeatability_deviation!.toFixed(3),
    row.reproducibility_deviation!.toFixed(3),
  ]);
  expect(figures).toEqual([
    ['1', '0.690', '0.015', '0.026'],
    ['2', '1.252', '0.029', '0.061'],
    ['3', '1.667', '0.017', '0.035'],
    ['4', '3.250', '0.026', '0.058'],
  ]);
});

/**
 * Draws benches, stoves, revisions and lots, with burns that do not count, that have missing data, or that are single.
 */
function drawnBurns(seed: string): GivenBurn[] {
  const random = createRandom(seed);
  const oneOf = <T>(...things: readonly T[]) => things[Math.floor(random.uniform() * things.length)]!;
  return Array.from({ length: 300 }, (_, number): GivenBurn => {
    const revision = oneOf('1', '2', '3', undefined);
    const value = 3 + (number % 7) / 10 + 0.1 * random.normal();
    return {
      bench: oneOf('a', 'b', 'c', "d'[e]"),
      burn: `burn ${String(number).padStart(4, '0')}`,
      stove: oneOf('Heron', 'Heron, second', 'Stork'),
      revision,
      parent: revision === '2' ? '1' : revision === '3' ? '2' : undefined,
      lot: oneOf('beech', 'ash', undefined),
      startedDay: random.uniform() < 0.1 ? undefined : Math.floor(random.uniform() * 700),
      status: random.uniform() < 0.1 ? oneOf('ended', 'setAside') : 'complete',
      simulated: random.uniform() < 0.1,
      start: oneOf('cold', 'cold', 'cold', 'hot', undefined),
      results: {
        dryWoodPerBatch: random.uniform() < 0.05 ? [null] : [value, 0.1 + 0.1 * random.uniform()],
        timeToTarget: [1800 + 100 * random.normal(), random.uniform() < 0.1 ? 0 : 60],
        thermalEfficiency: [0.2 + 0.01 * random.normal()],
      },
    };
  });
}

type Row = Readonly<Record<string, unknown>>;

/** Twelve digits, of which the page prints four; sums are taken in another order here. Rows are sorted by their key. */
function toTheDigit(rows: readonly Row[]): string[] {
  return rows
    .map((row) =>
      JSON.stringify(
        Object.entries(row)
          .toSorted(([a], [b]) => (a < b ? -1 : 1))
          .map(([name, value]) => [name, typeof value === 'number' ? Number(value.toPrecision(10)) : value]),
      ),
    )
    .toSorted();
}

test.each(['heron', 'stork', 'crane'])(
  'every question has the same answer without SQL, from the rows of another reader (%s)',
  async (seed) => {
    const folder = publishedBurns(drawnBurns(seed), join(temporaryFolder(), "odd [a-b] 'name' *"));
    for (const choice of [wood, { ...wood, start: 'hot' as const }, { ...wood, result: 'timeToTarget' }]) {
      const { findings } = await survey(folder, choice);
      const counted = await own.countedBurns(folder, choice);
      const asked = counted.filter(({ result }) => result === choice.result);
      const expected = {
        'by-revision': own.byRevision(asked),
        'step-on-every-bench': own.steps(asked),
        'drifting-benches': own.drifts(asked),
        'lot-on-several-stoves': own.lots(asked),
        repeatability: own.repeatability(asked),
        'declared-intervals': own.declaredIntervals(counted),
      };
      for (const [question, rows] of Object.entries(expected)) {
        expect(rows.length, question).toBeGreaterThan(0);
        expect(toTheDigit(findings[question as keyof typeof expected]), question).toEqual(toTheDigit(rows));
      }
      expect(findings.contents.map(({ counted_burns }) => counted_burns).reduce((a, b) => a! + b!, 0)).toBe(
        asked.length,
      );
    }
  },
);

test('a burn that two benches published is counted once, for the lower identifier', async () => {
  const burn: GivenBurn = { bench: 'b', burn: 'one', stove: 'Heron', revision: '1', results: { dryWoodPerBatch: [3] } };
  const { findings } = await survey(publishedBurns([burn, { ...burn, bench: 'a' }]), wood);
  expect(findings.contents.map(({ bench, burns, counted_burns }) => [bench, burns, counted_burns])).toEqual([
    ['a', 1, 1],
  ]);
});

test('the interval of a step on one bench is that of the two-sample comparison by Welch', async () => {
  const masses = { '1': [3.1, 3.3, 3.2, 3.0], '2': [2.9, 2.7, 2.8] };
  const burns = Object.entries(masses).flatMap(([revision, each]) =>
    each.map((value, number) => ({
      bench: 'a',
      burn: `${revision} ${number}`,
      stove: 'Heron',
      revision,
      parent: revision === '2' ? '1' : undefined,
      results: { dryWoodPerBatch: [value] as const },
    })),
  );
  const { findings } = await survey(publishedBurns(burns), wood);
  const step = stepOf(findings['step-on-every-bench'][0]!);
  const { difference, interval } = welchComparison(summarise(masses['2']), summarise(masses['1']));
  expect(step.value).toBeCloseTo(difference / 3.15, 12);
  expect(step.interval![0]).toBeCloseTo(interval[0] / 3.15, 12);
  expect(step.interval![1]).toBeCloseTo(interval[1] / 3.15, 12);
});

test('a bench among twenty counts as drifting only outside the interval of all of them together', () => {
  const row = {
    bench_name: 'a',
    bench: 'a',
    burns: 32,
    revisions: 1,
    drift_per_year: 0.05,
    degrees_of_freedom: 30,
    standard_error_per_year: 0.02,
  };
  // Student's t of 30 degrees of freedom at 97.5 %: 2.042 (NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.2).
  expect(driftOf(row, 1).interval![0]).toBeCloseTo(0.05 - 2.042 * 0.02, 4);
  expect(driftOf(row, 20).interval![0]).toBeLessThan(0);
});

test('each question is a separate file that begins with its sentence, and its rows have the declared columns', async () => {
  const folder = publishedBurns(drawnBurns('columns'));
  const { findings } = await survey(folder, wood);
  for (const question of questionNames) {
    const [first] = sqlOf(question).split('\n');
    expect(first).toBe(`-- ${surveyEn.questions[question].question}`);
    expect(Object.keys(findings[question][0]!)).toEqual(Object.keys(questions[question]));
  }
});
