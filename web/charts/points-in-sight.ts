/** A curve by fewer points, where a line through them is the same line on the screen. */

interface Point {
  readonly x: number;
  readonly y: number | null;
}

/**
 * Points of the curve such that the lines between them pass every other point no farther than `slack` above or below it; gaps stay.
 * The directions from the last point taken that do so are narrowed by each point, until one lies in none of them (the swinging
 * door of E. H. Bristol, Swinging door trending, 1990, from memory).
 */
export function pointsInSight(x: readonly number[], y: readonly (number | null)[], slack: number): Point[] {
  const taken: Point[] = [];
  let [from, least, most] = [-1, 0, 0];
  const take = (index: number) => {
    if (index <= from) return;
    taken.push({ x: x[index]!, y: y[index] ?? null });
    [from, least, most] = [index, Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY];
  };
  for (const [index, at] of x.entries()) {
    const value = y[index];
    const steepness = (toward: number) => (toward - y[from]!) / (at - x[from]!);
    if (value == null || y[from] == null) take(index - 1);
    else if (steepness(value) < least || steepness(value) > most) take(index - 1);
    if (value == null || y[from] == null) take(index);
    else {
      least = Math.max(least, steepness(value - slack));
      most = Math.min(most, steepness(value + slack));
    }
  }
  take(x.length - 1);
  return taken;
}
