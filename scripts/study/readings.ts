/**
 * Do intervals hold the truth where readings are seldom, coarse, interrupted or doubtful? Beside each coverage stand the width of
 * the interval and the root mean square of the error: where an error is bounded, an interval of 95 % is more than two such errors
 * to each side and holds more often than it claims.
 */
import type { Study } from '../tools/study.ts';
import { readingCases, readingClaims, tallyCase } from './readings/cases.ts';

const DRAWS = 10_000;

const study: Study = ({ quick }) => {
  const rows = readingCases.map((each) => ({ each, found: tallyCase(each, quick ? 60 : 600, DRAWS) }));
  const columns = ['readings', 'result', 'burns', 'held', 'missing', 'mean error', 'rms error', 'mean width'];
  return {
    tables: [
      {
        title: '95 % intervals that held the truth',
        columns,
        rows: rows.map(({ each, found }) => [
          each.name,
          each.result,
          found.trials,
          found.held,
          Object.entries(found.missing)
            .map(([code, count]) => `${count} ${code}`)
            .join(', '),
          found.meanError,
          found.error,
          found.meanWidth,
        ]),
      },
    ],
    refuted: rows.flatMap(({ each, found }) => readingClaims(each, found)),
  };
};

export default study;
