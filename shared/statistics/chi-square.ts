/** The chi-square distribution, and the interval it gives for a standard deviation estimated from few values. */
import { logGamma, regularisedGammaP } from './gamma.ts';
import { normalQuantile } from './normal-distribution.ts';
import { increasingRoot } from './root.ts';

/**
 * Share of a chi-square variable below x (NIST DLMF 8.2.4 with shape ν/2).
 * @throws RangeError unless ν > 0.
 */
export function chiSquareCdf(x: number, degreesOfFreedom: number): number {
  requireFreedom(degreesOfFreedom);
  return regularisedGammaP(degreesOfFreedom / 2, x / 2);
}

/**
 * The value below which a chi-square variable lies with the given probability.
 * @throws RangeError unless 0 < probability < 1 and ν > 0.
 */
export function chiSquareQuantile(probability: number, degreesOfFreedom: number): number {
  requireFreedom(degreesOfFreedom);
  if (!(probability > 0 && probability < 1)) {
    throw new RangeError(`A probability must lie between 0 and 1; got ${probability}`);
  }
  const half = degreesOfFreedom / 2;
  const density = (x: number) => 0.5 * Math.exp((half - 1) * Math.log(x / 2) - x / 2 - logGamma(half));
  // Wilson–Hilferty: the cube root is nearly normal.
  const spread = 2 / (9 * degreesOfFreedom);
  const guess = degreesOfFreedom * Math.max(1e-3, 1 - spread + normalQuantile(probability) * Math.sqrt(spread)) ** 3;
  return increasingRoot((x) => chiSquareCdf(x, degreesOfFreedom) - probability, density, guess);
}

/**
 * Interval for a true standard deviation of which s is an estimate, for normal values: s·√(ν/χ²).
 * @param coverage confidence that the interval holds the true value, above 0 and below 1
 * @throws RangeError for a coverage outside that range or unless ν > 0.
 */
export function standardDeviationInterval(
  s: number,
  degreesOfFreedom: number,
  coverage: number,
): [low: number, high: number] {
  const outside = (1 - coverage) / 2;
  return [
    s * Math.sqrt(degreesOfFreedom / chiSquareQuantile(1 - outside, degreesOfFreedom)),
    s * Math.sqrt(degreesOfFreedom / chiSquareQuantile(outside, degreesOfFreedom)),
  ];
}

function requireFreedom(degreesOfFreedom: number): void {
  if (!(degreesOfFreedom > 0)) throw new RangeError(`Degrees of freedom must be positive; got ${degreesOfFreedom}`);
}
