/** One burn carried over to another load: when it would have reached the target, and on how much wood. */
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
  /** Seconds after lighting; undefined when the losses win. */
  timeS: number | undefined;
  /** Seconds after lighting until the load is as warm as that, on its way to the target. */
  timeToS(tempC: number): number | undefined;
  dryWoodToTargetKg: number | undefined;
  /** Dry wood burnt for each second of holding. */
  holdKgPerS: number | undefined;
  /** No feeds tell how much of the wood burnt after the target: it rests on a usual pace. */
  isPaceGuessed: boolean;
}

/** Net heating value of dry wood in the moisture factor, MJ/kg: only the ratio at two moistures matters. */
const WOOD_DRY_MJ_PER_KG = 18.6;
/** A hold shorter than this does not tell its wood from that of the way up. */
const SHORTEST_HOLD_S = 600;
/**
 * Where feeds do not tell, wood is taken to burn so much faster on the way up than in the hold, and the logarithm of that to be so
 * uncertain ("common practice, no source": from an even fire to one let down to a third).
 */
export const FASTER_TO_TARGET = 1.6;
export const FASTER_TO_TARGET_LOG_U = 0.35;
const ITERATIONS = 4;

/** What is taken for granted when a burn is carried over. */
export interface Guesses {
  /** Losses of the pot over those of the model. */
  readonly lossFactor: number;
  readonly embersShare: number;
  readonly fasterToTarget: number;
}

/** @returns undefined where the burn's curve shows no heat taken up */
export function carryOver(burn: ObservedBurn, asked: AskedLoad, guesses: Guesses): CarriedOver | undefined {
  const { toTarget } = burn;
  const { lossFactor } = guesses;
  const fit = fitHeatInput(toTarget.timeS, toTarget.tempC, observedLoad(burn, asked.airTempC, lossFactor));
  if (!fit) return undefined;
  const heat = { ...fit, steadyW: fit.steadyW * moistureFactor(burn.moistureWet, asked.moistureWet) };
  // Goods lag less the longer the heating takes, so capacity and time are found together.
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

/** Heat of a kilogram of dry wood at the asked moisture over that in the burn; the same dry wood is fed at the same pace. */
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
  // Beyond the time that was seen the wood goes on at its mean pace.
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

/** What cools, and what it would lose by the model. */
export function coolingLoss({ waterKg, goods, vessel, airTempC, lidOn }: ObservedCooling): CoolingLoad {
  const shape = shapeOf(waterKg, goods, vessel?.innerDiameterM);
  return {
    // Goods that were heated with the water have long its temperature.
    capacityJPerK: capacityJPerK(waterKg, goods, vessel, Number.POSITIVE_INFINITY),
    lossW: (tempC) => potLossW(shape, tempC, airTempC ?? USUAL_AIR_C, lidOn, 1),
  };
}
