/** The noncentral t distribution, from which the power of a t test follows. */
import { betaShares } from './beta.ts';
import { normalCdf } from './normal-distribution.ts';
import { studentTCdf } from './student-t.ts';

const CONVERGED = 1e-14;
const STEPS = 5_000;

/** Beyond this noncentrality exp(−δ²/2) is no longer a number; the normal limit then serves well enough for power. */
const LARGEST_NONCENTRALITY = 37;

/**
 * Share of a noncentral t variable below t: algorithm AS 243 (R. V. Lenth, Appl. Stat. 38, 1989), absolute error about
 * 1e-12; beyond a noncentrality of 37 the normal approximation of M. Abramowitz, I. A. Stegun (1964), 26.7.10.
 * @param degreesOfFreedom ν > 0, not necessarily whole; Infinity allowed
 * @param noncentrality δ, the true difference in units of its standard error
 * @throws RangeError unless ν > 0.
 */
export function noncentralTCdf(t: number, degreesOfFreedom: number, noncentrality: number): number {
  if (noncentrality === 0) return studentTCdf(t, degreesOfFreedom);
  if (degreesOfFreedom === Infinity) return normalCdf(t - noncentrality);
  if (t < 0) return 1 - noncentralTCdf(-t, degreesOfFreedom, -noncentrality);
  if (Math.abs(noncentrality) > LARGEST_NONCENTRALITY) return normalLimit(t, degreesOfFreedom, noncentrality);

  const square = t * t;
  const x = square / (square + degreesOfFreedom);
  const complement = degreesOfFreedom / (square + degreesOfFreedom);
  const half = degreesOfFreedom / 2;
  const rate = (noncentrality * noncentrality) / 2;
  let evenWeight = 0.5 * Math.exp(-rate);
  let oddWeight = Math.sqrt(2 / Math.PI) * evenWeight * noncentrality;
  let remaining = 0.5 - evenWeight;
  let sum = 0;
  for (let step = 0; step < STEPS; step++) {
    const even = betaShares(x, complement, step + 0.5, half)[0];
    const odd = betaShares(x, complement, step + 1, half)[0];
    sum += evenWeight * even + oddWeight * odd;
    // Weights grow before they shrink; only past the largest weight does the remainder bound the error.
    if (step > rate && 2 * Math.abs(remaining) * odd < CONVERGED) break;
    evenWeight *= rate / (step + 1);
    oddWeight *= rate / (step + 1.5);
    remaining -= evenWeight;
  }
  return Math.min(1, Math.max(0, sum + normalCdf(-noncentrality)));
}

function normalLimit(t: number, degreesOfFreedom: number, noncentrality: number): number {
  const scale = 1 - 1 / (4 * degreesOfFreedom);
  return normalCdf((t * scale - noncentrality) / Math.sqrt(1 + (t * t) / (2 * degreesOfFreedom)));
}
