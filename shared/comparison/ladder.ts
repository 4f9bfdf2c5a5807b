/**
 * All revisions of a stove, step by step, with intervals that hold for all steps together.
 *
 * Scatter is pooled over days within revisions; the effect of a wood lot comes from its declared uncertainty, never
 * from the burns: with one lot per revision they cannot separate the two. Each step has its share of the wrong verdicts
 * (5 % over K − 1 steps).
 */
import type { PlannedDays, Revision } from '../contract/burn-record.ts';
import type { Deciding, Look, Verdict } from '../contract/comparison.ts';
import type { Message, ResultId } from '../contract/results.ts';
import { mean } from '../statistics/moments.ts';
import type { PooledVariance } from '../statistics/within-groups.ts';
import {
  areFinite,
  type ComparedResult,
  decidingAt,
  type Entry,
  FEWEST_DAYS,
  LEAST_FREEDOM,
  levelInUnit,
  type MissingComparison,
  meanFigures,
  measuredValues,
  missingDays,
  poolOf,
  scaleOf,
  verdictOf,
} from './compare-result.ts';
import type { ComparedBurn } from './compared-burn.ts';
import { type DayValue, dayValues, litUtcMs } from './days.ts';
import { type DimensionEffects, dimensionEffects } from './dimension-effects.ts';
import { intendedDays, levelOf, lookAt } from './looks.ts';
import { compareGroups, limitsOf, type MeanDifference } from './mean-difference.ts';
import type { ResultScale } from './result-scales.ts';
import { type StepChanges, stepChanges } from './step-changes.ts';

export interface Rung {
  /** Index in the groups passed in. */
  place: number;
  revision: Revision | undefined;
  burns: readonly ComparedBurn[];
  days: readonly DayValue[];
  /** Level, on the comparing scale. */
  level: number | undefined;
}

export interface Step {
  from: number;
  to: number;
  look: Look;
  decision?: { level: number; difference: number; deciding: Deciding };
  verdict: Verdict;
  missing?: Message;
  changes: StepChanges;
}

export interface FoundLadder {
  unit: string;
  scale: ResultScale;
  rungs: Rung[];
  steps: Step[];
  missing?: Message;
  scatter?: PooledVariance;
  best?: { seen: number; mayBe: number[] };
  effects: DimensionEffects | undefined;
}

/** The input of a ladder: the burns of each revision, the two compared ones first. */
interface LadderInput {
  id: ResultId;
  unit: string;
  groups: readonly (readonly ComparedBurn[])[];
  entries: readonly Entry[];
  /** The comparison of the first two, which is also the step between them. */
  compared: ComparedResult | MissingComparison;
  plannedDays: PlannedDays['days'] | undefined;
}

/** @returns undefined for a result that is compared by ranks, or fewer than two revisions with burns */
export function ladderOf(input: LadderInput): FoundLadder | undefined {
  const { id, unit, entries } = input;
  const scale = scaleOf(id);
  const rungs = rungsOf(input);
  if (scale.scale === 'ranks' || rungs.length < 2) return undefined;
  const pool = poolOf(id, entries);
  const isLadder = rungs.length > 2;
  const missing: Message | undefined =
    isLadder && pool.degreesOfFreedom < LEAST_FREEDOM
      ? { code: 'missing/ladderTooFew', params: { freedom: pool.degreesOfFreedom } }
      : undefined;
  const classify = classifierOf(input, rungs, isLadder ? pool : undefined, missing);
  const steps = rungs.slice(1).map((rung, index): Step => {
    const parent = rungs.findIndex(({ revision }) => revision !== undefined && revision.id === rung.revision?.parentId);
    const [from, to] = [parent >= 0 && parent !== index + 1 ? parent : index, index + 1];
    return { from, to, ...classify(from, to), changes: stepChanges(rungs[from]!, rung) };
  });
  const best = missing ? undefined : bestOf(rungs, scale, classify);
  return {
    unit,
    scale,
    rungs,
    steps,
    ...(missing ? { missing } : {}),
    ...(pool.degreesOfFreedom > 0 ? { scatter: pool } : {}),
    ...(best ? { best } : {}),
    effects: dimensionEffects(
      rungs.flatMap(({ revision, level, days }) =>
        revision && level !== undefined && days.length >= FEWEST_DAYS ? [{ revision, level }] : [],
      ),
    ),
  };
}

/** Returns the revisions that have any burn, with this result or without it, in the order of their first burns. */
function rungsOf({ id, groups, entries }: LadderInput): Rung[] {
  const values = measuredValues(id, entries) ?? [];
  const firstLit = (burns: readonly ComparedBurn[]) =>
    Math.min(...burns.map((compared) => litUtcMs(compared) ?? Infinity));
  return groups
    .map((burns, index): Rung => {
      const days = dayValues(values.filter((value) => value.place === index));
      const level = days.length === 0 ? undefined : mean(days.map(({ value }) => value));
      return { place: index, revision: ownRevision(index, groups), burns, days, level };
    })
    .filter(({ days }) => days.length > 0)
    .sort((x, y) => {
      const [first, second] = [firstLit(x.burns), firstLit(y.burns)];
      return first === second ? x.place - y.place : first - second;
    });
}

/**
 * Returns the revision of a group whose burns are all of one revision that no other group has; groups that a person
 * selects may have several, or share one.
 */
function ownRevision(index: number, groups: LadderInput['groups']): Revision | undefined {
  const revision = groups[index]?.[0]?.burn.revision;
  const isOf = ({ burn }: ComparedBurn) => burn.revision?.id === revision?.id;
  return groups.every((burns, other) => (other === index ? burns.every(isOf) : !burns.some(isOf)))
    ? revision
    : undefined;
}

type StepVerdict = Pick<Step, 'look' | 'decision' | 'verdict' | 'missing'> & { statistics?: MeanDifference };
type Classify = (from: number, to: number) => StepVerdict;

function classifierOf(
  { groups, compared, id, plannedDays }: LadderInput,
  rungs: readonly Rung[],
  pool: PooledVariance | undefined,
  refused: Message | undefined,
): Classify {
  const scale = scaleOf(id);
  return (from, to) => {
    const [a, b] = [rungs[from]!, rungs[to]!];
    if (a.place === 0 && b.place === 1 && !('missing' in compared)) {
      const { look, deciding, verdict, statistics } = compared;
      const decision = { level: a.level!, difference: statistics!.difference, deciding };
      return { look, verdict, decision, statistics: statistics! };
    }
    const look = lookAt(intendedDays(groups[a.place]!, groups[b.place]!, plannedDays), a.days, b.days);
    const missing = missingDays({ a: a.days, b: b.days }) ?? refused;
    if (missing) return { look, verdict: 'cannotTell', missing };
    const statistics = compareGroups(a.days, b.days, pool);
    if (statistics.standardError === 0) {
      return { look, verdict: 'cannotTell', missing: { code: 'missing/noSpread', params: {} } };
    }
    if (!areFinite(meanFigures(a.level!, statistics.difference, statistics.interval95, scale))) {
      return { look, verdict: 'cannotTell', missing: { code: 'missing/tooWide', params: {} } };
    }
    const deciding = decidingAt(a.level!, statistics, scale, levelOf(look, rungs.length - 1));
    const decision = { level: a.level!, difference: statistics.difference, deciding };
    return { look, verdict: verdictOf(deciding.interval, scale), decision, statistics };
  };
}

/**
 * Returns the revisions that may be the best: those not shown to be worse than the best observed, by one-sided limits
 * at the level of their look (5 % over K − 1 at the planned number of days). Subset selection: S. S. Gupta,
 * Technometrics 7 (1965).
 */
function bestOf(rungs: readonly Rung[], { betterWhen }: ResultScale, classify: Classify): FoundLadder['best'] {
  if (betterWhen === 'neither') return undefined;
  const inRunning = rungs.flatMap(({ days }, rung) => (days.length >= FEWEST_DAYS ? [rung] : []));
  if (inRunning.length < 2) return undefined;
  const worseBy = (value: number) => (betterWhen === 'lower' ? value : -value);
  const seen = inRunning.reduce((best, rung) => (worseBy(rungs[rung]!.level! - rungs[best]!.level!) < 0 ? rung : best));
  const mayBe = inRunning.filter((rung) => {
    const { statistics, look } = rung === seen ? {} : classify(seen, rung);
    if (!statistics || !look) return true;
    const level = levelOf(look, rungs.length - 1);
    const limits = limitsOf(statistics, { ...level, outside: 2 * level.outside });
    return limits === undefined || Math.min(worseBy(limits[0]), worseBy(limits[1])) <= 0;
  });
  return { seen, mayBe };
}

/** Level of a rung in the unit of the result. */
export function rungLevel({ level }: Rung, scale: ResultScale): number | undefined {
  return level === undefined ? undefined : levelInUnit(level, scale);
}
