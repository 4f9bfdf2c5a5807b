/** Ordinary least squares with an intercept and several explanatory variables. */

export interface LeastSquares {
  /** The intercept first, then one slope a variable. */
  coefficients: number[];
  standardErrors: number[];
  residualStandardDeviation: number;
  /** n − p − 1. */
  degreesOfFreedom: number;
}

/** A column counts as collinear with the others when they explain all of it but this share of its length. */
const INSEPARABLE = 1e-9;

/**
 * Fits y = b₀ + Σ bⱼxⱼ by Householder reflections (Å. Björck, Numerical Methods for Least Squares Problems, 1996, 2.3),
 * columns centred and scaled first.
 * @param rows n rows of p variables
 * @param y n values
 * @returns undefined where the variables are collinear or n ≤ p + 1
 * @throws RangeError for rows and values of different number
 */
export function leastSquares(rows: readonly (readonly number[])[], y: readonly number[]): LeastSquares | undefined {
  const count = rows.length;
  if (count !== y.length) throw new RangeError(`Each row needs a value; got ${count} rows and ${y.length} values`);
  const variables = rows[0]?.length ?? 0;
  const degreesOfFreedom = count - variables - 1;
  if (degreesOfFreedom < 1) return undefined;
  const means = Array.from({ length: variables }, (_, j) => rows.reduce((sum, row) => sum + row[j]!, 0) / count);
  const yMean = y.reduce((sum, value) => sum + value, 0) / count;
  const columns = means.map((centre, j) => rows.map((row) => row[j]! - centre));
  const scales = columns.map((column) => Math.hypot(...column));
  if (scales.some((scale) => scale === 0)) return undefined;
  const q = columns.map((column, j) => column.map((value) => value / scales[j]!));
  const target = y.map((value) => value - yMean);
  const r: number[][] = [];
  for (let j = 0; j < variables; j++) {
    const column = q[j]!;
    const below = Math.hypot(...column.slice(j));
    if (below < INSEPARABLE) return undefined;
    const pivot = column[j]! > 0 ? -below : below;
    const v = column.slice(j);
    v[0]! -= pivot;
    const norm = v.reduce((sum, value) => sum + value * value, 0);
    for (const other of [...q.slice(j), target]) {
      const factor = (2 * v.reduce((sum, value, i) => sum + value * other[j + i]!, 0)) / norm;
      v.forEach((value, i) => {
        other[j + i]! -= factor * value;
      });
    }
    r.push(q.map((each) => each[j]!));
  }
  const inverse = invertUpper(r);
  const slopes = inverse.map((row, j) => row.reduce((sum, value, i) => sum + value * target[i]!, 0) / scales[j]!);
  const residual = Math.sqrt(target.slice(variables).reduce((sum, value) => sum + value * value, 0) / degreesOfFreedom);
  // Rows of the inverse of R, scaled back: their products are the covariances of the slopes over the residual variance.
  const scaled = inverse.map((row, j) => row.map((value) => value / scales[j]!));
  const atMeans = Array.from({ length: variables }, (_, i) =>
    scaled.reduce((sum, row, j) => sum + means[j]! * row[i]!, 0),
  );
  return {
    coefficients: [yMean - slopes.reduce((sum, slope, j) => sum + slope * means[j]!, 0), ...slopes],
    standardErrors: [
      residual * Math.sqrt(1 / count + atMeans.reduce((sum, value) => sum + value * value, 0)),
      ...scaled.map((row) => residual * Math.hypot(...row)),
    ],
    residualStandardDeviation: residual,
    degreesOfFreedom,
  };
}

/** Inverse of an upper triangular matrix, column by column. */
function invertUpper(r: readonly (readonly number[])[]): number[][] {
  const size = r.length;
  const inverse = Array.from({ length: size }, () => new Array<number>(size).fill(0));
  for (let k = 0; k < size; k++) {
    for (let i = k; i >= 0; i--) {
      let sum = i === k ? 1 : 0;
      for (let j = i + 1; j <= k; j++) sum -= r[i]![j]! * inverse[j]![k]!;
      inverse[i]![k] = sum / r[i]![i]!;
    }
  }
  return inverse;
}
