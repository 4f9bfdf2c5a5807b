/** The Heron's bench: stove, revisions, probes and the two people who run it. Invented; see heron.ts. */
import type { BurnDescription } from './burn-description.ts';
import { namedUuid } from './named-uuid.ts';
import type { SimulatedChannel } from './probes.ts';
import type { OperatorPlan, Scenario, SimulatedStove } from './scenario.ts';

export type HeronRevision = '1' | '2';
export type HeronOperator = 'M' | 'R';

const MADE_UTC_MS = Date.UTC(2026, 8, 1, 8);

/** Identity of one of the workshop's things, the same in every run. */
export function heronId(name: string): string {
  return namedUuid(`Heron ${name}`, MADE_UTC_MS);
}

type Place = Pick<SimulatedChannel, 'site' | 'label' | 'role'> & Partial<Pick<SimulatedChannel, 'position'>>;

const inWater = (place: Place): SimulatedChannel => ({
  ...place,
  unit: 'Cel',
  scale: 0.0625,
  probe: 'pt100',
  timeConstantS: 6,
  noise: 0.05,
});
const inHeat = (place: Place, timeConstantS: number, noise: number): SimulatedChannel => ({
  ...place,
  unit: 'Cel',
  scale: 0.25,
  probe: 'thermocouple-K',
  timeConstantS,
  noise,
});
const inShade = (place: Place): SimulatedChannel => ({
  ...place,
  unit: 'Cel',
  scale: 0.0625,
  probe: 'digital',
  timeConstantS: 30,
  noise: 0.04,
});

/** Probe places of the Heron bench, in the order of the board's terminals. The flue's voltage comes raw. */
const heronChannels: SimulatedChannel[] = [
  inWater({ site: 'waterLow', label: 'water_low', role: 'water', position: 'low' }),
  inWater({ site: 'waterHigh', label: 'water_high', role: 'water', position: 'high' }),
  { ...inHeat({ site: 'flue', label: 'flue', role: 'flue' }, 3, 1.5), unit: 'uV', scale: 10 },
  inHeat({ site: 'riser', label: 'riser', role: 'riser' }, 3, 2),
  inHeat({ site: 'airGap', label: 'air_gap', role: 'airGap' }, 8, 0.4),
  inHeat({ site: 'body', label: 'body', role: 'body' }, 20, 0.2),
  inShade({ site: 'ambient', label: 'shade', role: 'ambient' }),
  inShade({ site: 'coldJunction', label: 'cold_junction', role: 'coldJunction' }),
];

const bareRiser: SimulatedStove = {
  draughtKgPerS: 0.012,
  riserToBodyWPerK: 4.2,
  gasToPotWPerK: 8.6,
  bodyMassKg: 48,
  bodySpecificHeatJPerKgK: 480,
  bodyLossWPerK: 9,
  bodyStartTempC: 15,
  combustionCompleteness: 0.94,
  flamingTimeS: 950,
  oldCharKg: 0,
};

const stoves: Record<HeronRevision, SimulatedStove> = {
  1: bareRiser,
  2: { ...bareRiser, riserToBodyWPerK: 1, bodyMassKg: 51, bodyLossWPerK: 5.5, combustionCompleteness: 0.96 },
};

const habits: Record<HeronOperator, Partial<OperatorPlan>> = {
  M: { chargeKg: 0.5, holdChargeKg: 0.3, feedBelowKg: 0.16, reactionS: 30 },
  R: { chargeKg: 0.7, holdChargeKg: 0.35, feedBelowKg: 0.14, reactionS: 50 },
};

/** A burn of 29 kg of water on the Heron: to the boil, then 45 min at the boil, lid on. */
export function heronScenario(revision: HeronRevision, operator: HeronOperator): Scenario {
  return {
    place: {
      stationPressurePa: 98_400,
      airTempC: 14,
      airDriftKPerH: 1,
      relativeHumidity: 0.65,
      gustiness: 0.15,
    },
    stove: stoves[revision],
    vessel: { massKg: 3.2, specificHeatJPerKgK: 500, innerDiameterM: 0.36, sideLossWPerK: 3, lidLeak: 0.08 },
    load: { waterKg: 29, startTempC: 14 },
    wood: { netDryMJPerKg: 18.5, moistureWet: 0.17, moistureScatter: 0.008, moistureDriftPerCharge: 0.001 },
    kindling: { netDryMJPerKg: 19.1, moistureWet: 0.12, moistureScatter: 0.005, moistureDriftPerCharge: 0 },
    charMJPerKg: 29.5,
    plan: {
      target: { kind: 'boil' },
      holdS: 2700,
      litAtS: 120,
      potOnAfterLitS: 0,
      kindlingKg: 0.35,
      firstChargeKg: 0.7,
      chargeKg: 0.6,
      holdChargeKg: 0.3,
      chargeScatter: 0.12,
      feedBelowKg: 0.2,
      holdFeedBelowKg: 0.05,
      reactionS: 30,
      nudges: true,
      lidOnToTarget: true,
      lidOnInHold: true,
      spareWoodKg: 1.3,
      weighWaterAfterS: 30,
      topUps: [],
      giveUpAfterS: 4 * 3600,
      ...habits[operator],
    },
    channels: heronChannels,
    probeFaults: [],
    timing: {
      stepS: 1,
      readingEveryS: 1,
      recordAfterFireOutS: 180,
      boardUptimeMs: 95_000,
      boardClockPpm: 40,
    },
  };
}

export const heronRevisions: Record<HeronRevision, BurnDescription['revision']> = {
  1: {
    id: heronId('revision 1'),
    stoveId: heronId('stove'),
    label: '1',
    change: 'As first built: bare riser.',
    dimensionsM: { 'riser height': 0.6, 'riser inner diameter': 0.15, 'pot gap': 0.02 },
    bodyMassKg: 48,
    bodySpecificHeatJPerKgK: 480,
  },
  2: {
    id: heronId('revision 2'),
    stoveId: heronId('stove'),
    label: '2',
    parentId: heronId('revision 1'),
    change: 'Same riser inside a sleeve filled with loose insulation.',
    dimensionsM: { 'riser height': 0.6, 'riser inner diameter': 0.15, 'pot gap': 0.02, 'sleeve thickness': 0.05 },
    bodyMassKg: 51,
    bodySpecificHeatJPerKgK: 480,
    // Entered the evening before its first burn.
    plannedDays: { days: 3, setAtUtcMs: Date.UTC(2026, 9, 18, 17) },
  },
};
