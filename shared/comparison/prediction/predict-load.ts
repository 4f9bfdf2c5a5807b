/**
 * What the stove of these burns would do with another load.
 *
 * Every burn is carried over by itself: the model fitted to its curve is run with the new load, and its wood is followed to the
 * new moment. What the burns then come to is one prediction a burn; how they differ is how a new burn would differ.
 */
import type { FittedBurn, Load, Predicted, Prediction } from '../../contract/prediction.ts';
import type { Message } from '../../contract/results.ts';
import { type ComparisonCode, comparisonSentence } from '../../language/comparison/comparison.ts';
import type { Language } from '../../language/language.ts';
import { mean } from '../../statistics/moments.ts';
import type { ComparedValue } from '../contributions.ts';
import { type AskedLoad, askedOf, USUAL_AIR_C } from './asked-load.ts';
import { EMBERS_SHARE_U } from './burnt-wood.ts';
import { type CarriedOver, carryOver, coolingLoss, FASTER_TO_TARGET, FASTER_TO_TARGET_LOG_U } from './carry-over.ts';
import { lossFactor } from './cooling.ts';
import { capacityJPerK } from './heated-mass.ts';
import { newBurnInterval, USUAL_SCATTER, usesUsualScatter } from './new-burn-interval.ts';
import type { ObservedBurn, ObservedCooling } from './observed-burn.ts';
import { UNMEASURED_LOSS_RELATIVE_U } from './pot-losses.ts';
import { heldThere, outsideSupport } from './support.ts';

/** Error of carrying a burn over to e times the load, relative ("common practice, no source"; borne out by simulated burns). */
const STRETCH_RELATIVE_U = 0.12;
const FIT_POINTS = 60;

type Spoken = { code: ComparisonCode; params: Message['params'] };

/** Enough for a smooth curve. */
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
    /** Of the vessel of the burns, recorded by themselves. */
    readonly coolings?: readonly ObservedCooling[];
    /** Burns that could not be used, with the reason. */
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
    const none = { timeToTarget: missing, course: [], dryWoodToTarget: missing, dryWoodForHold: missing };
    return { ...none, supported: false, why, reasons: [], assumptions: [], fits: [], leftOut: left };
  };
  if (burns.length === 0) return nothing();

  const asked = askedOf(load, burns);
  const measuredLoss = measuredLosses([...burns.map(({ cooling }) => cooling), ...coolings], asked.lidOn);
  const factor = measuredLoss ?? 1;
  const carried = burns.flatMap((burn) => {
    const one = carryOver(burn, asked, factor);
    if (!one) left.push({ burnId: burn.burnId, ...speak({ code: 'aside/noHeat', params: {} }) });
    return one ?? [];
  });
  if (carried.length === 0) return nothing();
  const capacity = capacityJPerK(asked.waterKg, asked.goods, asked.vessel, mean(burns.map(({ targetS }) => targetS)));
  const stretch = STRETCH_RELATIVE_U * Math.log(capacity / mean(burns.map((burn) => burn.capacityJPerK)));
  const lossShift = measuredLoss === undefined ? shiftByLoss(burns, asked, carried) : 0;
  const modelVariance = stretch ** 2 + lossShift ** 2;

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

  const pace = paceVariances(carried);
  if (pace.hold > 0) assumptions.push({ code: 'assumed/pace', params: { faster: FASTER_TO_TARGET } });

  const predicted = (
    pick: (one: CarriedOver) => number | undefined,
    sharedOf: (burn: ObservedBurn) => ComparedValue | undefined,
    unit: string,
    variance: number,
  ): Predicted | undefined => {
    const values = carried.flatMap((one): ComparedValue[] => {
      const value = pick(one);
      const errors = sharedOf(one.burn);
      return value !== undefined && value > 0 && errors ? [{ ...errors, value: Math.log(value) }] : [];
    });
    return values.length === 0 ? undefined : { unit, ...newBurnInterval(values, variance) };
  };
  const woodVariance = modelVariance + embersVariance(carried) + pace.toTarget;
  const reached = carried.every(({ timeS }) => timeS !== undefined);
  const { holdDurationS } = load;
  const course = (reached ? stepsTo(asked.startTempC, asked.targetC) : []).flatMap((tempC) => {
    const when = predicted(
      (one) => one.timeToS(tempC),
      ({ time }) => time,
      's',
      modelVariance,
    );
    return when && 'value' in when ? [{ tempC, value: when.value, interval90: when.interval90 }] : [];
  });
  const feeding = feedingOf(carried);
  return {
    timeToTarget:
      (reached
        ? predicted(
            ({ timeS }) => timeS,
            ({ time }) => time,
            's',
            modelVariance,
          )
        : undefined) ?? undetermined('predict/neverReached'),
    course,
    dryWoodToTarget:
      (reached
        ? predicted(
            ({ dryWoodToTargetKg }) => dryWoodToTargetKg,
            ({ wood }) => wood,
            'kg',
            woodVariance,
          )
        : undefined) ?? undetermined(reached ? 'predict/noWood' : 'predict/neverReached'),
    dryWoodForHold:
      holdDurationS === undefined
        ? undetermined('predict/holdNotAsked')
        : (predicted(
            ({ burn, holdKgPerS }) =>
              holdKgPerS !== undefined && heldThere(burn, asked.targetC) ? holdKgPerS * holdDurationS : undefined,
            ({ wood }) => wood,
            'kg',
            pace.hold,
          ) ?? undetermined('predict/noHold')),
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

/** Temperatures at which the way to the target is foretold, the target among them. */
function stepsTo(startTempC: number, targetC: number): number[] {
  return Array.from(
    { length: COURSE_STEPS },
    (_, step) => startTempC + ((targetC - startTempC) * (step + 1)) / COURSE_STEPS,
  );
}

/** Measured losses over those of the model: mean of all coolings under the lid asked for, or without. */
function measuredLosses(coolings: readonly ObservedCooling[], lidOn: boolean): number | undefined {
  const factors = coolings.flatMap((cooling) =>
    cooling.lidOn === lidOn ? (lossFactor(cooling.timeS, cooling.tempC, coolingLoss(cooling)) ?? []) : [],
  );
  return factors.length > 0 ? mean(factors) : undefined;
}

/** How far the logarithm of the time moves when the unmeasured losses are one standard uncertainty larger. */
function shiftByLoss(burns: readonly ObservedBurn[], asked: AskedLoad, carried: readonly CarriedOver[]): number {
  const shifts = carried.flatMap(({ burn, timeS }) => {
    const other = carryOver(burn, asked, 1 + UNMEASURED_LOSS_RELATIVE_U)?.timeS;
    return timeS !== undefined && other !== undefined ? [Math.log(other / timeS)] : [];
  });
  return shifts.length === burns.length ? mean(shifts) : 0;
}

/** What not knowing the embers does to the logarithm of the wood on the way to the target. */
function embersVariance(carried: readonly CarriedOver[]): number {
  const shares = carried.flatMap(({ burn, dryWoodToTargetKg }) => {
    const charge = burn.feeds.filter(({ atS }) => atS <= burn.targetS).at(-1)?.massKg;
    return charge !== undefined && dryWoodToTargetKg ? [(EMBERS_SHARE_U * charge) / dryWoodToTargetKg] : [];
  });
  return shares.length > 0 ? mean(shares) ** 2 : 0;
}

/** What not knowing the pace does to the logarithms of the wood on the way to the target and in the hold. */
function paceVariances(carried: readonly CarriedOver[]): { toTarget: number; hold: number } {
  const guessed = (moves: (holdShare: number) => number) =>
    mean(carried.map(({ guessedHoldShare }) => (guessedHoldShare === undefined ? 0 : moves(guessedHoldShare))));
  return {
    toTarget: (FASTER_TO_TARGET_LOG_U * guessed((holdShare) => holdShare)) ** 2,
    hold: (FASTER_TO_TARGET_LOG_U * guessed((holdShare) => 1 - holdShare)) ** 2,
  };
}

/** The rhythm of the burns: mean charge and mean time between charges on the way to the target. */
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
