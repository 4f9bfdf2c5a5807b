/** The wood that left the pile against the wood that was logged as fed. */

/** Beyond these the two contradict each other ("common practice, no source"). */
const SHARE = 0.03;
const LEAST_KG = 0.05;

/**
 * Whether the feeds logged contradict what is gone from the pile: by more than 3 % of it and more than 50 g.
 * @param allWeighed false when some feeds were logged without a mass: then only too much can contradict
 */
export function feedsContradictPile(goneKg: number, feedsKg: number, allWeighed: boolean): boolean {
  const differenceKg = feedsKg - goneKg;
  return (allWeighed ? Math.abs(differenceKg) : differenceKg) > Math.max(LEAST_KG, SHARE * goneKg);
}
