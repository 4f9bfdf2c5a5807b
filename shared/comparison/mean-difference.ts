/**
 * The difference between two groups of burns when some errors are shared between burns.
 *
 * Each value is level + run-to-run scatter + Σ cₖzₖ, where zₖ is a shared error of unit deviation and cₖ the burn's signed
 * contribution from it. The observed scatter of a group already contains whatever differs between its burns, so of a shared
 * error only the part that the burns have in common is added: over pairs of different burns, the mean of c·c′. For errors that
 * are the same in every burn of a group the sum over errors becomes Σ(c_B − c_A)²: what cancels between the groups is gone,
 * what differs stays. Degrees of freedom by Welch and Satterthwaite (JCGM 100:2008, G.4), infinite for the shared part.
 */
import { mean, variance } from '../statistics/moments.ts';
import { coverageFactor } from '../statistics/student-t.ts';
import type { ComparedValue } from './contributions.ts';

const COVERAGE = 0.95;

/** A difference b − a on the comparing scale. */
export interface MeanDifference {
  difference: number;
  standardError: number;
  degreesOfFreedom: number;
  interval95: [low: number, high: number];
  /** Variance of the difference from the scatter of each group (one entry for blocks or a borrowed scatter), and from each shared error. */
  scatter: { source: string; variance: number }[];
  shared: { identity: string; variance: number }[];
}

/** Run-to-run standard deviation of a group of at least two. */
export function scatterOf(group: readonly ComparedValue[]): number {
  return Math.sqrt(variance(group.map(({ value }) => value)));
}

/** Variance of the mean of a group from errors its burns share, beyond what their scatter shows; never below zero. */
export function sharedVarianceOfMean(group: readonly ComparedValue[]): number {
  return Math.max(
    0,
    identities(group).reduce((sum, identity) => sum + common(group, identity).square, 0),
  );
}

/** Mean of a group with its interval; no interval from a single burn, which tells no scatter. */
export function meanInterval(group: readonly ComparedValue[]): { level: number; interval95?: [number, number] } {
  const level = mean(group.map(({ value }) => value));
  if (group.length < 2) return { level };
  const scatter = groupScatter('scatter', group, 1 / group.length);
  const shared = [{ identity: 'shared', variance: sharedVarianceOfMean(group) }];
  return { level, interval95: withInterval(level, [scatter], shared).interval95 };
}

/**
 * Two separate groups, by Welch's comparison with shared errors. A group of one burn borrows the scatter of the other.
 * @throws RangeError if both groups have a single burn, or either none: there is no scatter to judge by.
 */
export function compareGroups(a: readonly ComparedValue[], b: readonly ComparedValue[]): MeanDifference {
  if (a.length === 0 || b.length === 0 || a.length + b.length < 3) {
    throw new RangeError('A comparison needs a burn of each and at least two of one');
  }
  const scatter =
    a.length > 1 && b.length > 1
      ? [groupScatter('scatterA', a, 1 / a.length), groupScatter('scatterB', b, 1 / b.length)]
      : [groupScatter('scatter', a.length > 1 ? a : b, 1 / a.length + 1 / b.length)];
  const meanOf = (group: readonly ComparedValue[]) => mean(group.map(({ value }) => value));
  const shared = identities([...a, ...b]).map((identity) => {
    const inA = common(a, identity);
    const inB = common(b, identity);
    return { identity, variance: inA.square + inB.square - 2 * inA.mean * inB.mean };
  });
  return withInterval(meanOf(b) - meanOf(a), scatter, shared);
}

/**
 * Blocks (days, lots) that each hold burns of both groups: the mean of the differences within blocks, by a paired comparison.
 * @throws RangeError for fewer than two blocks or a block that lacks one side.
 */
export function compareBlocks(blocks: readonly { a: ComparedValue[]; b: ComparedValue[] }[]): MeanDifference {
  if (blocks.length < 2 || blocks.some(({ a, b }) => a.length === 0 || b.length === 0)) {
    throw new RangeError('A comparison in blocks needs two blocks with burns of both');
  }
  const differences = blocks.map(({ a, b }): ComparedValue => {
    const sides = [...a, ...b];
    const level = (pick: (burn: ComparedValue) => number) => mean(b.map(pick)) - mean(a.map(pick));
    const own = (group: ComparedValue[]) => group.reduce((sum, burn) => sum + burn.ownVariance, 0) / group.length ** 2;
    return {
      burnId: sides[0]!.burnId,
      value: level(({ value }) => value),
      shared: new Map(identities(sides).map((id) => [id, level(({ shared }) => shared.get(id) ?? 0)])),
      ownVariance: own(a) + own(b),
    };
  });
  const scatter = [groupScatter('scatter', differences, 1 / differences.length)];
  const shared = identities(differences).map((identity) => ({
    identity,
    variance: common(differences, identity).square,
  }));
  return withInterval(mean(differences.map(({ value }) => value)), scatter, shared);
}

interface GroupScatter {
  source: string;
  variance: number;
  degreesOfFreedom: number;
}

/**
 * @param group at least two values, whose scatter is observed
 * @param share of the variance of one value that the difference carries: 1/n for a mean of n
 */
function groupScatter(source: string, group: readonly ComparedValue[], share: number): GroupScatter {
  const observed = scatterOf(group) ** 2;
  if (observed > 0) return { source, variance: observed * share, degreesOfFreedom: group.length - 1 };
  // Values equal to the last digit: the instruments' own errors are then all that is known of the scatter.
  const own = mean(group.map(({ ownVariance }) => ownVariance));
  return { source, variance: own * share, degreesOfFreedom: Infinity };
}

function identities(group: readonly ComparedValue[]): string[] {
  return [...new Set(group.flatMap(({ shared }) => [...shared.keys()]))];
}

/** Mean contribution of one error in a group, and the part of its square that the observed scatter does not contain. */
function common(group: readonly ComparedValue[], identity: string): { mean: number; square: number } {
  const count = group.length;
  let sum = 0;
  let squares = 0;
  for (const { shared } of group) {
    const contribution = shared.get(identity) ?? 0;
    sum += contribution;
    squares += contribution * contribution;
  }
  // A lone burn borrows the scatter of the other group, which knows nothing of this burn's errors.
  const square = count === 1 ? squares : (sum * sum - squares) / (count * (count - 1));
  return { mean: sum / count, square };
}

function withInterval(
  difference: number,
  scatter: GroupScatter[],
  shared: { identity: string; variance: number }[],
): MeanDifference {
  const fromScatter = scatter.reduce((sum, part) => sum + part.variance, 0);
  // Errors shared across the groups burn by burn can make the sum negative; scatter is then not talked down on their account.
  const fromShared = Math.max(
    0,
    shared.reduce((sum, part) => sum + part.variance, 0),
  );
  const total = fromScatter + fromShared;
  const spent = scatter.reduce((sum, part) => sum + part.variance ** 2 / part.degreesOfFreedom, 0);
  const degreesOfFreedom = spent === 0 ? Infinity : total ** 2 / spent;
  const standardError = Math.sqrt(total);
  const half = coverageFactor(COVERAGE, degreesOfFreedom) * standardError;
  return {
    difference,
    standardError,
    degreesOfFreedom,
    interval95: [difference - half, difference + half],
    scatter: scatter.map(({ source, variance: part }) => ({ source, variance: part })),
    shared: shared.filter((part) => part.variance > 0),
  };
}
