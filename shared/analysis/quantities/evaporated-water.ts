/** Evaporated water and its heat: everything put in less everything taken out less what is left. */
import type { FormulaNumber, Message } from '../../contract/results.ts';
import { evaporationTempC } from '../curves/evaporation.ts';
import { marksOf } from '../curves/fire-moments.ts';
import { each } from '../engine/columns.ts';
import { bestOfSum, ownError, type Sum } from '../engine/declaration.ts';
import { byDefault, missing, remark } from '../messages/messages.ts';
import { fireOut, heatingStartS, water } from './burn-curves.ts';
import { fact, quantity } from './declare.ts';
import { endTempC } from './edge-temperatures.ts';
import { waterStartKg } from './load.ts';
import { vapourMJPerKg } from './water-tables.ts';
import { boilingTempC, waterGain, waterOffsetK } from './water-temperature.ts';
import { movedWater, waterAfter, waterBefore } from './weighed-water.ts';

/**
 * The largest share of the heat loss of a cooling open pot that can leave as vapour: all of it, where its walls are in
 * a hot stove. Half is usual: 30 kg that cool from 95 to 60 °C lose about a kilogram ("common practice, no source").
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

interface MeasuredKg {
  readonly kg: Sum;
  readonly remarks: readonly Message[];
}

/**
 * Evaporated water by the weighings alone, kg, or the reason for a missing value where more is left than was put in.
 */
const balance = fact('water balance', [waterBefore, waterAfter, movedWater], (given) => {
  const before = given.fact(waterBefore);
  const after = given.fact(waterAfter);
  if (before.missing || after.missing) return undefined;
  const movedKg = given.fact(movedWater).reduce((sum, { sign, kg }) => sum + sign * bestOfSum(kg), 0);
  const startKg = bestOfSum(before.kg);
  const evaporatedKg = startKg + movedKg - bestOfSum(after.kg);
  const impossible = evaporatedKg < -Math.max(0.05, 0.005 * startKg);
  return {
    evaporatedKg,
    impossible: impossible ? missing('moreWaterLeftThanBrought', { kg: -evaporatedKg }) : undefined,
  };
});

/**
 * Water lost between fire out and the weighing, kg: an open pot evaporates while it cools, and that is not steam raised
 * by the fire.
 */
const cooledAway = fact('water lost while it cooled', [waterAfter, endTempC], (given): MeasuredKg => {
  const after = given.fact(waterAfter);
  const weighing = given.subject.weighings.find(({ of, when }) => of === 'water' && when === 'end');
  const none = { kg: { constant: 0, terms: [] }, remarks: [] };
  if (after.missing || !weighing) return none;
  const endC = given.best(endTempC);
  const stated = weighing.tempC === undefined || Number.isNaN(endC) ? SHORT_COOLING_K : endC - weighing.tempC;
  // Under a lid little escapes, but the hot stove keeps the pot steaming for a moment.
  const cooledK = weighing.lidOn ? Math.max(SHORT_UNDER_LID_K, stated) : stated;
  if (cooledK <= 0.5) return none;
  const mostKg = vapourLostKg(bestOfSum(after.kg), cooledK, weighing.lidOn ?? false);
  const isLong = !weighing.lidOn && weighing.tempC !== undefined && cooledK > 5;
  return {
    kg: upTo('water.coolingBeforeWeighing', mostKg, byDefault('coolingBeforeWeighing', { cooledK, mostKg })),
    remarks: isLong ? [remark('weighedAfterCooling', { cooledK, mostKg })] : [],
  };
});

/** Returns the most that water can lose as vapour while it cools, kg. */
export function vapourLostKg(kg: number, cooledK: number, isUnderLid: boolean): number {
  return ((isUnderLid ? COOLING_UNDER_LID : COOLING_AS_VAPOUR) * kg * WATER_MJ_PER_KG_K * cooledK) / LATENT_MJ_PER_KG;
}

/** Water that left with wet goods, kg: as stated, else between zero and their dry mass. */
const carriedOut = fact('water carried out with goods', [], ({ subject }): MeasuredKg => {
  const marks = marksOf(subject, 'goodsOut');
  const constant = marks.reduce((sum, mark) => sum + (mark.waterCarriedOutKg ?? 0), 0);
  const unknownKg = marks.reduce((sum, mark) => sum + (mark.waterCarriedOutKg === undefined ? mark.massKg : 0), 0);
  if (unknownKg === 0) return { kg: { constant, terms: [] }, remarks: [] };
  const mostKg = CARRIED_OUT_PER_KG * unknownKg;
  const { terms } = upTo('goods.carriedOut', mostKg, byDefault('carriedOutWater', { mostKg }));
  return { kg: { constant, terms }, remarks: [remark('carriedOutWaterUnknown', { mostKg })] };
});

/** A mass between zero and an upper limit. */
function upTo(name: string, mostKg: number, default_: Message): Sum {
  const input = ownError(name, mostKg / Math.sqrt(12), { distribution: 'oneSided', defaults: [default_] });
  return { constant: 0, terms: [{ input, weight: 1 }] };
}

export const waterLeftKg = quantity({
  name: 'waterLeftKg',
  symbol: 'M_end',
  unit: 'kg',
  formula: 'water weighed after the burn + what it lost while it cooled',
  source: 'weighed',
  needs: [waterBefore, waterAfter, cooledAway, balance],
  state(given) {
    const before = given.fact(waterBefore);
    const after = given.fact(waterAfter);
    if (before.missing || after.missing) return { missing: (before.missing ?? after.missing)! };
    const cooled = given.fact(cooledAway);
    return {
      measured: [after.kg, cooled.kg],
      compute: each((kg, cooledKg) => kg + cooledKg),
      refuse: () => given.fact(balance)!.impossible,
      remarks: cooled.remarks,
    };
  },
});

export const evaporatedKg = quantity({
  name: 'evaporatedKg',
  symbol: 'M_evap',
  unit: 'kg',
  window: 'whole',
  formula: 'Σ M_in − Σ M_out − M_end',
  source: 'bench-1 definition',
  needs: [waterStartKg, waterLeftKg, movedWater, carriedOut, balance],
  state(given) {
    const moved = given.fact(movedWater);
    const carried = given.fact(carriedOut);
    const byWeight = given.fact(balance)?.evaporatedKg ?? 0;
    return {
      from: [waterStartKg, waterLeftKg],
      measured: [
        {
          constant: moved.reduce((sum, { sign, kg }) => sum + sign * kg.constant, 0) - carried.kg.constant,
          terms: [
            ...moved.flatMap(({ sign, kg }) => kg.terms.map(({ input, weight }) => ({ input, weight: sign * weight }))),
            ...carried.kg.terms.map(({ input, weight }) => ({ input, weight: -weight })),
          ],
        },
      ],
      compute: each((startKg, leftKg, movedKg) => startKg + movedKg - leftKg),
      numbers: [
        ...moved.map(({ sign, kg }, index) => ({
          name: 'movedWaterKg',
          symbol: `${sign > 0 ? 'M_in' : 'M_out'},${index + 1}`,
          value: bestOfSum(kg),
          unit: 'kg',
        })),
        ...(carried.kg.constant > 0
          ? [{ name: 'goods.carriedOut', symbol: 'M_out,0', value: carried.kg.constant, unit: 'kg' }]
          : []),
      ],
      remarks: [...carried.remarks, ...(byWeight < 0 ? [remark('slightlyNegativeEvaporation', { kg: byWeight })] : [])],
    };
  },
});

function vaporisation(tempC: number): FormulaNumber {
  return { name: 'vapourMJPerKg', symbol: 'h_fg', value: vapourMJPerKg(tempC), unit: 'MJ/kg' };
}

export const vapourMJ = quantity({
  name: 'vapourMJ',
  symbol: 'H_vapour',
  unit: 'MJ',
  formula: 'M_evap·h_fg',
  source: 'bench-1 definition; heat of vaporisation by IAPWS-IF97 (IAPWS R7-97)',
  needs: [evaporatedKg, endTempC, water, heatingStartS, fireOut, boilingTempC, waterOffsetK, waterGain],
  state(given) {
    const curve = given.fact(water);
    const endS = given.fact(fireOut)?.elapsedS;
    const boilingC = given.best(boilingTempC);
    const meanC =
      curve && endS !== undefined
        ? evaporationTempC(curve, given.fact(heatingStartS), endS, Number.isNaN(boilingC) ? 100 : boilingC)
        : undefined;
    if (meanC === undefined) {
      return {
        from: [evaporatedKg, endTempC],
        compute: each((kg, tempC) => kg * vapourMJPerKg(tempC)),
        numbers: [vaporisation(given.best(endTempC))],
      };
    }
    const tempC = meanC - given.best(waterOffsetK) - given.best(waterGain) * meanC;
    return {
      from: [evaporatedKg, waterOffsetK, waterGain],
      numbers: [{ name: 'evaporationC', symbol: 'T_evap', value: tempC, unit: 'Cel' }, vaporisation(tempC)],
      compute: each((kg, offsetK, gain) => kg * vapourMJPerKg(meanC - offsetK - gain * meanC)),
    };
  },
});
