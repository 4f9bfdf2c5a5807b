/** A straight line through points, by least squares or robustly. */
import { median } from './quantile.ts';

type Values = ArrayLike<number>;

/** y = intercept + slope·x with the standard errors of both and their covariance. */
export interface LineFit {
  slope: number;
  intercept: number;
  slopeStandardError: number;
  interceptStandardError: number;
  covariance: number;
  /** Root of the residual sum of squares (weighted in a weighted fit) over the degrees of freedom. */
  residualStandardDeviation: number;
  /** n − 2. */
  degreesOfFreedom: number;
}

/**
 * Ordinary least squares; the scatter about the line is taken from the residuals. Sums are taken about the mean of x.
 * @throws RangeError for fewer than three points, unequal lengths, or an x without any spread.
 */
export function fitLine(x: Values, y: Values): LineFit {
  return leastSquares(x, y, null);
}

/**
 * Weighted least squares with weights 1/u², u the known standard uncertainty of each y; the standard errors follow from
 * these uncertainties, not from the residuals.
 * @throws RangeError for fewer than three points, unequal lengths, an x without any spread, or an uncertainty not positive.
 */
export function fitWeightedLine(x: Values, y: Values, standardUncertainty: Values): LineFit {
  if (standardUncertainty.length !== x.length || !Array.from(standardUncertainty).every((u) => u > 0)) {
    throw new RangeError('A weighted line needs one positive standard uncertainty for each point');
  }
  return leastSquares(
    x,
    y,
    Float64Array.from(standardUncertainty, (u) => 1 / (u * u)),
  );
}

function leastSquares(x: Values, y: Values, weights: Float64Array | null): LineFit {
  const count = x.length;
  if (count !== y.length) throw new RangeError(`A line needs as many y as x; got ${y.length} and ${count}`);
  if (count < 3) throw new RangeError('A line with standard errors needs at least three points');
  const weight = (index: number) => (weights === null ? 1 : weights[index]!);
  let total = 0;
  let centreX = 0;
  let centreY = 0;
  for (let index = 0; index < count; index++) total += weight(index);
  for (let index = 0; index < count; index++) {
    centreX += (weight(index) * x[index]!) / total;
    centreY += (weight(index) * y[index]!) / total;
  }
  let squares = 0;
  let products = 0;
  for (let index = 0; index < count; index++) {
    const deviation = x[index]! - centreX;
    squares += weight(index) * deviation * deviation;
    products += weight(index) * deviation * (y[index]! - centreY);
  }
  if (!(squares > 0)) throw new RangeError('A line needs points at two or more different x');
  const slope = products / squares;
  let residualSquares = 0;
  for (let index = 0; index < count; index++) {
    const residual = y[index]! - centreY - slope * (x[index]! - centreX);
    residualSquares += weight(index) * residual * residual;
  }
  const degreesOfFreedom = count - 2;
  const residualVariance = residualSquares / degreesOfFreedom;
  const unit = weights === null ? residualVariance : 1;
  return {
    slope,
    intercept: centreY - slope * centreX,
    slopeStandardError: Math.sqrt(unit / squares),
    interceptStandardError: Math.sqrt(unit * (1 / total + (centreX * centreX) / squares)),
    covariance: (-unit * centreX) / squares,
    residualStandardDeviation: Math.sqrt(residualVariance),
    degreesOfFreedom,
  };
}

/**
 * Robust line of H. Theil (1950) and P. K. Sen (J. Am. Stat. Assoc. 63, 1968): the median of the slopes between all
 * pairs of points, and the median of y − slope·x. Nearly three points in ten may be outliers. Computes n²/2 slopes:
 * meant for n up to a few thousand.
 * @throws RangeError for fewer than two points, unequal lengths, or an x without any spread.
 */
export function fitRobustLine(x: Values, y: Values): { slope: number; intercept: number } {
  const count = x.length;
  if (count !== y.length) throw new RangeError(`A line needs as many y as x; got ${y.length} and ${count}`);
  const slopes = new Float64Array((count * (count - 1)) / 2);
  let filled = 0;
  for (let first = 0; first < count; first++) {
    for (let second = first + 1; second < count; second++) {
      const run = x[second]! - x[first]!;
      if (run !== 0) slopes[filled++] = (y[second]! - y[first]!) / run;
    }
  }
  if (filled === 0) throw new RangeError('A robust line needs points at two or more different x');
  const slope = median(slopes.subarray(0, filled));
  return {
    slope,
    intercept: median(Float64Array.from({ length: count }, (_, index) => y[index]! - slope * x[index]!)),
  };
}
