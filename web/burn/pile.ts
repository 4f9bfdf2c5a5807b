/** The mass removed from the scale under the pile since a moment: what was probably just fed. */

/** Smaller changes than this are due to wind, not to a log. */
const smallestKg = 0.05;

/**
 * Mass that left the pile between `sinceS` (or the first reading) and now, rounded to 10 g.
 * @param pile readings of the pile scale in kg over elapsed seconds; null is a gap
 * @returns undefined when the pile did not get lighter
 */
export function pileDropKg(
  pile: { readonly t: readonly number[]; readonly v: readonly (number | null)[] },
  sinceS: number,
): number | undefined {
  const known = pile.t.flatMap((t, index) => {
    const kg = pile.v[index];
    return kg === null || kg === undefined ? [] : [{ t, kg }];
  });
  const before = known.filter(({ t }) => t <= sinceS).at(-1) ?? known[0];
  const now = known.at(-1);
  if (!before || !now) return undefined;
  const drop = Math.round((before.kg - now.kg) * 100) / 100;
  return drop >= smallestKg ? drop : undefined;
}
