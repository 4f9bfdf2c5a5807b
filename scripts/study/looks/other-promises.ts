/** Twelve other results at once, and the effect of a dimension: plain rules next to ours. */
import { dimensionEffects } from '../../../shared/comparison/dimension-effects.ts';
import { levelOf } from '../../../shared/comparison/looks.ts';
import { compareGroups, limitsOf } from '../../../shared/comparison/mean-difference.ts';
import { leastSquares } from '../../../shared/statistics/least-squares.ts';
import { createRandom, type Random } from '../../../shared/statistics/random.ts';
import { coverageFactor } from '../../../shared/statistics/student-t.ts';

export interface OtherResults {
  days: number;
  batches: number;
  /**
   * Batches of two equal revisions in which at least one of twelve results differs, at 95 % each and with the error
   * rate divided among them.
   */
  plain: number;
  standingOut: number;
}

const RESULTS = 12;

/** @param alike share of the variance that all twelve results have in common */
export function twelveResults(days: number, alike: number, batches: number): OtherResults {
  const random = createRandom(`twelve results ${days} ${alike}`);
  const outcome = { days, batches, plain: 0, standingOut: 0 };
  const level = levelOf({ kind: 'planned' }, RESULTS);
  for (let batch = 0; batch < batches; batch++) {
    const common = [days, days].map((count) => normals(random, count));
    const found = Array.from({ length: RESULTS }, () => {
      const [a, b] = common.map((shared) =>
        shared.map((z) => Math.sqrt(alike) * z + Math.sqrt(1 - alike) * random.normal()).map(asDay),
      );
      const estimate = compareGroups(a!, b!);
      return { plain: reported(estimate.interval95), standingOut: reported(limitsOf(estimate, level)!) };
    });
    if (found.some(({ plain }) => plain)) outcome.plain += 1;
    if (found.some(({ standingOut }) => standingOut)) outcome.standingOut += 1;
  }
  return outcome;
}

const normals = (random: Random, count: number) => Array.from({ length: count }, () => random.normal());
const reported = ([low, high]: readonly [number, number]) => low > 0 || high < 0;
const asDay = (value: number) => ({ burnId: '', value, shared: new Map<string, number>(), ownVariance: 0 });

export interface Effects {
  revisions: number;
  trials: number;
  /** Intervals that contained the true effect, with burns as replicates and with revisions. */
  burnsHeld: number;
  revisionsHeld: number;
}

const EFFECT_PER_M = -0.5;

/** Revisions of different heights that differ by 3 % in other ways too, three days each. */
export function heightEffects(revisions: number, trials: number): Effects {
  const random = createRandom(`effects ${revisions}`);
  const outcome = { revisions, trials, burnsHeld: 0, revisionsHeld: 0 };
  for (let trial = 0; trial < trials; trial++) {
    const built = Array.from({ length: revisions }, (_, index) => {
      const riser = 0.4 + 0.05 * index;
      const level = EFFECT_PER_M * riser + 0.03 * random.normal();
      return { riser, days: normals(random, 3).map((z) => level + 0.05 * z) };
    });
    const fit = leastSquares(
      built.flatMap(({ riser, days }) => days.map(() => [riser])),
      built.flatMap(({ days }) => days),
    )!;
    const half = coverageFactor(0.95, fit.degreesOfFreedom) * fit.standardErrors[1]!;
    if (Math.abs(fit.coefficients[1]! - EFFECT_PER_M) <= half) outcome.burnsHeld += 1;
    const found = dimensionEffects(
      built.map(({ riser, days }) => ({
        revision: { dimensionsM: { riser } },
        level: days.reduce((sum, value) => sum + value, 0) / days.length,
      })),
    );
    if (!found || 'missing' in found) continue;
    const [{ interval, per }] = found.effects as [(typeof found.effects)[number]];
    if (interval[0] <= EFFECT_PER_M * per && EFFECT_PER_M * per <= interval[1]) outcome.revisionsHeld += 1;
  }
  return outcome;
}
