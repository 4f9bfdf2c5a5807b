/**
 * The effect of a dimension on the primary result, with revisions as replicates: burns of one revision do not replicate
 * a change of dimension.
 */
import type { Revision } from '../contract/burn-record.ts';
import type { Message } from '../contract/results.ts';
import { leastSquares } from '../statistics/least-squares.ts';
import { coverageFactor } from '../statistics/student-t.ts';
import { WRONG_VERDICTS } from './verdict-rule.ts';

interface BuiltLevel {
  revision: Pick<Revision, 'dimensionsM' | 'dimensionsM2'>;
  /** Level, on the comparing scale. */
  level: number;
}

interface DimensionEffect {
  name: string;
  unit: 'm' | 'm2';
  /** The change of the dimension, in its unit, that the effect is for. */
  per: number;
  /** Effect, on the comparing scale. */
  effect: number;
  interval: [low: number, high: number];
  confidence: number;
}

export type DimensionEffects = { effects: DimensionEffect[] } | { missing: Message };

/** Revisions beyond one for the level and one for each dimension: with fewer the interval is uninformative. */
const LEAST_FREEDOM = 3;

interface Dimension {
  name: string;
  unit: 'm' | 'm2';
}

/** The change that an effect is for: a centimetre, a square decimetre. */
const per = { m: 0.01, m2: 0.01 } as const;

/**
 * Least squares of the levels on every dimension that was changed. The shares outside the intervals are divided among
 * the dimensions.
 * @returns undefined where no recorded dimension was changed; else the effects, or why the design cannot separate them
 */
export function dimensionEffects(built: readonly BuiltLevel[]): DimensionEffects | undefined {
  const varied = dimensionsOf(built).filter((dimension) => {
    const values = built.flatMap(({ revision }) => dimensionOf(revision, dimension) ?? []);
    return Math.max(...values) > Math.min(...values);
  });
  if (varied.length === 0) return undefined;
  const unknown = varied.find((dimension) =>
    built.some(({ revision }) => dimensionOf(revision, dimension) === undefined),
  );
  if (unknown) return { missing: { code: 'effect/notEverywhere', params: { name: unknown.name } } };
  const needed = varied.length + 1 + LEAST_FREEDOM;
  if (built.length < needed) {
    const params = { revisions: built.length, dimensions: varied.length, needed };
    return { missing: { code: 'effect/tooFewRevisions', params } };
  }
  const rows = built.map(({ revision }) => varied.map((dimension) => dimensionOf(revision, dimension)!));
  const fit = leastSquares(
    rows,
    built.map(({ level }) => level),
  );
  if (!fit) {
    return { missing: { code: 'effect/inseparable', params: { names: varied.map(({ name }) => name).join(', ') } } };
  }
  const confidence = 1 - WRONG_VERDICTS / varied.length;
  const factor = coverageFactor(confidence, fit.degreesOfFreedom);
  const effects = varied.map(({ name, unit }, index): DimensionEffect => {
    const effect = fit.coefficients[index + 1]! * per[unit];
    const half = factor * fit.standardErrors[index + 1]! * per[unit];
    return { name, unit, per: per[unit], effect, interval: [effect - half, effect + half], confidence };
  });
  return { effects };
}

function dimensionsOf(built: readonly BuiltLevel[]): Dimension[] {
  const of = (key: 'dimensionsM' | 'dimensionsM2', unit: Dimension['unit']) =>
    [...new Set(built.flatMap(({ revision }) => Object.keys(revision[key] ?? {})))].map((name) => ({ name, unit }));
  return [...of('dimensionsM', 'm'), ...of('dimensionsM2', 'm2')];
}

function dimensionOf(revision: BuiltLevel['revision'], { name, unit }: Dimension): number | undefined {
  return (unit === 'm' ? revision.dimensionsM : revision.dimensionsM2)?.[name];
}
