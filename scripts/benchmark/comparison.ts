import { compareRevisions } from '../../shared/comparison/compare-revisions.ts';
import { type ComparedBurn, resultOf } from '../../shared/comparison/compared-burn.ts';
import { comparedResults } from '../../shared/comparison/result-scales.ts';
import { mean, variance } from '../../shared/statistics/moments.ts';
import { createRandom } from '../../shared/statistics/random.ts';
import { makeBank, measured } from '../study/comparison/burn-bank.ts';
import type { Measurement } from '../tools/measurement.ts';

const BURNS = 50;
const SIMULATED = 6;
const ROUNDS = 25;
const DRAWS = 3_000_000;

/**
 * Two revisions of fifty burns each compared from their analyses, beside the floor of a mean and a variance of the same
 * values; and normal draws, beside the engine's own uniform ones.
 */
export default function comparisonBenchmark(): Measurement[] {
  const [a, b] = [group('a', '1'), group('b', '2')];
  const compared = typicalMs(() => compareRevisions(a, b));
  const floor = typicalMs(() => meansOfEveryResult(a, b));
  const values = new Float64Array(DRAWS);
  const random = createRandom('bench');
  const normals = typicalMs(() => random.fillNormal(values), 5);
  const uniforms = typicalMs(() => {
    for (let index = 0; index < DRAWS; index++) values[index] = Math.random();
  }, 5);
  return [
    row(`two revisions of ${BURNS} burns compared`, compared, floor, 'log, mean and variance of the same results'),
    row(`${DRAWS / 1e6} million normal draws`, normals, uniforms, 'as many uniform draws of the engine'),
  ];
}

function group(name: string, revision: '1' | '2'): ComparedBurn[] {
  const bank = makeBank({ revision, count: SIMULATED, seed: name });
  return Array.from({ length: BURNS }, (_, index) => {
    const using = {
      lot: `lot ${name}${index % 3}`,
      scale: 'scale',
      burn: `${name}${index}`,
      day: index,
      studySeed: 'bench',
    };
    const { record, analysis } = measured(bank[index % bank.length]!, revision, using);
    return { burn: record, analysis };
  });
}

function meansOfEveryResult(a: readonly ComparedBurn[], b: readonly ComparedBurn[]): number {
  let sum = 0;
  for (const id of comparedResults) {
    for (const burns of [a, b]) {
      const logs = burns.flatMap((burn) => Math.log(Math.max(1e-9, resultOf(burn, id)?.value ?? 1)));
      sum += mean(logs) + variance(logs);
    }
  }
  return sum;
}

function row(name: string, value: number, floor: number, floorName: string): Measurement {
  return { name, value, unit: 'ms', floor, floorName, ratio: value / floor };
}

function typicalMs(work: () => unknown, rounds = ROUNDS): number {
  const times = Array.from({ length: rounds }, () => {
    const startedMs = performance.now();
    work();
    return performance.now() - startedMs;
  });
  return times.sort((x, y) => x - y)[rounds >> 1]!;
}
