/** What comparing and predicting say, in English. Numbers arrive as fractions, SI units and °C. */
import type { ResultId } from '../contract/results.ts';
import { type Params, type Sentence, writeNumber } from './language.ts';
import { showDuration } from './shown.ts';

const resultNames: Readonly<Record<ResultId, string>> = {
  localBoilingPoint: 'local boiling point',
  timeToTarget: 'time to target',
  timeToBoil: 'time to boil',
  meanHeatingRate: 'heating rate',
  meanUsefulPower: 'useful power',
  cookingPower: 'cooking power',
  fuelEnergy: 'fuel energy',
  equivalentDryFuel: 'equivalent dry fuel',
  dryWoodPerBatch: 'dry wood per batch',
  firepower: 'firepower',
  burningRate: 'burning rate',
  thermalEfficiency: 'thermal efficiency',
  thermalEfficiencyNoCharCredit: 'thermal efficiency without char credit',
  sensibleEfficiency: 'sensible efficiency',
  specificFuelConsumption: 'specific fuel consumption',
  turnDownRatio: 'turn-down ratio',
  evaporatedWater: 'evaporated water',
  longestUnattended: 'longest time unattended',
  typicalUnattended: 'typical time unattended',
  recoveryAfterFeed: 'recovery after a feed',
  holdDuration: 'time held',
  holdBelowTarget: 'time below the hold',
  holdLowest: 'lowest temperature in the hold',
  stackLoss: 'stack loss',
  stoveBodyHeat: 'heat in the stove body',
};

const name = (p: Params) => resultNames[p.result as ResultId];
const capital = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);
const number = (value: string | number | undefined, decimals: number) => writeNumber('en', Number(value), decimals);
const percent = (value: string | number | undefined, decimals = 0) => `${number(Number(value) * 100, decimals)} %`;
const more = (count: string | number | undefined) => (Number(count) === 1 ? '1 more burn' : `${count} more burns`);
const burns = (count: string | number | undefined) => (Number(count) === 1 ? '1 burn' : `${count} burns`);

const timeResults: readonly unknown[] = [
  'timeToTarget',
  'timeToBoil',
  'longestUnattended',
  'typicalUnattended',
  'recoveryAfterFeed',
];
const amountResults: readonly unknown[] = ['dryWoodPerBatch', 'equivalentDryFuel', 'fuelEnergy', 'evaporatedWater'];

function directions(result: unknown): [down: string, up: string] {
  if (timeResults.includes(result)) return ['shorter', 'longer'];
  return amountResults.includes(result) ? ['less', 'more'] : ['lower', 'higher'];
}

function size(value: string | number | undefined, kind: string | number | undefined): string {
  const change = Math.abs(Number(value));
  if (kind === 'ratio') return percent(change, change < 0.1 ? 1 : 0);
  if (kind === 'fraction') return `${number(change * 100, 1)} points`;
  if (kind === 'time') return showDuration('en', change);
  return `${number(change, 1)} K`;
}

/** A change by its size and direction: "12 % less", "2.1 points higher", "7.0 % shorter". */
function change(p: Params, value = p.change): string {
  return `${size(value, p.kind)} ${directions(p.result)[Number(value) < 0 ? 0 : 1]}`;
}

/** Both ends of an interval: "between 4 % and 19 % lower" or "between 15 % lower and 6 % higher". */
function span(p: Params): string {
  const [near, far] = Math.abs(Number(p.low)) < Math.abs(Number(p.high)) ? [p.low, p.high] : [p.high, p.low];
  if (Number(p.low) * Number(p.high) > 0) return `between ${size(near, p.kind)} and ${change(p, far)}`;
  return `between ${change(p, p.low)} and ${change(p, p.high)}`;
}

export const comparisonEn = {
  'name/revision': (p) => `revision ${p.label}`,

  /* ---- the verdict on the primary result ---- */
  'verdict/better': (p) =>
    `${capital(String(p.b))} is better than ${p.a}: ${name(p)} is ${change(p)}; with 95 % confidence it is ${span(p)}. That is unlikely to be luck.`,
  'verdict/worse': (p) =>
    `${capital(String(p.b))} is worse than ${p.a}: ${name(p)} is ${change(p)}; with 95 % confidence it is ${span(p)}. That is unlikely to be luck.`,
  'verdict/cannotTell': (p) =>
    `Cannot tell yet whether ${p.b} is better than ${p.a}: ${name(p)} came out ${change(p)}, but anything ${span(p)} fits these burns.`,
  'verdict/differs': (p) =>
    `${capital(name(p))} is ${change(p)} with ${p.b} than with ${p.a} (95 % confidence: ${span(p)}); that is neither better nor worse in itself.`,
  'verdict/missing': (p) => `No verdict on ${name(p)}: ${p.why}`,

  /* ---- also seen ---- */
  'seen/better': (p) => `${capital(name(p))}: ${change(p)} with ${p.b}, which is better (95 %: ${span(p)}).`,
  'seen/worse': (p) => `${capital(name(p))}: ${change(p)} with ${p.b}, which is worse (95 %: ${span(p)}).`,
  'seen/cannotTell': (p) =>
    `${capital(name(p))}: cannot tell yet; ${change(p)} with ${p.b}, but anything ${span(p)} fits.`,
  'seen/differs': (p) =>
    `${capital(name(p))}: ${change(p)} with ${p.b} (95 %: ${span(p)}), neither better nor worse in itself.`,
  'seen/missing': (p) => `${capital(name(p))}: ${p.why}`,
  'seen/manyResults': (p) =>
    `Were they independent, ${p.count} results looked at together would raise a false alarm in one of ${p.oneIn} comparisons; only the primary result carries the verdict.`,

  /* ---- why there is no difference to state ---- */
  'missing/noBurns': (p) => `none of the burns of ${p.side} has this result.`,
  'missing/oneBurnEach': () =>
    'one burn of each proves nothing, because nobody knows how much two burns of the same stove differ. Burn at least one of them again.',
  'missing/notPositive': () => 'a value of zero or below cannot be compared by its ratio.',
  'missing/noSpread': () =>
    'the values agree to the last digit and nothing is known of their uncertainty, so there is no telling how sure a difference is.',
  'missing/tooWide': () =>
    'the burns differ so widely that no interval can be stated. Look for a wrong entry among them.',
  'missing/tooFewForRanks': (p) =>
    `a maximum is compared by ranks, and ${burns(p.a)} against ${burns(p.b)} are too few for that.`,

  /* ---- burns set aside ---- */
  'aside/byPerson': (p) => (p.reason ? `Set aside: ${p.reason}` : 'Set aside, no reason given.'),
  'aside/notBurnt': () => 'Planned, not burnt yet.',
  'aside/stillRunning': () => 'Still running.',
  'aside/otherStartKind': (p) =>
    `Started ${p.own}, the others ${p.wanted}: cold and hot starts are never compared with each other.`,
  'aside/otherTarget': (p) => `Another target (${target(p.own)}; the others: ${target(p.wanted)}).`,
  'aside/otherHold': (p) =>
    `Another hold (${showDuration('en', Number(p.own))}; the others: ${showDuration('en', Number(p.wanted))}).`,
  'aside/otherMethod': (p) => `Worked out by another method set (${p.own}; the others: ${p.wanted}).`,
  'aside/noTimeToTarget': () => 'Did not reach its target, or nobody knows when it was lit.',
  'aside/noWaterMass': () => 'The water was not weighed before the burn.',
  'aside/noCurve': () => 'Has no usable curve of the water on the way to the target.',
  'aside/noHeat': () => 'The curve shows no heat going into the water.',
  'aside/otherVessel': () => 'Burnt with another vessel than the rest.',

  /* ---- remarks on a difference ---- */
  'remark/lackResult': (p) => `${burns(p.count)} without this result left out of it.`,
  'remark/adjusted': () =>
    'Load, start temperature or air differed; the values were brought to common conditions by the energy balance. The raw figures stand beside.',
  'remark/borrowedScatter': () => 'With a single burn of one revision, its scatter was taken to be that of the other.',
  'remark/blocksIncomplete': () => 'Fewer than two blocks hold burns of both; the burns were compared as two groups.',
  'remark/maximum': () => 'A maximum, compared by ranks.',
  'remark/scatterBelowInstruments': () =>
    'The values agree to the last digit; the scatter was taken from the instruments alone.',

  /* ---- what else was different ---- */
  'differed/operator': (p) => `Operator: ${p.a}; then ${p.b}.`,
  'differed/fuelLot': (p) => `Wood lot: ${p.a}; then ${p.b}.`,
  'differed/vessel': (p) => `Vessel: ${p.a}; then ${p.b}.`,
  'differed/place': (p) => `Place: ${p.a}; then ${p.b}.`,
  'differed/scale': (p) => `Scale: ${p.a}; then ${p.b}.`,
  'differed/weather': (p) => `Weather noted: ${p.a}; then ${p.b}.`,
  'differed/order': (p) =>
    `All burns of ${p.first} came before those of ${p.second}: whatever changed with time (season, wood, skill) looks like the revision. Alternate them, or burn both on the same day.`,
  'differed/load': (p) => `Load: ${number(p.a, 1)} kg; then ${number(p.b, 1)} kg (means).`,
  'differed/rise': (p) => `Rise to the target: ${number(p.a, 1)} K; then ${number(p.b, 1)} K (means).`,
  'differed/air': (p) => `Air: ${number(p.a, 0)} °C; then ${number(p.b, 0)} °C (means).`,
  'differed/moisture': (p) => `Moisture of the wood, wet basis: ${percent(p.a)}; then ${percent(p.b)} (means).`,
  'differed/wind': (p) => `Wind marked, 0 to 3: ${number(p.a, 1)}; then ${number(p.b, 1)} (means of the highest).`,

  /* ---- planning ---- */
  'plan/furtherBurns': (p) =>
    `To find a difference of ${percent(p.worth)} four times in five takes about ${more(p.likely)} of each, somewhere from ${p.low} to ${p.high}, at the scatter seen.`,
  'plan/furtherBurnsOpen': (p) =>
    `To find a difference of ${percent(p.worth)} four times in five takes ${more(p.low)} of each or many more: the scatter is hardly known yet.`,
  'plan/enough': (p) => `These burns are enough to find a difference of ${percent(p.worth)} four times in five.`,
  'plan/perhapsEnough': (p) =>
    `These burns are probably enough to find a difference of ${percent(p.worth)} four times in five; if their scatter is larger than it looks, it takes up to ${more(p.high)} of each.`,
  'plan/noNumber': (p) =>
    `No number of burns will find a difference of ${percent(p.worth)}: what does not cancel between the revisions (${inputName(p.input)}) is too uncertain. Measure that better, or share it between the revisions.`,
  'plan/improveScatter': (p) =>
    `Most of the doubt (${percent(p.share)}) is scatter from burn to burn: more burns and a steadier routine help, better instruments do not.`,
  'plan/improveInput': (p) =>
    `Improve first: ${inputName(p.input)}. It brings ${percent(p.share)} of the doubt, because it does not cancel between the revisions.`,

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
    `The load (as much heat a kelvin as ${number(p.asked, 0)} kg of water) is far from those burnt (${number(p.least, 0)} to ${number(p.most, 0)} kg).`,
  'outside/target': (p) =>
    `The target (${number(p.asked, 0)} °C) is above all that these burns reached (${number(p.hottest, 0)} °C).`,
  'outside/lid': () =>
    'The lid is used otherwise than in these burns, and no cooling was measured that way. Let the pot cool for 30 minutes off the fire with the lid so, once.',
  'outside/vessel': () => 'It is another vessel than in these burns.',
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

export type ComparisonCode = keyof typeof comparisonEn;

function target(value: string | number | undefined): string {
  return value === 'boil' ? 'the boil' : `${value} °C`;
}

/** Inputs whose errors burns can share, in words; any other by the name the analysis gives it. */
const inputNames: Readonly<Record<string, string>> = {
  'fuelLot.moisture': 'the moisture of the wood lots',
  'fuelLot.heatingValue': 'the heating value of the wood lots',
  'fuelLot.charHeatingValue': 'the heating value of the char',
  'scale.gain': 'the gain of the scales',
  'probe.offset': 'the offset of the water probes',
  'probe.gain': 'the gain of the water probes',
  'probe.lag': 'the lag of the water probes',
  'board.coldJunction': 'the cold junction of the board',
  'place.stationPressure': 'the air pressure at the place',
  'place.altitude': 'the altitude of the place',
};

function inputName(value: string | number | undefined): string {
  return inputNames[String(value)] ?? String(value);
}
