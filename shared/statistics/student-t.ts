/** Student's t distribution, central. Infinite degrees of freedom give the normal distribution. */
import { betaShares } from './beta.ts';
import { logBeta } from './gamma.ts';
import { normalCdf, normalQuantile } from './normal-distribution.ts';
import { increasingRoot } from './root.ts';

/** From here on t and the normal agree to better than 1e-9. */
const AS_GOOD_AS_NORMAL = 1e10;

/**
 * Share of a t variable below t (NIST DLMF 8.17 with x = ν/(ν + t²)).
 * @param degreesOfFreedom ν > 0, not necessarily whole; Infinity allowed
 * @throws RangeError unless ν > 0.
 */
export function studentTCdf(t: number, degreesOfFreedom: number): number {
  requireFreedom(degreesOfFreedom);
  if (degreesOfFreedom > AS_GOOD_AS_NORMAL) return normalCdf(t);
  const square = t * t;
  if (square === Infinity) return t < 0 ? 0 : 1;
  const sum = degreesOfFreedom + square;
  const [outside] = betaShares(degreesOfFreedom / sum, square / sum, degreesOfFreedom / 2, 0.5);
  return t < 0 ? outside / 2 : 1 - outside / 2;
}

/**
 * The value below which a t variable lies with the given probability; 0 and 1 give −∞ and ∞.
 * @param degreesOfFreedom ν > 0, not necessarily whole; Infinity allowed
 * @throws RangeError for a probability outside 0 to 1, or unless ν > 0.
 */
export function studentTQuantile(probability: number, degreesOfFreedom: number): number {
  requireFreedom(degreesOfFreedom);
  const z = normalQuantile(probability);
  if (degreesOfFreedom > AS_GOOD_AS_NORMAL || z === 0 || !Number.isFinite(z)) return z;
  const tail = z < 0 ? probability : 1 - probability;
  const size = increasingRoot(
    (t) => tail - studentTCdf(-t, degreesOfFreedom),
    (t) => density(t, degreesOfFreedom),
    Math.abs(z),
  );
  return z < 0 ? -size : size;
}

/**
 * The factor k for which ±k standard uncertainties hold the given share of a t variable: t quantile at (1 + share)/2.
 * @throws RangeError unless 0 < share < 1 and ν > 0.
 */
export function coverageFactor(share: number, degreesOfFreedom: number): number {
  if (!(share > 0 && share < 1)) throw new RangeError(`A coverage must lie between 0 and 1; got ${share}`);
  return -studentTQuantile((1 - share) / 2, degreesOfFreedom);
}

function density(t: number, degreesOfFreedom: number): number {
  const logScale = logBeta(degreesOfFreedom / 2, 0.5) + 0.5 * Math.log(degreesOfFreedom);
  return Math.exp(-0.5 * (degreesOfFreedom + 1) * Math.log1p((t * t) / degreesOfFreedom) - logScale);
}

function requireFreedom(degreesOfFreedom: number): void {
  if (!(degreesOfFreedom > 0)) {
    throw new RangeError(`Degrees of freedom must be positive; got ${degreesOfFreedom}`);
  }
}
