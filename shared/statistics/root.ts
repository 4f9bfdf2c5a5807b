/** Root finding for the inverses of distribution functions. */

const STEPS = 200;

/**
 * The positive root of an increasing function that is negative at 0, by Newton's method kept inside a shrinking bracket.
 * @param value the function
 * @param slope its derivative
 * @param guess a positive first guess
 * @returns the root to about 1e-15 relative
 */
export function increasingRoot(value: (x: number) => number, slope: (x: number) => number, guess: number): number {
  let low = 0;
  let high = guess > 0 ? guess : 1;
  while (value(high) < 0) {
    low = high;
    high *= 2;
  }
  let x = guess > low && guess < high ? guess : (low + high) / 2;
  for (let step = 0; step < STEPS; step++) {
    const atX = value(x);
    if (atX < 0) low = x;
    else high = x;
    const newton = x - atX / slope(x);
    const next = newton > low && newton < high ? newton : (low + high) / 2;
    if (Math.abs(next - x) <= 1e-15 * x) return next;
    x = next;
  }
  return x;
}
