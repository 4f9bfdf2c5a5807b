/** The scatter within groups, pooled over them: the residual of a one-way analysis of variance. */
import { mean } from './moments.ts';

export interface PooledVariance {
  variance: number;
  degreesOfFreedom: number;
}

/**
 * Pooled variance Σ(x − x̄ of its group)²/(N − K), with N − K degrees of freedom (NIST/SEMATECH e-Handbook, 7.4.3.3). A
 * group of one adds nothing to either; empty groups are skipped.
 * @returns undefined where no group has two values
 */
export function pooledVariance(groups: readonly (readonly number[])[]): PooledVariance | undefined {
  let squares = 0;
  let degreesOfFreedom = 0;
  for (const group of groups) {
    if (group.length < 2) continue;
    const centre = mean(group);
    for (const value of group) squares += (value - centre) ** 2;
    degreesOfFreedom += group.length - 1;
  }
  return degreesOfFreedom === 0 ? undefined : { variance: squares / degreesOfFreedom, degreesOfFreedom };
}
