/** What evaporated, and the heat it carried off: everything put in less everything taken out less what is left. */
import type { BurnRecord } from '../../contract/burn-record.ts';
import { evaporationTempC } from '../curves/evaporation.ts';
import { marksOf } from '../curves/fire-moments.ts';
import type { WaterCurve } from '../curves/water-curve.ts';
import { byDefault, missing, remark } from '../engine/messages.ts';
import type { Draw, Ledger } from '../engine/model.ts';
import type { Ingredients } from '../engine/quantities.ts';
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
export function enterEvaporation(
  record: BurnRecord,
  water: WaterCurve | undefined,
  windows: LoadWindows,
  start: Mass,
  moved: readonly Moved[],
  scales: Scales,
  ledger: Ledger,
): void {
  const left = weighedWater(record, 'end', scales, ledger);
  if (!left) return;
  const carried = carriedOut(record, ledger);
  const cooled = cooledAway(record, left.kg, ledger);
  ledger.fill((draw, ingredients) => {
    let waterKg = ingredients.waterStartKg;
    for (const { sign, mass } of moved) waterKg += sign * mass.of(draw);
    ingredients.waterLeftKg = left.of(draw) + cooled(draw, ingredients);
    ingredients.evaporatedKg = waterKg - carried(draw) - ingredients.waterLeftKg;
  });
  const evaporatedKg = start.kg + moved.reduce((sum, { sign, mass }) => sum + sign * mass.kg, 0) - left.kg;
  if (evaporatedKg < -Math.max(0.05, 0.005 * start.kg)) {
    ledger.lack(
      ['evaporatedKg', 'vapourMJ', 'waterLeftKg'],
      missing('moreWaterLeftThanBrought', { kg: -evaporatedKg }),
    );
  } else if (evaporatedKg < 0) {
    ledger.remark('evaporatedKg', remark('slightlyNegativeEvaporation', { kg: evaporatedKg }));
  }
  const { boilingTempC } = ledger.evaluate(ledger.bestEstimate());
  const boilingC = Number.isNaN(boilingTempC) ? 100 : boilingTempC;
  const meanC =
    water && windows.endS !== undefined ? evaporationTempC(water, windows.startS, windows.endS, boilingC) : undefined;
  const whyNoEnd = ledger.missing.get('endTempC');
  if (meanC === undefined && whyNoEnd) ledger.lack('vapourMJ', whyNoEnd);
  ledger.fill((_draw, ingredients) => {
    const tempC =
      meanC === undefined ? ingredients.endTempC : meanC - ingredients.waterOffsetK - ingredients.waterGain * meanC;
    ingredients.vapourMJ = ingredients.evaporatedKg * vapourMJPerKg(tempC);
  });
}

/** Water that left with wet goods, kg: as stated, else anything from none to their dry mass. */
function carriedOut(record: BurnRecord, ledger: Ledger): (draw: Draw) => number {
  const marks = marksOf(record, 'goodsOut');
  const statedKg = marks.reduce((sum, mark) => sum + (mark.waterCarriedOutKg ?? 0), 0);
  const unknownKg = marks.reduce((sum, mark) => sum + (mark.waterCarriedOutKg === undefined ? mark.massKg : 0), 0);
  if (unknownKg === 0) return () => statedKg;
  const mostKg = CARRIED_OUT_PER_KG * unknownKg;
  const error = ledger.ownError('goods.carriedOut', mostKg / Math.sqrt(12), 'oneSided');
  ledger.assume('evaporatedKg', byDefault('carriedOutWater', { mostKg }));
  ledger.remark('evaporatedKg', remark('carriedOutWaterUnknown', { mostKg }));
  return (draw) => statedKg + draw[error]!;
}

/** Water lost between fire out and the weighing, kg: an open pot that cools evaporates, and that is no steam of the fire. */
function cooledAway(
  record: BurnRecord,
  leftKg: number,
  ledger: Ledger,
): (draw: Draw, ingredients: Ingredients) => number {
  const weighing = record.weighings.find(({ of, when }) => of === 'water' && when === 'end')!;
  const endC = ledger.evaluate(ledger.bestEstimate()).endTempC;
  const stated = weighing.tempC === undefined || Number.isNaN(endC) ? SHORT_COOLING_K : endC - weighing.tempC;
  // Under a lid little gets away, but the hot stove goes on steaming the pot for a moment.
  const cooledK = weighing.lidOn ? Math.max(SHORT_UNDER_LID_K, stated) : stated;
  if (cooledK <= 0.5) return () => 0;
  const share = weighing.lidOn ? COOLING_UNDER_LID : COOLING_AS_VAPOUR;
  const mostKg = (share * leftKg * WATER_MJ_PER_KG_K * cooledK) / LATENT_MJ_PER_KG;
  const error = ledger.ownError('water.coolingBeforeWeighing', mostKg / Math.sqrt(12), 'oneSided');
  ledger.assume('evaporatedKg', byDefault('coolingBeforeWeighing', { cooledK, mostKg }));
  if (!weighing.lidOn && weighing.tempC !== undefined && cooledK > 5)
    ledger.remark('evaporatedKg', remark('weighedAfterCooling', { cooledK, mostKg }));
  return (draw) => draw[error]!;
}
