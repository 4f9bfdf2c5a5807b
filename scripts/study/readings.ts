/**
 * Checks whether intervals cover the truth where readings are rare, coarse, interrupted or doubtful. Next to each
 * coverage are the width of the interval and the root mean square of the error: where an error is bounded, an interval
 * of 95 % is wider than two such errors to each side and covers more often than it claims.
 */
import type { Study } from '../tools/study.ts';
import { readingCases, readingClaims, tallyCase } from './readings/cases.ts';
import { coolingCases, coolingClaims, tallyCoolings } from './readings/coolings.ts';
import type { Tally } from './readings/tally.ts';

const DRAWS = 10_000;

const study: Study = ({ quick }) => {
  const rows = readingCases.map((each) => ({ each, found: tallyCase(each, quick ? 60 : 600, DRAWS) }));
  const coolings = coolingCases.map((each) => ({ each, found: tallyCoolings(each, quick ? 60 : 600, DRAWS) }));
  const columns = ['result', 'burns', 'held', 'missing', 'mean error', 'rms error', 'mean width'];
  const figures = ({ trials, held, missing, meanError, error, meanWidth }: Tally) => [
    trials,
    held,
    Object.entries(missing)
      .map(([code, count]) => `${count} ${code}`)
      .join(', '),
    meanError,
    error,
    meanWidth,
  ];
  return {
    tables: [
      {
        title: '95 % intervals that held the truth',
        columns: ['readings', ...columns],
        rows: rows.map(({ each, found }) => [each.name, each.result, ...figures(found)]),
      },
      {
        title: 'the same of a pot that only cools, W/K',
        columns: ['pot', ...columns],
        rows: coolings.map(({ each, found }) => [each.name, 'lossCoefficient', ...figures(found)]),
      },
    ],
    refuted: [
      ...rows.flatMap(({ each, found }) => readingClaims(each, found)),
      ...coolings.flatMap(({ each, found }) => coolingClaims(each, found)),
    ],
  };
};

export default study;
