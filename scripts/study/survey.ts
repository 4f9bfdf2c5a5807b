/**
 * Measures the cost of the questions of a survey relative to counting the rows of the same files in the same run, at
 * 100 and 10,000 burns, and checks whether they find the effects built into the simulated burns. Times are medians of
 * several runs on warm files.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { DuckDBConnection } from '@duckdb/node-api';
import { directionOf, driftOf, stepOf } from '../../server/survey/conclusions.ts';
import { withDuckdb } from '../../server/survey/duckdb.ts';
import { questionNames, type SurveyChoice } from '../../server/survey/questions.ts';
import { openDataset, sqlOf, survey } from '../../server/survey/survey.ts';
import { median } from '../../shared/statistics/quantile.ts';
import type { Study } from '../tools/study.ts';
import { truth, writeSimulatedDataset } from './dataset/simulated-benches.ts';

const choice: SurveyChoice = { result: 'dryWoodPerBatch', simulated: true, start: 'cold' };

/** Counts all rows in the files that the questions read. */
const COUNT = ['burns', 'results']
  .map((table) => `SELECT count(*) FROM read_parquet(getvariable('folder') || '/${table}/**/*.parquet')`)
  .join(' UNION ALL ');

/** A question that reads a few columns of the counted rows, and joins them, costs no more than this many counts. */
const MOST_COUNTS = 40;

const study: Study = async ({ quick }) => {
  const extents = quick ? [{ benches: 8, burns: 400 }] : [100, 1000, 10_000].map((burns) => ({ benches: 20, burns }));
  const outcomes: Awaited<ReturnType<typeof asked>>[] = [];
  for (const extent of extents) outcomes.push(await asked(extent, quick ? 3 : 9));
  const largest = outcomes.at(-1)!;
  const smallest = outcomes[0]!;
  return {
    tables: [
      {
        title: 'a survey of simulated burns: ms of each question, beside count(*) of the same files in the same run',
        columns: ['question', ...outcomes.map(({ burns }) => `${burns} burns`), 'counts at the most burns', 'growth'],
        rows: ['count', ...questionNames].map((name) => [
          name === 'count' ? 'count(*) of burns and results' : name,
          ...outcomes.map(({ ms }) => ms[name]!),
          largest.ms[name]! / largest.ms.count!,
          largest.ms[name]! / smallest.ms[name]!,
        ]),
      },
      {
        title: `what was found: revision 2 takes ${-100 * truth.revisions['2']} % less wood, one bench drifts by ${100 * truth.driftAYear} % a year`,
        columns: [
          'burns',
          'steps 1 → 2 of a bench',
          'of them less',
          'beyond chance',
          'more beyond chance',
          'mean step %',
          'benches that drift',
          'the right one among them',
          'its drift % a year',
        ],
        rows: outcomes.map(({ burns, found }) => [burns, ...found]),
      },
    ],
    refuted: questionNames.flatMap((name) =>
      largest.ms[name]! > MOST_COUNTS * largest.ms.count!
        ? [`${name} takes more than ${MOST_COUNTS} times as long as counting at ${largest.burns} burns`]
        : [],
    ),
  };
};

async function asked({ benches, burns }: { benches: number; burns: number }, runs: number) {
  const folder = mkdtempSync(join(tmpdir(), 'stovebench-survey-'));
  try {
    writeSimulatedDataset(folder, { benches, burns, withReadings: 0 });
    const ms = await withDuckdb(async (connection) => {
      await openDataset(connection, folder, choice);
      const questions = [['count', COUNT] as const, ...questionNames.map((name) => [name, sqlOf(name)] as const)];
      // In turns, so that other load of the machine affects all of them alike.
      const times: Record<string, number[]> = Object.fromEntries(questions.map(([name]) => [name, []]));
      for (let run = 0; run <= runs; run++) {
        for (const [name, sql] of questions) {
          const taken = await timeOf(connection, sql);
          if (run > 0) times[name]!.push(taken);
        }
      }
      return Object.fromEntries(Object.entries(times).map(([name, each]) => [name, median(each)]));
    });
    return { burns, ms, found: await foundIn(folder) };
  } finally {
    rmSync(folder, { recursive: true });
  }
}

async function timeOf(connection: DuckDBConnection, sql: string): Promise<number> {
  const beganMs = performance.now();
  await connection.runAndReadAll(sql);
  return performance.now() - beganMs;
}

async function foundIn(folder: string): Promise<(number | string)[]> {
  const { findings } = await survey(folder, choice);
  const steps = findings['step-on-every-bench'].filter((row) => row.from_revision === '1' && row.to_revision === '2');
  const directions = steps.map((row) => directionOf(stepOf(row)));
  const benches = findings['drifting-benches'];
  const drifting = benches.filter((row) => directionOf(driftOf(row, benches.length)) !== 0);
  const right = drifting.find((row) => row.bench_name === `Simulated bench ${truth.driftingBench + 1}`);
  return [
    steps.length,
    steps.filter((row) => row.relative_difference! < 0).length,
    directions.filter((direction) => direction < 0).length,
    directions.filter((direction) => direction > 0).length,
    (100 * steps.reduce((sum, row) => sum + row.relative_difference!, 0)) / steps.length,
    drifting.length,
    right ? 'yes' : 'no',
    right ? 100 * right.drift_per_year! : '–',
  ];
}

export default study;
