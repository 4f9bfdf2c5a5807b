/** The regularised incomplete beta function, from which the t and binomial distributions follow. */
import { logBeta } from './gamma.ts';

const TINY = 1e-300;
const CONVERGED = 3e-16;
const STEPS = 100_000;

/**
 * Both shares of a beta variable of shapes a, b > 0 that x cuts off: I_x(a, b) and 1 − I_x(a, b) (NIST DLMF 8.17).
 * Taking x together with its complement loses no digits when x is close to 1.
 * @param x from 0 to 1
 * @param complement 1 − x
 * @returns [lower share, upper share]; the smaller of the two has a relative error of about 1e-13
 * @throws RangeError unless both shapes are positive and x lies between 0 and 1.
 */
export function betaShares(x: number, complement: number, a: number, b: number): [lower: number, upper: number] {
  if (!(a > 0 && b > 0 && x >= 0 && complement >= 0)) {
    throw new RangeError(
      `The incomplete beta function needs positive shapes and 0 ≤ x ≤ 1; got x=${x}, a=${a}, b=${b}`,
    );
  }
  if (x === 0) return [0, 1];
  if (complement === 0) return [1, 0];
  // The fraction converges fast only below the mean; I_x(a, b) = 1 − I_{1−x}(b, a) serves the other side.
  if (x < (a + 1) / (a + b + 2)) {
    const lower = betaFraction(x, complement, a, b);
    return [lower, 1 - lower];
  }
  const upper = betaFraction(complement, x, b, a);
  return [1 - upper, upper];
}

/** Continued fraction of NIST DLMF 8.17.22 by Lentz's method. */
function betaFraction(x: number, complement: number, a: number, b: number): number {
  const logX = complement < 0.5 ? Math.log1p(-complement) : Math.log(x);
  const logComplement = x < 0.5 ? Math.log1p(-x) : Math.log(complement);
  let c = 1;
  let d = 1 / (1 - ((a + b) * x) / (a + 1) || TINY);
  let fraction = d;
  for (let m = 1; m < STEPS; m++) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    d = 1 / (1 + even * d || TINY);
    c = 1 + even / c || TINY;
    fraction *= d * c;
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    d = 1 / (1 + odd * d || TINY);
    c = 1 + odd / c || TINY;
    const factor = d * c;
    fraction *= factor;
    if (Math.abs(factor - 1) < CONVERGED) break;
  }
  return (Math.exp(a * logX + b * logComplement - logBeta(a, b)) * fraction) / a;
}
