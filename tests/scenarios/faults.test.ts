import { expect, test } from 'vitest';
import { FAULTS, quickPlan } from '../../scripts/faults/plan.ts';
import { lossesOf } from '../../scripts/faults/report.ts';
import { runAll } from '../../scripts/faults/run-all.ts';

test.skipIf(process.platform !== 'linux')(
  'no loss is unreported, whatever happens to the service, the cable, the board, the disk and the clock',
  async () => {
    const reported: string[] = [];
    const outcomes = await runAll(quickPlan(1), 3, (line) => reported.push(line));
    expect(lossesOf(outcomes), reported.join('\n')).toEqual([]);
    const done = outcomes.flatMap((outcome) => outcome.done.map(({ step }) => step.fault));
    expect(new Set(done)).toEqual(new Set(FAULTS));
    const stored = outcomes.flatMap(({ burns }) => burns.flatMap(({ findings }) => [...findings.verdicts.values()]));
    expect(stored.length).toBeGreaterThan(100);
  },
);
