/**
 * The binomial distribution, used to test a claimed coverage against the count of intervals that hold the true value.
 */
import { betaShares } from './beta.ts';

/**
 * Probability of at most `count` successes in `trials` trials (NIST DLMF 8.17.5).
 * @param probability of one success, from 0 to 1
 * @throws RangeError for a probability outside 0 to 1 or a number of trials that is not whole and at least 1.
 */
export function binomialCdf(count: number, trials: number, probability: number): number {
  if (!(Number.isInteger(trials) && trials >= 1 && probability >= 0 && probability <= 1)) {
    throw new RangeError(
      `A binomial needs whole trials and a probability from 0 to 1; got ${trials} and ${probability}`,
    );
  }
  const whole = Math.floor(count);
  if (whole < 0) return 0;
  if (whole >= trials) return 1;
  return betaShares(1 - probability, probability, trials - whole, whole + 1)[0];
}

/**
 * The exact central band of counts: at most (1 − confidence)/2 of the probability lies below `low` and as much above
 * `high`.
 * @param trials whole, at least 1
 * @param probability of one success, from 0 to 1
 * @param confidence least probability inside the band, above 0 and below 1
 * @throws RangeError for arguments outside these ranges.
 */
export function binomialBand(trials: number, probability: number, confidence: number): { low: number; high: number } {
  if (!(confidence > 0 && confidence < 1))
    throw new RangeError(`A confidence must lie between 0 and 1; got ${confidence}`);
  const outside = (1 - confidence) / 2;
  return {
    low: smallestCount(trials, (count) => binomialCdf(count, trials, probability) > outside),
    high: smallestCount(trials, (count) => binomialCdf(count, trials, probability) >= 1 - outside),
  };
}

/** Bisection over counts for the first that satisfies a condition which holds from some count on. */
function smallestCount(trials: number, holds: (count: number) => boolean): number {
  let low = 0;
  let high = trials;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if (holds(middle)) high = middle;
    else low = middle + 1;
  }
  return low;
}
