/**
 * Fuel burnt in any window of a stove that is on a scale together with its pot: mass put in, less the gain of the
 * scale, less the evaporated water. The fuel in the firebox is then weighed with the rest.
 */
import type { BurnRecord } from '../../contract/burn-record.ts';
import { evaporatedShare } from '../curves/evaporation.ts';
import { bridgeOf, segmentsOf } from '../curves/segments.ts';
import { smooth, valueAt } from '../curves/smoothing.ts';
import { type Input, ownError } from '../engine/declaration.ts';
import { curves, fireOut, heatingStartS, water } from './burn-curves.ts';
import { fact } from './declare.ts';
import { evaporatedKg } from './evaporated-water.ts';
import { boilingTempC } from './water-temperature.ts';

export interface BurntOnScale {
  /** At the best estimate, with the standard uncertainty of the window alone. */
  readonly kg: number;
  readonly u: number;
  readonly reading: Input;
  readonly evaporated: Input;
  /** From the water that evaporated in the whole burn, kg, and the two errors. */
  readonly burntKg: (evaporatedKg: number, readingErrorKg: number, evaporatedError: number) => number;
}

/** Returns `undefined` for a window in which the pot was put on or taken off, or without readings at its edges. */
export type StoveScale = (name: string, fromS: number, toS: number, fedKg: number) => BurntOnScale | undefined;

/** Standard uncertainty of one reading of a platform scale, kg ("common practice, no source"). */
const READING_U_KG = 0.05;
/** Relative standard uncertainty of the water that evaporated in a part of a burn ("common practice, no source"). */
const EVAPORATED_U = 0.15;
const HALF_WIDTH_S = 20;

/** `undefined` when no scale is under the stove, or the water that evaporated is not known. */
export const stoveScale = fact(
  'scale under the stove',
  [curves, water, heatingStartS, fireOut, evaporatedKg, boilingTempC],
  (given): StoveScale | undefined => {
    const record = given.subject;
    const scale = given.fact(curves).find(({ channel }) => channel.role === 'stoveScale');
    const waterCurve = given.fact(water);
    const endS = given.fact(fireOut)?.elapsedS;
    if (!scale || !waterCurve || endS === undefined || given.whyMissing(evaporatedKg)) return undefined;
    const { timeS, value, channel } = scale;
    const bridgeS = bridgeOf(scale);
    const { level } = smooth(timeS, value, segmentsOf(timeS, value, bridgeS), HALF_WIDTH_S);
    const bestBoilingC = given.best(boilingTempC);
    const boilingC = Number.isNaN(bestBoilingC) ? 100 : bestBoilingC;
    const whole = { fromS: given.fact(heatingStartS), toS: endS };
    const bestEvaporatedKg = given.best(evaporatedKg);
    const readingU =
      Math.SQRT2 * (channel.calibration?.standardUncertainty ?? channel.standardUncertainty ?? READING_U_KG);
    return (name, fromS, toS, fedKg) => {
      const potMoved = record.marks.some(
        ({ kind, elapsedUs }) => (kind === 'potOn' || kind === 'potOff') && isInside(elapsedUs, fromS, toS),
      );
      const gainedKg = valueAt(timeS, level, toS, bridgeS) - valueAt(timeS, level, fromS, bridgeS);
      if (potMoved || Number.isNaN(gainedKg)) return undefined;
      const share = evaporatedShare(waterCurve, { fromS, toS }, whole, boilingC);
      const putInKg = fedKg + movedKg(record, fromS, toS) - gainedKg;
      return {
        kg: putInKg - share * bestEvaporatedKg,
        u: Math.hypot(readingU, EVAPORATED_U * share * bestEvaporatedKg),
        reading: ownError('stoveScale.reading', readingU, { of: name }),
        evaporated: ownError('stoveScale.evaporated', EVAPORATED_U, { of: name }),
        burntKg: (kg, readingErrorKg, evaporatedError) => putInKg - share * kg * (1 + evaporatedError) + readingErrorKg,
      };
    };
  },
);

/** Mass other than fuel that was put on the scale or taken off it, kg; wood pulled out included. */
function movedKg(record: BurnRecord, fromS: number, toS: number): number {
  let kg = 0;
  for (const mark of record.marks) {
    if (!isInside(mark.elapsedUs, fromS, toS)) continue;
    if (mark.kind === 'waterIn' || mark.kind === 'goodsIn') kg += mark.massKg;
    else if (mark.kind === 'waterOut' || mark.kind === 'logOut') kg -= mark.massKg ?? 0;
    else if (mark.kind === 'goodsOut') kg -= mark.massKg + (mark.waterCarriedOutKg ?? 0);
  }
  return kg;
}

function isInside(elapsedUs: number, fromS: number, toS: number): boolean {
  return elapsedUs / 1e6 > fromS && elapsedUs / 1e6 <= toS;
}
