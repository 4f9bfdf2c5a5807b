/** How many more burns would settle it, and which measurement holds the answer back most. */
import { standardDeviationInterval } from '../statistics/chi-square.ts';
import { noncentralTCdf } from '../statistics/noncentral-t.ts';
import { studentTQuantile } from '../statistics/student-t.ts';
import type { ComparedResult } from './compare-result.ts';
import { sharesOf } from './compare-result.ts';
import { scatterOf } from './mean-difference.ts';

const POWER = 0.8;
const SIGNIFICANCE = 0.05;
/** Confidence of the interval for the scatter that the range of burns follows from. */
const SCATTER_COVERAGE = 0.8;
const MOST_FURTHER_BURNS = 200;

/** An end of the range is left out where more than two hundred burns would not do. */
export interface FurtherBurns {
  low?: number;
  likely?: number;
  high?: number;
}

/**
 * Further burns of each revision with which a true difference would be found with 80 % power, as a range because the scatter
 * itself is known from few burns only. Burns are planned as two groups with the shared errors they have now.
 * @param worthKnowing relative difference to be found, above 0
 * @returns undefined where the scatter cannot be judged (a single burn of either, or no mean compared)
 */
export function furtherBurns(result: ComparedResult, worthKnowing: number): FurtherBurns | undefined {
  const { a, b } = result.values;
  if (!result.statistics || a.length < 2 || b.length < 2) return undefined;
  const difference =
    result.scale.scale === 'ratio' ? Math.log1p(worthKnowing) : worthKnowing * Math.abs(result.figures.a);
  const sharedVariance = result.statistics.shared.reduce((sum, { variance }) => sum + variance, 0);
  const freedom = a.length + b.length - 2;
  const pooled = Math.sqrt(((a.length - 1) * scatterOf(a) ** 2 + (b.length - 1) * scatterOf(b) ** 2) / freedom);
  const [small, large] = standardDeviationInterval(pooled, freedom, SCATTER_COVERAGE);
  const needed = (scatter: number) => smallestAddition(a.length, b.length, scatter, sharedVariance, difference);
  const [low, likely, high] = [needed(small), needed(pooled), needed(large)];
  return {
    ...(low === undefined ? {} : { low }),
    ...(likely === undefined ? {} : { likely }),
    ...(high === undefined ? {} : { high }),
  };
}

function smallestAddition(
  countA: number,
  countB: number,
  scatter: number,
  sharedVariance: number,
  difference: number,
): number | undefined {
  const reached = (more: number) =>
    powerWith(countA + more, countB + more, scatter, sharedVariance, difference) >= POWER;
  if (!reached(MOST_FURTHER_BURNS)) return undefined;
  let low = -1;
  let high = MOST_FURTHER_BURNS;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (middle >= 0 && reached(middle)) high = middle;
    else low = middle;
  }
  return high;
}

function powerWith(
  countA: number,
  countB: number,
  scatter: number,
  sharedVariance: number,
  difference: number,
): number {
  const [partA, partB] = [scatter ** 2 / countA, scatter ** 2 / countB];
  const total = partA + partB + sharedVariance;
  if (total === 0) return 1;
  const spent = partA ** 2 / (countA - 1) + partB ** 2 / (countB - 1);
  const freedom = spent === 0 ? Infinity : total ** 2 / spent;
  const critical = -studentTQuantile(SIGNIFICANCE / 2, freedom);
  return 1 - noncentralTCdf(critical, freedom, difference / Math.sqrt(total));
}

/** The largest part of the doubt: "scatter", or the input whose shared error does not cancel between the revisions. */
export function largestDoubt(result: ComparedResult): { source: string; share: number } | undefined {
  if (!result.statistics) return undefined;
  const shares = sharesOf(result.statistics);
  const scatter = shares
    .filter(({ source }) => source.startsWith('scatter'))
    .reduce((sum, { share }) => sum + share, 0);
  const input = shares.find(({ source }) => !source.startsWith('scatter'));
  if (input && input.share > scatter) return input;
  return shares.length > 0 ? { source: 'scatter', share: scatter } : undefined;
}
