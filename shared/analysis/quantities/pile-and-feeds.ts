/** Compares the wood that left the pile with the wood that was logged as fed. */

/** Differences above which the two contradict each other ("common practice, no source"). */
const SHARE = 0.03;
const LEAST_KG = 0.05;

/**
 * Returns whether the logged feeds contradict the mass that left the pile: by more than 3 % of it and more than 50 g.
 * @param allWeighed false when some feeds were logged without a mass: then only an excess contradicts
 */
export function feedsContradictPile(goneKg: number, feedsKg: number, allWeighed: boolean): boolean {
  const differenceKg = feedsKg - goneKg;
  return (allWeighed ? Math.abs(differenceKg) : differenceKg) > Math.max(LEAST_KG, SHARE * goneKg);
}
