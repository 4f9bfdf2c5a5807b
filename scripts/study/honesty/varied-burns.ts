/**
 * Simulated burns of many kinds, measured on benches of three kinds, with errors shared as in reality. The simulator's
 * physics (layered water, gusts, charges, gradual boiling, drifting moisture) is not that of the analysis.
 */
import type { BurnDescription } from '../../../server/simulator/burn-description.ts';
import { toBurnRecord } from '../../../server/simulator/burn-record.ts';
import { heronBurns } from '../../../server/simulator/heron.ts';
import { heronScenario } from '../../../server/simulator/heron-setup.ts';
import {
  drawErrors,
  type ErrorBudget,
  type MeasurementErrors,
  usualErrorBudget,
} from '../../../server/simulator/measurement-errors.ts';
import { simulateBurn } from '../../../server/simulator/simulate-burn.ts';
import type { BurnTruth } from '../../../server/simulator/truth.ts';
import type { BurnRecord } from '../../../shared/contract/burn-record.ts';
import { createRandom } from '../../../shared/statistics/random.ts';

/**
 * The information on the water probes: calibrated; an uncertainty stated; only the class of resistance probes, nothing
 * stated; one probe only, calibrated.
 */
export const setupKinds = ['calibrated', 'stated', 'byClass', 'oneProbe'] as const;
export type SetupKind = (typeof setupKinds)[number];

export interface VariedBurn {
  readonly record: BurnRecord;
  readonly truth: BurnTruth;
}

const calibrated = { ...usualErrorBudget, probeOffsetK: 0.15, probeGain: 0.0005, stationPressurePa: 50, markS: 15 };

const budgets: Readonly<Record<SetupKind, ErrorBudget>> = {
  calibrated,
  stated: { ...usualErrorBudget, probeOffsetK: 0.8 },
  byClass: usualErrorBudget,
  oneProbe: calibrated,
};

/** Either probe may represent this much more or less of the water than the other. */
const LAYER_SHIFT = 0.12;

/** IEC 60751 class B: ±0.3 K and ±0.5 % of the temperature. */
const CLASS_B = { offsetK: 0.3, gain: 0.005 };

export function variedBurn(setup: SetupKind, number: number): VariedBurn {
  const seed = `${setup} ${number}`;
  const random = createRandom(`honesty ${seed}`);
  const between = (low: number, high: number) => low + (high - low) * random.uniform();
  const either = <T>(one: T, other: T) => (random.uniform() < 0.5 ? one : other);
  const usual = heronScenario(either('1', '2'), either('M', 'R'));
  const isBoil = random.uniform() < 0.6;
  const scenario = {
    ...usual,
    place: {
      ...usual.place,
      stationPressurePa: between(84_000, 102_000),
      gustiness: between(0, 0.3),
      airTempC: between(5, 25),
    },
    load: { ...usual.load, waterKg: between(18, 40), startTempC: between(8, 20) },
    wood: { ...usual.wood, moistureWet: between(0.12, 0.24) },
    plan: {
      ...usual.plan,
      target: isBoil ? ({ kind: 'boil' } as const) : ({ kind: 'temperature', tempC: between(65, 80) } as const),
      lidOnToTarget: random.uniform() < 0.5,
      lidOnInHold: random.uniform() < 0.5,
      holdS: 1800,
    },
    timing: { ...usual.timing, stepS: 2, readingEveryS: 4 },
  };
  const shared = {
    equipment: `rig ${number}`,
    woodScale: `scale ${number}`,
    waterScale: either(`scale ${number}`, `other scale ${number}`),
    woodLot: `lot ${number}`,
    kindlingLot: `kindling ${number}`,
    place: `place ${number}`,
    burn: `burn ${number}`,
  };
  const drawn = drawErrors(budgets[setup], shared, `honesty ${setup}`);
  const burn = simulateBurn(scenario, seed, setup === 'byClass' ? withinClass(drawn, seed) : drawn);
  const record = hungAsItCame(
    toBurnRecord(burn, describe(setup, shared.waterScale === shared.woodScale)),
    between(-LAYER_SHIFT, LAYER_SHIFT),
  );
  return { record: asKnown(record, setup, number), truth: burn.truth };
}

function asKnown(record: BurnRecord, setup: SetupKind, number: number): BurnRecord {
  if (setup === 'byClass') return withoutStated(record);
  return setup === 'oneProbe' ? withOneProbe(record, number % 2 === 0 ? 'low' : 'high') : record;
}

/** The pot read at one place only. */
function withOneProbe(record: BurnRecord, position: 'low' | 'high'): BurnRecord {
  const channels = record.channels.filter((channel) => channel.role !== 'water' || channel.position === position);
  const ids = new Set(channels.map(({ id }) => id));
  const readings = record.readings.map((block) => ({
    ...block,
    columns: block.columns.filter(({ channelId }) => ids.has(channelId)),
  }));
  return { ...record, channels, readings };
}

/**
 * The mean of two probes is not exactly the mean of the water: both are shifted by a share of their distance, up or
 * down.
 */
function hungAsItCame(record: BurnRecord, shift: number): BurnRecord {
  const placeOf = (position: string) =>
    record.channels.findIndex((channel) => channel.role === 'water' && channel.position === position);
  const [low, high] = [placeOf('low'), placeOf('high')];
  const readings = record.readings.map((block) => {
    const counts = block.columns.map((column) => column.counts);
    const shifted = (own: readonly (number | null)[]) =>
      own.map((count, at) => {
        const countDifference = (counts[high]![at] ?? Number.NaN) - (counts[low]![at] ?? Number.NaN);
        return count === null || Number.isNaN(countDifference) ? count : Math.round(count + shift * countDifference);
      });
    const columns = block.columns.map((column, index) =>
      index === low || index === high ? { ...column, counts: shifted(column.counts) } : column,
    );
    return { ...block, columns };
  });
  return { ...record, readings };
}

function withinClass(errors: MeasurementErrors, seed: string): MeasurementErrors {
  return {
    ...errors,
    probe: (site) => {
      const random = createRandom(`${seed} ${site}`);
      return { offsetK: random.rectangular(CLASS_B.offsetK), gain: random.rectangular(CLASS_B.gain) };
    },
  };
}

function withoutStated(record: BurnRecord): BurnRecord {
  const channels = record.channels.map(
    ({ standardUncertainty: _u, gainStandardUncertainty: _gain, ...channel }) => channel,
  );
  return { ...record, channels };
}

const { waterCalibrationK: _calibrated, ...usualDescription } = heronBurns()[0]!.description;

function describe(setup: SetupKind, oneScale: boolean): BurnDescription {
  const otherScale = { id: usualDescription.place.id, name: 'Kitchen scale' };
  return {
    ...usualDescription,
    waterScale: oneScale ? usualDescription.woodScale : otherScale,
    ...(budgets[setup] === calibrated ? { waterCalibrationK: calibrated.probeOffsetK } : {}),
  };
}
