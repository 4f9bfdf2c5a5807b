/** Carries one burn over to another load: when it would have reached the target, and with how much wood. */
import { WATER_IN_FUEL_MJ_PER_KG } from '../../physics/fuel.ts';
import { type AskedLoad, USUAL_AIR_C } from './asked-load.ts';
import { burntShare } from './burnt-wood.ts';
import type { CoolingLoad } from './cooling.ts';
import { fitHeatInput, type HeatedLoad, type HeatInputFit, timeToReach } from './heat-input.ts';
import { capacityJPerK, type Goods } from './heated-mass.ts';
import type { ObservedBurn, ObservedCooling } from './observed-burn.ts';
import { potLossW } from './pot-losses.ts';

export interface CarriedOver {
  burn: ObservedBurn;
  fit: HeatInputFit;
  /** Seconds after lighting; undefined when the losses are too large to reach the target. */
  timeS: number | undefined;
  /** Seconds from lighting until the load reaches a temperature below the target. */
  timeToS(tempC: number): number | undefined;
  dryWoodToTargetKg: number | undefined;
  /** Dry wood burnt per second of the hold. */
  holdKgPerS: number | undefined;
  /** Without feeds, the share of wood burnt after the target rests on a usual rate. */
  isPaceGuessed: boolean;
}

/** Net heating value of dry wood in the moisture factor, MJ/kg: only the ratio at two moistures matters. */
const WOOD_DRY_MJ_PER_KG = 18.6;
/** The wood of a hold shorter than this cannot be separated from the wood of the heating. */
const SHORTEST_HOLD_S = 600;
/**
 * Without feeds, wood is assumed to burn faster during heating than in the hold by this factor, with this uncertainty
 * of its logarithm ("common practice, no source": from an even fire to one let down to a third).
 */
export const FASTER_TO_TARGET = 1.6;
export const FASTER_TO_TARGET_LOG_U = 0.35;
const ITERATIONS = 4;

/** Assumptions for carrying a burn over. */
export interface Guesses {
  /** Losses of the pot divided by those of the model. */
  readonly lossFactor: number;
  readonly embersShare: number;
  readonly fasterToTarget: number;
}

/** @returns undefined where by the curve of the burn the load takes up no heat */
export function carryOver(burn: ObservedBurn, asked: AskedLoad, guesses: Guesses): CarriedOver | undefined {
  const { toTarget } = burn;
  const { lossFactor } = guesses;
  const fit = fitHeatInput(toTarget.timeS, toTarget.tempC, observedLoad(burn, asked.airTempC, lossFactor));
  if (!fit) return undefined;
  const heat = { ...fit, steadyW: fit.steadyW * moistureFactor(burn.moistureWet, asked.moistureWet) };
  // The lag of goods depends on the duration of heating, so capacity and time are solved together.
  let timeS: number | undefined = burn.targetS;
  for (let round = 0; round < ITERATIONS && timeS !== undefined; round++) {
    timeS = timeToReach(asked.targetC, heat, askedLoad(asked, burn, timeS, lossFactor));
  }
  const load = askedLoad(asked, burn, timeS ?? burn.targetS, lossFactor);
  return { burn, fit, timeS, timeToS: (tempC) => timeToReach(tempC, heat, load), ...woodOf(burn, timeS, guesses) };
}

function observedLoad(burn: ObservedBurn, usualAirTempC: number, factor: number): HeatedLoad {
  const shape = shapeOf(burn.waterKg, burn.goods, burn.vessel?.innerDiameterM);
  const airTempC = burn.airTempC ?? usualAirTempC;
  return {
    capacityJPerK: burn.capacityJPerK,
    startTempC: burn.startTempC,
    onFromS: burn.potOnS,
    lossW: (tempC, elapsedS) => potLossW(shape, tempC, airTempC, burn.lidOnAt(elapsedS), factor),
  };
}

function askedLoad(asked: AskedLoad, burn: ObservedBurn, timeS: number, factor: number): HeatedLoad {
  const shape = shapeOf(asked.waterKg, asked.goods, asked.vessel?.innerDiameterM);
  return {
    capacityJPerK: capacityJPerK(asked.waterKg, asked.goods, asked.vessel, Math.max(1, timeS)),
    startTempC: asked.startTempC,
    onFromS: burn.potOnS,
    lossW: (tempC) => potLossW(shape, tempC, asked.airTempC, asked.lidOn, factor),
  };
}

function shapeOf(waterKg: number, goods: readonly Goods[], innerDiameterM: number | undefined) {
  const contentKg = goods.reduce((sum, { massKg }) => sum + massKg, waterKg);
  return { contentKg, ...(innerDiameterM === undefined ? {} : { innerDiameterM }) };
}

/**
 * Heat per kilogram of dry wood at the requested moisture, divided by that in the burn; dry wood is fed at the same
 * rate.
 */
function moistureFactor(had: number | undefined, asked: number | undefined): number {
  if (had === undefined || asked === undefined) return 1;
  const perDryKg = (wet: number) => WOOD_DRY_MJ_PER_KG - (WATER_IN_FUEL_MJ_PER_KG * wet) / (1 - wet);
  return perDryKg(asked) / perDryKg(had);
}

type Wood = Pick<CarriedOver, 'dryWoodToTargetKg' | 'holdKgPerS' | 'isPaceGuessed'>;

function woodOf(burn: ObservedBurn, timeS: number | undefined, { embersShare, fasterToTarget }: Guesses): Wood {
  const { dryWoodKg, targetS, fireOutS } = burn;
  if (dryWoodKg === undefined) return { dryWoodToTargetKg: undefined, holdKgPerS: undefined, isPaceGuessed: false };
  const afterS = fireOutS - targetS;
  const isHeld = afterS >= SHORTEST_HOLD_S;
  const byFeeds = burntShare(burn.feeds, fireOutS, burn.rakedOutKg, embersShare);
  const share = isHeld ? (byFeeds ?? usualShare(burn, fasterToTarget)) : (elapsedS: number) => elapsedS / targetS;
  const atTarget = share(targetS);
  // After the end of the data the wood burns at its mean rate.
  const reached = timeS === undefined ? undefined : timeS <= targetS ? share(timeS) : (atTarget * timeS) / targetS;
  return {
    dryWoodToTargetKg: reached === undefined ? undefined : dryWoodKg * reached,
    holdKgPerS: isHeld ? (dryWoodKg * (1 - atTarget)) / afterS : undefined,
    isPaceGuessed: isHeld && !byFeeds,
  };
}

function usualShare({ targetS, fireOutS }: ObservedBurn, faster: number): (elapsedS: number) => number {
  const total = faster * targetS + (fireOutS - targetS);
  return (elapsedS) => (faster * Math.min(elapsedS, targetS) + Math.max(0, elapsedS - targetS)) / total;
}

/** The cooling load, and its losses by the model. */
export function coolingLoss({ waterKg, goods, vessel, airTempC, lidOn }: ObservedCooling): CoolingLoad {
  const shape = shapeOf(waterKg, goods, vessel?.innerDiameterM);
  return {
    // Goods that were heated with the water have reached its temperature long before.
    capacityJPerK: capacityJPerK(waterKg, goods, vessel, Number.POSITIVE_INFINITY),
    lossW: (tempC) => potLossW(shape, tempC, airTempC ?? USUAL_AIR_C, lidOn, 1),
  };
}
