/**
 * The Heron: an invented stove in an invented linen and dye workshop, for the demonstration and for tests.
 *
 * Revision 1 has a bare riser, revision 2 the same riser inside an insulated sleeve. Eight burns are finished, four of
 * each; one more is meant to be watched live. Every number is calibrated to plausibility only ("common practice, no
 * source").
 */
import type { BurnDescription } from './burn-description.ts';
import { type HeronOperator, type HeronRevision, heronId, heronRevisions, heronScenario } from './heron-setup.ts';
import { drawErrors, type ErrorBudget, type MeasurementErrors } from './measurement-errors.ts';
import { namedUuid } from './named-uuid.ts';
import type { Scenario } from './scenario.ts';

/** The board of the Heron bench. */
export const heronBoardId = heronId('bench board');

export interface HeronBurn {
  scenario: Scenario;
  seed: string;
  errors: MeasurementErrors;
  description: BurnDescription;
}

/** A calibrated bench, a decent scale, wood dried in an oven: what the invented workshop can do. */
const workshopBudget: ErrorBudget = {
  probeOffsetK: 0.3,
  probeGain: 0.001,
  coldJunctionK: 0.5,
  scaleGain: 0.001,
  scaleZeroKg: 0.003,
  scaleReadingKg: 0.005,
  moisture: 0.008,
  netDryMJPerKg: 0.25,
  charMJPerKg: 1,
  stationPressurePa: 100,
  markS: 6,
  charBurntOnKg: 0.01,
};

interface HeronDay {
  name: string;
  revision: HeronRevision;
  operator: HeronOperator;
  startedUtcMs: number;
  airTempC: number;
  startTempC: number;
  stationPressurePa: number;
  change?: (scenario: Scenario) => Scenario;
  setAsideReason?: string;
  title?: string;
}

const days: HeronDay[] = [
  {
    name: 'burn 1',
    revision: '1',
    operator: 'M',
    startedUtcMs: Date.UTC(2026, 8, 14, 8, 5),
    airTempC: 15,
    startTempC: 15.5,
    stationPressurePa: 98_410,
  },
  {
    name: 'burn 2',
    revision: '1',
    operator: 'R',
    startedUtcMs: Date.UTC(2026, 8, 21, 7, 40),
    airTempC: 13,
    startTempC: 15,
    stationPressurePa: 98_950,
  },
  {
    name: 'burn 3',
    revision: '1',
    operator: 'M',
    startedUtcMs: Date.UTC(2026, 8, 28, 8, 15),
    airTempC: 16,
    startTempC: 15,
    stationPressurePa: 97_800,
    change: (scenario) => ({
      ...scenario,
      probeFaults: [{ site: 'waterLow', kind: 'outOfWater', fromS: 1860, toS: 1e9 }],
    }),
    setAsideReason: 'The lower water probe came loose after half an hour and hung in the warm air.',
  },
  {
    name: 'burn 4',
    revision: '1',
    operator: 'R',
    startedUtcMs: Date.UTC(2026, 9, 5, 7, 50),
    airTempC: 12,
    startTempC: 14,
    stationPressurePa: 98_300,
  },
  {
    name: 'burn 5',
    revision: '2',
    operator: 'M',
    startedUtcMs: Date.UTC(2026, 9, 19, 8, 0),
    airTempC: 11,
    startTempC: 13.5,
    stationPressurePa: 98_700,
  },
  {
    name: 'burn 6',
    revision: '2',
    operator: 'R',
    startedUtcMs: Date.UTC(2026, 9, 26, 8, 30),
    airTempC: 12,
    startTempC: 13.5,
    stationPressurePa: 98_050,
  },
  {
    name: 'burn 7',
    revision: '2',
    operator: 'R',
    startedUtcMs: Date.UTC(2026, 10, 2, 9, 0),
    airTempC: 9,
    startTempC: 12.5,
    stationPressurePa: 98_880,
    title: 'Heron 2, mordanting at 90 °C',
    change: (scenario) => ({
      ...scenario,
      plan: { ...scenario.plan, target: { kind: 'temperature', tempC: 90 }, lidOnInHold: false },
    }),
  },
  {
    name: 'burn 8',
    revision: '2',
    operator: 'M',
    startedUtcMs: Date.UTC(2026, 10, 9, 8, 45),
    airTempC: 8,
    startTempC: 12,
    stationPressurePa: 98_500,
  },
];

/** The eight finished burns, oldest first. Simulated and labelled so. */
export function heronBurns(): HeronBurn[] {
  return days.map(heronBurn);
}

/** The burn to be watched while it runs: revision 2, by the second operator. */
export function heronLiveBurn(startedUtcMs: number): HeronBurn {
  return heronBurn({
    name: 'live burn',
    revision: '2',
    operator: 'R',
    startedUtcMs,
    airTempC: 10,
    startTempC: 13,
    stationPressurePa: 98_600,
  });
}

function heronBurn(day: HeronDay): HeronBurn {
  const usual = heronScenario(day.revision, day.operator);
  const ofTheDay: Scenario = {
    ...usual,
    place: { ...usual.place, airTempC: day.airTempC, stationPressurePa: day.stationPressurePa },
    stove: { ...usual.stove, bodyStartTempC: day.airTempC },
    load: { ...usual.load, startTempC: day.startTempC },
  };
  const { setAsideReason } = day;
  const shared = {
    equipment: 'Heron bench',
    woodScale: 'yard scale',
    waterScale: 'yard scale',
    woodLot: 'beech',
    kindlingLot: 'spruce',
    place: 'dye yard',
    burn: day.name,
  };
  return {
    scenario: day.change ? day.change(ofTheDay) : ofTheDay,
    seed: `Heron ${day.name}`,
    errors: drawErrors(workshopBudget, shared, 'Heron'),
    description: {
      id: namedUuid(`Heron ${day.name}`, day.startedUtcMs),
      title: day.title ?? `Heron ${day.revision}, scouring`,
      operator: day.operator,
      startedUtcMs: day.startedUtcMs,
      zone: 'Europe/Paris',
      status: setAsideReason === undefined ? 'complete' : 'setAside',
      ...(setAsideReason === undefined ? {} : { setAsideReason }),
      startKind: 'cold',
      ...heronThings(day.revision),
    },
  };
}

/** The things in the workshop: the same in every burn except for the stove's revision. */
function heronThings(revision: HeronRevision) {
  const scale = { id: heronId('yard scale'), name: 'Yard scale' };
  return {
    stove: { id: heronId('stove'), name: 'Heron' },
    revision: heronRevisions[revision],
    vessel: { id: heronId('vat'), name: '30-litre vat', material: 'stainless steel' },
    place: { id: heronId('dye yard'), name: 'Dye yard', altitudeM: 245 },
    woodLot: { id: heronId('beech'), name: 'Beech, split', species: 'beech' },
    kindlingLot: { id: heronId('spruce'), name: 'Spruce kindling', species: 'spruce' },
    woodScale: scale,
    waterScale: scale,
    boardId: heronBoardId,
    waterCalibrationK: workshopBudget.probeOffsetK,
  };
}
