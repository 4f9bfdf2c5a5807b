/** Mean, spread and serial correlation of a series, by two passes so that a large offset loses no digits. */

type Values = ArrayLike<number>;

/**
 * Arithmetic mean, corrected by the mean of the deviations from it.
 * @throws RangeError for no values.
 */
export function mean(values: Values): number {
  const count = values.length;
  if (count === 0) throw new RangeError('A mean needs at least one value');
  let sum = 0;
  for (let index = 0; index < count; index++) sum += values[index]!;
  const first = sum / count;
  let residue = 0;
  for (let index = 0; index < count; index++) residue += values[index]! - first;
  return first + residue / count;
}

/**
 * Sample variance with n − 1 (two-pass with correction: T. F. Chan, G. H. Golub, R. J. LeVeque, Am. Stat. 37, 1983).
 * @throws RangeError for fewer than two values.
 */
export function variance(values: Values): number {
  const count = values.length;
  if (count < 2) throw new RangeError('A variance needs at least two values');
  const centre = mean(values);
  let squares = 0;
  let residue = 0;
  for (let index = 0; index < count; index++) {
    const deviation = values[index]! - centre;
    squares += deviation * deviation;
    residue += deviation;
  }
  return (squares - (residue * residue) / count) / (count - 1);
}

/**
 * Sample standard deviation with n − 1.
 * @throws RangeError for fewer than two values.
 */
export function standardDeviation(values: Values): number {
  return Math.sqrt(variance(values));
}

/**
 * Correlation of each value with the next, as the NIST Statistical Reference Datasets define it:
 * r₁ = Σ(xᵢ − x̄)(xᵢ₊₁ − x̄) / Σ(xᵢ − x̄)².
 * @returns 0 for a series without any spread.
 * @throws RangeError for fewer than two values.
 */
export function lag1Autocorrelation(values: Values): number {
  const count = values.length;
  if (count < 2) throw new RangeError('A serial correlation needs at least two values');
  const centre = mean(values);
  let products = 0;
  let squares = 0;
  let previous = 0;
  for (let index = 0; index < count; index++) {
    const deviation = values[index]! - centre;
    if (index > 0) products += deviation * previous;
    squares += deviation * deviation;
    previous = deviation;
  }
  return squares === 0 ? 0 : products / squares;
}

/**
 * Number of independent values that would average as well as n correlated ones: n(1 − ρ)/(1 + ρ) for a first-order
 * autoregression (G. V. Bayley, J. M. Hammersley, J. R. Stat. Soc. 8, 1946), limited to 1 to n, so that a negative
 * sample correlation does not give more values than were measured.
 * @param count n, at least 1
 * @param lag1 ρ, from −1 to 1
 */
export function effectiveSampleSize(count: number, lag1: number): number {
  if (!(lag1 < 1)) return 1;
  return Math.min(count, Math.max(1, (count * (1 - lag1)) / (1 + lag1)));
}
