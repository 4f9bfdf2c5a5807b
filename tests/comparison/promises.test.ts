/** A small form of the study in scripts/study/comparison.ts: whole simulated burns, measured, analysed, compared, predicted from. */
import { expect, test } from 'vitest';
import { makeBank } from '../../scripts/study/comparison/burn-bank.ts';
import { predictLoads } from '../../scripts/study/comparison/other-loads.ts';
import { comparePairs } from '../../scripts/study/comparison/revision-pairs.ts';
import { loadClaims, pairClaims } from '../../scripts/study/comparison.ts';

/** Whole burns are simulated and analysed: a few seconds of work, more on a busy machine. */
const PATIENCE_MS = 120_000;

const revision1 = makeBank({ revision: '1', count: 16, seed: 'revision 1' });

test(
  'intervals contain the difference of two revisions, with two lots of wood and two scales, and equal revisions rarely differ',
  () => {
    const revision2 = makeBank({ revision: '2', count: 16, seed: 'revision 2' });
    const outcomes = comparePairs(revision1, revision2, { lots: 2, scales: 2 }, [3, 5], 20);
    expect(outcomes.flatMap(pairClaims)).toEqual([]);
    expect(outcomes.every(({ pairs }) => pairs >= 18)).toBe(true);
    // Five burns give a smaller interval than three.
    expect(outcomes[1]!.halfWidth).toBeLessThan(outcomes[0]!.halfWidth);
  },
  PATIENCE_MS,
);

test(
  'burns at 29 kg predict burns at 40 kg',
  () => {
    const heavier = makeBank({ revision: '1', count: 12, waterKg: 40.6, holdS: 0, seed: 'no hold' });
    expect(loadClaims(predictLoads(revision1, heavier, 3, 25))).toEqual([]);
  },
  PATIENCE_MS,
);

test(
  'burns predict the wood of a whole new batch, in an interval about as wide as necessary',
  () => {
    const outcome = predictLoads(revision1, revision1, 4, 25);
    expect(loadClaims(outcome)).toEqual([]);
    const { batch, wood, hold } = outcome.outcomes;
    expect(batch.trials).toBe(25);
    // The normal interval of 90 % is 3.3 standard deviations wide; that of four burns, by Student's t, a half more.
    expect(batch.meanWidth).toBeLessThan(7 * batch.rmsError);
    // The errors of the wood before and after the target compensate: their sum has a smaller uncertainty than either.
    expect(batch.meanWidth).toBeLessThan(wood.meanWidth);
    expect(batch.meanWidth).toBeLessThan(hold.meanWidth);
  },
  PATIENCE_MS,
);
