/** Ways in which readings omit information, each with the result it affects and the claim about its interval. */
import type { Scenario } from '../../../server/simulator/scenario.ts';
import type { SimulatedBurn } from '../../../server/simulator/simulate-burn.ts';
import type { BurnTruth } from '../../../server/simulator/truth.ts';
import type { BurnRecord } from '../../../shared/contract/burn-record.ts';
import { binomialBand } from '../../../shared/statistics/binomial.ts';
import type { Random } from '../../../shared/statistics/random.ts';
import { exactBurns, readBurn, type WaysOfReading } from './simulated-readings.ts';
import { type Tally, tally } from './tally.ts';

type Fire = 'usual' | 'lowFire';

export interface ReadingCase {
  readonly name: string;
  readonly result: keyof BurnTruth & ('timeToTarget' | 'timeToBoil' | 'dryWoodPerBatch' | 'meanUsefulPower');
  readonly ways: WaysOfReading;
  readonly over?: Fire;
}

const CONFIDENCE = 0.99;
const CLAIMED = 0.95;
/** Results that may be missing although there is a true one: the share below the lower end of an interval of 95 %. */
const LOST_SHARE = 0.025;
/** Number of simulated burns; each is read many times, with errors, phase and pauses of its own. */
const BANK = 40;

const everySoOften = [5, 10, 20, 30, 45, 60, 90, 120].map(
  (everyS): ReadingCase => ({
    name: `a reading every ${everyS} s`,
    result: 'timeToBoil',
    ways: { everyS, noiseK: 0.05 },
  }),
);

const interrupted = [120, 290].flatMap((lastsS) =>
  (['timeToBoil', 'dryWoodPerBatch'] as const).map(
    (result): ReadingCase => ({
      name: `nothing read for ${lastsS} s around the boil, ${result}`,
      result,
      ways: {
        noiseK: 0.05,
        pauses: ({ truth }, random) => {
          const fromS = truth.moments.target! - lastsS * random.uniform();
          return [{ fromS, toS: fromS + lastsS }];
        },
      },
    }),
  ),
);

const softly = [true, false].map(
  (isCalibrated): ReadingCase => ({
    name: `a soft boil in an open pot, ${isCalibrated ? 'calibrated probes' : 'probes to 0.8 K'}`,
    result: 'timeToBoil',
    over: 'lowFire',
    ways: {
      everyS: 4,
      noiseK: 0.05,
      ...(isCalibrated ? {} : { offsetK: 0.8, change: uncalibrated }),
    },
  }),
);

const inSteps = [0.25, 1].map(
  (stepK): ReadingCase => ({
    name: `readings in steps of ${stepK} K`,
    result: 'timeToBoil',
    ways: { stepK, noiseK: 0.02 },
  }),
);

const cutOff = [0.25, 1].map(
  (stepK): ReadingCase => ({
    name: `readings cut off to steps of ${stepK} K`,
    result: 'timeToBoil',
    ways: { stepK, truncates: true, noiseK: 0.02, change: (record) => withStep(record, stepK) },
  }),
);

const disagreeing: ReadingCase = {
  name: 'one of two probes 3 K high',
  result: 'timeToBoil',
  ways: { everyS: 4, noiseK: 0.05, beyondK: [0, 3] },
};

const begunLate = [60, 200].map(
  (beginsAfterLitS): ReadingCase => ({
    name: `recording begun ${beginsAfterLitS} s after lighting`,
    result: 'meanUsefulPower',
    ways: { everyS: 4, noiseK: 0.05, beginsAfterLitS },
  }),
);

export const readingCases: readonly ReadingCase[] = [
  ...everySoOften,
  ...interrupted,
  ...softly,
  ...inSteps,
  ...cutOff,
  disagreeing,
  ...begunLate,
];

/** As stated by a person who knows that the instrument truncates. */
function withStep(record: BurnRecord, truncationStep: number): BurnRecord {
  return { ...record, channels: record.channels.map((channel) => ({ ...channel, truncationStep })) };
}

function uncalibrated(record: BurnRecord): BurnRecord {
  const channels = record.channels.map(({ calibration, ...channel }) => ({
    ...channel,
    standardUncertainty: calibration!.standardUncertainty,
  }));
  return { ...record, channels };
}

/** An open pot over a fire that only just heats it to the boil. */
function lowFire(scenario: Scenario, random: Random): Scenario {
  const { gasToPotWPerK } = scenario.stove;
  return {
    ...scenario,
    stove: { ...scenario.stove, gasToPotWPerK: gasToPotWPerK * (0.6 + 0.3 * random.uniform()) },
    plan: { ...scenario.plan, lidOnToTarget: false, lidOnInHold: false },
  };
}

const banks: Record<Fire, SimulatedBurn[]> = { usual: [], lowFire: [] };

function bankOf(fire: Fire, count: number): readonly SimulatedBurn[] {
  const bank = banks[fire];
  if (bank.length < count) {
    bank.push(...exactBurns(bank.length, count, `readings ${fire}`, fire === 'lowFire' ? lowFire : undefined));
  }
  return bank;
}

/** Reads `count` burns as described by a case and compares the results with the truth. */
export function tallyCase({ name, result, ways, over = 'usual' }: ReadingCase, count: number, draws: number): Tally {
  const usable = bankOf(over, Math.min(count, BANK)).filter(({ truth }) => truth[result] !== undefined);
  const burns = Array.from({ length: count }, (_, number) => {
    const burn = usable[number % usable.length]!;
    return { record: readBurn(burn, ways, `${name} ${number}`), truth: burn.truth[result]! };
  });
  return tally(burns, result, draws);
}

/**
 * Claims that the counts refute. More intervals may hold than claimed: in every case a bounded error (layers, steps,
 * pauses) outweighs the others, and the level of boiling water, a quarter of the variance where readings are dense, is
 * included in the interval and not drawn here.
 */
export function readingClaims({ name }: ReadingCase, { trials, held, missing }: Tally): string[] {
  const { low } = binomialBand(trials, CLAIMED, CONFIDENCE);
  const lost = Object.values(missing).reduce((sum, count) => sum + count, 0);
  return [
    ...(held < low ? [`${name}: ${held} of ${trials} intervals held the truth, fewer than ${low}`] : []),
    ...(lost > Math.max(1, LOST_SHARE * (trials + lost))
      ? [`${name}: ${lost} of ${trials + lost} results are missing`]
      : []),
  ];
}
