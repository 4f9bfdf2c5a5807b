/**
 * The true results of a simulated burn: exact times, exact heats, exact fuel.
 *
 * Definitions are those of bench-1. Windows: to target (lit to target), hold (hold start to hold end as marked), whole
 * (lit to fire out). The load's heat is the enthalpy it gained, including the share that left as liquid enthalpy in the
 * vapour; the vapour's heat is its heat of evaporation at the temperature at which it left.
 */

import { ATTENTIONS } from '../../shared/contract/mark-kinds.ts';
import type { ResultId } from '../../shared/contract/results.ts';
import { withoutUndefined } from '../../shared/contract/without-undefined.ts';
import { median } from '../../shared/statistics/quantile.ts';
import type { Action } from './operator.ts';
import type { Scenario } from './scenario.ts';
import { createTargetWatch } from './target-rule.ts';

/** The exact course of the burn, one entry per step. */
export interface ExactCourse {
  elapsedS: number[];
  waterC: number[];
  /** Enthalpy gained by the load since the start, J. */
  loadJ: number[];
  /** Heat of evaporation carried off, J, and its mass. */
  vapourJ: number[];
  evaporatedKg: number[];
  /** Net heating value consumed, MJ: fed less what is still in the firebox. */
  consumedMJ: number[];
}

/** Exact values by result id, in the units of the results; an id is absent where the burn has no such value. */
export type BurnTruth = Partial<Record<ResultId, number>> & {
  localBoilingPoint: number;
  /** Moments, seconds from the start of recording. */
  moments: { lit: number; target?: number; holdStart?: number; holdEnd?: number; fireOut: number };
  /** The hold lasted as long as planned without a drop below its floor of 60 s or more. */
  holdMet: boolean;
};

const HOLD_HYSTERESIS_K = 0.5;
const DROP_COUNTS_AFTER_S = 60;

export function burnTruth(
  scenario: Scenario,
  course: ExactCourse,
  actions: readonly Action[],
  boilingPointC: number,
  fuel: { grossMJ: number; creditMJ: number },
): BurnTruth {
  const at = (kind: Action['kind']) => actions.find((action) => action.kind === kind)?.elapsedS;
  const lit = at('lit')!;
  const fireOut = at('fireOut')!;
  const holdStart = at('holdStart');
  const holdEnd = at('holdEnd');
  const target = targetMoment(scenario, course, lit, fireOut, boilingPointC);
  const span = (series: readonly number[], fromS: number, toS: number) =>
    valueAt(course.elapsedS, series, toS) - valueAt(course.elapsedS, series, fromS);

  const wholeS = fireOut - lit;
  const load = span(course.loadJ, lit, fireOut);
  const vapour = span(course.vapourJ, lit, fireOut);
  const netMJ = fuel.grossMJ - fuel.creditMJ;
  const dryKg = netMJ / scenario.wood.netDryMJPerKg;
  const hold = holdTruth(scenario, course, boilingPointC, holdStart, holdEnd);
  const truth: BurnTruth = {
    localBoilingPoint: boilingPointC,
    cookingPower: (load + vapour) / wholeS,
    fuelEnergy: netMJ * 1e6,
    equivalentDryFuel: dryKg,
    firepower: (netMJ * 1e6) / wholeS,
    burningRate: dryKg / wholeS,
    thermalEfficiency: (load + vapour) / (netMJ * 1e6),
    thermalEfficiencyNoCharCredit: (load + vapour) / (fuel.grossMJ * 1e6),
    sensibleEfficiency: load / (netMJ * 1e6),
    specificFuelConsumption: dryKg / (scenario.load.waterKg + (scenario.load.contents?.massKg ?? 0)),
    evaporatedWater: span(course.evaporatedKg, lit, fireOut),
    ...unattended(actions, lit, fireOut),
    ...hold.results,
    moments: { lit, fireOut, ...withoutUndefined({ target, holdStart, holdEnd }) },
    holdMet: hold.met,
  };
  if (target === undefined) return truth;

  truth.timeToTarget = target - lit;
  if (scenario.plan.target.kind === 'boil') truth.timeToBoil = target - lit;
  truth.meanUsefulPower = span(course.loadJ, lit, target) / (target - lit);
  truth.meanHeatingRate = meanHeatingRate(course, lit, target);
  if (hold.met) truth.dryWoodPerBatch = dryKg;
  if (holdStart !== undefined && holdEnd !== undefined) {
    const toTargetRate = span(course.consumedMJ, lit, target) / (target - lit);
    truth.turnDownRatio = toTargetRate / (span(course.consumedMJ, holdStart, holdEnd) / (holdEnd - holdStart));
  }
  return truth;
}

function targetMoment(scenario: Scenario, course: ExactCourse, lit: number, fireOut: number, boilingPointC: number) {
  const watch = createTargetWatch(scenario.plan.target, boilingPointC);
  for (let i = 0; i < course.elapsedS.length; i++) {
    const elapsedS = course.elapsedS[i]!;
    if (elapsedS < lit) continue;
    if (elapsedS > fireOut) return undefined;
    const reached = watch.see(elapsedS, course.waterC[i]!);
    if (reached !== undefined) return reached;
  }
  return undefined;
}

/** Least-squares slope of the water temperature between 10 and 90 % of its rise, K/min. */
function meanHeatingRate(course: ExactCourse, lit: number, target: number): number {
  const startC = valueAt(course.elapsedS, course.waterC, lit);
  const riseK = valueAt(course.elapsedS, course.waterC, target) - startC;
  let n = 0;
  let sumT = 0;
  let sumC = 0;
  let sumTT = 0;
  let sumTC = 0;
  for (let i = 0; i < course.elapsedS.length; i++) {
    const minutes = (course.elapsedS[i]! - lit) / 60;
    const roseK = course.waterC[i]! - startC;
    if (minutes < 0 || course.elapsedS[i]! > target || roseK < 0.1 * riseK || roseK > 0.9 * riseK) continue;
    n += 1;
    sumT += minutes;
    sumC += roseK;
    sumTT += minutes * minutes;
    sumTC += minutes * roseK;
  }
  return (sumTC - (sumT * sumC) / n) / (sumTT - (sumT * sumT) / n);
}

function holdTruth(
  scenario: Scenario,
  course: ExactCourse,
  boilingPointC: number,
  startS: number | undefined,
  endS: number | undefined,
): { met: boolean; results: Partial<Record<ResultId, number>> } {
  const wanted = scenario.plan.holdS > 0;
  if (startS === undefined || endS === undefined) return { met: !wanted, results: {} };
  const { target } = scenario.plan;
  const floorC = target.kind === 'boil' ? boilingPointC - 2 : target.tempC;
  let lowest = Number.POSITIVE_INFINITY;
  let belowS = 0;
  let belowSince: number | undefined;
  const count = (toS: number) => {
    if (belowSince !== undefined && toS - belowSince >= DROP_COUNTS_AFTER_S) belowS += toS - belowSince;
    belowSince = undefined;
  };
  for (let i = 0; i < course.elapsedS.length; i++) {
    const elapsedS = course.elapsedS[i]!;
    if (elapsedS < startS || elapsedS > endS) continue;
    const tempC = course.waterC[i]!;
    lowest = Math.min(lowest, tempC);
    if (tempC < floorC) belowSince ??= elapsedS;
    else if (tempC >= floorC + HOLD_HYSTERESIS_K) count(elapsedS);
  }
  count(endS);
  const results = { holdDuration: endS - startS, holdBelowTarget: belowS, holdLowest: lowest };
  return { met: belowS === 0 && endS - startS >= scenario.plan.holdS, results };
}

/** Longest and median time between two actions, from lighting to fire out; the simulated fires stay lit throughout. */
function unattended(actions: readonly Action[], lit: number, fireOut: number): Partial<Record<ResultId, number>> {
  const moments = actions
    .filter((action) => ATTENTIONS.has(action.kind) && action.elapsedS > lit && action.elapsedS < fireOut)
    .map((action) => action.elapsedS);
  const all = [lit, ...moments, fireOut];
  const gaps = all.slice(1).map((moment, i) => moment - all[i]!);
  return { longestUnattended: Math.max(...gaps), typicalUnattended: median(gaps) };
}

/** Linear between steps, constant beyond the ends. */
function valueAt(timesS: readonly number[], values: readonly number[], atS: number): number {
  let low = 0;
  let high = timesS.length - 1;
  if (atS <= timesS[low]!) return values[low]!;
  if (atS >= timesS[high]!) return values[high]!;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (timesS[middle]! <= atS) low = middle;
    else high = middle;
  }
  const share = (atS - timesS[low]!) / (timesS[high]! - timesS[low]!);
  return values[low]! + share * (values[high]! - values[low]!);
}
