/** One result, revision against revision: from the burns' values to a difference with its interval and verdict. */
import type { ComparedPoint, Difference, Verdict } from '../contract/comparison.ts';
import type { Message, ResultId } from '../contract/results.ts';
import type { ComparisonCode } from '../language/comparison.ts';
import { mean } from '../statistics/moments.ts';
import { median } from '../statistics/quantile.ts';
import { compareRanks } from '../statistics/rank-comparison.ts';
import type { Adjustment } from './adjustment.ts';
import { completeBlocks } from './blocks.ts';
import { type ComparedBurn, resultOf, type Side } from './compared-burn.ts';
import type { ConditionErrors } from './conditions.ts';
import { addContributions, type ComparedValue, comparedValue, inputOf } from './contributions.ts';
import { compareBlocks, compareGroups, type MeanDifference } from './mean-difference.ts';
import { type ResultScale, resultScales } from './result-scales.ts';

/** One burn of the comparison, with what brings its results to common conditions and the block it belongs to. */
export interface Entry {
  compared: ComparedBurn;
  side: Side;
  block: string | undefined;
  adjustment(id: ResultId): Adjustment;
  errors: ConditionErrors;
}

/** Levels, difference and interval, absolute and relative. */
export type Figures = Pick<Difference, 'a' | 'b' | 'difference' | 'interval95' | 'relative' | 'relativeInterval95'>;

/** A difference before it has been put into words. */
export interface ComparedResult {
  id: ResultId;
  unit: string;
  scale: ResultScale;
  figures: Figures;
  raw?: Figures;
  verdict: Verdict;
  counts: { a: number; b: number };
  points: ComparedPoint[];
  remarks: Message[];
  /** The statistics behind the figures; absent where ranks were compared. */
  statistics?: MeanDifference;
  values: { a: ComparedValue[]; b: ComparedValue[] };
}

export interface LackingResult {
  id: ResultId;
  unit?: string;
  missing: Message;
  points: ComparedPoint[];
}

interface Measured extends ComparedValue {
  side: Side;
  block: string | undefined;
  raw: ComparedValue;
}

const message = (code: ComparisonCode, params: Message['params'] = {}): Message => ({ code, params });

/** Compares one result over all entries. Burns that lack it are left out of it, and their number is said. */
export function compareResult(
  id: ResultId,
  entries: readonly Entry[],
  inBlocks: boolean,
): ComparedResult | LackingResult {
  const scale = resultScales[id] ?? { scale: 'points', betterWhen: 'neither' };
  const having = entries.flatMap((entry) => {
    const result = resultOf(entry.compared, id);
    if (!result) return [];
    const adjustment = entry.adjustment(id);
    return [{ entry, result, adjustment, factor: adjustment.factor }];
  });
  const adjusted = having.some(({ factor }) => factor !== 1);
  const points = having.map(
    ({ entry, result, factor }): ComparedPoint => ({
      burnId: entry.compared.burn.id,
      side: entry.side,
      value: result.value,
      ...(adjusted ? { adjusted: result.value * factor } : {}),
    }),
  );
  const lacking = (code: ComparisonCode, params?: Message['params']): LackingResult => ({
    id,
    ...(having[0] && { unit: having[0].result.unit }),
    missing: message(code, params),
    points,
  });

  const values = having.flatMap(({ entry, result, adjustment }): Measured[] => {
    const raw = comparedValue(entry.compared.burn.id, result, scale.scale);
    return raw ? [{ ...adjustedValue(raw, adjustment, entry.errors), raw, side: entry.side, block: entry.block }] : [];
  });
  if (values.length < having.length) return lacking('missing/notPositive');
  const sides = bySide(values);
  const counts = { a: sides.a.length, b: sides.b.length };
  if (counts.a === 0 || counts.b === 0) return lacking('missing/noBurns', { side: counts.a === 0 ? 'a' : 'b' });
  if (counts.a === 1 && counts.b === 1) return lacking('missing/oneBurnEach');

  const remarks: Message[] = [];
  if (having.length < entries.length)
    remarks.push(message('remark/lackResult', { count: entries.length - having.length }));
  if (adjusted) remarks.push(message('remark/adjusted'));
  const unit = having[0]!.result.unit;
  const common = { id, unit, scale, counts, points, remarks, values: sides };

  if (scale.scale === 'ranks') {
    const figures = rankFigures(sides.a, sides.b);
    if (!figures) return lacking('missing/tooFewForRanks', counts);
    remarks.push(message('remark/maximum'));
    return { ...common, figures, verdict: verdictOf(figures.interval95, scale) };
  }

  const blocks = inBlocks ? completeBlocks(values) : [];
  if (inBlocks && blocks.length < 2) remarks.push(message('remark/blocksIncomplete'));
  const compare = (all: Measured[]): MeanDifference => {
    const { a, b } = bySide(all);
    return blocks.length >= 2 ? compareBlocks(completeBlocks(all)) : compareGroups(a, b);
  };
  const statistics = compare(values);
  if (statistics.standardError === 0) return lacking('missing/noSpread');
  if (blocks.length < 2 && Math.min(counts.a, counts.b) === 1) remarks.push(message('remark/borrowedScatter'));
  if (statistics.degreesOfFreedom === Infinity) remarks.push(message('remark/scatterBelowInstruments'));
  const figures = meanFigures(sides.a, statistics, scale);
  if (!areFinite(figures)) return lacking('missing/tooWide');
  const rawValues = adjusted ? values.map((burn) => ({ ...burn, ...burn.raw })) : values;
  const raw = meanFigures(bySide(rawValues).a, compare(rawValues), scale);
  return {
    ...common,
    figures,
    ...(adjusted && areFinite(raw) ? { raw } : {}),
    verdict: verdictOf(statistics.interval95, scale),
    statistics,
  };
}

/** Burns that differ by many powers of ten have an interval beyond what a number can hold. */
function areFinite({ interval95, relativeInterval95 }: Figures): boolean {
  return [...interval95, ...relativeInterval95].every(Number.isFinite);
}

/** Only ratio results are adjusted: the factor joins the logarithm, and the errors of what it was taken from join its own. */
function adjustedValue(raw: ComparedValue, adjustment: Adjustment, errors: ConditionErrors): ComparedValue {
  if (adjustment.factor === 1) return raw;
  const shared = addContributions([
    { shared: raw.shared, exponent: 1 },
    { shared: errors.demand, exponent: adjustment.demandExponent },
    { shared: errors.load, exponent: adjustment.loadExponent },
  ]);
  return { ...raw, value: raw.value + Math.log(adjustment.factor), shared };
}

function bySide<T extends { side: Side }>(values: readonly T[]): { a: T[]; b: T[] } {
  return { a: values.filter(({ side }) => side === 'a'), b: values.filter(({ side }) => side === 'b') };
}

function verdictOf([low, high]: readonly [number, number], { betterWhen }: ResultScale): Verdict {
  if (betterWhen === 'neither' || (low <= 0 && high >= 0)) return 'cannotTell';
  return low > 0 === (betterWhen === 'higher') ? 'better' : 'worse';
}

/** Back from the comparing scale: a ratio to percent and to the unit of the result, a difference as it is. */
function meanFigures(a: readonly ComparedValue[], statistics: MeanDifference, { scale }: ResultScale): Figures {
  const level = mean(a.map(({ value }) => value));
  const { difference, interval95 } = statistics;
  if (scale === 'ratio') {
    const levelA = Math.exp(level);
    const levelB = levelA * Math.exp(difference);
    // In the unit of the result the doubt of both levels counts, not that of the second alone. Between them lies √(ab), which
    // hardly moves with their ratio: from there, 2√(ab)·sinh(x/2) is the difference that a log ratio x makes (b − a at its value).
    const inUnit = (logRatio: number) => 2 * Math.sqrt(levelA * levelB) * Math.sinh(logRatio / 2);
    return {
      a: levelA,
      b: levelB,
      difference: levelB - levelA,
      interval95: [inUnit(interval95[0]), inUnit(interval95[1])],
      relative: Math.expm1(difference),
      relativeInterval95: [Math.expm1(interval95[0]), Math.expm1(interval95[1])],
    };
  }
  return absoluteFigures(level, difference, interval95);
}

function rankFigures(a: readonly ComparedValue[], b: readonly ComparedValue[]): Figures | undefined {
  const valuesOf = (group: readonly ComparedValue[]) => Float64Array.from(group, ({ value }) => value);
  const { shift, interval } = compareRanks(valuesOf(b), valuesOf(a));
  if (!interval.every(Number.isFinite)) return undefined;
  return absoluteFigures(median(valuesOf(a)), shift, interval);
}

function absoluteFigures(a: number, difference: number, interval95: readonly [number, number]): Figures {
  // Relative to a level of zero nothing can be said; the absolute difference then stands for itself.
  const unit = a === 0 ? 1 : Math.abs(a);
  return {
    a,
    b: a + difference,
    difference,
    interval95: [interval95[0], interval95[1]],
    relative: difference / unit,
    relativeInterval95: [interval95[0] / unit, interval95[1] / unit],
  };
}

/** What the variance of the difference is made of, largest first. */
export function sharesOf({ scatter, shared, standardError }: MeanDifference): { source: string; share: number }[] {
  const total = standardError ** 2;
  if (total === 0) return [];
  return [
    ...scatter.map(({ source, variance }) => ({ source, share: variance / total })),
    ...shared.map(({ identity, variance }) => ({ source: inputOf(identity), share: variance / total })),
  ].sort((x, y) => y.share - x.share);
}
