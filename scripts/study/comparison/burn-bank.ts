/**
 * Simulated burns to draw from: the physics is simulated once, errors of measurement are drawn anew for every pair of
 * revisions. The simulator's physics (layered water, gusts, charges, gradual boiling) is not that of the analysis or of
 * the prediction.
 */
import { toBurnRecord } from '../../../server/simulator/burn-record.ts';
import { type HeronRevision, heronRevisions, heronScenario } from '../../../server/simulator/heron-setup.ts';
import {
  drawErrors,
  type ErrorBudget,
  type MeasurementErrors,
  usualErrorBudget,
} from '../../../server/simulator/measurement-errors.ts';
import { namedUuid } from '../../../server/simulator/named-uuid.ts';
import { type SimulatedBurn, simulateBurn } from '../../../server/simulator/simulate-burn.ts';
import { analyse } from '../../../shared/analysis/analyse.ts';
import type { BurnRecord } from '../../../shared/contract/burn-record.ts';
import type { Analysis } from '../../../shared/contract/results.ts';
import { createRandom } from '../../../shared/statistics/random.ts';

/**
 * Calibrated probes, so that a hold is recognised as met; a kitchen scale with an error of about a percent, so that two
 * scales matter.
 */
const errorBudget: ErrorBudget = { ...usualErrorBudget, probeOffsetK: 0.3, coldJunctionK: 0, scaleGain: 0.01 };

export interface BankOptions {
  revision: HeronRevision;
  count: number;
  waterKg?: number;
  holdS?: number;
  seed: string;
}

const EPOCH_MS = Date.UTC(2026, 8, 1);
const DAY_MS = 86_400_000;

/** Burns of one revision by two people in changing weather; only those that met their hold. */
export function makeBank({ revision, count, waterKg = 29, holdS = 2700, seed }: BankOptions): SimulatedBurn[] {
  const random = createRandom(`bank ${seed}`);
  const bank: SimulatedBurn[] = [];
  for (let attempt = 0; bank.length < count && attempt < 4 * count; attempt++) {
    const scenario = heronScenario(revision, random.uniform() < 0.5 ? 'M' : 'R');
    const airTempC = 14 + 3 * random.normal();
    const burn = simulateBurn(
      {
        ...scenario,
        place: { ...scenario.place, airTempC, gustiness: 0.2 },
        stove: {
          ...scenario.stove,
          bodyStartTempC: airTempC,
          draughtKgPerS: scenario.stove.draughtKgPerS * Math.exp(0.06 * random.normal()),
        },
        load: { ...scenario.load, waterKg: waterKg + 0.1 * random.normal(), startTempC: 14 + random.normal() },
        plan: { ...scenario.plan, holdS },
        channels: scenario.channels.filter(({ role }) => role === 'water'),
        timing: { ...scenario.timing, stepS: 2, readingEveryS: 20 },
      },
      `${seed} ${attempt}`,
    );
    if (burn.truth.timeToTarget !== undefined && burn.truth.dryWoodPerBatch !== undefined) bank.push(burn);
  }
  return bank;
}

/**
 * The lots of wood and the scale with which a burn was measured; the same name within one study seed is the same thing.
 */
export interface MeasuredWith {
  lot: string;
  scale: string;
  burn: string;
  /** Days since the first. */
  day: number;
  studySeed: string;
}

/** The burn as its person would have recorded it, and its analysis. */
export function measured(
  burn: SimulatedBurn,
  revision: HeronRevision,
  using: MeasuredWith,
): { record: BurnRecord; analysis: Analysis } {
  const { lot, scale, studySeed } = using;
  const errors = drawErrors(
    errorBudget,
    {
      equipment: 'bench',
      woodScale: scale,
      waterScale: scale,
      woodLot: lot,
      kindlingLot: 'kindling',
      place: 'yard',
      burn: using.burn,
    },
    studySeed,
  );
  const id = (name: string) => namedUuid(`${studySeed} ${name}`, EPOCH_MS);
  const scaleThing = { id: id(scale), name: scale };
  const record = toBurnRecord(withProbeErrors(burn, errors), {
    id: id(`burn ${using.burn}`),
    title: using.burn,
    operator: 'M',
    startedUtcMs: EPOCH_MS + (1 + using.day) * DAY_MS,
    zone: 'UTC',
    status: 'complete',
    startKind: 'cold',
    stove: { id: id('stove'), name: 'Heron' },
    revision: heronRevisions[revision],
    vessel: { id: id('vat'), name: 'vat' },
    place: { id: id('yard'), name: 'yard' },
    woodLot: { id: id(lot), name: lot },
    kindlingLot: { id: id('kindling'), name: 'kindling' },
    woodScale: scaleThing,
    waterScale: scaleThing,
    boardId: id('board'),
    waterCalibrationK: errorBudget.probeOffsetK,
  });
  // Two draws: a comparison uses the budget, which is computed from sensitivities, not the Monte Carlo interval.
  return { record, analysis: analyse(record, { draws: 2 }) };
}

function withProbeErrors(burn: SimulatedBurn, errors: MeasurementErrors): SimulatedBurn {
  const counts = burn.scans.counts.map((column, index) => {
    const channel = burn.scenario.channels[index]!;
    const { offsetK, gain } = errors.probe(channel.site);
    return column.map((count) =>
      count === null ? null : Math.round((count * channel.scale * (1 + gain) + offsetK) / channel.scale),
    );
  });
  return { ...burn, errors, scans: { ...burn.scans, counts } };
}
