/**
 * Monte Carlo over all inputs jointly (JCGM 101), so that an error shared by two quantities changes both and one-sided
 * errors stay one-sided. Each input has a random stream of its own, keyed by the seed and its name, independent of what
 * else is drawn and in which order.
 */
import { createRandom, type Random } from '../../statistics/random.ts';
import { type Input, ONE_SIDED_WIDTH } from './declaration.ts';
import { interval95 } from './interval.ts';
import { bind, keyOf, type Plan } from './plan.ts';

export interface Spread {
  readonly standardUncertainty: number;
  /** Quantiles of 2.5 and 97.5 % of the draws, widened to hold the value. */
  readonly interval95: [number, number];
}

/** Draws per batch: even, since they come in pairs, and few enough that all columns stay in the processor's cache. */
const BATCH = 256;

/**
 * Returns the spread of each result of the plan.
 * @param values of the results at the best estimate
 */
export function spreads(plan: Plan, values: readonly number[], draws: number, seed: number | string): Spread[] {
  return deviationsOf(plan, values, draws, seed).map(({ deviations, sum, squares }, at) => {
    const standardUncertainty = draws < 2 ? 0 : Math.sqrt(Math.max(0, squares - (sum * sum) / draws) / (draws - 1));
    // A result that no input changes has no tails.
    const [low, high] = standardUncertainty === 0 ? [0, 0] : interval95(deviations);
    const value = values[at]!;
    return { standardUncertainty, interval95: [value + Math.min(low, 0), value + Math.max(high, 0)] };
  });
}

/** The deviation of each draw of a result from its best estimate; sums of these lose no digits to cancellation. */
interface Deviations {
  readonly deviations: Float32Array;
  sum: number;
  squares: number;
}

/**
 * The draws of each result, in antithetic pairs: every draw has its mirror image about the centre of each distribution
 * (J. M. Hammersley, K. W. Morton, Proc. Camb. Phil. Soc. 52, 1956), which halves the cost and reduces the scatter of
 * the mean. A draw without a finite number (there should be none) counts as the best estimate. Deviations are stored
 * with seven digits, in half the memory.
 */
function deviationsOf(plan: Plan, values: readonly number[], draws: number, seed: number | string): Deviations[] {
  const found = values.map((): Deviations => ({ deviations: new Float32Array(draws), sum: 0, squares: 0 }));
  const columns = Array.from({ length: plan.columnCount }, () => new Float64Array(BATCH));
  const streams = plan.inputs.map((input) => createRandom(`${seed} ${keyOf(input)}`));
  const run = bind(plan, columns);
  for (let from = 0; from < draws; from += BATCH) {
    for (const [at, input] of plan.inputs.entries()) drawPairs(input, columns[at]!, streams[at]!);
    run();
    const pairs = Math.ceil(Math.min(BATCH, draws - from) / 2);
    plan.results.forEach((result, at) => {
      // The last batch may be partial: whole pairs of it, and one draw less where the number is odd.
      save(columns[result]!, 0, pairs, values[at]!, found[at]!, from);
      save(columns[result]!, BATCH / 2, Math.min(pairs, draws - from - pairs), values[at]!, found[at]!, from + pairs);
    });
  }
  return found;
}

function save(drawn: Float64Array, first: number, count: number, value: number, into: Deviations, from: number): void {
  const { deviations } = into;
  let { sum, squares } = into;
  for (let at = 0; at < count; at++) {
    const deviation = drawn[first + at]! - value;
    deviations[from + at] = deviation;
    sum += deviation;
    squares += deviation * deviation;
  }
  // One test for all draws: the sum is not finite where a draw is not.
  if (!Number.isFinite(squares) && putNumbers(drawn.subarray(first, first + count), value)) {
    save(drawn, first, count, value, into, from);
    return;
  }
  into.sum = sum;
  into.squares = squares;
}

/** @returns whether a draw without a finite number was replaced by the value */
function putNumbers(drawn: Float64Array, value: number): boolean {
  let isChanged = false;
  for (let at = 0; at < drawn.length; at++) {
    if (Number.isFinite(drawn[at]!)) continue;
    drawn[at] = value;
    isChanged = true;
  }
  return isChanged;
}

/**
 * Writes draws to the first half of the column and their mirror images to the second, so that each pair is complete in
 * every batch.
 */
function drawPairs({ value, standardUncertainty: u, distribution }: Input, column: Float64Array, random: Random): void {
  const half = column.length / 2;
  const drawn = column.subarray(0, half);
  const mirrored = column.subarray(half);
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
    drawn[at] = one;
    mirrored[at] = twiceCentre - one;
  }
}
