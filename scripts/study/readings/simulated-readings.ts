/**
 * Simulated burns whose water is read in ways that omit information: rarely, in coarse steps, with pauses, by probes
 * with errors. The physics is simulated once, finely and without error; each measured burn then has errors, phase and
 * pauses of its own.
 */
import { toBurnRecord } from '../../../server/simulator/burn-record.ts';
import { heronBurns } from '../../../server/simulator/heron.ts';
import { heronScenario } from '../../../server/simulator/heron-setup.ts';
import { drawErrors, usualErrorBudget } from '../../../server/simulator/measurement-errors.ts';
import type { Scenario } from '../../../server/simulator/scenario.ts';
import { type SimulatedBurn, simulateBurn } from '../../../server/simulator/simulate-burn.ts';
import type { BurnRecord, Channel } from '../../../shared/contract/burn-record.ts';
import { createRandom, type Random } from '../../../shared/statistics/random.ts';

/** How the water of a burn is read; the defaults are exact, and one reading in two seconds. */
export interface WaysOfReading {
  /** Time between readings; each burn begins at a random moment within it. */
  readonly everyS?: number;
  /** Resolution of the instrument, K. */
  readonly stepK?: number;
  /** Truncates to the step below instead of rounding to the nearest one. */
  readonly truncates?: boolean;
  /** Standard deviation of one reading, K. */
  readonly noiseK?: number;
  /** One of two probes is missing. */
  readonly isSingle?: boolean;
  /** Stretches without any water probe, from the exact moments of the burn. */
  readonly pauses?: (burn: SimulatedBurn, random: Random) => readonly { fromS: number; toS: number }[];
  /** Errors of the low and the high probe beyond those stated in the record, K. */
  readonly beyondK?: readonly [number, number];
  /** Standard uncertainty of each probe, stated and drawn, K. */
  readonly offsetK?: number;
  /** Recording begins this long after lighting. */
  readonly beginsAfterLitS?: number;
  readonly change?: (record: BurnRecord) => BurnRecord;
}

const CALIBRATED_K = 0.15;
/** Either probe may represent this much more or less of the water than the other. */
const LAYER_SHIFT = 0.12;
const FINE_SCALE_K = 1e-4;
const SHOWN_SCALE_K = 1e-3;

/** Burns with different stoves, pots and air, numbered, their water known to a ten-thousandth of a kelvin. */
export function exactBurns(
  from: number,
  to: number,
  seed: string,
  change: (scenario: Scenario, random: Random) => Scenario = (scenario) => scenario,
): SimulatedBurn[] {
  return Array.from({ length: to - from }, (_, index) => {
    const number = from + index;
    const random = createRandom(`exact ${seed} ${number}`);
    const between = (low: number, high: number) => low + (high - low) * random.uniform();
    const either = <T>(one: T, other: T) => (random.uniform() < 0.5 ? one : other);
    const usual = heronScenario(either('1', '2'), either('M', 'R'));
    const scenario = change(
      {
        ...usual,
        place: { ...usual.place, stationPressurePa: between(84_000, 102_000), gustiness: between(0, 0.3) },
        load: { ...usual.load, waterKg: between(18, 40), startTempC: between(8, 20) },
        plan: { ...usual.plan, holdS: 1800 },
        channels: usual.channels
          .filter(({ role }) => role === 'water')
          .map((channel) => ({ ...channel, scale: FINE_SCALE_K, noise: 0 })),
        timing: { ...usual.timing, stepS: 2, readingEveryS: 2 },
      },
      random,
    );
    return simulateBurn(scenario, `exact ${seed} ${number}`);
  });
}

/** One burn as it would have been recorded, with errors drawn from `seed`. */
export function readBurn(burn: SimulatedBurn, ways: WaysOfReading, seed: string): BurnRecord {
  const random = createRandom(`read ${seed}`);
  const { everyS = 2, stepK, truncates = false, noiseK = 0, beyondK = [0, 0], offsetK = CALIBRATED_K } = ways;
  const shared = {
    equipment: seed,
    woodScale: seed,
    // Unique names: things with the same name share an error.
    waterScale: `water ${seed}`,
    woodLot: seed,
    kindlingLot: `kindling ${seed}`,
    place: seed,
    burn: seed,
  };
  const budget = { ...usualErrorBudget, probeOffsetK: offsetK, probeGain: 0, stationPressurePa: 50, markS: 5 };
  const errors = drawErrors(budget, shared, 'readings');
  const exact = toBurnRecord({ ...burn, errors }, { ...heronBurns()[0]!.description, waterCalibrationK: offsetK });
  const endS = burn.scans.elapsedS.at(-1)!;
  const litS = burn.truth.moments.lit;
  const beginsS = ways.beginsAfterLitS === undefined ? 0 : litS + ways.beginsAfterLitS;
  const timesS: number[] = [];
  for (let atS = beginsS + everyS * random.uniform(); atS <= endS; atS += everyS) timesS.push(atS);
  const shift = LAYER_SHIFT * (2 * random.uniform() - 1);
  const pauses = ways.pauses?.(burn, random) ?? [];
  const isPaused = (atS: number) => pauses.some(({ fromS, toS }) => atS > fromS && atS < toS);
  const [low, high] = [0, 1].map((column) => timesS.map((atS) => between(burn, column, atS)));
  const offsets = (['waterLow', 'waterHigh'] as const).map((site, at) => errors.probe(site).offsetK + beyondK[at]!);
  const shown = [low!, high!].map((temps, at) =>
    temps.map((tempC, index) => {
      if (isPaused(timesS[index]!)) return null;
      const differenceK = high![index]! - low![index]!;
      const indicatedC = tempC + shift * differenceK + offsets[at]! + (noiseK > 0 ? noiseK * random.normal() : 0);
      return Math.round(stepped(indicatedC, stepK, truncates) / SHOWN_SCALE_K);
    }),
  );
  const channels = exact.channels
    .filter(({ role }) => role === 'water')
    .map((channel): Channel => ({ ...channel, scale: SHOWN_SCALE_K }))
    .slice(ways.isSingle ? 1 : 0);
  const record: BurnRecord = {
    ...exact,
    channels,
    readings: [
      {
        boardId: channels[0]!.boardId!,
        elapsedUs: timesS.map((atS) => Math.round(atS * 1e6)),
        columns: channels.map(({ id }, index) => ({ channelId: id, counts: shown[index + (ways.isSingle ? 1 : 0)]! })),
      },
    ],
  };
  return ways.change?.(record) ?? record;
}

function between({ scans }: SimulatedBurn, column: number, atS: number): number {
  const stepS = scans.elapsedS[1]! - scans.elapsedS[0]!;
  const position = Math.min(scans.elapsedS.length - 1, (atS - scans.elapsedS[0]!) / stepS);
  const index = Math.min(scans.elapsedS.length - 2, Math.floor(position));
  const [from, to] = [scans.counts[column]![index]!, scans.counts[column]![index + 1]!];
  return FINE_SCALE_K * (from + (position - index) * (to - from));
}

function stepped(tempC: number, stepK: number | undefined, truncates: boolean): number {
  if (stepK === undefined) return tempC;
  return stepK * (truncates ? Math.floor(tempC / stepK) : Math.round(tempC / stepK));
}
