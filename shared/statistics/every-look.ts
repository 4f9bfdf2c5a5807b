/**
 * Limits for a difference of means that hold at all looks together, whatever their number and the reason for each.
 *
 * Source: the mixture of t statistics over a normal effect with the right Haar measure for the unknown scatter: T. L.
 * Lai, Ann. Stat. 4 (1976), "On confidence sequences"; M. Lindon, D. W. Ham, M. Tingley, I. Bojinov, arXiv:2210.08589
 * (2022). The effect has a standard deviation of two scatters, which makes the limits narrowest for effects of that
 * size; they hold for every other as well.
 */

/** Variance of the effect over which the statistics are mixed, in units of the scatter's own variance. */
const EFFECT_VARIANCE = 4;

/**
 * How many standard errors from the observed difference the limits are, at every look: with r = 1 + 4·pairs and c =
 * (√r/outside)^(2/(ν+1)), t² = ν·(c − 1)/(1 − c/r).
 * @param outside chance that the true difference ever lies beyond a limit, above 0 and below 1
 * @param degreesOfFreedom ν > 0 of the pooled scatter; Infinity allowed
 * @param pairs nA·nB/(nA + nB) for two groups, n for n pairs
 * @returns Infinity while there are too few values for any limit (c ≥ r)
 * @throws RangeError unless 0 < outside < 1, ν > 0 and pairs > 0.
 */
export function everyLookFactor(outside: number, degreesOfFreedom: number, pairs: number): number {
  if (!(outside > 0 && outside < 1 && degreesOfFreedom > 0 && pairs > 0)) {
    throw new RangeError(
      `Limits at every look need a share outside, degrees of freedom and pairs; got ${outside}, ${degreesOfFreedom}, ${pairs}`,
    );
  }
  const r = 1 + EFFECT_VARIANCE * pairs;
  const evidence = Math.log(Math.sqrt(r) / outside);
  if (degreesOfFreedom === Infinity) return Math.sqrt((2 * evidence) / (1 - 1 / r));
  const excess = Math.expm1((2 * evidence) / (degreesOfFreedom + 1));
  const room = 1 - (1 + excess) / r;
  return room > 0 ? Math.sqrt((degreesOfFreedom * excess) / room) : Infinity;
}
