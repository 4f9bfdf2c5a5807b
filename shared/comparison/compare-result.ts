/** Compares one result of two revisions: from the values of the burns to a difference with its interval and verdict. */
import type { ComparedPoint, Deciding, Difference, Look, Verdict } from '../contract/comparison.ts';
import type { Message, ResultId } from '../contract/results.ts';
import type { ComparisonCode } from '../language/comparison/comparison.ts';
import { mean } from '../statistics/moments.ts';
import { median } from '../statistics/quantile.ts';
import { compareRanks } from '../statistics/rank-comparison.ts';
import { type PooledVariance, pooledVariance } from '../statistics/within-groups.ts';
import type { Adjustment } from './adjustment.ts';
import { completeBlocks } from './blocks.ts';
import { type ComparedBurn, resultOf } from './compared-burn.ts';
import type { ConditionErrors } from './conditions.ts';
import { addContributions, type ComparedValue, comparedValue, inputOf } from './contributions.ts';
import { type DayValue, dayValues } from './days.ts';
import { type Intended, type Level, levelOf, lookAt } from './looks.ts';
import { compareBlocks, compareGroups, limitsOf, type MeanDifference } from './mean-difference.ts';
import { type ResultScale, resultScales } from './result-scales.ts';

/** The two revisions compared are 0 and 1; any other number is a further revision of the same stove. */
export type Place = number;

/** One burn of the comparison, with the adjustment of its results, its day and its block. */
export interface Entry {
  compared: ComparedBurn;
  place: Place;
  day: string | undefined;
  block: string | undefined;
  adjustment(id: ResultId): Adjustment;
  errors: ConditionErrors;
}

/** Settings that apply to every result of a comparison. */
export interface Rules {
  inBlocks: boolean;
  intended: Intended;
  /** Steps of the ladder that this comparison is one of: 1 for two revisions alone. */
  steps: number;
}

/** Levels, difference and interval, absolute and relative. */
export type Figures = Pick<Difference, 'a' | 'b' | 'difference' | 'interval95' | 'relative' | 'relativeInterval95'>;

/** A difference, without its sentences. */
export interface ComparedResult {
  id: ResultId;
  unit: string;
  scale: ResultScale;
  figures: Figures;
  deciding: Deciding;
  look: Look;
  raw?: Figures;
  verdict: Verdict;
  /** Number of burns that have the result. */
  counts: { a: number; b: number };
  points: ComparedPoint[];
  remarks: Message[];
  /** The statistics behind the figures; absent where ranks were compared. */
  statistics?: MeanDifference;
  /** One value a day. */
  days: { a: DayValue[]; b: DayValue[] };
}

export interface MissingComparison {
  id: ResultId;
  unit?: string;
  missing: Message;
  levels?: { a: number; b: number; difference: number; relative: number };
  points: ComparedPoint[];
}

/** A burn's value of one result on the comparing scale, adjusted to common conditions and as measured. */
export interface Measured extends ComparedValue {
  place: Place;
  day: string | undefined;
  block: string | undefined;
  raw: ComparedValue;
}

const message = (code: ComparisonCode, params: Message['params'] = {}): Message => ({ code, params });

/** Days of either revision below which there are figures, but no verdict. */
export const FEWEST_DAYS = 2;
/** Days of all revisions together, less one for each, below which a ladder has no verdict. */
export const LEAST_FREEDOM = 3;

/** Returns the values of one result, or undefined where a ratio result is not positive in some burn. */
export function measuredValues(id: ResultId, entries: readonly Entry[]): Measured[] | undefined {
  const { scale } = scaleOf(id);
  const values = entries.flatMap((entry) => {
    const result = resultOf(entry.compared, id);
    if (!result) return [];
    const raw = comparedValue(entry.compared.burn.id, result, scale);
    const { place: index, day, block, errors } = entry;
    return [raw && { ...adjustedValue(raw, entry.adjustment(id), errors), raw, place: index, day, block }];
  });
  return values.every((value) => value !== undefined) ? values : undefined;
}

export function scaleOf(id: ResultId): ResultScale {
  return resultScales[id] ?? { scale: 'points', betterWhen: 'neither' };
}

/** Compares one result over all entries. Burns without the result are left out, and their number is returned. */
export function compareResult(
  id: ResultId,
  entries: readonly Entry[],
  rules: Rules,
): ComparedResult | MissingComparison {
  const scale = scaleOf(id);
  const own = entries.filter(({ place: index }) => index < 2);
  const having = own.flatMap((entry) => {
    const result = resultOf(entry.compared, id);
    return result ? [{ entry, result, factor: entry.adjustment(id).factor }] : [];
  });
  const adjusted = having.some(({ factor }) => factor !== 1);
  const points = having.map(
    ({ entry, result, factor }): ComparedPoint => ({
      burnId: entry.compared.burn.id,
      side: entry.place === 0 ? 'a' : 'b',
      value: result.value,
      ...(adjusted ? { adjusted: result.value * factor } : {}),
    }),
  );
  const missing = (code: ComparisonCode, params?: Message['params']): MissingComparison => ({
    id,
    ...(having[0] && { unit: having[0].result.unit }),
    missing: message(code, params),
    points,
  });

  const values = measuredValues(id, own);
  if (values === undefined) return missing('missing/notPositive');
  const counts = sizes(bySide(values));
  if (counts.a === 0 || counts.b === 0) return missing('missing/noBurns', { side: counts.a === 0 ? 'a' : 'b' });
  const days = daysBySide(values);
  const tooFew = missingDays(days);
  if (tooFew) return { ...missing('missing/tooFewDays', tooFew.params), ...levelsOf(days, scale) };

  const remarks: Message[] = [];
  if (having.length < own.length) remarks.push(message('remark/lackResult', { count: own.length - having.length }));
  if (counts.a + counts.b > days.a.length + days.b.length) remarks.push(message('remark/burnsOfOneDay'));
  if ([...days.a, ...days.b].some(({ day }) => day === undefined)) remarks.push(message('remark/undated'));
  if (adjusted) remarks.push(message('remark/adjusted'));
  const unit = having[0]!.result.unit;
  const common = { id, unit, scale, counts, points, remarks, days };

  if (scale.scale === 'ranks') {
    const look = lookAt(rules.intended, days.a, days.b);
    const figures = rankFigures(days.a, days.b);
    if (!figures) return missing('missing/tooFewForRanks', sizes(days));
    remarks.push(message('remark/maximum'));
    const deciding = rankDeciding(days, levelOf(look, rules.steps));
    return { ...common, figures, look, deciding, verdict: verdictOf(deciding.interval, scale) };
  }

  const inBlocks = rules.inBlocks && completeBlocks(values).length >= 2;
  if (rules.inBlocks && !inBlocks) remarks.push(message('remark/blocksIncomplete'));
  const pool = rules.steps > 1 ? poolOf(id, entries) : undefined;
  if (pool && pool.degreesOfFreedom < LEAST_FREEDOM) {
    const { degreesOfFreedom } = pool;
    return { ...missing('missing/ladderTooFew', { freedom: degreesOfFreedom }), ...levelsOf(days, scale) };
  }
  const statistics = inBlocks ? compareBlocks(blockDays(values)) : compareGroups(days.a, days.b, pool);
  if (statistics.standardError === 0) return missing('missing/noSpread');
  if (statistics.degreesOfFreedom === Infinity) remarks.push(message('remark/scatterBelowInstruments'));
  const look = inBlocks ? lookAt(rules.intended, ...sidesOfBlocks(values)) : lookAt(rules.intended, days.a, days.b);
  const level = meanOf(days.a);
  const figures = meanFigures(level, statistics.difference, statistics.interval95, scale);
  if (!areFinite(figures)) return missing('missing/tooWide');
  const raw = adjusted ? rawFigures(values, inBlocks, pool, scale) : undefined;
  const deciding = decidingAt(level, statistics, scale, levelOf(look, rules.steps));
  return {
    ...common,
    figures,
    look,
    deciding,
    ...(raw && areFinite(raw) ? { raw } : {}),
    verdict: verdictOf(deciding.interval, scale),
    statistics,
  };
}

/** The figures of the values as measured. */
function rawFigures(
  values: readonly Measured[],
  inBlocks: boolean,
  pool: PooledVariance | undefined,
  scale: ResultScale,
): Figures {
  const measured = values.map((burn) => ({ ...burn, ...burn.raw }));
  const { difference, interval95 } = compareValues(measured, inBlocks, pool);
  return meanFigures(meanOf(daysBySide(measured).a), difference, interval95, scale);
}

/** @param values of both revisions, at least two days each, or two blocks of both */
export function compareValues(values: readonly Measured[], inBlocks: boolean, pool?: PooledVariance): MeanDifference {
  if (inBlocks) return compareBlocks(blockDays(values));
  const { a, b } = daysBySide(values);
  return compareGroups(a, b, pool);
}

/** The interval that decides at a level, in the unit of the result; undefined where it would be uninformative. */
export function decidingAt(a: number, statistics: MeanDifference, scale: ResultScale, level: Level): Deciding {
  const limits = limitsOf(statistics, level);
  const made = limits && meanFigures(a, statistics.difference, limits, scale);
  const isInformative = made && areFinite(made) && !isUninformative(made, scale);
  return {
    confidence: 1 - level.outside,
    everyLook: level.looks === 'every',
    ...(isInformative ? { interval: made.interval95, relativeInterval: made.relativeInterval95 } : {}),
  };
}

/** The widest ratio that is shown: an upper end of thirty digits has no meaning. */
const WIDEST_RATIO = 100;

/** Whether an interval of a ratio contains no difference and a factor of a hundred or a hundredth. */
export function isUninformative({ relativeInterval95: [low, high] }: Figures, { scale }: ResultScale): boolean {
  return scale === 'ratio' && low < 0 && high > 0 && Math.max(1 / (1 + low), 1 + high) > WIDEST_RATIO;
}

/** Returns why there are too few days of either revision for a comparison, or undefined. */
export function missingDays({ a, b }: { a: readonly DayValue[]; b: readonly DayValue[] }): Message | undefined {
  if (a.length >= FEWEST_DAYS && b.length >= FEWEST_DAYS) return undefined;
  const [moreA, moreB] = [a, b].map(({ length }) => Math.max(0, FEWEST_DAYS - length)) as [number, number];
  const undated = [...a, ...b].some(({ day }) => day === undefined) ? { undated: 1 } : {};
  return message('missing/tooFewDays', {
    first: 'a',
    second: 'b',
    daysA: a.length,
    daysB: b.length,
    moreA,
    moreB,
    ...undated,
  });
}

/** Scatter from day to day within revisions, pooled over all of them. */
export function poolOf(id: ResultId, entries: readonly Entry[]): PooledVariance {
  const values = measuredValues(id, entries) ?? [];
  const indices = [...new Set(values.map(({ place: index }) => index))];
  const groups = indices.map((index) => dayValues(values.filter((value) => value.place === index)));
  const none = { variance: 0, degreesOfFreedom: 0 };
  return pooledVariance(groups.map((group) => group.map(({ value }) => value))) ?? none;
}

/**
 * Whether the intervals are finite: with burns that differ by many powers of ten, they exceed the range of a number.
 */
export function areFinite({ interval95, relativeInterval95 }: Figures): boolean {
  return [...interval95, ...relativeInterval95].every(Number.isFinite);
}

/**
 * Only ratio results are adjusted: the logarithm of the factor is added to the value, and the errors of its inputs to
 * those of the value.
 */
function adjustedValue(raw: ComparedValue, adjustment: Adjustment, errors: ConditionErrors): ComparedValue {
  if (adjustment.factor === 1) return raw;
  const shared = addContributions([
    { shared: raw.shared, exponent: 1 },
    { shared: errors.demand, exponent: adjustment.demandExponent },
    { shared: errors.load, exponent: adjustment.loadExponent },
  ]);
  return { ...raw, value: raw.value + Math.log(adjustment.factor), shared };
}

interface BySide<T> {
  a: T[];
  b: T[];
}

function bySide<T extends { place: Place }>(values: readonly T[]): BySide<T> {
  return { a: values.filter(({ place: index }) => index === 0), b: values.filter(({ place: index }) => index === 1) };
}

function daysBySide(values: readonly Measured[]): BySide<DayValue> {
  const { a, b } = bySide(values);
  return { a: dayValues(a), b: dayValues(b) };
}

const sizes = ({ a, b }: { a: readonly unknown[]; b: readonly unknown[] }) => ({ a: a.length, b: b.length });

/** Blocks that hold both revisions, with one value a day in each. */
function blockDays(values: readonly Measured[]): BySide<DayValue>[] {
  return completeBlocks(values).map(({ a, b }) => ({ a: dayValues(a), b: dayValues(b) }));
}

/** Blocks as days of both revisions: the unit that a look counts where differences within blocks are compared. */
function sidesOfBlocks(values: readonly Measured[]): [DayValue[], DayValue[]] {
  const blocks = blockDays(values);
  const latest = (side: DayValue[]) => side.at(-1)!;
  const inOrder = (side: 'a' | 'b') => blocks.map((block) => latest(block[side])).sort(byDay);
  return [inOrder('a'), inOrder('b')];
}

const byDay = (x: DayValue, y: DayValue) => ((x.day ?? '9') < (y.day ?? '9') ? -1 : 1);

const meanOf = (group: readonly ComparedValue[]) => mean(group.map(({ value }) => value));

export function verdictOf(interval: readonly [number, number] | undefined, { betterWhen }: ResultScale): Verdict {
  if (interval === undefined || betterWhen === 'neither') return 'cannotTell';
  const [low, high] = interval;
  if (low <= 0 && high >= 0) return 'cannotTell';
  return low > 0 === (betterWhen === 'higher') ? 'better' : 'worse';
}

/** A level of the comparing scale in the unit of the result. */
export function levelInUnit(level: number, { scale }: ResultScale): number {
  return scale === 'ratio' ? Math.exp(level) : level;
}

/** Both levels and their difference, where no interval can be stated. */
function levelsOf(days: BySide<DayValue>, scale: ResultScale): Pick<MissingComparison, 'levels'> {
  const [a, b] = [levelInUnit(meanOf(days.a), scale), levelInUnit(meanOf(days.b), scale)];
  const levels = { a, b, difference: b - a, relative: (b - a) / unitOf(a) };
  return Object.values(levels).every(Number.isFinite) ? { levels } : {};
}

/** Converts from the comparing scale: a ratio to percent and to the unit of the result; a difference stays as it is. */
export function meanFigures(
  level: number,
  difference: number,
  interval: readonly [number, number],
  { scale }: ResultScale,
): Figures {
  if (scale !== 'ratio') return absoluteFigures(level, difference, interval);
  const levelA = Math.exp(level);
  const levelB = levelA * Math.exp(difference);
  // In the unit of the result the uncertainty of both levels counts, not that of the second alone. Their geometric mean
  // √(ab) hardly depends on their ratio: with it, 2√(ab)·sinh(x/2) is the difference that a log ratio x makes (b − a at
  // its value).
  const inUnit = (logRatio: number) => 2 * Math.sqrt(levelA * levelB) * Math.sinh(logRatio / 2);
  return {
    a: levelA,
    b: levelB,
    difference: levelB - levelA,
    interval95: [inUnit(interval[0]), inUnit(interval[1])],
    relative: Math.expm1(difference),
    relativeInterval95: [Math.expm1(interval[0]), Math.expm1(interval[1])],
  };
}

const valuesOf = (group: readonly ComparedValue[]) => Float64Array.from(group, ({ value }) => value);

function rankFigures(a: readonly ComparedValue[], b: readonly ComparedValue[]): Figures | undefined {
  const { shift, interval } = compareRanks(valuesOf(b), valuesOf(a));
  if (!interval.every(Number.isFinite)) return undefined;
  return absoluteFigures(median(valuesOf(a)), shift, interval);
}

/** Ranks have no interval that holds at every look: beyond the planned number of days a maximum has no verdict. */
function rankDeciding({ a, b }: BySide<DayValue>, { outside, looks }: Level): Deciding {
  const everyLook = looks === 'every';
  const decided = { confidence: 1 - outside, everyLook };
  const { shift, interval } = compareRanks(valuesOf(b), valuesOf(a), 1 - outside);
  if (everyLook || !interval.every(Number.isFinite)) return decided;
  const figures = absoluteFigures(median(valuesOf(a)), shift, interval);
  return { ...decided, interval: figures.interval95, relativeInterval: figures.relativeInterval95 };
}

/** A difference relative to a level of zero is undefined; the absolute difference is then used. */
const unitOf = (level: number) => (level === 0 ? 1 : Math.abs(level));

function absoluteFigures(a: number, difference: number, interval: readonly [number, number]): Figures {
  const unit = unitOf(a);
  return {
    a,
    b: a + difference,
    difference,
    interval95: [interval[0], interval[1]],
    relative: difference / unit,
    relativeInterval95: [interval[0] / unit, interval[1] / unit],
  };
}

/** The components of the variance of the difference, largest first. */
export function sharesOf({ scatter, shared, standardError }: MeanDifference): { source: string; share: number }[] {
  const total = standardError ** 2;
  if (total === 0) return [];
  return [
    ...scatter.map(({ source, variance }) => ({ source, share: variance / total })),
    ...shared.map(({ identity, variance }) => ({ source: inputOf(identity), share: variance / total })),
  ].sort((x, y) => y.share - x.share);
}
