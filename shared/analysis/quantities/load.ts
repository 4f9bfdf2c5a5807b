/** The load: water with everything added and taken out, goods in it, the vessel, and the heat of each. */
import type { BurnRecord } from '../../contract/burn-record.ts';
import type { FormulaNumber, Message } from '../../contract/results.ts';
import { findMaterial, SPECIFIC_HEAT_J_PER_KG_K } from '../../physics/heat-capacity.ts';
import { marksOf } from '../curves/fire-moments.ts';
import { each } from '../engine/columns.ts';
import { bestOfSum, type Found, type Sum } from '../engine/declaration.ts';
import { byDefault, missing } from '../messages/messages.ts';
import { fireOut } from './burn-curves.ts';
import { type BurnQuantity, fact, type GivenBurn, quantity } from './declare.ts';
import { endTempC, startTempC } from './edge-temperatures.ts';
import { type Heated, heatedContents } from './heated-contents.ts';
import { weighedSum } from './masses.ts';
import { foundTarget, targetTempC } from './target.ts';
import { waterMJPerKg } from './water-tables.ts';
import { type MovedWater, movedWater, waterBefore } from './weighed-water.ts';

const GOODS_J_PER_KG_K = 1400;
const HEAT_FORMULA =
  'M_start·(h(T_end) − h(T_start)) + Σ_k M_k·(h(T_end) − h(T_k)) + Σ_j m_j·c_j·(T_end − T_j) + Σ_l m_l·c_l·(T_end − T_l − L_l)';
const HEAT_SOURCE = 'bench-1 definition; enthalpy of water by IAPWS-IF97 region 1 (IAPWS R7-97)';

interface Goods {
  readonly atS: number;
  readonly sign: 1 | -1;
  readonly kg: Sum;
  readonly tempC: number;
  readonly MJPerKgK: number;
  readonly defaults: readonly Message[];
}

const movedGoods = fact('goods put in and taken out', [], ({ subject }): Goods[] => {
  const usual = subject.contents?.[0]?.specificHeatJPerKgK;
  return [...marksOf(subject, 'goodsIn'), ...marksOf(subject, 'goodsOut')].map((mark) => {
    const own = (mark.kind === 'goodsIn' ? mark.specificHeatJPerKgK : undefined) ?? usual;
    const specificHeat = own ?? GOODS_J_PER_KG_K;
    return {
      atS: mark.elapsedUs / 1e6,
      sign: mark.kind === 'goodsIn' ? 1 : -1,
      kg: weighedSum(subject, mark.kind, [{ what: 'goods', sign: 1, kg: mark.massKg }], mark.id),
      tempC: mark.tempC,
      MJPerKgK: specificHeat / 1e6,
      defaults: own === undefined ? [byDefault('goodsSpecificHeat', { JPerKgK: specificHeat })] : [],
    };
  });
});

export const waterStartKg = quantity({
  name: 'waterStartKg',
  symbol: 'M_start',
  unit: 'kg',
  formula: 'water weighed before the burn',
  source: 'weighed',
  needs: [waterBefore],
  state(given) {
    const weighed = given.fact(waterBefore);
    if (weighed.missing) return { missing: weighed.missing };
    return { measured: [weighed.kg] };
  },
});

export const loadStartKg = quantity({
  name: 'loadStartKg',
  symbol: 'M_load,start',
  unit: 'kg',
  formula: 'M_start + Σ m_contents',
  source: 'bench-1 definition',
  needs: [waterStartKg, heatedContents],
  state(given) {
    const contents = given.fact(heatedContents);
    return {
      from: [waterStartKg],
      measured: contents.map(({ kg }) => kg),
      compute(out, [water, ...goods]) {
        for (let row = 0; row < out.length; row++) {
          let kg = water![row]!;
          for (const content of goods) kg += content[row]!;
          out[row] = kg;
        }
      },
    };
  },
});

export const loadMJ: BurnQuantity = quantity({
  name: 'loadMJ',
  symbol: 'ΔH_load',
  unit: 'MJ',
  formula: HEAT_FORMULA,
  source: HEAT_SOURCE,
  needs: [waterStartKg, startTempC, endTempC, movedWater, movedGoods, heatedContents, fireOut],
  state: (given) => heatInto(given, endTempC, given.fact(fireOut)?.elapsedS, 'lagAtEndK', 'T_end'),
});

export const loadToTargetMJ: BurnQuantity = quantity({
  name: 'loadToTargetMJ',
  symbol: 'ΔH_load,target',
  unit: 'MJ',
  formula: HEAT_FORMULA.replaceAll('T_end', 'T_target'),
  source: HEAT_SOURCE,
  needs: [waterStartKg, startTempC, targetTempC, movedWater, movedGoods, heatedContents, foundTarget],
  state: (given) => heatInto(given, targetTempC, given.fact(foundTarget).moment?.elapsedS, 'lagAtTargetK', 'T_target'),
});

function heatInto(
  given: GivenBurn,
  endingAt: BurnQuantity,
  endS: number | undefined,
  lag: 'lagAtEndK' | 'lagAtTargetK',
  endSymbol: string,
): Found<BurnRecord> {
  const until = endS ?? Number.POSITIVE_INFINITY;
  const water = given.fact(movedWater).filter(({ atS }) => atS <= until);
  const goods = given.fact(movedGoods).filter(({ atS }) => atS <= until);
  const contents = given.fact(heatedContents);
  const waterInMJPerKg = water.map(({ tempC }) => waterMJPerKg(tempC));
  return {
    from: [waterStartKg, startTempC, endingAt],
    measured: [
      ...water.map(({ kg }) => kg),
      ...goods.map(({ kg }) => kg),
      ...contents.flatMap(({ kg, lag }) => [kg, lag]),
    ],
    defaults: goods.flatMap(({ defaults }) => defaults),
    numbers: [
      enthalpy('T_start', given.best(startTempC)),
      enthalpy(endSymbol, given.best(endingAt)),
      ...water.flatMap((each, index) => numbersOfWater(each, index + 1)),
      ...goods.flatMap((each, index) => numbersOfGoods(each, index + 1)),
      ...contents.flatMap((each, index) => {
        const fromC = each.startTempC ?? given.best(startTempC);
        const lagK = each[lag](each.lag.value, given.best(endingAt) - fromC);
        return numbersOfContent(each, fromC, lagK, index + 1);
      }),
    ],
    remarks: contents.flatMap(({ remarks }) => remarks),
    compute(out, [waterKg, startC, endC, ...masses]) {
      const goodsFrom = water.length;
      const contentsFrom = goodsFrom + goods.length;
      for (let row = 0; row < out.length; row++) {
        const fromC = startC![row]!;
        const toC = endC![row]!;
        const toMJPerKg = waterMJPerKg(toC);
        let MJ = waterKg![row]! * (toMJPerKg - waterMJPerKg(fromC));
        for (let at = 0; at < water.length; at++) {
          MJ += water[at]!.sign * masses[at]![row]! * (toMJPerKg - waterInMJPerKg[at]!);
        }
        for (let at = 0; at < goods.length; at++) {
          const { sign, MJPerKgK, tempC } = goods[at]!;
          MJ += sign * masses[goodsFrom + at]![row]! * MJPerKgK * (toC - tempC);
        }
        for (let at = 0; at < contents.length; at++) {
          const content = contents[at]!;
          const kg = masses[contentsFrom + 2 * at]![row]!;
          const factor = masses[contentsFrom + 2 * at + 1]![row]!;
          const riseK = toC - (content.startTempC ?? fromC);
          MJ += kg * content.MJPerKgK * (riseK - content[lag](factor, riseK));
        }
        out[row] = MJ;
      }
    },
  };
}

function enthalpy(symbol: string, tempC: number): FormulaNumber {
  return { name: 'waterMJPerKg', symbol: `h(${symbol})`, value: waterMJPerKg(tempC), unit: 'MJ/kg' };
}

/** Water taken out has a negative mass. */
function numbersOfWater({ sign, kg, tempC }: MovedWater, at: number): FormulaNumber[] {
  return [
    { name: 'movedWaterKg', symbol: `M_k${at}`, value: sign * bestOfSum(kg), unit: 'kg' },
    { name: 'movedWaterC', symbol: `T_k${at}`, value: tempC, unit: 'Cel' },
    enthalpy(`T_k${at}`, tempC),
  ];
}

function numbersOfGoods({ sign, kg, tempC, MJPerKgK }: Goods, at: number): FormulaNumber[] {
  return [
    { name: 'movedGoodsKg', symbol: `m_j${at}`, value: sign * bestOfSum(kg), unit: 'kg' },
    { name: 'specificHeat', symbol: `c_j${at}`, value: 1e6 * MJPerKgK, unit: 'J/(kg.K)' },
    { name: 'movedGoodsC', symbol: `T_j${at}`, value: tempC, unit: 'Cel' },
  ];
}

function numbersOfContent(
  { name: of, kg, MJPerKgK }: Heated,
  fromC: number,
  lagK: number,
  at: number,
): FormulaNumber[] {
  return [
    { name: 'contentKg', symbol: `m_l${at}`, of, value: bestOfSum(kg), unit: 'kg' },
    { name: 'specificHeat', symbol: `c_l${at}`, of, value: 1e6 * MJPerKgK, unit: 'J/(kg.K)' },
    { name: 'contentStartC', symbol: `T_l${at}`, of, value: fromC, unit: 'Cel' },
    { name: 'contents.lag', symbol: `L_l${at}`, of, value: lagK, unit: 'K' },
  ];
}

/** Heat capacity of the pot itself, J/K; `undefined` where its mass is not known. */
export const vesselHeatCapacity = fact('heat capacity of the vessel', [], ({ subject: { vessel } }) => {
  const massKg = vessel?.massKg;
  if (massKg === undefined) return undefined;
  const known = vessel?.specificHeatJPerKgK;
  const material = vessel?.material === undefined ? undefined : findMaterial(vessel.material);
  const JPerKgK = known ?? SPECIFIC_HEAT_J_PER_KG_K[material ?? 'stainlessSteel'].value;
  return {
    massKg,
    JPerKgK,
    JPerK: massKg * JPerKgK,
    defaults: known === undefined ? [byDefault('vesselSpecificHeat', { JPerKgK })] : [],
  };
});

/** Heat in the pot itself: published separately from the useful heat, and not part of it. */
export const vesselMJ = quantity({
  name: 'vesselMJ',
  symbol: 'ΔH_vessel',
  unit: 'MJ',
  formula: 'm_vessel·c·(T_end − T_start)',
  source: 'bench-1 definition',
  needs: [vesselHeatCapacity, startTempC, endTempC],
  state(given) {
    const vessel = given.fact(vesselHeatCapacity);
    if (!vessel) return { missing: missing('notComputable') };
    const { JPerK, massKg, JPerKgK, defaults } = vessel;
    return {
      from: [startTempC, endTempC],
      compute: each((fromC, toC) => (JPerK * (toC - fromC)) / 1e6),
      defaults,
      numbers: [
        { name: 'vesselKg', symbol: 'm_vessel', value: massKg, unit: 'kg' },
        { name: 'specificHeat', symbol: 'c', value: JPerKgK, unit: 'J/(kg.K)' },
      ],
    };
  },
});
