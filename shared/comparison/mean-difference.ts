/**
 * The difference between two groups of days when some errors are shared between them.
 *
 * Each value is the mean of a revision's burns on one day: level + scatter from day to day + Σ cₖzₖ, where zₖ is a
 * shared error of unit deviation and cₖ the day's signed contribution from it. The observed scatter of a group already
 * contains all that differs between its days, so only the part of a shared error that the days have in common is added:
 * over pairs of different days, the mean of c·c′. For errors that are the same on every day of a group the sum over
 * errors becomes Σ(c_B − c_A)²: what the groups have in common cancels, what differs remains. Degrees of freedom by
 * Welch and Satterthwaite (JCGM 100:2008, G.4), infinite for the shared part.
 */
import { everyLookFactor } from '../statistics/every-look.ts';
import { mean, variance } from '../statistics/moments.ts';
import { coverageFactor } from '../statistics/student-t.ts';
import { type PooledVariance, pooledVariance } from '../statistics/within-groups.ts';
import type { ComparedValue } from './contributions.ts';
import type { Level } from './looks.ts';
import { VERDICT_COVERAGE } from './verdict-rule.ts';

/** A component of the variance of a difference from scatter between days. */
export interface GroupScatter {
  source: string;
  variance: number;
  degreesOfFreedom: number;
}

/** A difference b − a on the comparing scale. */
export interface MeanDifference {
  difference: number;
  standardError: number;
  degreesOfFreedom: number;
  /** The interval at one look. */
  interval95: [low: number, high: number];
  /** Variance of the difference from the scatter of each group (one entry for blocks or a pooled scatter), and from each shared error. */
  scatter: GroupScatter[];
  shared: { identity: string; variance: number }[];
  /** Variance of the difference from shared errors together. */
  sharedVariance: number;
  /** Variance of the difference from a scatter pooled over the groups, its freedom, and how many pairs of values it rests on. */
  pooled: PooledVariance & { pairs: number };
}

/** Standard deviation from day to day of a group of at least two. */
export function scatterOf(group: readonly ComparedValue[]): number {
  return Math.sqrt(variance(group.map(({ value }) => value)));
}

/**
 * Variance of the mean of a group from errors its burns share, beyond what their scatter contains; never below zero.
 */
export function sharedVarianceOfMean(group: readonly ComparedValue[]): number {
  return Math.max(
    0,
    [...commonErrors(group).values()].reduce((sum, { square }) => sum + square, 0),
  );
}

/** Mean of a group with its interval at one look; undefined for a single day, which has no scatter. */
export function meanInterval(group: readonly ComparedValue[]): { level: number; interval95?: [number, number] } {
  const level = mean(group.map(({ value }) => value));
  if (group.length < 2) return { level };
  const scatter = groupScatter('scatter', group, 1 / group.length);
  return { level, interval95: estimated(level, [scatter], sharedVarianceOfMean(group)).interval95 };
}

/**
 * Two separate groups, by Welch's comparison with shared errors; with a scatter pooled over more revisions in its
 * place.
 * @throws RangeError for fewer than two days of either without a pooled scatter, or for no days: there is no scatter.
 */
export function compareGroups(
  a: readonly ComparedValue[],
  b: readonly ComparedValue[],
  pool?: PooledVariance,
): MeanDifference {
  if (Math.min(a.length, b.length) < (pool ? 1 : 2)) throw new RangeError('A comparison needs two days of each');
  const share = 1 / a.length + 1 / b.length;
  const scatter = pool
    ? [pooledScatter(pool, [...a, ...b], share)]
    : [groupScatter('scatterA', a, 1 / a.length), groupScatter('scatterB', b, 1 / b.length)];
  const meanOf = (group: readonly ComparedValue[]) => mean(group.map(({ value }) => value));
  const [ofA, ofB] = [commonErrors(a), commonErrors(b)];
  const shared = [...new Set([...ofA.keys(), ...ofB.keys()])].map((identity) => {
    const [inA, inB] = [ofA.get(identity) ?? noError, ofB.get(identity) ?? noError];
    return { identity, variance: inA.square + inB.square - 2 * inA.mean * inB.mean };
  });
  const within = pool ?? pooledVariance([a, b].map((group) => group.map(({ value }) => value)))!;
  const { variance: fromPool, degreesOfFreedom } = pooledScatter(within, [...a, ...b], share);
  return {
    ...estimated(meanOf(b) - meanOf(a), scatter, sum(shared)),
    shared: shared.filter((part) => part.variance > 0),
    pooled: { variance: fromPool, degreesOfFreedom, pairs: 1 / share },
  };
}

/**
 * Blocks (days, lots) that each hold burns of both groups: the mean of the differences within blocks, by a paired
 * comparison.
 * @throws RangeError for fewer than two blocks or a block without one side.
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
  const shared = [...commonErrors(differences)].map(([identity, { square }]) => ({ identity, variance: square }));
  const [{ variance: fromScatter, degreesOfFreedom }] = scatter as [GroupScatter];
  return {
    ...estimated(mean(differences.map(({ value }) => value)), scatter, sum(shared)),
    shared: shared.filter((part) => part.variance > 0),
    pooled: { variance: fromScatter, degreesOfFreedom, pairs: differences.length },
  };
}

/**
 * Limits of a difference at the looks of a level.
 * @returns undefined where there are too few days for limits that hold at every look
 */
export function limitsOf(estimate: MeanDifference, level: Level): [low: number, high: number] | undefined {
  const half = halfWidthOf(estimate, level);
  return Number.isFinite(half) ? [estimate.difference - half, estimate.difference + half] : undefined;
}

/** The components of the variance of a difference. */
export type VarianceParts = Pick<MeanDifference, 'scatter' | 'sharedVariance' | 'pooled'>;

/** Degrees of freedom of three days; a group with fewer has two days. */
const FREEDOM_OF_THREE_DAYS = 2;

/**
 * Half the width of the limits of a difference. At the planned look Student's t with the freedom of Welch and
 * Satterthwaite. That freedom treats declared errors as known exactly, which makes the limits too narrow at 99.9 %, or
 * with two days: before the planned look, and with two days of either group, the limits of the scatter and of the
 * shared error, each with its own freedom, are added in quadrature. At every look the same applies with the pooled
 * scatter; the shared error is the same at all looks but is combined with another scatter at each, so that half of the
 * probability is reserved for it. No limit is narrower than at the planned look.
 * @returns Infinity where there are too few days for limits that hold at every look
 */
export function halfWidthOf({ scatter, sharedVariance, pooled }: VarianceParts, { outside, looks }: Level): number {
  const fromScatter = sum(scatter);
  const once = (shared: number) =>
    coverageFactor(1 - outside, effectiveFreedom(scatter, shared)) * Math.sqrt(fromScatter + shared);
  const ofShared = (share: number) => coverageFactor(1 - share, Infinity) * Math.sqrt(sharedVariance);
  const planned = once(sharedVariance);
  if (looks === 'every') {
    const factor = everyLookFactor(outside, pooled.degreesOfFreedom, pooled.pairs);
    return Math.max(planned, Math.hypot(factor * Math.sqrt(pooled.variance), ofShared(outside / 2)));
  }
  const isKnownFromFew = scatter.some(({ degreesOfFreedom }) => degreesOfFreedom < FREEDOM_OF_THREE_DAYS);
  if (looks === 'planned' && !isKnownFromFew) return planned;
  return Math.max(planned, Math.hypot(once(0), ofShared(outside)));
}

const sum = (parts: readonly { variance: number }[]) => parts.reduce((total, { variance: part }) => total + part, 0);

/**
 * @param group at least two values, whose scatter is observed
 * @param share of the variance of one value in the variance of the difference: 1/n for a mean of n
 */
function groupScatter(source: string, group: readonly ComparedValue[], share: number): GroupScatter {
  const observed = { variance: scatterOf(group) ** 2, degreesOfFreedom: group.length - 1 };
  return { ...pooledScatter(observed, group, share), source };
}

function pooledScatter(pool: PooledVariance, group: readonly ComparedValue[], share: number): GroupScatter {
  if (pool.variance > 0) return { ...pool, source: 'scatter', variance: pool.variance * share };
  // Where values are equal to the last digit, only the errors of the instruments give a scatter.
  const own = mean(group.map(({ ownVariance }) => ownVariance));
  return { source: 'scatter', variance: own * share, degreesOfFreedom: Infinity };
}

function identities(group: readonly ComparedValue[]): string[] {
  return [...new Set(group.flatMap(({ shared }) => [...shared.keys()]))];
}

interface CommonError {
  /** Mean contribution in a group. */
  mean: number;
  /** The part of its square that the observed scatter does not contain. */
  square: number;
}

const noError: CommonError = { mean: 0, square: 0 };

/** Each shared error of a group, in one pass over its values: every burn may have errors of its own. */
function commonErrors(group: readonly ComparedValue[]): Map<string, CommonError> {
  const sums = new Map<string, { total: number; squares: number }>();
  for (const { shared } of group) {
    for (const [identity, contribution] of shared) {
      const { total, squares } = sums.get(identity) ?? { total: 0, squares: 0 };
      sums.set(identity, { total: total + contribution, squares: squares + contribution * contribution });
    }
  }
  const count = group.length;
  const common = new Map<string, CommonError>();
  for (const [identity, { total, squares }] of sums) {
    // A single day has the scatter of others, which does not contain the errors of this day.
    const square = count === 1 ? squares : (total * total - squares) / (count * (count - 1));
    common.set(identity, { mean: total / count, square });
  }
  return common;
}

/** Degrees of freedom by Welch and Satterthwaite, infinite for the shared part. */
export function effectiveFreedom(scatter: readonly GroupScatter[], sharedVariance: number): number {
  const spent = scatter.reduce((spend, part) => spend + part.variance ** 2 / part.degreesOfFreedom, 0);
  return spent === 0 ? Infinity : (sum(scatter) + sharedVariance) ** 2 / spent;
}

/** Makes a difference from the components of its variance. */
export function estimated(
  difference: number,
  scatter: GroupScatter[],
  shared: number,
): Omit<MeanDifference, 'shared' | 'pooled'> {
  const fromScatter = sum(scatter);
  // Errors that days of both groups share can make the sum negative; it must not reduce the scatter.
  const sharedVariance = Math.max(0, shared);
  const standardError = Math.sqrt(fromScatter + sharedVariance);
  const degreesOfFreedom = effectiveFreedom(scatter, sharedVariance);
  const half = coverageFactor(VERDICT_COVERAGE, degreesOfFreedom) * standardError;
  return {
    difference,
    standardError,
    degreesOfFreedom,
    interval95: [difference - half, difference + half],
    scatter,
    sharedVariance,
  };
}
