import { toBurnRecord } from '../../server/simulator/burn-record.ts';
import { heronBurns } from '../../server/simulator/heron.ts';
import { simulateBurn } from '../../server/simulator/simulate-burn.ts';
import type { BurnRecord } from '../../shared/contract/burn-record.ts';

/** Returns a finished burn of the invented Heron by its index, with few enough readings for a fast analysis. */
export function finishedBurn(index = 4): BurnRecord {
  const burn = heronBurns()[index];
  if (!burn) throw new Error(`the Heron has no burn ${index}`);
  const scenario = { ...burn.scenario, timing: { ...burn.scenario.timing, readingEveryS: 10 } };
  return toBurnRecord(simulateBurn(scenario, burn.seed, burn.errors), burn.description);
}
