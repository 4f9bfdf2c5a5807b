/** Words and figures of changes, in English. Numbers are fractions, SI units and °C. */
import type { ResultId } from '../../contract/results.ts';
import { showConfidence, showDuration } from '../display-units.ts';
import { type Params, writeNumber } from '../language.ts';

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
  firepower: 'power of the fire (firepower)',
  burningRate: 'burning rate',
  thermalEfficiency: 'thermal efficiency',
  thermalEfficiencyNoCharCredit: 'thermal efficiency without char credit',
  sensibleEfficiency: 'sensible efficiency',
  specificFuelConsumption: 'wood per kg of load (specific fuel consumption)',
  turnDownRatio: 'turning down of the fire (turn-down ratio)',
  evaporatedWater: 'evaporated water',
  longestUnattended: 'longest time unattended',
  typicalUnattended: 'typical time unattended',
  recoveryAfterFeed: 'recovery after a feed',
  holdDuration: 'time held',
  holdBelowTarget: 'time below the hold',
  holdLowest: 'lowest temperature in the hold',
  stackLoss: 'stack loss',
  stoveBodyHeat: 'heat in the stove body',
  coolingTimeConstant: 'time constant of cooling',
  lossCoefficient: 'loss coefficient of the pot',
};

export const name = (p: Params) => resultNames[p.result as ResultId];
export const capital = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);
export const number = (value: string | number | undefined, decimals: number) =>
  writeNumber('en', Number(value), decimals);
export const percent = (value: string | number | undefined, decimals = 0) =>
  `${number(Number(value) * 100, decimals)} %`;
export const burns = (count: string | number | undefined) => (Number(count) === 1 ? '1 burn' : `${count} burns`);

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

/** Number of days, and number of further days, in words. */
export const days = (count: string | number | undefined) => (Number(count) === 1 ? '1 day' : `${count} days`);
export const moreDays = (count: string | number | undefined) =>
  Number(count) === 1 ? '1 more day' : `${count} more days`;

export const confidence = (value: string | number | undefined) => showConfidence('en', Number(value));

/** The confidence of an interval: "with 95 % confidence", "with 95 % confidence at every look". */
export const sure = (p: Params) => `${confidence(p.confidence)} confidence${p.everyLook ? ' at every look' : ''}`;

/** Why no interval is stated: it would be uninformative after so few days, or none holds at every look. */
export const noLimits = (p: Params) =>
  p.everyLook
    ? 'after so few days no interval holds at every look'
    : 'after so few days its interval is too wide to tell anything';

/** The main figure of a sentence, with marks where the page shows it in bold. */
const strong = (p: Params, text: string) => (p.strong ? `*${text}*` : text);

function size(value: string | number | undefined, kind: string | number | undefined): string {
  const change = Math.abs(Number(value));
  if (kind === 'ratio') return percent(change, change < 0.1 ? 1 : 0);
  if (kind === 'fraction') return `${number(change * 100, 1)} points`;
  if (kind === 'time') return showDuration('en', change);
  return `${number(change, 1)} K`;
}

/** Formats a change by its size and direction: "12 % less", "2.1 points higher", "7.0 % shorter". */
export function change(p: Params, value = p.change): string {
  return strong(p, `${size(value, p.kind)} ${directions(p.result)[Number(value) < 0 ? 0 : 1]}`);
}

/** Formats both ends of an interval: "between 4 % and 19 % lower" or "between 15 % lower and 6 % higher". */
export function span(p: Params): string {
  const [near, far] = Math.abs(Number(p.low)) < Math.abs(Number(p.high)) ? [p.low, p.high] : [p.high, p.low];
  if (Number(p.low) * Number(p.high) > 0) return `between ${strong(p, size(near, p.kind))} and ${change(p, far)}`;
  return `between ${change(p, p.low)} and ${change(p, p.high)}`;
}

/** Names of inputs whose errors burns can share; any other input has its name in the analysis. */
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

export function inputName(value: string | number | undefined): string {
  return inputNames[String(value)] ?? String(value);
}
