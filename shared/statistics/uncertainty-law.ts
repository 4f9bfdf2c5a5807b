/**
 * The law of propagation of uncertainty and the degrees of freedom of its result.
 *
 * Source: JCGM 100:2008 (GUM), equations (10), (13) and (16) and annex G.4.
 */
import { coverageFactor } from './student-t.ts';

/** One input of a measurement: how far it moves the result, and how well that is known. */
export interface UncertaintySource {
  /** Signed contribution c·u of the input to the result, in the result's unit. */
  contribution: number;
  /** Degrees of freedom of u; infinite when left out, as for limits taken from a data sheet. */
  degreesOfFreedom?: number;
}

/** The correlation of two inputs, given by their indices in the list of sources. */
export interface SourceCorrelation {
  first: number;
  second: number;
  /** r, from −1 to 1. */
  coefficient: number;
}

/**
 * Combined standard uncertainty u_c² = Σ(cᵢuᵢ)² + 2ΣΣ cᵢuᵢcⱼuⱼrᵢⱼ, with the effective degrees of freedom of Welch and
 * Satterthwaite, ν = u_c⁴/Σ((cᵢuᵢ)⁴/νᵢ), infinite when every source has infinite freedom.
 * @throws RangeError for a correlation outside −1 to 1, one that names a source outside the list, or correlations that
 * contradict each other so that the variance is negative.
 */
export function combineUncertainty(
  sources: readonly UncertaintySource[],
  correlations: readonly SourceCorrelation[] = [],
): { standardUncertainty: number; degreesOfFreedom: number } {
  let variance = sources.reduce((sum, { contribution }) => sum + contribution * contribution, 0);
  const scale = variance;
  for (const { first, second, coefficient } of correlations) {
    const a = sources[first];
    const b = sources[second];
    if (a === undefined || b === undefined || first === second || !(Math.abs(coefficient) <= 1)) {
      throw new RangeError(`A correlation of ${coefficient} between sources ${first} and ${second} has no meaning`);
    }
    variance += 2 * coefficient * a.contribution * b.contribution;
  }
  // A rounding remainder below zero is a full cancellation; more than that is a contradiction in the correlations.
  if (variance < -1e-12 * scale)
    throw new RangeError('The correlations contradict each other: the variance is negative');
  variance = Math.max(0, variance);
  const spent = sources.reduce(
    (sum, { contribution, degreesOfFreedom = Infinity }) => sum + contribution ** 4 / degreesOfFreedom,
    0,
  );
  return {
    standardUncertainty: Math.sqrt(variance),
    degreesOfFreedom: spent === 0 ? Infinity : (variance * variance) / spent,
  };
}

/**
 * Expanded uncertainty U = k·u with k from Student's t, degrees of freedom as they are (not rounded down).
 * @param coverage share held by ±U, above 0 and below 1
 * @throws RangeError for a coverage outside that range or unless the degrees of freedom are positive.
 */
export function expandUncertainty(
  standardUncertainty: number,
  degreesOfFreedom: number,
  coverage = 0.95,
): { coverageFactor: number; expandedUncertainty: number } {
  const factor = coverageFactor(coverage, degreesOfFreedom);
  return { coverageFactor: factor, expandedUncertainty: factor * standardUncertainty };
}
