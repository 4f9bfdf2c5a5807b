/** Checks a burn as a whole for entries that contradict each other, its readings, or the limits of stoves and wood. */
import type { BurnRecord } from '../../contract/burn-record.ts';
import { hasValue } from '../../contract/has-value.ts';
import type { Message, Result, ResultId } from '../../contract/results.ts';
import type { Curve } from '../curves/channel-curve.ts';
import { type FoundMoment, firstPotOn } from '../curves/fire-moments.ts';
import { valueAt } from '../curves/smoothing.ts';
import type { WaterCurve } from '../curves/water-curve.ts';
import type { ContradictionCode } from '../messages/contradiction-codes.ts';
import type { PlaceBoilingPoint } from '../quantities/boiling-point-of-place.ts';
import { lotNamed } from '../quantities/fuel-lots.ts';
import { DEEPEST_K } from '../quantities/water-temperature.ts';
import { probesAgainstBoil } from './boiling-probes.ts';
import { moistureContradiction } from './moisture.ts';

export interface SeenOfBurn {
  readonly curves: readonly Curve[];
  readonly water: WaterCurve | undefined;
  readonly lit: FoundMoment | undefined;
  readonly fireOut: FoundMoment | undefined;
  readonly results: readonly Result[];
  readonly placeBoilingPoint: PlaceBoilingPoint | undefined;
  /** Whether readings of a probe were left out because it seemed to be out of the water. */
  readonly hasOutOfWater: boolean;
}

/** Between weighing and lighting nothing heats the water; cooling takes hours ("common practice, no source"). */
const WARMER_K = 10;
const COOLER_K = 20;
/** Interval between readings, s, within which the temperature between them is known. */
const NEAR_S = 300;
const STEADY_S = 60;
/**
 * Share of the net heating value. The best class of stoves begins at 0.50 (ISO/TR 19867-3:2018, tier 5, from memory);
 * large pots on wood come to some 0.60 and gas burners to some 0.75: above that, a figure is wrong ("common practice,
 * no source").
 */
const HIGHEST_OF_WOOD = 0.7;
const HIGHEST_OF_GAS = 0.9;
/**
 * Burnt time and wood from which a raked fire leaves a few per cent of its wood as char ("common practice, no source").
 */
const CHAR_AFTER = { burntS: 3600, woodKg: 1 };
/**
 * A start up to this before the first reading is usual: a minute or two, or one pause for readings by hand ("common
 * practice, no source").
 */
const LATE_S = { board: 120, hand: 1200 };

const efficiencies: readonly ResultId[] = ['thermalEfficiency', 'thermalEfficiencyNoCharCredit', 'sensibleEfficiency'];

const contradiction = (code: ContradictionCode, params: Message['params']): Message => ({ code, params });

/** Returns all contradictions, in the order in which they are displayed. */
export function contradictions(record: BurnRecord, seen: SeenOfBurn): Message[] {
  return [
    ...startBeforeReadings(record, seen),
    ...waterAgainstProbes(record, seen),
    ...efficienciesOutOfReach(record, seen),
    ...charMissing(record, seen),
    ...probesOff(record, seen),
    ...record.fuelLots.flatMap(({ name, moisture }) => (moisture && moistureContradiction(name, moisture)) ?? []),
  ];
}

function startBeforeReadings(record: BurnRecord, { curves, lit }: SeenOfBurn): Message[] {
  const firsts = curves.flatMap(({ timeS, value }) => {
    const index = value.findIndex((reading) => !Number.isNaN(reading));
    return index < 0 ? [] : [timeS[index]!];
  });
  if (lit?.source !== 'person' || firsts.length === 0) return [];
  const beforeS = Math.min(...firsts) - lit.elapsedS;
  const isByHand = record.channels.every(({ handRead }) => handRead);
  return beforeS > (isByHand ? LATE_S.hand : LATE_S.board) ? [contradiction('litBeforeReadings', { beforeS })] : [];
}

function waterAgainstProbes(record: BurnRecord, { water, lit, fireOut }: SeenOfBurn): Message[] {
  const found: Message[] = [];
  const weighedC = (when: 'start' | 'end') =>
    record.weighings.find(
      (weighing) => weighing.of === 'water' && weighing.when === when && weighing.tempC !== undefined,
    )?.tempC;
  const probesC = (atS: number | undefined) =>
    water && atS !== undefined ? valueAt(water.timeS, water.tempC, atS, Math.max(NEAR_S, water.bridgeS)) : Number.NaN;
  const potOn = firstPotOn(record);
  // Probes that come with the pot read its water once it is on the fire.
  const isLater = lit && potOn && potOn.elapsedUs / 1e6 > lit.elapsedS;
  const start = {
    weighedC: weighedC('start'),
    probesC: probesC(isLater ? potOn.elapsedUs / 1e6 + STEADY_S : lit?.elapsedS),
  };
  if (start.weighedC !== undefined) {
    const warmerK = start.probesC - start.weighedC;
    if (warmerK > WARMER_K || warmerK < -COOLER_K) {
      found.push(contradiction('waterUnlikeProbesAtLighting', { ...start, weighedC: start.weighedC }));
    }
  }
  const end = { weighedC: weighedC('end'), probesC: probesC(fireOut?.elapsedS) };
  if (end.weighedC !== undefined && end.weighedC - end.probesC > WARMER_K) {
    found.push(contradiction('waterHotterThanProbesAtEnd', { ...end, weighedC: end.weighedC }));
  }
  return found;
}

function efficienciesOutOfReach(record: BurnRecord, { results }: SeenOfBurn): Message[] {
  const limit = record.fuelLots.some(({ kind }) => kind === 'gas') ? HIGHEST_OF_GAS : HIGHEST_OF_WOOD;
  return results.flatMap((result) => {
    if (!hasValue(result) || !efficiencies.includes(result.id)) return [];
    const { id, value } = result;
    if (value > limit) return [contradiction('efficiencyAboveAny', { result: id, value, limit })];
    return value < 0 ? [contradiction('efficiencyBelowZero', { result: id, value })] : [];
  });
}

function charMissing(record: BurnRecord, { lit, fireOut }: SeenOfBurn): Message[] {
  const char = record.weighings.filter(({ of, when }) => of === 'char' && when === 'end');
  if (char.length === 0 || !char.every(({ massKg }) => massKg === 0) || !lit || !fireOut) return [];
  const burntS = fireOut.elapsedS - lit.elapsedS;
  const woodKg = woodCarriedKg(record);
  if (burntS < CHAR_AFTER.burntS || woodKg < CHAR_AFTER.woodKg) return [];
  return [contradiction('noCharAfterHours', { burntS, woodKg })];
}

/** Checks every probe where there is a reason for it: one that reads too high, or two that differ. */
function probesOff(record: BurnRecord, seen: SeenOfBurn): Message[] {
  const { placeBoilingPoint, water, lit, fireOut, results, hasOutOfWater } = seen;
  if (!placeBoilingPoint || !water || !lit) return [];
  const disagree = results.some(
    (result) => hasValue(result) && result.remarks.some(({ code }) => code === 'probesDisagree'),
  );
  const hottestC = placeBoilingPoint.tempC + DEEPEST_K;
  let isHigh = false;
  for (let index = 0; index < water.tempC.length && !isHigh; index++) isHigh = water.tempC[index]! > hottestC;
  if (!disagree && !isHigh && !hasOutOfWater) return [];
  return probesAgainstBoil(record, placeBoilingPoint, lit.elapsedS, fireOut?.elapsedS ?? water.timeS.at(-1)!);
}

/** From the piles where they were weighed, else from the feeds. */
function woodCarriedKg({ weighings, marks, ...record }: BurnRecord): number {
  const isWood = (lotId: string | undefined) => lotNamed({ weighings, marks, ...record }, lotId)?.kind === 'wood';
  const pile = (when: 'start' | 'end') =>
    weighings
      .filter((weighing) => weighing.of === 'fuelPile' && weighing.when === when && isWood(weighing.fuelLotId))
      .reduce((sum, { massKg = 0 }) => sum + massKg, 0);
  const piledKg = pile('start') - pile('end');
  if (piledKg > 0) return piledKg;
  return marks.reduce(
    (sum, mark) => (mark.kind === 'fed' && isWood(mark.fuelLotId) ? sum + (mark.massKg ?? 0) : sum),
    0,
  );
}
