/**
 * Simulates a whole burn at once: the readings of the board, the actions and weighings of the person, and the exact
 * truth.
 */
import type { FaultName } from '../../firmware-protocol/messages.ts';
import { type ExactMasses, exactMasses, type WeighedWater } from './exact-masses.ts';
import { exactMeasurement, type MeasurementErrors } from './measurement-errors.ts';
import type { Action } from './operator.ts';
import type { Scenario } from './scenario.ts';
import { createSimulatedSetup } from './simulated-setup.ts';
import { type BurnTruth, burnTruth, type ExactCourse } from './truth.ts';

export interface SimulatedBurn {
  scenario: Scenario;
  seed: number | string;
  errors: MeasurementErrors;
  scans: SimulatedScans;
  /** Exact moments and masses, in the order they happened. */
  actions: Action[];
  masses: ExactMasses;
  truth: BurnTruth;
}

export interface SimulatedScans {
  /** Seconds from the start of recording, and the board's own clock. */
  elapsedS: number[];
  uptimeMs: number[];
  /** One column per channel, in the order of the scenario's channels; null where there is a fault. */
  counts: (number | null)[][];
  /** By channel: [index in counts, fault]. */
  faults: [number, FaultName][][];
}

const UINT32 = 2 ** 32;

/**
 * Simulates a burn from the start of recording to some time after fire out. Pure: the same scenario, seed and errors
 * give the same burn to the last bit (on one runtime).
 */
export function simulateBurn(
  scenario: Scenario,
  seed: number | string,
  errors: MeasurementErrors = exactMeasurement,
): SimulatedBurn {
  const actions: Action[] = [];
  const setup = createSimulatedSetup(scenario, seed, (action) => actions.push(action), errors);
  const { model } = setup;
  const { readingEveryS, boardUptimeMs, boardClockPpm } = scenario.timing;
  const course: ExactCourse = { elapsedS: [], waterC: [], loadJ: [], vapourJ: [], evaporatedKg: [], consumedMJ: [] };
  const scans: SimulatedScans = {
    elapsedS: [],
    uptimeMs: [],
    counts: scenario.channels.map(() => []),
    faults: scenario.channels.map(() => []),
  };

  function recordScan() {
    const index = scans.elapsedS.push(setup.elapsedS) - 1;
    scans.uptimeMs.push(Math.round(boardUptimeMs + setup.elapsedS * 1000 * (1 + boardClockPpm * 1e-6)) % UINT32);
    setup.scan().forEach((reading, channel) => {
      const isCount = typeof reading === 'number';
      scans.counts[channel]!.push(isCount ? reading : null);
      if (!isCount) scans.faults[channel]!.push([index, reading]);
    });
  }

  function recordCourse() {
    course.elapsedS.push(setup.elapsedS);
    course.waterC.push(model.waterMeanC);
    course.loadJ.push(model.loadJ());
    course.vapourJ.push(model.vapourJ());
    course.evaporatedKg.push(model.evaporatedKg);
    course.consumedMJ.push(model.fedMJ - model.heldMJ);
  }

  recordCourse();
  recordScan();
  let nextScanS = readingEveryS;
  let water: WeighedWater | undefined;
  while (!setup.over) {
    setup.advance();
    recordCourse();
    const last = actions.at(-1);
    if (!water && last?.kind === 'fireOut' && setup.elapsedS >= last.elapsedS + scenario.plan.weighWaterAfterS) {
      water = { massKg: model.waterKg, tempC: model.waterMeanC };
    }
    if (setup.elapsedS >= nextScanS - 1e-9) {
      recordScan();
      nextScanS += readingEveryS;
    }
  }

  const raked = actions.find((action) => action.kind === 'fireOut')!.raked;
  const masses = exactMasses(scenario, actions, water ?? { massKg: model.waterKg, tempC: model.waterMeanC });
  const truth = burnTruth(scenario, course, actions, model.boilingPointC, {
    grossMJ: model.fedMJ - raked.brandsMJ,
    creditMJ: raked.charKg * scenario.charMJPerKg,
  });
  return { scenario, seed, errors, scans, actions, masses, truth };
}
