/**
 * Checks whether the interval of the loss coefficient contains what a pot loses per kelvin above the air, on average
 * over half an hour. Pots left to cool off the fire are simulated with layers and evaporation, and measured with
 * errors.
 */
import { heronScenario } from '../../../server/simulator/heron-setup.ts';
import { createPot } from '../../../server/simulator/pot.ts';
import { vapourPressurePa } from '../../../server/simulator/water.ts';
import type { BurnRecord } from '../../../shared/contract/burn-record.ts';
import { binomialBand } from '../../../shared/statistics/binomial.ts';
import { createRandom } from '../../../shared/statistics/random.ts';
import { type Tally, tally } from './tally.ts';

const LASTS_S = 1800;
const STEP_S = 2;
const EVERY_S = 10;
const SCALE_K = 1e-3;
const NOISE_K = 0.05;
const PROBE_K = 0.15;
const AIR_K = 1;
const WEIGHED_KG = 0.02;
const HUMIDITY = 0.6;
/**
 * Share of results that may be missing: the temperature of a full pot under its lid may fall by too little in half an
 * hour.
 */
const LOST_SHARE = 0.025;

const id = (number: number) => `00000000-0000-7000-8000-${String(number).padStart(12, '0')}`;

export interface CoolingCase {
  readonly name: string;
  readonly isUnderLid: boolean;
  readonly weighed: 'start' | 'end';
}

export const coolingCases: readonly CoolingCase[] = [
  { name: 'under a lid, weighed before', isUnderLid: true, weighed: 'start' },
  { name: 'open, weighed before', isUnderLid: false, weighed: 'start' },
  { name: 'open, weighed after', isUnderLid: false, weighed: 'end' },
];

function cooled({ name, isUnderLid, weighed }: CoolingCase, number: number): { record: BurnRecord; truth: number } {
  const random = createRandom(`cooling ${name} ${number}`);
  const between = (low: number, high: number) => low + (high - low) * random.uniform();
  const { vessel } = heronScenario('1', 'M');
  const airTempC = between(2, 28);
  const load = { waterKg: between(15, 40), startTempC: between(60, 92) };
  const place = { boilingPointC: 99, airVapourPressurePa: HUMIDITY * vapourPressurePa(airTempC) };
  const pot = createPot(vessel, load, place);
  const offsetsK = [0, 1].map(() => PROBE_K * random.normal());
  const counts: number[][] = [[], []];
  let [lostJ, kelvinSeconds] = [0, 0];
  for (let atS = 0; atS <= LASTS_S; atS += STEP_S) {
    if (atS % EVERY_S === 0) {
      [pot.lowTempC, pot.highTempC].forEach((tempC, at) => {
        counts[at]!.push(Math.round((tempC + offsetsK[at]! + NOISE_K * random.normal()) / SCALE_K));
      });
    }
    const { evaporationW, surfaceLossW } = pot.step(STEP_S, { gasToPotW: 0, airTempC, lidOn: isUnderLid });
    lostJ += (evaporationW + surfaceLossW) * STEP_S;
    kelvinSeconds += (pot.meanTempC - airTempC) * STEP_S;
  }
  const exactKg = weighed === 'start' ? load.waterKg : pot.waterKg;
  const record: BurnRecord = {
    format: 'stovebench-burn-record',
    version: 1,
    id: id(1),
    title: `${name} ${number}`,
    origin: 'simulated',
    purpose: 'cooling',
    status: 'complete',
    methodSet: 'bench-1',
    primaryResult: 'dryWoodPerBatch',
    target: { kind: 'boil' },
    airTempC: airTempC + AIR_K * random.normal(),
    vessel: { id: id(2), name: 'vat', massKg: vessel.massKg, specificHeatJPerKgK: vessel.specificHeatJPerKgK },
    fuelLots: [],
    channels: counts.map((_, at) => ({
      id: id(10 + at),
      boardId: id(3),
      index: at,
      name: at === 0 ? 'low' : 'high',
      role: 'water',
      unit: 'Cel',
      scale: SCALE_K,
      timeConstantS: 1e-3,
      standardUncertainty: PROBE_K,
    })),
    readings: [
      {
        boardId: id(3),
        elapsedUs: counts[0]!.map((_, at) => at * EVERY_S * 1e6),
        columns: counts.map((column, at) => ({ channelId: id(10 + at), counts: column })),
      },
    ],
    marks: [{ id: id(20), kind: isUnderLid ? 'lidOn' : 'lidOff', elapsedUs: 0 }],
    weighings: [
      {
        id: id(30),
        of: 'water',
        when: weighed,
        massKg: exactKg + WEIGHED_KG * random.normal(),
        standardUncertaintyKg: WEIGHED_KG,
      },
    ],
  };
  return { record, truth: lostJ / kelvinSeconds };
}

/** Simulates `count` cooling pots and compares the loss coefficient with their true loss. */
export function tallyCoolings(each: CoolingCase, count: number, draws: number): Tally {
  return tally(
    Array.from({ length: count }, (_, number) => cooled(each, number)),
    'lossCoefficient',
    draws,
  );
}

/**
 * Claims that the counts refute. The dominant errors are bounded (what may have evaporated), so more intervals may
 * hold.
 */
export function coolingClaims({ name }: CoolingCase, { trials, held, missing }: Tally): string[] {
  const { low } = binomialBand(trials, 0.95, 0.99);
  const lost = Object.values(missing).reduce((sum, count) => sum + count, 0);
  return [
    ...(held < low
      ? [`cooling ${name}: ${held} of ${trials} intervals held what the pot lost, fewer than ${low}`]
      : []),
    ...(lost > Math.max(1, LOST_SHARE * (trials + lost)) ? [`cooling ${name}: ${lost} results are missing`] : []),
  ];
}
