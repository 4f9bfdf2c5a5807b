/** Distribution functions against jstat 1.9.6, an independent implementation whose beta fraction stops at 3e-7. */
import { jStat } from 'jstat';
import { expect, test } from 'vitest';
import { betaShares } from '../../shared/statistics/beta.ts';
import { logGamma } from '../../shared/statistics/gamma.ts';
import { normalCdf, normalQuantile } from '../../shared/statistics/normal-distribution.ts';
import { studentTCdf, studentTQuantile } from '../../shared/statistics/student-t.ts';

const degreesOfFreedom = [1, 2, 2.7, 5, 10, 33.3, 120, 1000];

test('the t distribution function agrees on a grid', () => {
  for (const df of degreesOfFreedom) {
    for (const t of [-8, -2.5, -1, -0.1, 0, 0.3, 1.7, 4]) {
      expect(studentTCdf(t, df), `t=${t}, ν=${df}`).toBeCloseTo(jStat.studentt.cdf(t, df), 7);
    }
  }
});

test('the t quantile agrees on a grid', () => {
  for (const df of degreesOfFreedom) {
    for (const p of [0.005, 0.025, 0.2, 0.6, 0.95, 0.9995]) {
      const theirs = jStat.studentt.inv(p, df);
      expect(Math.abs(studentTQuantile(p, df) / theirs - 1), `p=${p}, ν=${df}`).toBeLessThan(1e-7);
    }
  }
});

test('the normal distribution agrees both ways', () => {
  for (const z of [-4, -1.5, 0, 0.2, 3]) expect(normalCdf(z)).toBeCloseTo(jStat.normal.cdf(z, 0, 1), 13);
  for (const p of [1e-4, 0.1, 0.5, 0.77, 0.999]) expect(normalQuantile(p)).toBeCloseTo(jStat.normal.inv(p, 0, 1), 9);
});

test('log-gamma and the incomplete beta function agree', () => {
  for (const x of [0.1, 0.9, 2.5, 14.9, 15.1, 300]) expect(logGamma(x)).toBeCloseTo(jStat.gammaln(x), 8);
  for (const [x, a, b] of [
    [0.2, 2, 3],
    [0.9, 0.5, 0.5],
    [0.51, 40, 38],
    [0.03, 7, 200],
  ] as const) {
    expect(betaShares(x, 1 - x, a, b)[0]).toBeCloseTo(jStat.ibeta(x, a, b), 7);
  }
});
