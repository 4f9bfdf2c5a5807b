/** The sentences of comparisons and predictions, in English. Numbers are fractions, SI units and °C. */

import { showDuration } from '../display-units.ts';
import type { Params, Sentence } from '../language.ts';
import {
  burns,
  capital,
  change,
  confidence,
  days,
  inputName,
  moreDays,
  name,
  noLimits,
  number,
  percent,
  span,
  sure,
} from './changes.en.ts';

export const comparisonEn = {
  'name/revision': (p) => `revision ${p.label}`,

  /* ---- the verdict on the primary result ---- */
  'verdict/better': (p) =>
    `${capital(String(p.second))} is better than ${p.first}: ${name(p)} is ${change(p)}; with ${sure(p)} it is ${span(p)}. That is unlikely to be luck.`,
  'verdict/worse': (p) =>
    `${capital(String(p.second))} is worse than ${p.first}: ${name(p)} is ${change(p)}; with ${sure(p)} it is ${span(p)}. That is unlikely to be luck.`,
  'verdict/cannotTell': (p) =>
    `Cannot tell yet whether ${p.second} is better than ${p.first}: ${name(p)} came out ${change(p)}, but anything ${span(p)} fits these burns (${sure(p)}).`,
  'verdict/noLimits': (p) =>
    `Cannot tell yet whether ${p.second} is better than ${p.first}: ${name(p)} came out ${change(p)}, but ${noLimits(p)}.`,
  'verdict/differs': (p) =>
    `${capital(name(p))} is ${change(p)} with ${p.second} than with ${p.first} (${sure(p)}: ${span(p)}); that is neither better nor worse in itself.`,
  'verdict/figures': (p) =>
    `No verdict yet: ${name(p)} came out ${change(p)} with ${p.second} than with ${p.first}, but ${p.why}`,
  'verdict/missing': (p) => `No verdict on ${name(p)}: ${p.why}`,

  /* ---- when the primary result was chosen ---- */
  'chosen/before': (p) => `${capital(name(p))} was chosen before these burns to carry the verdict.`,
  'chosen/after': (p) =>
    `${capital(name(p))} was chosen after the first burn to carry the verdict: it shows what to try next, and decides nothing.`,
  'chosen/notRecorded': (p) =>
    `It is not on record when ${name(p)} was chosen to carry the verdict. Chosen after the burns, it decides nothing.`,

  /* ---- which look this is ---- */
  'look/before': (p) =>
    `Looked at before the ${days(p.planned)} said beforehand (${p.daysA} of ${p.first}, ${p.daysB} of ${p.second}): until then a difference counts only beyond 99.9\u00a0%${sharedOut(p)}. ${
      p.decided
        ? 'This one does: you may stop here.'
        : `Stopping now means no verdict; still to burn: ${moreOfEach(p)}.`
    }`,
  'look/planned': (p) =>
    `${capital(days(p.planned))} of each, as said beforehand: 95\u00a0% decides${sharedOut(p)}. ${
      p.decided
        ? 'You may stop here.'
        : 'Stopping now leaves it open; on further days it is judged by a wider interval, one that holds at every look.'
    }`,
  'look/beyond': (p) =>
    `Looked at after more than the ${days(p.planned)} said beforehand: the interval is the wider one that holds at every look${sharedOut(p)}. ${stopAnyDay(p)}`,
  'look/untilClear': (p) =>
    `Burnt until it is clear: the interval is the wider one that holds at every look${sharedOut(p)}. ${stopAnyDay(p)}`,
  'look/notSaid': (p) =>
    `Nobody said beforehand on how many days each revision shall be burnt, so the interval is the wider one that holds at every look${sharedOut(p)}. ${stopAnyDay(p)}`,
  'look/saidLate': (p) =>
    `How many days it shall be was said only when a difference could already be seen, so the interval is the wider one that holds at every look${sharedOut(p)}. ${stopAnyDay(p)}`,

  'rule/changed': (p) =>
    `By the earlier rule, which took every burn for a day of its own and every look for the only one, this read “${verdictWords[String(p.former)]}”. The rule has changed, not the burns.`,

  /* ---- other results ---- */
  'seen/interval': (p) => `${capital(name(p))}: ${change(p)} with ${p.second} (${sure(p)}: ${span(p)}).`,
  'seen/noLimits': (p) => `${capital(name(p))}: ${change(p)} with ${p.second}; ${noLimits(p)}.`,
  'seen/standsOut': (p) =>
    `${capital(name(p))}: ${change(p)} with ${p.second} (${sure(p)}: ${span(p)}). It stands out among ${p.among}, even at ${confidence(p.sharedConfidence)}: worth a test of its own.`,
  'seen/figures': (p) => `${capital(name(p))}: ${change(p)} with ${p.second}, but ${p.why}`,
  'seen/missing': (p) => `${capital(name(p))}: ${p.why}`,
  'seen/shared': (p) =>
    `Of so many results some differ by luck. Only the primary result carries the verdict; another one stands out among ${p.among} only beyond ${confidence(p.confidence)}, and is not better or worse for it.`,

  /* ---- why there is no difference to state ---- */
  'missing/noBurns': (p) => `none of the burns of ${p.side} has this result.`,
  'missing/tooFewDays': (p) =>
    `at least two days of each are needed to know how far two days differ; so far: ${days(p.daysA)} of ${p.first}, ${days(p.daysB)} of ${p.second}. Still to burn: ${moreOfEach(p)}. A second burn on one day helps less than one on another day.${p.undated ? ' Burns without a date count as one day together.' : ''}`,
  'missing/ladderTooFew': (p) =>
    `for a row of revisions the days of all together, less one for each revision, must be three or more; here they are ${p.freedom}. Burn any of them on another day.`,
  'missing/notPositive': () => 'a value of zero or below cannot be compared by its ratio.',
  'missing/noSpread': () =>
    'the values agree to the last digit and nothing is known of their uncertainty, so there is no telling how sure a difference is.',
  'missing/tooWide': () =>
    'the burns differ so widely that no interval can be stated. Look for a wrong entry among them.',
  'missing/tooFewForRanks': (p) =>
    `a maximum is compared by ranks, and ${days(p.a)} against ${days(p.b)} are too few for that.`,

  /* ---- burns that are not counted ---- */
  'aside/byPerson': (p) => (p.reason ? `Not counted: ${p.reason}` : 'Not counted, no reason given.'),
  'aside/notBurnt': () => 'Planned, not burnt yet.',
  'aside/stillRunning': () => 'Still running.',
  'aside/otherStartKind': (p) =>
    `Started ${p.own}, the others ${p.wanted}: cold and hot starts are never compared with each other.`,
  'aside/otherTarget': (p) => `Another target (${target(p.own)}; the others: ${target(p.wanted)}).`,
  'aside/otherHold': (p) =>
    `Another hold (${showDuration('en', Number(p.own))}; the others: ${showDuration('en', Number(p.wanted))}).`,
  'aside/otherMethod': (p) => `Worked out by another method (${p.own}; the others: ${p.wanted}).`,
  'aside/noTimeToTarget': () => 'Did not reach its target, or nobody knows when it was lit.',
  'aside/noWaterMass': () => 'The water was not weighed before the burn.',
  'aside/noCurve': () => 'Has no usable curve of the water on the way to the target.',
  'aside/noHeat': () => 'The curve shows no heat going into the water.',
  'aside/coolingRun': () => 'A cooling run: nothing burnt.',
  'aside/otherVessel': () => 'Burnt with another pot than the rest.',

  /* ---- remarks on a difference ---- */
  'remark/lackResult': (p) => `${burns(p.count)} without this result left out of it.`,
  'remark/adjusted': () =>
    'Load, start temperature or air differed; the values were brought to common conditions by the energy balance. The raw figures stand beside.',
  'remark/burnsOfOneDay': () => 'Burns of one day count as one day: they share its weather and its wood.',
  'remark/undated': () => 'Burns without a date count as one day together.',
  'remark/noLotShared': () =>
    'Wood and stove changed together: the interval rests on the declared uncertainty of the lots.',
  'remark/blocksIncomplete': () => 'Fewer than two blocks hold burns of both; the burns were compared as two groups.',
  'remark/maximum': () => 'A maximum, compared by ranks.',
  'remark/scatterBelowInstruments': () =>
    'The values agree to the last digit; the scatter was taken from the instruments alone.',

  /* ---- what else was different ---- */
  'differed/operator': (p) => `Operator: ${p.a}; then ${p.b}.`,
  'differed/fuelLot': (p) => `Wood lot: ${p.a}; then ${p.b}.`,
  'differed/sameName': (p) => `${thingNames[String(p.kind)] ?? ''}: two of one name, ${p.name}.`,
  'differed/vessel': (p) => `Pot: ${p.a}; then ${p.b}.`,
  'differed/place': (p) => `Place: ${p.a}; then ${p.b}.`,
  'differed/scale': (p) => `Scale: ${p.a}; then ${p.b}.`,
  'differed/weather': (p) => `Weather noted: ${p.a}; then ${p.b}.`,
  'differed/order': (p) =>
    `All burns of ${p.first} came before those of ${p.second}: whatever changed with time (season, wood, skill) looks like the revision. Alternate them from day to day, or burn both on the same day.`,
  'differed/load': (p) => `Load: ${number(p.a, 1)} kg; then ${number(p.b, 1)} kg (means).`,
  'differed/rise': (p) => `Rise to the target: ${number(p.a, 1)} K; then ${number(p.b, 1)} K (means).`,
  'differed/air': (p) => `Air: ${number(p.a, 0)} °C; then ${number(p.b, 0)} °C (means).`,
  'differed/moisture': (p) => `Moisture of the wood, wet basis: ${percent(p.a)}; then ${percent(p.b)} (means).`,
  'differed/wind': (p) => `Wind marked, 0 to 3: ${number(p.a, 1)}; then ${number(p.b, 1)} (means of the highest).`,

  /* ---- planning ---- */
  'plan/furtherDays': (p) =>
    `To find a difference of ${percent(p.worth)} four times in five takes about ${moreDays(p.likely)} of each, somewhere from ${p.low} to ${p.high}, at the scatter seen.`,
  'plan/furtherDaysOpen': (p) =>
    `To find a difference of ${percent(p.worth)} four times in five takes ${moreDays(p.low)} of each or many more: the scatter is hardly known yet.`,
  'plan/enough': (p) => `These days are enough to find a difference of ${percent(p.worth)} four times in five.`,
  'plan/perhapsEnough': (p) =>
    `These days are probably enough to find a difference of ${percent(p.worth)} four times in five; if their scatter is larger than it looks, it takes up to ${moreDays(p.high)} of each.`,
  'plan/noNumber': (p) =>
    `No number of days will find a difference of ${percent(p.worth)}: what does not cancel between the revisions (${inputName(p.input)}) is too uncertain. Measure that better, or share it between the revisions.`,
  'plan/noNumberForScatter': (p) =>
    `Not even two hundred more days will find a difference of ${percent(p.worth)}: these days differ too much from each other. Look for a wrong entry among them, or for a steadier routine.`,
  'plan/improveScatter': (p) =>
    `The largest part of the uncertainty (${percent(p.share)}) is scatter from day to day: more days and a steadier routine help, better instruments do not.`,
  'plan/improveInput': (p) =>
    `Improve first: ${inputName(p.input)}. It brings ${percent(p.share)} of the uncertainty, because it does not cancel between the revisions.`,

  /* ---- level over time ---- */
  'drift/steady': (p) => `${capital(name(p))} stays within its limits from burn to burn.`,
  'drift/outside': (p) =>
    `${capital(name(p))}: ${burns(p.count)} beyond the limits. Something changed: wet wood, a gasket, rust, wind, a weighing.`,
  'drift/run': (p) =>
    `${capital(name(p))}: eight burns or more on one side of the mean. The level has shifted: look for what changed slowly.`,

  /* ---- prediction ---- */
  'predict/noBurns': () => 'None of the burns can be used to predict from.',
  'predict/neverReached': () => 'With this load the losses catch up with the fire before the target.',
  'predict/noWood': () => 'The wood of these burns is not known.',
  'predict/holdNotAsked': () => 'No hold was asked for.',
  'predict/noHold': () => 'None of these burns held its target long enough to tell the wood of a hold.',
  'predict/supported': (p) =>
    `${burns(p.count)} of this stove ${Number(p.count) === 1 ? 'supports' : 'support'} this question; the interval is for a new burn, with all that makes one burn differ from the next.`,
  'outside/revisions': () => 'The burns are of different revisions: what is predicted belongs to none of them.',
  'outside/load': (p) =>
    `The load (as much heat per kelvin as ${number(p.asked, 0)} kg of water) is far from those burnt (${number(p.least, 0)} to ${number(p.most, 0)} kg).`,
  'outside/target': (p) =>
    `The target (${number(p.asked, 0)} °C) is above all that these burns reached (${number(p.hottest, 0)} °C).`,
  'outside/lid': () =>
    'The lid is used otherwise than in these burns, and no cooling was measured that way. Let the pot cool for 30 minutes off the fire with the lid so, once.',
  'outside/vessel': () => 'It is another pot than in these burns.',
  'outside/startKind': (p) => `A ${p.asked} start is asked for; these burns started otherwise.`,
  'outside/moisture': (p) =>
    `The wood (${percent(p.asked)} wet basis) is outside what was burnt (${percent(p.driest)} to ${percent(p.wettest)}); wet wood burns worse than its heating value says.`,
  'outside/holdTarget': (p) => `No burn held at ${number(p.asked, 0)} °C.`,
  'assumed/scatter': (p) =>
    `With ${burns(p.count)}, the difference from burn to burn was taken to be near ${percent(p.scatter)} (common practice). Three burns or more speak for themselves.`,
  'assumed/loss': (p) =>
    `What the pot loses to the air was taken from its size, uncertain by ${percent(p.relative)}. Let it cool for 30 minutes off the fire once, and it is measured.`,
  'assumed/lossMeasured': (p) =>
    `What the pot loses to the air was measured by letting it cool: ${number(p.factor, 2)} times what its size suggests.`,
  'assumed/pace': (p) =>
    `No weighed feeds tell when the wood burnt: it was taken to burn ${number(p.faster, 1)} times as fast on the way up as in the hold. Mark each feed with its mass, and it is known.`,
  'assumed/air': (p) => `The air was taken to be ${number(p.airTempC, 0)} °C.`,
} satisfies Record<string, Sentence>;

function target(value: string | number | undefined): string {
  return value === 'boil' ? 'the boil' : `${value} °C`;
}

const verdictWords: Readonly<Record<string, string>> = {
  better: 'better',
  worse: 'worse',
  cannotTell: 'cannot tell yet',
};

/** Kinds of things that two revisions may have had in common. */
export const thingNames: Readonly<Record<string, string>> = {
  operator: 'Operator',
  fuelLot: 'Wood lot',
  scale: 'Scale',
  vessel: 'Pot',
  place: 'Place',
};

function sharedOut(p: Params): string {
  return Number(p.steps) > 1 ? `, shared out among the ${p.steps} steps of this stove` : '';
}

function stopAnyDay(p: Params): string {
  return p.decided ? 'You may stop here.' : 'Stopping now leaves it open; you may stop on any day.';
}

/** "1 more day of revision 1 and 2 more days of revision 2", without a revision that needs none. */
function moreOfEach(p: Params): string {
  return [
    [p.moreA, p.first],
    [p.moreB, p.second],
  ]
    .filter(([count]) => Number(count) > 0)
    .map(([count, side]) => `${moreDays(count)} of ${side}`)
    .join(' and ');
}
