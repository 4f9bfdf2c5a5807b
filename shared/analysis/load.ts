/** The load: water with everything added and taken away, goods in it, the vessel; their heat and what evaporated. */
import type { BurnRecord, Content } from '../contract/burn-record.ts';
import { findMaterial, SPECIFIC_HEAT_J_PER_KG_K } from '../quantities/heat-capacity.ts';
import type { Curve } from './channel-curve.ts';
import { cylinderMeansC } from './contents.ts';
import { evaporationTempC } from './evaporation.ts';
import { marksOf } from './fire-moments.ts';
import type { IngredientName, Ingredients } from './ingredients.ts';
import type { Draw, Ledger } from './ledger.ts';
import { type Mass, type ScaleReading, type Scales, weighingReading } from './masses.ts';
import { byDefault, missing, remark } from './messages.ts';
import { valueAt } from './smoothing.ts';
import type { WaterCurve } from './water-curve.ts';
import { vapourMJPerKg, waterMJPerKg } from './water-tables.ts';

export interface LoadWindows {
  readonly startS: number;
  readonly targetS: number | undefined;
  readonly endS: number | undefined;
}

const WATER_NAMES = [
  'waterStartKg',
  'loadStartKg',
  'loadMJ',
  'loadToTargetMJ',
  'evaporatedKg',
  'waterLeftKg',
  'vapourMJ',
] as const;
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
const GOODS_J_PER_KG_K = 1400;
/** Contents of unknown shape: how far their mean may lie behind, as a share of the rise ("common practice, no source"). */
const LAG_AT_TARGET = 0.4;
const LAG_AT_END = 0.1;

interface Moved {
  readonly atS: number;
  readonly sign: 1 | -1;
  readonly mass: Mass;
  readonly tempC: number;
}

interface Goods {
  readonly atS: number;
  readonly sign: 1 | -1;
  readonly kg: (draw: Draw) => number;
  readonly tempC: number;
  readonly MJPerKgK: number;
}

interface Heated {
  readonly kg: (draw: Draw) => number;
  readonly MJPerKgK: number;
  readonly startTempC: number | undefined;
  /** Behind the bath, K, at the target and at the end. */
  readonly lagAtTargetK: (draw: Draw, riseK: number) => number;
  readonly lagAtEndK: (draw: Draw, riseK: number) => number;
}

export function enterLoad(
  record: BurnRecord,
  curves: readonly Curve[],
  water: WaterCurve | undefined,
  windows: LoadWindows,
  scales: Scales,
  ledger: Ledger,
): void {
  const start = weighedWater(record, 'start', scales, ledger);
  if (!start) return;
  const moved = [...movedWater(record, 'waterIn', 1, scales), ...movedWater(record, 'waterOut', -1, scales)];
  const goods = movedGoods(record, scales, ledger);
  const heated = (record.contents ?? []).map((content) => heatedContent(content, curves, water, windows, ledger));
  const contentsKg = (draw: Draw) => heated.reduce((sum, content) => sum + content.kg(draw), 0);
  ledger.fill((draw, ingredients) => {
    ingredients.waterStartKg = start.of(draw);
    ingredients.loadStartKg = ingredients.waterStartKg + contentsKg(draw);
  });
  fillHeat('loadMJ', 'endTempC', windows.endS, 'lagAtEndK');
  fillHeat('loadToTargetMJ', 'targetTempC', windows.targetS, 'lagAtTargetK');
  enterVessel(record, ledger);
  enterEvaporation(record, water, windows, start, moved, scales, ledger);

  function fillHeat(
    name: 'loadMJ' | 'loadToTargetMJ',
    endName: 'endTempC' | 'targetTempC',
    endS: number | undefined,
    lag: 'lagAtEndK' | 'lagAtTargetK',
  ): void {
    const until = endS ?? Number.POSITIVE_INFINITY;
    const movedBefore = moved.filter(({ atS }) => atS <= until);
    const goodsBefore = goods.filter(({ atS }) => atS <= until);
    for (const from of ['startTempC', endName] as const) {
      const why = ledger.missing.get(from);
      if (why) ledger.lack(name, why);
    }
    ledger.fill((draw, ingredients) => {
      const endC = ingredients[endName];
      const startC = ingredients.startTempC;
      const endMJPerKg = waterMJPerKg(endC);
      let heat = ingredients.waterStartKg * (endMJPerKg - waterMJPerKg(startC));
      for (const { sign, mass, tempC } of movedBefore)
        heat += sign * mass.of(draw) * (endMJPerKg - waterMJPerKg(tempC));
      for (const { sign, kg, tempC, MJPerKgK } of goodsBefore) heat += sign * kg(draw) * MJPerKgK * (endC - tempC);
      for (const content of heated) {
        const riseK = endC - (content.startTempC ?? startC);
        heat += content.kg(draw) * content.MJPerKgK * (riseK - content[lag](draw, riseK));
      }
      ingredients[name] = heat;
    });
  }
}

function weighedWater(record: BurnRecord, when: 'start' | 'end', scales: Scales, ledger: Ledger): Mass | undefined {
  const weighings = record.weighings.filter((weighing) => weighing.of === 'water' && weighing.when === when);
  const names: readonly IngredientName[] = when === 'start' ? WATER_NAMES : ['evaporatedKg', 'waterLeftKg', 'vapourMJ'];
  const readings = weighings.flatMap((weighing) => weighingReading(weighing, 1) ?? []);
  if (weighings.length === 0) {
    ledger.lack(names, missing(when === 'start' ? 'waterNotWeighedBefore' : 'waterNotWeighedAfter'));
    return undefined;
  }
  if (readings.length < weighings.length) {
    ledger.lack(names, missing('waterPending'));
    return undefined;
  }
  const mass = scales.sum(
    when === 'start' ? 'waterBefore' : 'waterAfter',
    readings.map(({ reading }) => reading),
  );
  for (const used of [...mass.defaults, ...readings.flatMap(({ defaults }) => defaults)]) {
    ledger.assume(
      when === 'start' ? ['waterStartKg', 'loadMJ', 'loadToTargetMJ', 'loadStartKg', 'evaporatedKg'] : ['evaporatedKg'],
      used,
    );
  }
  return mass;
}

function movedWater(record: BurnRecord, kind: 'waterIn' | 'waterOut', sign: 1 | -1, scales: Scales): Moved[] {
  return marksOf(record, kind).map((mark) => {
    const reading: ScaleReading = { what: 'water', sign: 1, kg: mark.massKg, scaleId: mark.scaleId };
    return { atS: mark.elapsedUs / 1e6, sign, mass: scales.sum(kind, [reading]), tempC: mark.tempC };
  });
}

function movedGoods(record: BurnRecord, scales: Scales, ledger: Ledger): Goods[] {
  const usual = record.contents?.[0]?.specificHeatJPerKgK;
  return [...marksOf(record, 'goodsIn'), ...marksOf(record, 'goodsOut')].map((mark) => {
    const own = mark.kind === 'goodsIn' ? mark.specificHeatJPerKgK : undefined;
    const specificHeat = own ?? usual ?? GOODS_J_PER_KG_K;
    if ((own ?? usual) === undefined) {
      ledger.assume(['loadMJ', 'loadToTargetMJ'], byDefault('goodsSpecificHeat', { JPerKgK: specificHeat }));
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

function heatedContent(
  content: Content,
  curves: readonly Curve[],
  water: WaterCurve | undefined,
  windows: LoadWindows,
  ledger: Ledger,
): Heated {
  const massU = content.standardUncertaintyKg ?? Math.max(0.01, 0.01 * content.massKg);
  if (content.standardUncertaintyKg === undefined) {
    ledger.assume(
      ['loadMJ', 'loadToTargetMJ'],
      byDefault('contentsMassUncertainty', { content: content.name, standardUncertaintyKg: massU }),
    );
  }
  const massError = ledger.ownError('contents.mass', massU);
  const common = {
    kg: (draw: Draw) => content.massKg + draw[massError]!,
    MJPerKgK: content.specificHeatJPerKgK / 1e6,
    startTempC: content.startTempC,
  };
  const lags = knownLags(content, curves, water, windows);
  if (lags) {
    const factor = ledger.input({
      name: 'contents.lag',
      value: 1,
      standardUncertainty: lags.u,
      distribution: 'normal',
      sharing: 'none',
    });
    return {
      ...common,
      lagAtTargetK: (draw) => draw[factor]! * lags.atTargetK,
      lagAtEndK: (draw) => draw[factor]! * lags.atEndK,
    };
  }
  const oneSided = ledger.ownError('contents.lag', 1 / Math.sqrt(12), 'oneSided');
  ledger.assume(['loadMJ', 'loadToTargetMJ'], byDefault('contentsLag', { content: content.name }));
  ledger.remark(['loadMJ', 'loadToTargetMJ'], remark('contentsOneSided', { content: content.name }));
  return {
    ...common,
    lagAtTargetK: (draw, riseK) => draw[oneSided]! * LAG_AT_TARGET * riseK,
    lagAtEndK: (draw, riseK) => draw[oneSided]! * LAG_AT_END * riseK,
  };
}

/** Lag of the mean behind the bath: half that of a core probe, or by conduction into a cylinder of the stated radius. */
function knownLags(
  content: Content,
  curves: readonly Curve[],
  water: WaterCurve | undefined,
  { startS, targetS, endS }: LoadWindows,
): { atTargetK: number; atEndK: number; u: number } | undefined {
  if (!water || !Number.isFinite(startS)) return undefined;
  const bathC = (atS: number) => valueAt(water.timeS, water.tempC, atS, 600);
  const core = curves.find(({ channel }) => channel.id === content.coreChannelId);
  if (core) {
    const lag = (atS: number | undefined) =>
      atS === undefined ? 0 : (bathC(atS) - valueAt(core.timeS, core.value, atS, 600)) / 2;
    const [atTargetK, atEndK] = [lag(targetS), lag(endS)];
    if (!Number.isNaN(atTargetK + atEndK)) return { atTargetK, atEndK, u: 0.25 };
  }
  if (content.radiusM === undefined) return undefined;
  const startC = content.startTempC ?? bathC(startS);
  const moments = [targetS ?? startS, endS ?? targetS ?? startS];
  const means = cylinderMeansC(content, water, startS, startC, moments);
  const lags = moments.map((atS, place) => bathC(atS) - means[place]!);
  if (lags.some((lag) => Number.isNaN(lag))) return undefined;
  return { atTargetK: lags[0]!, atEndK: lags[1]!, u: 0.3 };
}

function enterVessel({ vessel }: BurnRecord, ledger: Ledger): void {
  const massKg = vessel?.massKg;
  if (massKg === undefined) {
    ledger.lack('vesselMJ', missing('notComputable'));
    return;
  }
  const known = vessel?.specificHeatJPerKgK;
  const material = vessel?.material === undefined ? undefined : findMaterial(vessel.material);
  const specificHeat = known ?? SPECIFIC_HEAT_J_PER_KG_K[material ?? 'stainlessSteel'].value;
  if (known === undefined) ledger.assume('vesselMJ', byDefault('vesselSpecificHeat', { JPerKgK: specificHeat }));
  ledger.fill((_draw, ingredients) => {
    ingredients.vesselMJ = (massKg * specificHeat * (ingredients.endTempC - ingredients.startTempC)) / 1e6;
  });
}

function enterEvaporation(
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
