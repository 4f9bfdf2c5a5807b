/**
 * The measures that would narrow the interval most for an hour of work, each with the interval that the present burns
 * would then give.
 */
import type { narrowings } from '../contract/comparison.ts';
import type { BudgetEntry, ResultId } from '../contract/results.ts';
import { mean } from '../statistics/moments.ts';
import { pooledVariance } from '../statistics/within-groups.ts';
import {
  areFinite,
  type ComparedResult,
  compareValues,
  type Entry,
  type Figures,
  isUninformative,
  type Measured,
  meanFigures,
  measuredValues,
  poolOf,
  type Rules,
} from './compare-result.ts';
import { resultOf } from './compared-burn.ts';
import { dayValues } from './days.ts';
import { levelOf } from './looks.ts';
import { estimated, type GroupScatter, limitsOf, type MeanDifference } from './mean-difference.ts';

export interface Narrowed {
  kind: (typeof narrowings)[number];
  figures: Figures;
  /** Width over that of the present interval. */
  share: number;
  /** Confidence of the interval, at one look. */
  confidence: number;
}

/** A measure is listed when it narrows the interval to less than this share of its width. */
const WORTH_SHARE = 0.98;

type Improve = (entry: BudgetEntry) => BudgetEntry | undefined;

const improvements: Readonly<Record<'oneLot' | 'charWeighed' | 'probesCalibrated', Improve>> = {
  oneLot: (entry) => (entry.sharing === 'fuelLot' ? { ...entry, sharedId: 'one lot' } : entry),
  charWeighed: (entry) => (entry.input === 'char.pending' ? undefined : entry),
  probesCalibrated: (entry) => (/^(probe\.|board\.coldJunction)/.test(entry.input) ? undefined : entry),
};

/**
 * Returns the present interval, then the measures that help, narrowest first. All intervals are those of the planned
 * look, so that they can be compared.
 * @param entries of all revisions, as `result` was made from
 */
export function narrowingsOf(result: ComparedResult, entries: readonly Entry[], rules: Rules): Narrowed[] {
  const { statistics, days, scale, id } = result;
  if (!statistics) return [];
  const inBlocks = rules.inBlocks && statistics.scatter[0]!.source === 'scatter' && rules.steps === 1;
  const pool = rules.steps > 1 ? poolOf(id, entries) : undefined;
  const level = levelOf({ kind: 'planned' }, rules.steps);
  const limits = (estimate: MeanDifference) => limitsOf(estimate, level)!;
  const width = ([low, high]: readonly [number, number]) => high - low;
  const present = width(limits(statistics));
  const narrowed = (kind: Narrowed['kind'], estimate: MeanDifference): Narrowed => {
    const interval = limits(estimate);
    const a = mean(days.a.map(({ value }) => value));
    return {
      kind,
      figures: meanFigures(a, statistics.difference, interval, scale),
      share: width(interval) / present,
      confidence: 1 - level.outside,
    };
  };
  const ownWas = meanOwn([...days.a, ...days.b]);
  const seen = pooledVariance([days.a, days.b].map((group) => group.map(({ value }) => value)))!.variance;
  const improved = (Object.keys(improvements) as (keyof typeof improvements)[]).flatMap((kind) => {
    const values = measuredValues(id, improvedEntries(entries, id, improvements[kind]));
    const own = values?.filter(({ place: index }) => index < 2);
    if (!own) return [];
    const again = compareValues(own, inBlocks, pool);
    const scatter = lessOwn(statistics.scatter, seen, ownWas, meanOwn(dayValuesOf(own)));
    return [narrowed(kind, { ...again, ...estimated(statistics.difference, scatter, again.sharedVariance) })];
  });
  const ways = [
    ...improved.filter(({ share }) => share < WORTH_SHARE),
    narrowed('anotherDay', withAnotherDay(statistics, result)),
  ]
    .filter(({ figures, share }) => areFinite(figures) && share > 0 && !isUninformative(figures, scale))
    .sort((x, y) => x.share - y.share);
  return ways.length === 0 || isUninformative(result.figures, scale) ? ways : [narrowed('asItIs', statistics), ...ways];
}

/** One more day of the revision that has fewer, of the second where both have as many, at the observed scatter. */
function withAnotherDay(statistics: MeanDifference, { days }: ComparedResult): MeanDifference {
  const [a, b] = [days.a.length, days.b.length];
  const [nextA, nextB] = a < b ? [a + 1, b] : [a, b + 1];
  const pairs = (countA: number, countB: number) => 1 / countA + 1 / countB;
  const share: Readonly<Record<string, number>> = {
    scatterA: a / nextA,
    scatterB: b / nextB,
    scatter: pairs(nextA, nextB) / pairs(a, b),
  };
  const scatter = statistics.scatter.map((part): GroupScatter => {
    const more = part.source === 'scatterA' ? nextA - a : part.source === 'scatterB' ? nextB - b : 1;
    return {
      ...part,
      variance: part.variance * (share[part.source] ?? 1),
      degreesOfFreedom: part.degreesOfFreedom + more,
    };
  });
  return { ...statistics, ...estimated(statistics.difference, scatter, statistics.sharedVariance) };
}

/**
 * The observed scatter contains each burn's own errors; their reduction is subtracted from it, but not below what
 * remains of them.
 */
function lessOwn(scatter: readonly GroupScatter[], seen: number, ownWas: number, ownIs: number): GroupScatter[] {
  if (seen === 0 || ownIs >= ownWas) return [...scatter];
  const share = Math.max(seen - (ownWas - ownIs), Math.min(seen, ownIs)) / seen;
  return scatter.map((part) => ({ ...part, variance: part.variance * share }));
}

const dayValuesOf = (values: readonly Measured[]) =>
  [0, 1].flatMap((side) => dayValues(values.filter(({ place: index }) => index === side)));

const meanOwn = (days: readonly { ownVariance: number }[]) => mean(days.map(({ ownVariance }) => ownVariance));

function improvedEntries(entries: readonly Entry[], id: ResultId, improve: Improve): Entry[] {
  return entries.map((entry) => {
    const { analysis } = entry.compared;
    const result = resultOf(entry.compared, id);
    // Nothing else is read of these.
    const results = result
      ? [{ ...result, ...(result.budget && { budget: result.budget.flatMap((each) => improve(each) ?? []) }) }]
      : [];
    return { ...entry, compared: { ...entry.compared, analysis: { ...analysis, results } } };
  });
}
