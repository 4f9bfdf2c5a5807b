/**
 * Fuel burnt in any window of a stove that stands, pot and all, on a scale: what was put in, less what the scale gained, less what
 * evaporated. What lies in the firebox is then weighed with the rest.
 */
import type { BurnRecord } from '../../contract/burn-record.ts';
import type { Curve } from '../curves/channel-curve.ts';
import { evaporatedShare } from '../curves/evaporation.ts';
import { bridgeOf, segmentsOf } from '../curves/segments.ts';
import { smooth, valueAt } from '../curves/smoothing.ts';
import type { WaterCurve } from '../curves/water-curve.ts';
import type { Draw, Model } from '../engine/model.ts';

export interface BurntOnScale {
  readonly kg: number;
  readonly u: number;
  /** @param evaporatedKg of the whole burn in this draw */
  readonly of: (draw: Draw, evaporatedKg: number) => number;
}

/** `undefined` for a window in which the pot went on or off, or whose edges were not read. */
export type StoveScale = (fromS: number, toS: number, fedKg: number) => BurntOnScale | undefined;

/** One reading of a platform scale, kg standard ("common practice, no source"). */
const READING_U_KG = 0.05;
/** How well the water that left in a part of a burn is known, as a share of it ("common practice, no source"). */
const EVAPORATED_U = 0.15;
const HALF_WIDTH_S = 20;

/** `undefined` when no scale stands under the stove, or the water that evaporated is not known. */
export function stoveScale(
  record: BurnRecord,
  curves: readonly Curve[],
  water: WaterCurve | undefined,
  whole: { fromS: number; toS: number | undefined },
  model: Model,
): StoveScale | undefined {
  const curve = curves.find(({ channel }) => channel.role === 'stoveScale');
  const { fromS: litS, toS: endS } = whole;
  if (!curve || !water || endS === undefined || !model.isKnown('evaporatedKg')) return undefined;
  const { timeS, value, channel } = curve;
  const bridgeS = bridgeOf(curve);
  const { level } = smooth(timeS, value, segmentsOf(timeS, value, bridgeS), HALF_WIDTH_S);
  const best = model.evaluate(model.bestEstimate());
  const boilingC = Number.isNaN(best.boilingTempC) ? 100 : best.boilingTempC;
  const readingU =
    Math.SQRT2 * (channel.calibration?.standardUncertainty ?? channel.standardUncertainty ?? READING_U_KG);
  return (fromS, toS, fedKg) => {
    if (
      record.marks.some(
        ({ kind, elapsedUs }) => (kind === 'potOn' || kind === 'potOff') && isInside(elapsedUs, fromS, toS),
      )
    ) {
      return undefined;
    }
    const gainedKg = valueAt(timeS, level, toS, bridgeS) - valueAt(timeS, level, fromS, bridgeS);
    if (Number.isNaN(gainedKg)) return undefined;
    const share = evaporatedShare(water, { fromS, toS }, { fromS: litS, toS: endS }, boilingC);
    const putInKg = fedKg + movedKg(record, fromS, toS) - gainedKg;
    const reading = model.ownError('stoveScale.reading', readingU);
    const evaporated = model.ownError('stoveScale.evaporated', EVAPORATED_U);
    const burntKg = (evaporatedKg: number, error: number) => putInKg - share * evaporatedKg * (1 + error);
    return {
      kg: burntKg(best.evaporatedKg, 0),
      u: Math.hypot(readingU, EVAPORATED_U * share * best.evaporatedKg),
      of: (draw, evaporatedKg) => burntKg(evaporatedKg, draw[evaporated]!) + draw[reading]!,
    };
  };
}

/** Everything but fuel that was put on the scale or taken off it, kg; wood pulled out included. */
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
