/**
 * Full results of one burn with 100,000 draws (4 h, eight channels, one scan a second; meant to stay under 200 ms), and the estimate of
 * a running burn for one scan (under 2 ms). Floors: one pass over the readings as typed arrays with the bare draws of as many normal
 * numbers; and one pass over the last two minutes of readings.
 */

import { toBurnRecord } from '../../server/simulator/burn-record.ts';
import { heronBurns } from '../../server/simulator/heron.ts';
import { simulateBurn } from '../../server/simulator/simulate-burn.ts';
import { analyse, DRAWS } from '../../shared/analysis/analyse.ts';
import { createLiveBurn } from '../../shared/analysis/live/live-burn.ts';
import type { BurnRecord } from '../../shared/contract/burn-record.ts';
import { median } from '../../shared/statistics/quantile.ts';
import { createRandom } from '../../shared/statistics/random.ts';
import type { Benchmark, Measurement } from '../tools/measurement.ts';

const RUNS = 9;
const SCANS = 14_400;
/** Uncertain inputs of such a burn, each drawn for every draw. */
const INPUTS = 36;

const bench: Benchmark = () => {
  const record = longBurn();
  return [
    measureResults('full results, 100,000 draws', record, DRAWS),
    measureResults('values only', record, 0),
    measureLive(record),
  ];
};

function longBurn(): BurnRecord {
  const heron = heronBurns()[0]!;
  const plan = { ...heron.scenario.plan, holdS: 10_200, giveUpAfterS: 5 * 3600 };
  return toBurnRecord(simulateBurn({ ...heron.scenario, plan }, heron.seed, heron.errors), heron.description);
}

function measureResults(name: string, record: BurnRecord, draws: number): Measurement {
  const counts = record.readings.flatMap(({ columns }) =>
    columns.map((column) => Float64Array.from(column.counts, Number)),
  );
  const value = medianMs(() => analyse(record, { draws }));
  const floor = medianMs(() => passOver(counts) + bareDraws(draws));
  return { name, value, unit: 'ms', floor, floorName: 'pass over the readings and bare draws', ratio: value / floor };
}

function measureLive(record: BurnRecord): Measurement {
  const live = createLiveBurn(record);
  live.marks(record.marks);
  const { elapsedUs, columns } = record.readings[0]!;
  const water = record.channels.filter(({ role }) => role === 'water');
  const scans = elapsedUs.slice(0, SCANS).map((moment, at) => ({
    elapsedUs: moment,
    values: Object.fromEntries(
      water.map(({ id, scale }) => [id, columns.find(({ channelId }) => channelId === id)!.counts[at]! * scale]),
    ),
  }));
  const started = performance.now();
  for (const scan of scans) {
    live.scan(scan);
    live.estimate();
  }
  const value = (performance.now() - started) / scans.length;
  const recent = new Float64Array(120);
  const floor = medianMs(() => passOver([recent]));
  return {
    name: 'live estimate, one scan',
    value,
    unit: 'ms',
    floor,
    floorName: 'pass over two minutes of readings',
    ratio: value / floor,
  };
}

/** Answers with the sum, so that no engine may leave the work out. */
function passOver(columns: readonly Float64Array[]): number {
  let sum = 0;
  for (const column of columns) for (let at = 0; at < column.length; at++) sum += column[at]!;
  return sum;
}

function bareDraws(draws: number): number {
  const random = createRandom(1);
  const column = new Float64Array(draws);
  for (let input = 0; input < INPUTS && draws > 0; input++) random.fillNormal(column);
  return column[0] ?? 0;
}

/** Median of several runs after one to warm up. */
function medianMs(work: () => unknown): number {
  work();
  const times = Array.from({ length: RUNS }, () => {
    const started = performance.now();
    work();
    return performance.now() - started;
  });
  return median(times);
}

export default bench;
