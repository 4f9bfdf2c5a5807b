/** Contributions to a burn's result of errors it may share with other burns, on the comparing scale. */
import type { BudgetEntry, ValueResult } from '../contract/results.ts';
import type { ComparingScale } from './result-scales.ts';

/** One burn's result on the comparing scale. */
export interface ComparedValue {
  burnId: string;
  /** On the comparing scale: the logarithm of a ratio result, else the value itself. */
  value: number;
  /** Signed standard-uncertainty contributions on that scale, by the identity of the error. */
  shared: ReadonlyMap<string, number>;
  /** Variance from errors of this burn alone. */
  ownVariance: number;
}

/** @returns undefined where a ratio result is not positive, so that it has no logarithm */
export function comparedValue(
  burnId: string,
  result: Pick<ValueResult, 'value' | 'budget'>,
  scale: ComparingScale,
): ComparedValue | undefined {
  const ratio = scale === 'ratio';
  if (ratio && !(result.value > 0)) return undefined;
  const unit = ratio ? result.value : 1;
  const shared = new Map<string, number>();
  let ownVariance = 0;
  for (const entry of result.budget ?? []) {
    const contribution = (entry.sign * entry.contribution) / unit;
    const identity = sharedIdentity(entry);
    if (identity === undefined) ownVariance += contribution * contribution;
    else shared.set(identity, (shared.get(identity) ?? 0) + contribution);
  }
  return { burnId, value: ratio ? Math.log(result.value) : result.value, shared, ownVariance };
}

/** Shared contributions of a product of powers of ratio results: Σ exponent × contribution, error by error. */
export function addContributions(
  terms: readonly { shared: ReadonlyMap<string, number>; exponent: number }[],
): Map<string, number> {
  const sum = new Map<string, number>();
  for (const { shared, exponent } of terms) {
    if (exponent === 0) continue;
    for (const [identity, contribution] of shared) {
      sum.set(identity, (sum.get(identity) ?? 0) + exponent * contribution);
    }
  }
  return sum;
}

/** Errors of a thing that are independent in every burn: a scale is tared each time. */
const newInEveryBurn: ReadonlySet<string> = new Set(['scale.zero']);

/** The identity of an error: the thing it belongs to, and the input it affects. */
function sharedIdentity({ sharing, sharedId, input }: BudgetEntry): string | undefined {
  if (sharing === 'none' || sharedId === undefined || newInEveryBurn.has(input)) return undefined;
  return `${sharing} ${sharedId} ${input}`;
}

/** Name of the input behind an identity. */
export function inputOf(identity: string): string {
  return identity.slice(identity.lastIndexOf(' ') + 1);
}
