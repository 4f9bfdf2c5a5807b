/**
 * Predicts the result of the stove of these burns with another load.
 *
 * Each burn is carried over separately: the model fitted to its curve runs with the new load, and its wood is taken at
 * the new moment. That gives one prediction per burn; their scatter is the scatter of a new burn.
 */
import type { FittedBurn, Load, Predicted, Prediction } from '../../contract/prediction.ts';
import type { Message } from '../../contract/results.ts';
import { type ComparisonCode, comparisonSentence } from '../../language/comparison/comparison.ts';
import type { Language } from '../../language/language.ts';
import { mean } from '../../statistics/moments.ts';
import type { ComparedValue } from '../contributions.ts';
import { askedOf, USUAL_AIR_C } from './asked-load.ts';
import { EMBERS_SHARE, EMBERS_SHARE_U } from './burnt-wood.ts';
import {
  type CarriedOver,
  carryOver,
  coolingLoss,
  FASTER_TO_TARGET,
  FASTER_TO_TARGET_LOG_U,
  type Guesses,
} from './carry-over.ts';
import { lossFactor } from './cooling.ts';
import { capacityJPerK } from './heated-mass.ts';
import { type NewBurnOptions, newBurnInterval, USUAL_SCATTER, usesUsualScatter } from './new-burn-interval.ts';
import type { ObservedBurn, ObservedCooling } from './observed-burn.ts';
import { UNMEASURED_LOSS_RELATIVE_U } from './pot-losses.ts';
import { heldThere, outsideSupport } from './support.ts';

/**
 * Error of carrying a burn over to e times the load, relative ("common practice, no source"; confirmed by simulated
 * burns).
 */
const STRETCH_RELATIVE_U = 0.12;
const FIT_POINTS = 60;

/** Selects one value of a burn that was carried over. */
type Pick = (one: CarriedOver) => number | undefined;

type Spoken = { code: ComparisonCode; params: Message['params'] };

/** Number of steps of the predicted course: enough for a smooth curve. */
const COURSE_STEPS = 24;

/**
 * Predicts time, wood and feeding for a load.
 * @param burns usable burns of one stove and revision
 */
export function predictLoad(
  burns: readonly ObservedBurn[],
  load: Load,
  {
    coolings = [],
    leftOut = [],
    language = 'en',
  }: {
    /** Coolings of the same vessel in records of their own. */
    readonly coolings?: readonly ObservedCooling[];
    /** Unusable burns, with the reason. */
    readonly leftOut?: readonly { burnId: string; message: Message }[];
    readonly language?: Language;
  } = {},
): Prediction {
  const speak = (message: Message) => ({ message, sentence: comparisonSentence(language, message) });
  const undetermined = (code: ComparisonCode): Predicted => {
    const { message, sentence } = speak({ code, params: {} });
    return { missing: message, sentence };
  };
  const left = leftOut.map(({ burnId, message }) => ({ burnId, ...speak(message) }));
  const nothing = (): Prediction => {
    const missing = undetermined('predict/noBurns');
    const why = comparisonSentence(language, { code: 'predict/noBurns', params: {} });
    const none = {
      timeToTarget: missing,
      course: [],
      dryWoodForBatch: missing,
      dryWoodToTarget: missing,
      dryWoodForHold: missing,
    };
    return { ...none, supported: false, why, reasons: [], assumptions: [], fits: [], leftOut: left };
  };
  if (burns.length === 0) return nothing();

  const asked = askedOf(load, burns);
  const measuredLoss = measuredLosses([...burns.map(({ cooling }) => cooling), ...coolings], asked.lidOn);
  const guesses: Guesses = {
    lossFactor: measuredLoss ?? 1,
    embersShare: EMBERS_SHARE,
    fasterToTarget: FASTER_TO_TARGET,
  };
  const carried = burns.flatMap((burn) => {
    const one = carryOver(burn, asked, guesses);
    if (!one) left.push({ burnId: burn.burnId, ...speak({ code: 'aside/noHeat', params: {} }) });
    return one ?? [];
  });
  if (carried.length === 0) return nothing();
  const capacity = capacityJPerK(asked.waterKg, asked.goods, asked.vessel, mean(burns.map(({ targetS }) => targetS)));
  const stretch = STRETCH_RELATIVE_U * Math.log(capacity / mean(burns.map((burn) => burn.capacityJPerK)));
  const otherwise = (other: Partial<Guesses>) =>
    carried.map(({ burn }) => carryOver(burn, asked, { ...guesses, ...other }));
  /** Each burn carried over again for each assumption, with that assumption changed by its standard uncertainty. */
  const variations = [
    carried.map((one) => stretched(one, Math.exp(stretch))),
    otherwise({ embersShare: EMBERS_SHARE + EMBERS_SHARE_U }),
    otherwise({ fasterToTarget: FASTER_TO_TARGET * Math.exp(FASTER_TO_TARGET_LOG_U) }),
    ...(measuredLoss === undefined ? [otherwise({ lossFactor: 1 + UNMEASURED_LOSS_RELATIVE_U })] : []),
  ];
  const modelVariance = (pick: Pick) =>
    variations.reduce((sum, variation) => sum + shiftOf(pick, carried, variation) ** 2, 0);

  const reasons = outsideSupport(load, { ...asked, capacityJPerK: capacity }, burns, measuredLoss !== undefined);
  const assumptions: Spoken[] = [];
  if (usesUsualScatter(burns.length))
    assumptions.push({ code: 'assumed/scatter', params: { scatter: USUAL_SCATTER, count: burns.length } });
  if (measuredLoss === undefined)
    assumptions.push({ code: 'assumed/loss', params: { relative: UNMEASURED_LOSS_RELATIVE_U } });
  else assumptions.push({ code: 'assumed/lossMeasured', params: { factor: measuredLoss } });
  if (load.airTempC === undefined && burns.every(({ airTempC }) => airTempC === undefined)) {
    assumptions.push({ code: 'assumed/air', params: { airTempC: USUAL_AIR_C } });
  }

  if (carried.some(({ isPaceGuessed }) => isPaceGuessed))
    assumptions.push({ code: 'assumed/pace', params: { faster: FASTER_TO_TARGET } });

  const predicted = (
    pick: Pick,
    sharedOf: (burn: ObservedBurn) => ComparedValue | undefined,
    unit: string,
    interval: NewBurnOptions = {},
    variance = modelVariance(pick),
  ): Predicted | undefined => {
    const values = carried.flatMap((one): ComparedValue[] => {
      const value = pick(one);
      const errors = sharedOf(one.burn);
      return value !== undefined && value > 0 && errors ? [{ ...errors, value: Math.log(value) }] : [];
    });
    return values.length === 0 ? undefined : { unit, ...newBurnInterval(values, variance, interval) };
  };
  const ofTime = ({ time }: ObservedBurn) => time;
  const ofWood = ({ wood }: ObservedBurn) => wood;
  const reached = carried.every(({ timeS }) => timeS !== undefined);
  const { holdDurationS } = load;
  const holdKg: Pick = ({ burn, holdKgPerS }) =>
    holdDurationS !== undefined && holdKgPerS !== undefined && heldThere(burn, asked.targetC)
      ? holdKgPerS * holdDurationS
      : undefined;
  const batchKg: Pick = (one) => {
    const kg = holdDurationS === undefined ? 0 : holdKg(one);
    return one.dryWoodToTargetKg === undefined || kg === undefined ? undefined : one.dryWoodToTargetKg + kg;
  };
  const timeVariance = modelVariance(({ timeS }) => timeS);
  const course = (reached ? stepsTo(asked.startTempC, asked.targetC) : []).flatMap((tempC) => {
    const when = predicted((one) => one.timeToS(tempC), ofTime, 's', {}, timeVariance);
    return when && 'value' in when ? [{ tempC, value: when.value, interval90: when.interval90 }] : [];
  });
  const noWood = reached ? 'predict/noWood' : 'predict/neverReached';
  const feeding = feedingOf(carried);
  return {
    timeToTarget:
      (reached ? predicted(({ timeS }) => timeS, ofTime, 's') : undefined) ?? undetermined('predict/neverReached'),
    course,
    dryWoodForBatch:
      (reached
        ? predicted(batchKg, ofWood, 'kg', holdDurationS === undefined ? {} : { leastScatter: 0 })
        : undefined) ??
      undetermined(reached && carried.some((one) => one.dryWoodToTargetKg !== undefined) ? 'predict/noHold' : noWood),
    dryWoodToTarget:
      (reached ? predicted(({ dryWoodToTargetKg }) => dryWoodToTargetKg, ofWood, 'kg') : undefined) ??
      undetermined(noWood),
    dryWoodForHold:
      holdDurationS === undefined
        ? undetermined('predict/holdNotAsked')
        : (predicted(holdKg, ofWood, 'kg') ?? undetermined('predict/noHold')),
    ...(feeding ? { feeding } : {}),
    supported: reasons.length === 0 && reached,
    why: [
      ...reasons.map((reason) => speak(reason).sentence),
      ...(reasons.length === 0 ? [speak({ code: 'predict/supported', params: { count: burns.length } }).sentence] : []),
    ].join(' '),
    reasons: reasons.map(speak),
    assumptions: assumptions.map(speak),
    fits: carried.map(fitted),
    leftOut: left,
  };
}

/** Temperatures at which the time is predicted, including the target. */
function stepsTo(startTempC: number, targetC: number): number[] {
  return Array.from(
    { length: COURSE_STEPS },
    (_, step) => startTempC + ((targetC - startTempC) * (step + 1)) / COURSE_STEPS,
  );
}

/** Measured losses divided by those of the model: mean of all coolings with the requested state of the lid. */
function measuredLosses(coolings: readonly ObservedCooling[], lidOn: boolean): number | undefined {
  const factors = coolings.flatMap((cooling) =>
    cooling.lidOn === lidOn ? (lossFactor(cooling.timeS, cooling.tempC, coolingLoss(cooling)) ?? []) : [],
  );
  return factors.length > 0 ? mean(factors) : undefined;
}

/** Mean shift of the logarithm of the burns' values under other assumptions. */
function shiftOf(pick: Pick, carried: readonly CarriedOver[], otherwise: readonly (CarriedOver | undefined)[]): number {
  const shifts = carried.flatMap((one, at) => {
    const other = otherwise[at];
    const [value, moved] = [pick(one), other && pick(other)];
    return value && moved ? [Math.log(moved / value)] : [];
  });
  return shifts.length > 0 ? mean(shifts) : 0;
}

/** A carried-over burn with an error by a factor, both to the target and in the hold. */
function stretched(one: CarriedOver, factor: number): CarriedOver {
  const { timeS, dryWoodToTargetKg, holdKgPerS } = one;
  return {
    ...one,
    timeS: timeS && timeS * factor,
    dryWoodToTargetKg: dryWoodToTargetKg && dryWoodToTargetKg * factor,
    holdKgPerS: holdKgPerS && holdKgPerS * factor,
  };
}

/** The feeding of the burns: mean charge and mean time between charges before the target. */
function feedingOf(carried: readonly CarriedOver[]): Prediction['feeding'] {
  const rhythms = carried.flatMap(({ burn, timeS }) => {
    const charges = burn.feeds.filter(({ atS, massKg }) => atS > 0 && atS < burn.targetS && massKg > 0);
    if (charges.length < 2 || timeS === undefined) return [];
    const everyS = burn.targetS / charges.length;
    return [{ everyS, chargeKg: mean(charges.map(({ massKg }) => massKg)), charges: timeS / everyS }];
  });
  if (rhythms.length === 0) return undefined;
  const level = (key: 'everyS' | 'chargeKg' | 'charges') => mean(rhythms.map((rhythm) => rhythm[key]));
  return { chargeKg: level('chargeKg'), everyS: level('everyS'), charges: level('charges') };
}

function fitted({ burn, fit }: CarriedOver): FittedBurn {
  const { timeS, tempC } = burn.toTarget;
  const step = Math.max(1, Math.ceil(timeS.length / FIT_POINTS));
  return {
    burnId: burn.burnId,
    heatInputW: fit.steadyW,
    warmUpS: fit.warmUpS,
    residualK: fit.residualK,
    curve: timeS.flatMap((elapsedS, index): [number, number, number][] =>
      index % step === 0 ? [[elapsedS, tempC[index]!, fit.fittedC[index]!]] : [],
    ),
  };
}
