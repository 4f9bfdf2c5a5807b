/**
 * How often two equal revisions get a verdict of different, by the plain rule and by ours, with a look after every pair
 * of days.
 */
import { levelOf, lookAt } from '../../../shared/comparison/looks.ts';
import { compareGroups, limitsOf } from '../../../shared/comparison/mean-difference.ts';
import { createRandom } from '../../../shared/statistics/random.ts';
import { type Design, SimulatedDays } from './simulated-days.ts';

export interface FalseVerdicts extends Design {
  planned: number;
  batches: number;
  /** Welch's 95 % over burns, with one look at the planned number of days; and with every look. */
  plainOnce: number;
  plainAlways: number;
  /** Our rule at every look up to the last day, with the number of days stated, and with "until it is clear". */
  rule: number;
  untilClear: number;
}

/** @param lastDay number of days of each revision up to which there are looks */
export function falseVerdicts(design: Design, planned: number, lastDay: number, batches: number): FalseVerdicts {
  const random = createRandom(JSON.stringify(design) + planned);
  const outcome: FalseVerdicts = { ...design, planned, batches, plainOnce: 0, plainAlways: 0, rule: 0, untilClear: 0 };
  for (let batch = 0; batch < batches; batch++) {
    const setup = new SimulatedDays(random, design, 2);
    setup.burnADayOfEach();
    const found = { plainOnce: false, plainAlways: false, rule: false, untilClear: false };
    for (let days = 2; days <= lastDay; days++) {
      setup.burnADayOfEach();
      const [a, b] = [setup.days(0), setup.days(1)];
      const estimate = compareGroups(a, b);
      const look = lookAt({ kind: 'days', days: planned }, a, b);
      found.rule ||= differs(limitsOf(estimate, levelOf(look, 1)));
      found.untilClear ||= differs(limitsOf(estimate, levelOf({ kind: 'untilClear' }, 1)));
      // The plain rule: every burn a replicate, with the same shared errors.
      const plain = compareGroups(setup.burns[0]!, setup.burns[1]!);
      const isDifferent = differs(plain.interval95);
      found.plainAlways ||= isDifferent;
      if (days === planned) found.plainOnce = isDifferent;
    }
    for (const key of ['plainOnce', 'plainAlways', 'rule', 'untilClear'] as const) outcome[key] += found[key] ? 1 : 0;
  }
  return outcome;
}

function differs(limits: readonly [number, number] | undefined): boolean {
  return limits !== undefined && (limits[0] > 0 || limits[1] < 0);
}
