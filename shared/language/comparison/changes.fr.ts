/** Words and figures of changes, in French. */
import type { ResultId } from '../../contract/results.ts';
import { showConfidence, showDuration } from '../display-units.ts';
import { type Params, writeNumber } from '../language.ts';

const resultNames: Readonly<Record<ResultId, string>> = {
  localBoilingPoint: 'point d’ébullition local',
  timeToTarget: 'temps jusqu’à la cible',
  timeToBoil: 'temps jusqu’à l’ébullition',
  meanHeatingRate: 'vitesse de chauffe',
  meanUsefulPower: 'puissance utile',
  cookingPower: 'puissance de cuisson',
  fuelEnergy: 'énergie du combustible',
  equivalentDryFuel: 'combustible sec équivalent',
  dryWoodPerBatch: 'bois sec par fournée',
  firepower: 'puissance du feu',
  burningRate: 'débit de combustion',
  thermalEfficiency: 'rendement thermique',
  thermalEfficiencyNoCharCredit: 'rendement thermique sans crédit de charbon',
  sensibleEfficiency: 'rendement sensible',
  specificFuelConsumption: 'bois par kg de charge (consommation spécifique)',
  turnDownRatio: 'réglage du feu (rapport de modulation)',
  evaporatedWater: 'eau évaporée',
  longestUnattended: 'plus longue durée sans intervention',
  typicalUnattended: 'durée habituelle sans intervention',
  recoveryAfterFeed: 'reprise après une recharge',
  holdDuration: 'durée du maintien',
  holdBelowTarget: 'temps sous le seuil du maintien',
  holdLowest: 'température la plus basse du maintien',
  stackLoss: 'pertes par les fumées',
  stoveBodyHeat: 'chaleur dans le corps du foyer',
  coolingTimeConstant: 'constante de temps du refroidissement',
  lossCoefficient: 'coefficient de perte de la marmite',
};

export const name = (p: Params) => resultNames[p.result as ResultId];
export const capital = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);
export const number = (value: string | number | undefined, decimals: number) =>
  writeNumber('fr', Number(value), decimals);
export const percent = (value: string | number | undefined, decimals = 0) =>
  `${number(Number(value) * 100, decimals)}\u00a0%`;
export const burns = (count: string | number | undefined) => (Number(count) === 1 ? '1 essai' : `${count} essais`);

export const days = (count: string | number | undefined) =>
  Number(count) > 1 ? `${count}\u00a0jours` : `${count}\u00a0jour`;
export const moreDays = (count: string | number | undefined) => `${days(count)} de plus`;

export const confidence = (value: string | number | undefined) => showConfidence('fr', Number(value));

export const sure = (p: Params) =>
  `à ${confidence(p.confidence)} de confiance${p.everyLook ? ', à chaque regard' : ''}`;

/** Why no interval is stated: it would be uninformative after so few days, or none holds at every look. */
export const noLimits = (p: Params) =>
  p.everyLook
    ? 'après si peu de jours aucun intervalle ne vaut à chaque regard'
    : 'après si peu de jours son intervalle est trop large pour dire quoi que ce soit';

/** The main figure of a sentence, with marks where the page shows it in bold. */
const strong = (p: Params, text: string) => (p.strong ? `*${text}*` : text);

function size(value: string | number | undefined, kind: string | number | undefined): string {
  const change = Math.abs(Number(value));
  if (kind === 'ratio') return percent(change, change < 0.1 ? 1 : 0);
  if (kind === 'fraction') return `${number(change * 100, 1)}\u00a0points`;
  if (kind === 'time') return showDuration('fr', change);
  return `${number(change, 1)}\u00a0K`;
}

/** Formats a change by its size and direction: “12 % de moins”. */
export const change = (p: Params, value = p.change) =>
  strong(p, `${size(value, p.kind)} de ${Number(value) < 0 ? 'moins' : 'plus'}`);

export function span(p: Params): string {
  const [near, far] = Math.abs(Number(p.low)) < Math.abs(Number(p.high)) ? [p.low, p.high] : [p.high, p.low];
  if (Number(p.low) * Number(p.high) > 0) return `entre ${strong(p, size(near, p.kind))} et ${change(p, far)}`;
  return `entre ${change(p, p.low)} et ${change(p, p.high)}`;
}

const inputNames: Readonly<Record<string, string>> = {
  'fuelLot.moisture': 'l’humidité des lots de bois',
  'fuelLot.heatingValue': 'le pouvoir calorifique des lots de bois',
  'fuelLot.charHeatingValue': 'le pouvoir calorifique du charbon',
  'scale.gain': 'le gain des balances',
  'probe.offset': 'le décalage des sondes d’eau',
  'probe.gain': 'le gain des sondes d’eau',
  'probe.lag': 'le retard des sondes d’eau',
  'board.coldJunction': 'la soudure froide de la carte',
  'place.stationPressure': 'la pression de l’air sur place',
  'place.altitude': 'l’altitude du lieu',
};

export function inputName(value: string | number | undefined): string {
  return inputNames[String(value)] ?? String(value);
}
