/** How often a ladder of revisions is right as stated, compared with plain 95 % intervals step by step. */
import { unadjusted } from '../../../shared/comparison/adjustment.ts';
import { compareResult, type Entry } from '../../../shared/comparison/compare-result.ts';
import type { ComparedBurn } from '../../../shared/comparison/compared-burn.ts';
import { levelOf } from '../../../shared/comparison/looks.ts';
import { compareGroups, limitsOf } from '../../../shared/comparison/mean-difference.ts';
import { createRandom } from '../../../shared/statistics/random.ts';
import { summarise, welchComparison } from '../../../shared/statistics/two-samples.ts';
import { pooledVariance } from '../../../shared/statistics/within-groups.ts';
import { type Burn, type Design, SimulatedDays } from './simulated-days.ts';

export interface Ladders extends Design {
  revisions: number;
  days: number;
  ladders: number;
  /** Ladders whose steps are all inside their intervals, by plain Welch over days and by the ladder. */
  plainHeld: number;
  ladderHeld: number;
  /** Ladders whose best revision is among those that may be the best, and the mean number of those. */
  bestChosen: number;
  inRunning: number;
}

const PLANNED = { kind: 'planned' } as const;

/** @param stepSize true change from each revision to the next, relative */
export function wholeLadders(
  design: Design,
  revisions: number,
  days: number,
  ladders: number,
  stepSize: number,
): Ladders {
  const random = createRandom(`${JSON.stringify(design)} ${revisions} ${days} ${stepSize}`);
  const levels = Array.from({ length: revisions }, (_, index) => -stepSize * index);
  const outcome: Ladders = {
    ...design,
    revisions,
    days,
    ladders,
    plainHeld: 0,
    ladderHeld: 0,
    bestChosen: 0,
    inRunning: 0,
  };
  const level = levelOf(PLANNED, revisions - 1);
  for (let ladder = 0; ladder < ladders; ladder++) {
    const setup = new SimulatedDays(random, design, revisions);
    for (let day = 0; day < days; day++) setup.burnADayOfEach(levels);
    const groups = levels.map((_, index) => setup.days(index));
    const pool = pooledVariance(groups.map((group) => group.map(({ value }) => value)))!;
    const holds = ([low, high]: readonly [number, number]) => low <= -stepSize && -stepSize <= high;
    const steps = groups.slice(1).map((after, index) => [groups[index]!, after] as const);
    if (steps.every(([a, b]) => holds(compareGroups(a, b).interval95))) outcome.plainHeld += 1;
    if (steps.every(([a, b]) => holds(limitsOf(compareGroups(a, b, pool), level)!))) outcome.ladderHeld += 1;
    const means = groups.map((group) => group.reduce((sum, { value }) => sum + value, 0) / group.length);
    const seen = means.indexOf(Math.min(...means));
    const mayBe = groups.filter((group, index) => {
      if (index === seen) return true;
      const oneSided = { ...level, outside: 2 * level.outside };
      return limitsOf(compareGroups(groups[seen]!, group, pool), oneSided)![0] <= 0;
    });
    outcome.inRunning += mayBe.length / ladders;
    if (mayBe.includes(groups.at(-1)!)) outcome.bestChosen += 1;
  }
  return outcome;
}

export interface TwoRevisions {
  days: number;
  difference: number;
  batches: number;
  /** Batches with a verdict at the planned number of days. */
  /** By the step of the published ladder, which for two revisions is Welch's comparison. */
  ladder: number;
  welch: number;
  /** With the scatter pooled over the two. */
  pooled: number;
}

/** A ladder of two revisions compared with Welch's comparison: how many batches get a verdict by either. */
export function ladderOfTwo(days: number, difference: number, batches: number): TwoRevisions {
  const design: Design = { lots: 'crossed', dayScatter: 0, burnScatter: 0.05, burnsADay: 1, ratio: 1 };
  const random = createRandom(`two revisions ${days} ${difference}`);
  const outcome = { days, difference, batches, welch: 0, ladder: 0, pooled: 0 };
  const reported = ([low, high]: readonly [number, number]) => (low > 0 || high < 0 ? 1 : 0);
  for (let batch = 0; batch < batches; batch++) {
    const setup = new SimulatedDays(random, design, 2);
    for (let day = 0; day < days; day++) setup.burnADayOfEach([0, -difference]);
    const [a, b] = [setup.days(0), setup.days(1)];
    const pool = pooledVariance([a, b].map((group) => group.map(({ value }) => value)))!;
    const { welch, delivered } = bothWays(setup.burns);
    outcome.welch += reported(welch);
    outcome.ladder += reported(delivered);
    outcome.pooled += reported(limitsOf(compareGroups(a, b, pool), levelOf(PLANNED, 1))!);
  }
  return outcome;
}

/** Welch's interval of the plain values, and the published one of two revisions of whole burns. */
function bothWays(burns: readonly (readonly Burn[])[]): Record<'welch' | 'delivered', readonly [number, number]> {
  const entries = burns.flatMap((group, index) =>
    group.map(
      ({ value, day }, burn): Entry => ({
        compared: burnOf(`${index} ${burn}`, Math.exp(value)),
        place: index,
        day,
        block: undefined,
        adjustment: () => unadjusted,
        errors: { demand: new Map(), load: new Map() },
      }),
    ),
  );
  const intended = { kind: 'days', days: burns[0]!.length } as const;
  const compared = compareResult('dryWoodPerBatch', entries, { inBlocks: false, intended, steps: 1 });
  if ('missing' in compared) throw new Error(compared.missing.code);
  const [first, second] = burns.map((group) => summarise(group.map(({ value }) => value)));
  return { welch: welchComparison(second!, first!).interval, delivered: compared.deciding.relativeInterval! };
}

/** A finished burn with dry wood per batch as its only result. */
function burnOf(id: string, value: number): ComparedBurn {
  return {
    burn: {
      format: 'stovebench-burn-record',
      version: 1,
      id,
      title: id,
      origin: 'simulated',
      status: 'complete',
      methodSet: 'bench-1',
      primaryResult: 'dryWoodPerBatch',
      target: { kind: 'boil' },
      fuelLots: [],
      marks: [],
      weighings: [],
    },
    analysis: { method: 'bench-1', results: [{ id: 'dryWoodPerBatch', value, unit: 'kg' }], moments: [] },
  };
}
