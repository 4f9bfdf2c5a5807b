/** The load: water with everything added and taken away, goods in it, the vessel; their heat and what evaporated. */
import type { BurnRecord } from '../../contract/burn-record.ts';
import { findMaterial, SPECIFIC_HEAT_J_PER_KG_K } from '../../physics/heat-capacity.ts';
import type { Curve } from '../curves/channel-curve.ts';
import { marksOf } from '../curves/fire-moments.ts';
import type { WaterCurve } from '../curves/water-curve.ts';
import { byDefault, missing } from '../engine/messages.ts';
import type { Draw, Model } from '../engine/model.ts';
import { defineEvaporation } from './evaporated-water.ts';
import { heatedContent } from './heated-contents.ts';
import type { Scales } from './masses.ts';
import { waterMJPerKg } from './water-tables.ts';
import { type LoadWindows, movedWater, weighedWater } from './weighed-water.ts';

const GOODS_J_PER_KG_K = 1400;

interface Goods {
  readonly atS: number;
  readonly sign: 1 | -1;
  readonly kg: (draw: Draw) => number;
  readonly tempC: number;
  readonly MJPerKgK: number;
}

export function defineLoad(
  record: BurnRecord,
  curves: readonly Curve[],
  water: WaterCurve | undefined,
  windows: LoadWindows,
  scales: Scales,
  model: Model,
): void {
  const start = weighedWater(record, 'start', scales, model);
  if (!start) return;
  const moved = [...movedWater(record, 'waterIn', 1, scales), ...movedWater(record, 'waterOut', -1, scales)];
  const goods = movedGoods(record, scales, model);
  const heated = (record.contents ?? []).map((content) => heatedContent(content, curves, water, windows, model));
  const contentsKg = (draw: Draw) => heated.reduce((sum, content) => sum + content.kg(draw), 0);
  model.define((draw, quantities) => {
    quantities.waterStartKg = start.of(draw);
    quantities.loadStartKg = quantities.waterStartKg + contentsKg(draw);
  });
  defineHeat('loadMJ', 'endTempC', windows.endS, 'lagAtEndK');
  defineHeat('loadToTargetMJ', 'targetTempC', windows.targetS, 'lagAtTargetK');
  defineVessel(record, model);
  defineEvaporation(record, water, windows, start, moved, scales, model);

  function defineHeat(
    name: 'loadMJ' | 'loadToTargetMJ',
    endName: 'endTempC' | 'targetTempC',
    endS: number | undefined,
    lag: 'lagAtEndK' | 'lagAtTargetK',
  ): void {
    const until = endS ?? Number.POSITIVE_INFINITY;
    const movedBefore = moved.filter(({ atS }) => atS <= until);
    const goodsBefore = goods.filter(({ atS }) => atS <= until);
    for (const from of ['startTempC', endName] as const) {
      const why = model.missing.get(from);
      if (why) model.markMissing(name, why);
    }
    model.define((draw, quantities) => {
      const endC = quantities[endName];
      const startC = quantities.startTempC;
      const endMJPerKg = waterMJPerKg(endC);
      let heat = quantities.waterStartKg * (endMJPerKg - waterMJPerKg(startC));
      for (const { sign, mass, tempC } of movedBefore)
        heat += sign * mass.of(draw) * (endMJPerKg - waterMJPerKg(tempC));
      for (const { sign, kg, tempC, MJPerKgK } of goodsBefore) heat += sign * kg(draw) * MJPerKgK * (endC - tempC);
      for (const content of heated) {
        const riseK = endC - (content.startTempC ?? startC);
        heat += content.kg(draw) * content.MJPerKgK * (riseK - content[lag](draw, riseK));
      }
      quantities[name] = heat;
    });
  }
}

function movedGoods(record: BurnRecord, scales: Scales, model: Model): Goods[] {
  const usual = record.contents?.[0]?.specificHeatJPerKgK;
  return [...marksOf(record, 'goodsIn'), ...marksOf(record, 'goodsOut')].map((mark) => {
    const own = mark.kind === 'goodsIn' ? mark.specificHeatJPerKgK : undefined;
    const specificHeat = own ?? usual ?? GOODS_J_PER_KG_K;
    if ((own ?? usual) === undefined) {
      model.setDefault(['loadMJ', 'loadToTargetMJ'], byDefault('goodsSpecificHeat', { JPerKgK: specificHeat }));
    }
    const mass = scales.sum(mark.kind, [{ what: 'goods', sign: 1, kg: mark.massKg }]);
    return {
      atS: mark.elapsedUs / 1e6,
      sign: mark.kind === 'goodsIn' ? 1 : -1,
      kg: mass.of,
      tempC: mark.tempC,
      MJPerKgK: specificHeat / 1e6,
    };
  });
}

function defineVessel({ vessel }: BurnRecord, model: Model): void {
  const massKg = vessel?.massKg;
  if (massKg === undefined) {
    model.markMissing('vesselMJ', missing('notComputable'));
    return;
  }
  const known = vessel?.specificHeatJPerKgK;
  const material = vessel?.material === undefined ? undefined : findMaterial(vessel.material);
  const specificHeat = known ?? SPECIFIC_HEAT_J_PER_KG_K[material ?? 'stainlessSteel'].value;
  if (known === undefined) model.setDefault('vesselMJ', byDefault('vesselSpecificHeat', { JPerKgK: specificHeat }));
  model.define((_draw, quantities) => {
    quantities.vesselMJ = (massKg * specificHeat * (quantities.endTempC - quantities.startTempC)) / 1e6;
  });
}
