/**
 * Extracts what predictions use of a burn: the heating of its water to the target, its wood, and the conditions of
 * both.
 */

import { coolsUnderLid, lidByMarks } from '../../analysis/curves/lid.ts';
import type { Vessel } from '../../contract/burn-record.ts';
import type { Message } from '../../contract/results.ts';
import type { ComparisonCode } from '../../language/comparison/comparison.ts';
import { median } from '../../statistics/quantile.ts';
import { type BurnDocument, type ComparedBurn, resultOf, resultValue } from '../compared-burn.ts';
import { conditionsOf, weighedWaterKg } from '../conditions.ts';
import { type ComparedValue, comparedValue } from '../contributions.ts';
import type { Feed } from './burnt-wood.ts';
import { capacityJPerK, type Goods } from './heated-mass.ts';

/** Temperature of the water over time, seconds since recording started. */
export interface WaterTemperatures {
  timeS: ArrayLike<number>;
  tempC: ArrayLike<number>;
}

export interface CurveStretch {
  /** Seconds after lighting. */
  timeS: number[];
  tempC: number[];
}

/** A pot cooling off the fire, with the water in it. */
export interface ObservedCooling extends CurveStretch {
  lidOn: boolean;
  waterKg: number;
  goods: readonly Goods[];
  vessel: Vessel | undefined;
  airTempC: number | undefined;
}

export interface ObservedBurn {
  burnId: string;
  waterKg: number;
  goods: Goods[];
  vessel: Vessel | undefined;
  revisionId: string | undefined;
  startKind: 'cold' | 'hot' | undefined;
  startTempC: number;
  target: BurnDocument['target'];
  /** Temperature of the water when the target counted as reached. */
  targetC: number;
  boilingPointC: number | undefined;
  airTempC: number | undefined;
  moistureWet: number | undefined;
  /** J/K, vessel included. */
  capacityJPerK: number;
  /** Seconds after lighting. */
  potOnS: number;
  targetS: number;
  fireOutS: number;
  lidOnAt(elapsedS: number): boolean;
  toTarget: CurveStretch;
  /** The cooling at the end of the burn. */
  cooling: ObservedCooling;
  feeds: Feed[];
  /** Unburnt wood taken out at the end, kg. */
  rakedOutKg: number;
  /** Dry wood of the whole burn, kg. */
  dryWoodKg: number | undefined;
  /** The time and the wood with the errors they share with other burns. */
  time: ComparedValue;
  wood: ComparedValue | undefined;
}

const STRETCH_POINTS = 150;

const missing = (code: ComparisonCode): Message => ({ code, params: {} });

/** Extracts a burn, or returns what is missing in it. */
export function observeBurn(compared: ComparedBurn, water: WaterTemperatures): ObservedBurn | Message {
  const { burn, analysis } = compared;
  const moment = (kind: string) => analysis.moments.find((candidate) => candidate.kind === kind)?.elapsedS;
  const time = resultOf(compared, 'timeToTarget');
  const litS = moment('lit');
  const waterKg = weighedWaterKg(burn, 'start');
  if (burn.status === 'setAside') return { code: 'aside/byPerson', params: { reason: burn.setAsideReason ?? '' } };
  if (time === undefined || litS === undefined) return missing('aside/noTimeToTarget');
  if (waterKg === undefined) return missing('aside/noWaterMass');
  const targetS = time.value;
  const goods: Goods[] = burn.contents ?? [];
  const start = stretch(water, litS, litS - 60, litS + 60);
  const toTarget = stretch(water, litS, litS, litS + targetS);
  if (start.tempC.length === 0 || toTarget.timeS.length < 3) return missing('aside/noCurve');
  const fireOutS = (moment('fireOut') ?? litS + targetS) - litS;
  const [potOffS, potBackS] = potOff(burn).map((atS) => atS - litS) as [number, number];
  const lidAt = lidByMarks(burn.marks);
  const feeds = feedsOf(burn, litS);
  const conditions = conditionsOf(compared);
  const wood = resultOf(compared, 'equivalentDryFuel');
  return {
    burnId: burn.id,
    waterKg,
    goods,
    vessel: burn.vessel,
    revisionId: burn.revision?.id,
    startKind: burn.startKind,
    startTempC: median(start.tempC),
    target: burn.target,
    targetC: toTarget.tempC.at(-1)!,
    boilingPointC: resultValue(compared, 'localBoilingPoint'),
    airTempC: conditions.airTempC,
    moistureWet: conditions.moistureWet,
    capacityJPerK: capacityJPerK(waterKg, goods, burn.vessel, targetS),
    potOnS: Math.max(0, (moment('potOn') ?? litS) - litS),
    targetS,
    fireOutS: Math.max(fireOutS, targetS),
    lidOnAt: (elapsedS) => lidAt(litS + elapsedS),
    toTarget,
    cooling: {
      ...stretch(water, litS, litS + potOffS, litS + potBackS),
      lidOn: lidAt(litS + potOffS),
      waterKg: Math.max(0, waterKg - (resultValue(compared, 'evaporatedWater') ?? 0)),
      goods,
      vessel: burn.vessel,
      airTempC: conditions.airTempC,
    },
    feeds,
    dryWoodKg: resultValue(compared, 'equivalentDryFuel'),
    rakedOutKg: brandsKg(burn),
    time: comparedValue(burn.id, time, 'ratio')!,
    wood: wood && comparedValue(burn.id, wood, 'ratio'),
  };
}

/** Extracts a record of a cooling only, or returns what is missing in it. */
export function observeCooling({ burn }: ComparedBurn, water: WaterTemperatures): ObservedCooling | Message {
  if (burn.status === 'setAside') return { code: 'aside/byPerson', params: { reason: burn.setAsideReason ?? '' } };
  const waterKg = weighedWaterKg(burn, 'start') ?? weighedWaterKg(burn, 'end');
  if (waterKg === undefined) return missing('aside/noWaterMass');
  const marked = potOff(burn);
  const [offS, backS] = Number.isFinite(marked[0]) ? marked : [water.timeS[0] ?? 0, Infinity];
  return {
    ...stretch(water, 0, offS, backS),
    lidOn: coolsUnderLid(burn.marks, offS),
    waterKg,
    goods: burn.contents ?? [],
    vessel: burn.vessel,
    airTempC: burn.airTempC,
  };
}

/** Usable points between two moments (seconds since recording started), thinned, with times after lighting. */
function stretch({ timeS, tempC }: WaterTemperatures, litS: number, fromS: number, toS: number): CurveStretch {
  const indices: number[] = [];
  for (let index = 0; index < timeS.length; index++) {
    if (timeS[index]! >= fromS && timeS[index]! <= toS && Number.isFinite(tempC[index]!)) indices.push(index);
  }
  const step = Math.max(1, Math.floor(indices.length / STRETCH_POINTS));
  const selected = indices.filter((_, order) => order % step === 0 || order === indices.length - 1);
  return { timeS: selected.map((index) => timeS[index]! - litS), tempC: selected.map((index) => tempC[index]!) };
}

/**
 * When the pot was last taken off the fire, and when it was put back or recording ended; Infinity where it stayed on.
 */
function potOff(burn: BurnDocument): [offS: number, backS: number] {
  const times = (kind: string) =>
    burn.marks.filter((mark) => mark.kind === kind).map(({ elapsedUs }) => elapsedUs / 1e6);
  const offS = Math.max(...times('potOff'), -Infinity);
  if (offS === -Infinity) return [Infinity, Infinity];
  return [offS, Math.min(...times('potOn').filter((atS) => atS > offS), Infinity)];
}

/** Wood put on the fire less wood taken out, by the marks that were weighed. */
function feedsOf(burn: BurnDocument, litS: number): Feed[] {
  return burn.marks.flatMap((mark) => {
    if ((mark.kind !== 'fed' && mark.kind !== 'logOut') || mark.massKg === undefined) return [];
    return [{ atS: mark.elapsedUs / 1e6 - litS, massKg: mark.kind === 'fed' ? mark.massKg : -mark.massKg }];
  });
}

/** Unburnt wood raked out at the end, kg; its loss of moisture is ignored. */
function brandsKg(burn: BurnDocument): number {
  return burn.weighings.reduce(
    (sum, { of, when, massKg }) => (of === 'brands' && when === 'end' ? sum + (massKg ?? 0) : sum),
    0,
  );
}
