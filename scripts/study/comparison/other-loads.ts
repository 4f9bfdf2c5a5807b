/** How well burns at one load predict burns at another. */
import type { SimulatedBurn } from '../../../server/simulator/simulate-burn.ts';
import { predictFromRecords } from '../../../shared/comparison/prediction/predict-from-records.ts';
import type { Predicted } from '../../../shared/contract/prediction.ts';
import { standardDeviation } from '../../../shared/statistics/moments.ts';
import { median } from '../../../shared/statistics/quantile.ts';
import { createRandom } from '../../../shared/statistics/random.ts';
import { measured } from './burn-bank.ts';

export interface LoadOutcome {
  fromKg: number;
  toKg: number;
  burns: number;
  trials: number;
  /** 90 % intervals that held the new burn's own time, and the wood it took to the target. */
  timeHeld: number;
  woodHeld: number;
  /** Median absolute error of the predicted time and wood, relative, and the scatter of the new burns themselves. */
  timeError: number;
  woodError: number;
  timeScatter: number;
}

/**
 * Predicts new burns from groups of old ones.
 * @param oldBurns bank to learn from
 * @param newBurns bank at the other load, burnt to the target and raked there, so that all their wood is wood to the target
 */
export function predictLoads(
  oldBurns: readonly SimulatedBurn[],
  newBurns: readonly SimulatedBurn[],
  burns: number,
  trials: number,
): LoadOutcome {
  const [fromKg, toKg] = [oldBurns, newBurns].map((bank) => Math.round(bank[0]!.scenario.load.waterKg)) as [
    number,
    number,
  ];
  const timeErrors: number[] = [];
  const woodErrors: number[] = [];
  let timeHeld = 0;
  let woodHeld = 0;
  for (let trial = 0; trial < trials; trial++) {
    const studySeed = `${fromKg} to ${toKg} kg, ${burns} burns, trial ${trial}`;
    const random = createRandom(studySeed);
    const pick = (bank: readonly SimulatedBurn[]) => bank[Math.floor(random.uniform() * bank.length)]!;
    const learnt = Array.from({ length: burns }, (_, index) =>
      measured(pick(oldBurns), '1', { lot: 'lot', scale: 'scale', burn: `old ${index}`, day: index, studySeed }),
    );
    const { scenario, truth } = pick(newBurns);
    const prediction = predictFromRecords(learnt, {
      waterKg: scenario.load.waterKg,
      startTempC: scenario.load.startTempC,
      airTempC: scenario.place.airTempC,
    });
    timeHeld += classify(prediction.timeToTarget, truth.timeToTarget!, timeErrors);
    woodHeld += classify(prediction.dryWoodToTarget, truth.equivalentDryFuel!, woodErrors);
  }
  const typical = (errors: number[]) => median(Float64Array.from(errors, Math.abs));
  return {
    fromKg,
    toKg,
    burns,
    trials: timeErrors.length,
    timeHeld,
    woodHeld,
    timeError: typical(timeErrors),
    woodError: typical(woodErrors),
    timeScatter: standardDeviation(newBurns.map(({ truth }) => Math.log(truth.timeToTarget!))),
  };
}

/** 1 when the interval held the truth; the relative error joins the list. */
function classify(predicted: Predicted, truth: number, errors: number[]): number {
  if ('missing' in predicted) return 0;
  errors.push(truth / predicted.value - 1);
  return predicted.interval90[0] <= truth && truth <= predicted.interval90[1] ? 1 : 0;
}
