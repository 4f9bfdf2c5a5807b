/** How often an interval contains the truth, how far the value is from it, and how wide the interval is. */
import { analyse } from '../../../shared/analysis/analyse.ts';
import type { BurnRecord } from '../../../shared/contract/burn-record.ts';
import { hasValue } from '../../../shared/contract/has-value.ts';
import type { ResultId } from '../../../shared/contract/results.ts';

export interface Tally {
  readonly trials: number;
  readonly held: number;
  /** Burns without the result, by the code of the reason. */
  readonly missing: Readonly<Record<string, number>>;
  readonly meanError: number;
  /** Root mean square. */
  readonly error: number;
  readonly meanWidth: number;
}

/** Analyses each record and compares one of its results with the truth. */
export function tally(burns: Iterable<{ record: BurnRecord; truth: number }>, id: ResultId, draws: number): Tally {
  let [trials, held, sum, squares, width] = [0, 0, 0, 0, 0];
  const missing: Record<string, number> = {};
  for (const { record, truth } of burns) {
    const result = analyse(record, { draws }).results.find((candidate) => candidate.id === id)!;
    if (!hasValue(result)) {
      missing[result.missing.code] = (missing[result.missing.code] ?? 0) + 1;
      continue;
    }
    const [low, high] = result.interval95!;
    trials += 1;
    if (truth >= low && truth <= high) held += 1;
    sum += result.value - truth;
    squares += (result.value - truth) ** 2;
    width += high - low;
  }
  const mean = (total: number) => total / Math.max(1, trials);
  return { trials, held, missing, meanError: mean(sum), error: Math.sqrt(mean(squares)), meanWidth: mean(width) };
}
