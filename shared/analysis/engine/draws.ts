/**
 * Monte Carlo over all inputs jointly (JCGM 101), so that an error shared by two quantities moves both and one-sided errors stay
 * one-sided. Each input has a stream of random numbers of its own, keyed by the seed and its name: what else is drawn, and in which
 * order, changes nothing.
 */
import { createRandom, type Random } from '../../statistics/random.ts';
import { type Input, ONE_SIDED_WIDTH } from './declaration.ts';
import { interval95 } from './interval.ts';
import { compute, keyOf, type Plan } from './plan.ts';

export interface Spread {
  readonly standardUncertainty: number;
  /** Quantiles of 2.5 and 97.5 % of the draws, widened to hold the value. */
  readonly interval95: [number, number];
}

/** Draws worked on together: even, for they come in pairs, and few enough that all columns stay in the processor's cache. */
const BATCH = 256;

/**
 * One answer for each result of the plan.
 * @param values of the results at the best estimate
 */
export function spreads(plan: Plan, values: readonly number[], draws: number, seed: number | string): Spread[] {
  const deviations = deviationsOf(plan, values, draws, seed);
  return values.map((value, at) => {
    const standardUncertainty = standardDeviation(deviations[at]!);
    // A result that no input moves has no tails to look for.
    const [low, high] = standardUncertainty === 0 ? [0, 0] : interval95(deviations[at]!);
    return { standardUncertainty, interval95: [value + Math.min(low, 0), value + Math.max(high, 0)] };
  });
}

/**
 * How far each draw of each result lies from its best estimate, in antithetic pairs: every draw has its mirror image about the
 * centre of each distribution (J. M. Hammersley, K. W. Morton, Proc. Camb. Phil. Soc. 52, 1956), which halves the cost and steadies
 * the mean. A draw that leads to no number (there should be none) counts as the best estimate. Deviations keep seven digits, and
 * half the memory to go through.
 */
function deviationsOf(plan: Plan, values: readonly number[], draws: number, seed: number | string): Float32Array[] {
  const deviations = values.map(() => new Float32Array(draws));
  const columns = Array.from({ length: plan.columnCount }, () => new Float64Array(BATCH));
  const streams = plan.inputs.map((input) => createRandom(`${seed} ${keyOf(input)}`));
  for (let from = 0; from < draws; from += BATCH) {
    for (const [at, input] of plan.inputs.entries()) drawPairs(input, columns[at]!, streams[at]!);
    compute(plan, columns);
    const pairs = Math.ceil(Math.min(BATCH, draws - from) / 2);
    plan.results.forEach((result, at) => {
      // The last batch may be a part of one: whole pairs of it.
      save(columns[result]!.subarray(0, pairs), values[at]!, deviations[at]!, from);
      save(columns[result]!.subarray(BATCH / 2, BATCH / 2 + pairs), values[at]!, deviations[at]!, from + pairs);
    });
  }
  return deviations;
}

/** What does not fit, the one draw too many of an odd number, a typed array lets go of. */
function save(drawn: Float64Array, value: number, deviations: Float32Array, from: number): void {
  for (let draw = 0; draw < drawn.length; draw++) {
    const deviation = drawn[draw]! - value;
    deviations[from + draw] = Number.isFinite(deviation) ? deviation : 0;
  }
}

/** Draws in the first half of the column, their mirror images in the second, so that each pair is complete in every batch. */
function drawPairs({ value, standardUncertainty: u, distribution }: Input, column: Float64Array, random: Random): void {
  const half = column.length / 2;
  const drawn = column.subarray(0, half);
  let start = value;
  let width = u;
  let twiceCentre = 2 * value;
  if (distribution === 'normal') random.fillNormal(drawn);
  else {
    random.fillUniform(drawn);
    width = ONE_SIDED_WIDTH * u;
    if (distribution === 'oneSided') twiceCentre += width;
    else start -= Math.sqrt(3) * u;
  }
  for (let at = 0; at < half; at++) {
    const one = start + width * drawn[at]!;
    column[at] = one;
    column[half + at] = twiceCentre - one;
  }
}

/** In one pass: about their best estimate, deviations are too small to cancel. */
function standardDeviation(deviations: Float32Array): number {
  const count = deviations.length;
  if (count < 2) return 0;
  let sum = 0;
  let squares = 0;
  for (let at = 0; at < count; at++) {
    const deviation = deviations[at]!;
    sum += deviation;
    squares += deviation * deviation;
  }
  return Math.sqrt(Math.max(0, squares - (sum * sum) / count) / (count - 1));
}
