/** What evaporated, and the heat it carried off: everything put in less everything taken out less what is left. */
import type { BurnRecord } from '../../contract/burn-record.ts';
import { evaporationTempC } from '../curves/evaporation.ts';
import { marksOf } from '../curves/fire-moments.ts';
import type { WaterCurve } from '../curves/water-curve.ts';
import { byDefault, missing, remark } from '../engine/messages.ts';
import type { Draw, Model } from '../engine/model.ts';
import type { Quantities } from '../engine/quantities.ts';
import type { Mass, Scales } from './masses.ts';
import { vapourMJPerKg } from './water-tables.ts';
import { type LoadWindows, type Moved, weighedWater } from './weighed-water.ts';

/**
 * Most of the heat an open pot loses while it cools that can leave as vapour: all of it, where its walls stand in a hot stove. Half
 * is usual: 30 kg that cool from 95 to 60 °C lose about a kilogram ("common practice, no source").
 */
const COOLING_AS_VAPOUR = 1;
/** The same under a lid. */
const COOLING_UNDER_LID = 0.25;
const WATER_MJ_PER_KG_K = 4.19e-3;
const LATENT_MJ_PER_KG = 2.27;
const SHORT_COOLING_K = 3;
const SHORT_UNDER_LID_K = 1;
/** Wet goods carry out up to their own dry mass in water. */
const CARRIED_OUT_PER_KG = 1;
export function defineEvaporation(
  record: BurnRecord,
  water: WaterCurve | undefined,
  windows: LoadWindows,
  start: Mass,
  moved: readonly Moved[],
  scales: Scales,
  model: Model,
): void {
  const left = weighedWater(record, 'end', scales, model);
  if (!left) return;
  const carried = carriedOut(record, model);
  const cooled = cooledAway(record, left.kg, model);
  model.define((draw, quantities) => {
    let waterKg = quantities.waterStartKg;
    for (const { sign, mass } of moved) waterKg += sign * mass.of(draw);
    quantities.waterLeftKg = left.of(draw) + cooled(draw, quantities);
    quantities.evaporatedKg = waterKg - carried(draw) - quantities.waterLeftKg;
  });
  const evaporatedKg = start.kg + moved.reduce((sum, { sign, mass }) => sum + sign * mass.kg, 0) - left.kg;
  if (evaporatedKg < -Math.max(0.05, 0.005 * start.kg)) {
    model.markMissing(
      ['evaporatedKg', 'vapourMJ', 'waterLeftKg'],
      missing('moreWaterLeftThanBrought', { kg: -evaporatedKg }),
    );
  } else if (evaporatedKg < 0) {
    model.remark('evaporatedKg', remark('slightlyNegativeEvaporation', { kg: evaporatedKg }));
  }
  const { boilingTempC } = model.evaluate(model.bestEstimate());
  const boilingC = Number.isNaN(boilingTempC) ? 100 : boilingTempC;
  const meanC =
    water && windows.endS !== undefined ? evaporationTempC(water, windows.startS, windows.endS, boilingC) : undefined;
  const whyNoEnd = model.missing.get('endTempC');
  if (meanC === undefined && whyNoEnd) model.markMissing('vapourMJ', whyNoEnd);
  model.define((_draw, quantities) => {
    const tempC =
      meanC === undefined ? quantities.endTempC : meanC - quantities.waterOffsetK - quantities.waterGain * meanC;
    quantities.vapourMJ = quantities.evaporatedKg * vapourMJPerKg(tempC);
  });
}

/** Water that left with wet goods, kg: as stated, else anything from none to their dry mass. */
function carriedOut(record: BurnRecord, model: Model): (draw: Draw) => number {
  const marks = marksOf(record, 'goodsOut');
  const statedKg = marks.reduce((sum, mark) => sum + (mark.waterCarriedOutKg ?? 0), 0);
  const unknownKg = marks.reduce((sum, mark) => sum + (mark.waterCarriedOutKg === undefined ? mark.massKg : 0), 0);
  if (unknownKg === 0) return () => statedKg;
  const mostKg = CARRIED_OUT_PER_KG * unknownKg;
  const error = model.ownError('goods.carriedOut', mostKg / Math.sqrt(12), 'oneSided');
  model.setDefault('evaporatedKg', byDefault('carriedOutWater', { mostKg }));
  model.remark('evaporatedKg', remark('carriedOutWaterUnknown', { mostKg }));
  return (draw) => statedKg + draw[error]!;
}

/** Water lost between fire out and the weighing, kg: an open pot that cools evaporates, and that is no steam of the fire. */
function cooledAway(record: BurnRecord, leftKg: number, model: Model): (draw: Draw, quantities: Quantities) => number {
  const weighing = record.weighings.find(({ of, when }) => of === 'water' && when === 'end')!;
  const endC = model.evaluate(model.bestEstimate()).endTempC;
  const stated = weighing.tempC === undefined || Number.isNaN(endC) ? SHORT_COOLING_K : endC - weighing.tempC;
  // Under a lid little gets away, but the hot stove goes on steaming the pot for a moment.
  const cooledK = weighing.lidOn ? Math.max(SHORT_UNDER_LID_K, stated) : stated;
  if (cooledK <= 0.5) return () => 0;
  const share = weighing.lidOn ? COOLING_UNDER_LID : COOLING_AS_VAPOUR;
  const mostKg = (share * leftKg * WATER_MJ_PER_KG_K * cooledK) / LATENT_MJ_PER_KG;
  const error = model.ownError('water.coolingBeforeWeighing', mostKg / Math.sqrt(12), 'oneSided');
  model.setDefault('evaporatedKg', byDefault('coolingBeforeWeighing', { cooledK, mostKg }));
  if (!weighing.lidOn && weighing.tempC !== undefined && cooledK > 5)
    model.remark('evaporatedKg', remark('weighedAfterCooling', { cooledK, mostKg }));
  return (draw) => draw[error]!;
}
