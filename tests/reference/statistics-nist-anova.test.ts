/**
 * Scatter pooled within groups and regression on several variables against the certified values of the NIST Statistical Reference
 * Datasets (www.itl.nist.gov/div898/strd): analysis of variance SiRstv (five instruments) and AtmWtAg (two), regression Longley.
 */
import { expect, test } from 'vitest';
import { leastSquares } from '../../shared/statistics/least-squares.ts';
import { pooledVariance } from '../../shared/statistics/within-groups.ts';

const siRstv = [
  [196.3052, 196.124, 196.189, 196.2569, 196.3403],
  [196.3042, 196.3825, 196.1669, 196.3257, 196.0422],
  [196.1303, 196.2005, 196.2889, 196.0343, 196.1811],
  [196.2795, 196.1748, 196.1494, 196.1485, 195.9885],
  [196.2119, 196.1051, 196.185, 196.0052, 196.209],
];
const atmWtAg = [
  [
    107.8681568, 107.8681465, 107.8681572, 107.8681785, 107.8681446, 107.8681903, 107.8681526, 107.8681494, 107.8681616,
    107.8681587, 107.8681519, 107.8681486, 107.8681419, 107.8681569, 107.8681508, 107.8681672, 107.8681385, 107.8681518,
    107.8681662, 107.8681424, 107.868136, 107.8681333, 107.868161, 107.8681477,
  ],
  [
    107.8681079, 107.8681344, 107.8681513, 107.8681197, 107.8681604, 107.8681385, 107.8681642, 107.8681365, 107.8681151,
    107.8681082, 107.8681517, 107.8681448, 107.8681198, 107.8681482, 107.8681334, 107.8681609, 107.8681101, 107.8681512,
    107.8681469, 107.868136, 107.8681254, 107.8681261, 107.868145, 107.8681368,
  ],
];

/** Six variables so nearly collinear that normal equations lose most digits: y, then x1 to x6. */
const longley = [
  [60323, 83.0, 234289, 2356, 1590, 107608, 1947],
  [61122, 88.5, 259426, 2325, 1456, 108632, 1948],
  [60171, 88.2, 258054, 3682, 1616, 109773, 1949],
  [61187, 89.5, 284599, 3351, 1650, 110929, 1950],
  [63221, 96.2, 328975, 2099, 3099, 112075, 1951],
  [63639, 98.1, 346999, 1932, 3594, 113270, 1952],
  [64989, 99.0, 365385, 1870, 3547, 115094, 1953],
  [63761, 100.0, 363112, 3578, 3350, 116219, 1954],
  [66019, 101.2, 397469, 2904, 3048, 117388, 1955],
  [67857, 104.6, 419180, 2822, 2857, 118734, 1956],
  [68169, 108.4, 442769, 2936, 2798, 120445, 1957],
  [66513, 110.8, 444546, 4681, 2637, 121950, 1958],
  [68655, 112.6, 482704, 3813, 2552, 123366, 1959],
  [69564, 114.2, 502601, 3931, 2514, 125368, 1960],
  [69331, 115.7, 518173, 4806, 2572, 127852, 1961],
  [70551, 116.9, 554894, 4007, 2827, 130081, 1962],
];
const certified: readonly (readonly [estimate: number, standardDeviation: number])[] = [
  [-3482258.63459582, 890420.383607373],
  [15.0618722713733, 84.9149257747669],
  [-0.035819179292591, 0.0334910077722432],
  [-2.02022980381683, 0.488399681651699],
  [-1.03322686717359, 0.214274163161675],
  [-0.0511041056535807, 0.22607320006937],
  [1829.15146461355, 455.478499142212],
];

const difference = (ours: number, theirs: number) => Math.abs(ours / theirs - 1);

test('the scatter within five instruments is the certified residual of SiRstv', () => {
  const { variance, degreesOfFreedom } = pooledVariance(siRstv)!;
  expect(degreesOfFreedom).toBe(20);
  expect(difference(variance * 20, 2.1663656e-1)).toBeLessThan(1e-11);
  expect(difference(Math.sqrt(variance), 1.04076068334656e-1)).toBeLessThan(1e-11);
});

test('the scatter of AtmWtAg, whose values share seven digits, is as precise as those digits allow', () => {
  const { variance, degreesOfFreedom } = pooledVariance(atmWtAg)!;
  expect(degreesOfFreedom).toBe(46);
  expect(difference(variance, 2.28155932971014e-10)).toBeLessThan(1e-8);
  expect(difference(Math.sqrt(variance), 1.5104831444641e-5)).toBeLessThan(1e-8);
});

test('regression on six variables gives the certified coefficients and deviations of Longley', () => {
  const fit = leastSquares(
    longley.map(([, ...row]) => row),
    longley.map(([y]) => y!),
  )!;
  expect(fit.degreesOfFreedom).toBe(9);
  expect(difference(fit.residualStandardDeviation, 304.854073561965)).toBeLessThan(1e-10);
  certified.forEach(([estimate, deviation], j) => {
    expect(difference(fit.coefficients[j]!, estimate), `b${j}`).toBeLessThan(1e-9);
    expect(difference(fit.standardErrors[j]!, deviation), `deviation of b${j}`).toBeLessThan(1e-9);
  });
});

test('collinear variables, and too few rows, give no fit', () => {
  const doubled = [1, 2, 3, 4, 5].map((x) => [x, 2 * x + 1]);
  expect(leastSquares(doubled, [1, 2, 3, 4, 6])).toBeUndefined();
  expect(leastSquares([[1], [1], [1]], [1, 2, 3])).toBeUndefined();
  expect(leastSquares([[1], [2]], [1, 2])).toBeUndefined();
  expect(pooledVariance([[1], [], [2]])).toBeUndefined();
});
