/** What comparing and predicting say, in French. */
import type { ResultId } from '../contract/results.ts';
import type { comparisonEn } from './comparison.en.ts';
import { type Params, type Sentence, writeNumber } from './language.ts';
import { showDuration } from './shown.ts';

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
  specificFuelConsumption: 'consommation spécifique',
  turnDownRatio: 'rapport de modulation',
  evaporatedWater: 'eau évaporée',
  longestUnattended: 'plus longue durée sans intervention',
  typicalUnattended: 'durée habituelle sans intervention',
  recoveryAfterFeed: 'reprise après une recharge',
  holdDuration: 'durée du maintien',
  holdBelowTarget: 'temps sous le seuil du maintien',
  holdLowest: 'température la plus basse du maintien',
  stackLoss: 'pertes par les fumées',
  stoveBodyHeat: 'chaleur dans le corps du foyer',
};

const name = (p: Params) => resultNames[p.result as ResultId];
const capital = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);
const number = (value: string | number | undefined, decimals: number) => writeNumber('fr', Number(value), decimals);
const percent = (value: string | number | undefined, decimals = 0) => `${number(Number(value) * 100, decimals)}\u00a0%`;
const burns = (count: string | number | undefined) => (Number(count) === 1 ? '1 flambée' : `${count} flambées`);
const target = (value: string | number | undefined) => (value === 'boil' ? 'l’ébullition' : `${value}\u00a0°C`);

function size(value: string | number | undefined, kind: string | number | undefined): string {
  const change = Math.abs(Number(value));
  if (kind === 'ratio') return percent(change, change < 0.1 ? 1 : 0);
  if (kind === 'fraction') return `${number(change * 100, 1)}\u00a0points`;
  if (kind === 'time') return showDuration('fr', change);
  return `${number(change, 1)}\u00a0K`;
}

const change = (value: string | number | undefined, kind: string | number | undefined) =>
  `${size(value, kind)} de ${Number(value) < 0 ? 'moins' : 'plus'}`;

function span(p: Params): string {
  const [near, far] = Math.abs(Number(p.low)) < Math.abs(Number(p.high)) ? [p.low, p.high] : [p.high, p.low];
  if (Number(p.low) * Number(p.high) > 0) return `entre ${size(near, p.kind)} et ${change(far, p.kind)}`;
  return `entre ${change(p.low, p.kind)} et ${change(p.high, p.kind)}`;
}

export const comparisonFr: Record<keyof typeof comparisonEn, Sentence> = {
  'name/revision': (p) => `révision ${p.label}`,

  'verdict/better': (p) =>
    `${capital(String(p.b))}\u00a0: mieux que ${p.a}. ${capital(name(p))}\u00a0: ${change(p.change, p.kind)}\u00a0; à 95\u00a0% de confiance, ${span(p)}. Ce n’est sans doute pas le hasard.`,
  'verdict/worse': (p) =>
    `${capital(String(p.b))}\u00a0: moins bien que ${p.a}. ${capital(name(p))}\u00a0: ${change(p.change, p.kind)}\u00a0; à 95\u00a0% de confiance, ${span(p)}. Ce n’est sans doute pas le hasard.`,
  'verdict/cannotTell': (p) =>
    `On ne peut pas encore dire si ${p.b} vaut mieux que ${p.a}. ${capital(name(p))}\u00a0: ${change(p.change, p.kind)} observé, mais tout ce qui se trouve ${span(p)} s’accorde avec ces flambées.`,
  'verdict/differs': (p) =>
    `${capital(name(p))}\u00a0: ${change(p.change, p.kind)} avec ${p.b} qu’avec ${p.a} (à 95\u00a0%\u00a0: ${span(p)})\u00a0; ce n’est en soi ni mieux ni moins bien.`,
  'verdict/missing': (p) => `Pas de verdict (${name(p)})\u00a0: ${p.why}`,

  'seen/better': (p) =>
    `${capital(name(p))}\u00a0: ${change(p.change, p.kind)} avec ${p.b}, c’est mieux (à 95\u00a0%\u00a0: ${span(p)}).`,
  'seen/worse': (p) =>
    `${capital(name(p))}\u00a0: ${change(p.change, p.kind)} avec ${p.b}, c’est moins bien (à 95\u00a0%\u00a0: ${span(p)}).`,
  'seen/cannotTell': (p) =>
    `${capital(name(p))}\u00a0: on ne peut pas encore dire\u00a0; ${change(p.change, p.kind)} avec ${p.b}, mais tout ce qui se trouve ${span(p)} convient.`,
  'seen/differs': (p) =>
    `${capital(name(p))}\u00a0: ${change(p.change, p.kind)} avec ${p.b} (à 95\u00a0%\u00a0: ${span(p)}), en soi ni mieux ni moins bien.`,
  'seen/missing': (p) => `${capital(name(p))}\u00a0: ${p.why}`,
  'seen/manyResults': (p) =>
    `Regardés ensemble, ${p.count} résultats indépendants donneraient une fausse alerte une comparaison sur ${p.oneIn}\u00a0; seul le résultat principal porte le verdict.`,

  'missing/noBurns': (p) => `aucune flambée de ${p.side} n’a ce résultat.`,
  'missing/oneBurnEach': () =>
    'une flambée de chaque ne prouve rien, car nul ne sait de combien diffèrent deux flambées d’un même foyer. Refaites-en au moins une.',
  'missing/notPositive': () => 'une valeur nulle ou négative ne peut pas être comparée par son rapport.',
  'missing/noSpread': () =>
    'les valeurs sont égales jusqu’au dernier chiffre et leur incertitude est inconnue\u00a0; on ne peut pas dire si une différence est sûre.',
  'missing/tooWide': () =>
    'les flambées diffèrent tant qu’aucun intervalle ne peut être donné. Cherchez une saisie fausse parmi elles.',
  'missing/tooFewForRanks': (p) =>
    `un maximum se compare par les rangs, et ${burns(p.a)} contre ${burns(p.b)} n’y suffisent pas.`,

  'aside/byPerson': (p) => (p.reason ? `Mise de côté\u00a0: ${p.reason}` : 'Mise de côté, sans raison donnée.'),
  'aside/notBurnt': () => 'Prévue, pas encore brûlée.',
  'aside/stillRunning': () => 'Encore en cours.',
  'aside/otherStartKind': (p) =>
    `Départ ${start(p.own)}, les autres ${start(p.wanted)}\u00a0: on ne compare jamais un départ à froid à un départ à chaud.`,
  'aside/otherTarget': (p) => `Autre cible (${target(p.own)}\u00a0; les autres\u00a0: ${target(p.wanted)}).`,
  'aside/otherHold': (p) =>
    `Autre maintien (${showDuration('fr', Number(p.own))}\u00a0; les autres\u00a0: ${showDuration('fr', Number(p.wanted))}).`,
  'aside/otherMethod': (p) => `Calculée par une autre méthode (${p.own}\u00a0; les autres\u00a0: ${p.wanted}).`,
  'aside/noTimeToTarget': () => 'N’a pas atteint sa cible, ou nul ne sait quand elle a été allumée.',
  'aside/noWaterMass': () => 'L’eau n’a pas été pesée avant la flambée.',
  'aside/noCurve': () => 'N’a pas de courbe de l’eau utilisable jusqu’à la cible.',
  'aside/noHeat': () => 'La courbe ne montre aucune chaleur entrant dans l’eau.',
  'aside/otherVessel': () => 'Faite avec un autre récipient que les autres.',

  'remark/lackResult': (p) =>
    `${burns(p.count)} sans ce résultat, non ${Number(p.count) === 1 ? 'comptée' : 'comptées'}.`,
  'remark/adjusted': () =>
    'La charge, la température de départ ou l’air différaient\u00a0; les valeurs ont été ramenées à des conditions communes par le bilan d’énergie. Les chiffres bruts sont à côté.',
  'remark/borrowedScatter': () =>
    'Une seule flambée d’une révision\u00a0: on a admis que sa dispersion est celle de l’autre.',
  'remark/blocksIncomplete': () =>
    'Moins de deux blocs contiennent des flambées des deux\u00a0; on les a comparées comme deux groupes.',
  'remark/maximum': () => 'Un maximum, comparé par les rangs.',
  'remark/scatterBelowInstruments': () =>
    'Les valeurs sont égales jusqu’au dernier chiffre\u00a0; la dispersion a été prise des seuls instruments.',

  'differed/operator': (p) => `Opérateur\u00a0: ${p.a}\u00a0; puis ${p.b}.`,
  'differed/fuelLot': (p) => `Lot de bois\u00a0: ${p.a}\u00a0; puis ${p.b}.`,
  'differed/vessel': (p) => `Récipient\u00a0: ${p.a}\u00a0; puis ${p.b}.`,
  'differed/place': (p) => `Lieu\u00a0: ${p.a}\u00a0; puis ${p.b}.`,
  'differed/scale': (p) => `Balance\u00a0: ${p.a}\u00a0; puis ${p.b}.`,
  'differed/weather': (p) => `Temps noté\u00a0: ${p.a}\u00a0; puis ${p.b}.`,
  'differed/order': (p) =>
    `Toutes les flambées de ${p.first} ont précédé celles de ${p.second}\u00a0: tout ce qui change avec le temps (saison, bois, savoir-faire) ressemble alors à la révision. Alternez-les, ou brûlez les deux le même jour.`,
  'differed/load': (p) => `Charge\u00a0: ${number(p.a, 1)}\u00a0kg\u00a0; puis ${number(p.b, 1)}\u00a0kg (moyennes).`,
  'differed/rise': (p) =>
    `Montée jusqu’à la cible\u00a0: ${number(p.a, 1)}\u00a0K\u00a0; puis ${number(p.b, 1)}\u00a0K (moyennes).`,
  'differed/air': (p) => `Air\u00a0: ${number(p.a, 0)}\u00a0°C\u00a0; puis ${number(p.b, 0)}\u00a0°C (moyennes).`,
  'differed/moisture': (p) =>
    `Humidité du bois, base humide\u00a0: ${percent(p.a)}\u00a0; puis ${percent(p.b)} (moyennes).`,
  'differed/wind': (p) =>
    `Vent noté de 0 à 3\u00a0: ${number(p.a, 1)}\u00a0; puis ${number(p.b, 1)} (moyennes des plus forts).`,

  'plan/furtherBurns': (p) =>
    `Pour trouver quatre fois sur cinq une différence de ${percent(p.worth)}, il faut environ ${burns(p.likely)} de plus de chaque, de ${p.low} à ${p.high}, avec la dispersion observée.`,
  'plan/furtherBurnsOpen': (p) =>
    `Pour trouver quatre fois sur cinq une différence de ${percent(p.worth)}, il faut ${burns(p.low)} de plus de chaque, ou bien davantage\u00a0: la dispersion est encore mal connue.`,
  'plan/enough': (p) =>
    `Ces flambées suffisent pour trouver quatre fois sur cinq une différence de ${percent(p.worth)}.`,
  'plan/perhapsEnough': (p) =>
    `Ces flambées suffisent sans doute pour trouver quatre fois sur cinq une différence de ${percent(p.worth)}\u00a0; si leur dispersion est plus grande qu’il n’y paraît, il en faut jusqu’à ${p.high} de plus de chaque.`,
  'plan/noNumber': (p) =>
    `Aucun nombre de flambées ne fera trouver une différence de ${percent(p.worth)}\u00a0: ce qui ne s’annule pas entre les révisions (${inputName(p.input)}) est trop incertain. Mesurez-le mieux, ou gardez-le commun aux révisions.`,
  'plan/improveScatter': (p) =>
    `L’essentiel du doute (${percent(p.share)}) est la dispersion d’une flambée à l’autre\u00a0: davantage de flambées et une conduite plus régulière aident, de meilleurs instruments non.`,
  'plan/improveInput': (p) =>
    `À améliorer d’abord\u00a0: ${inputName(p.input)}. Il porte ${percent(p.share)} du doute, car il ne s’annule pas entre les révisions.`,

  'drift/steady': (p) => `${capital(name(p))}\u00a0: dans les limites d’une flambée à l’autre.`,
  'drift/outside': (p) =>
    `${capital(name(p))}\u00a0: ${burns(p.count)} hors des limites. Quelque chose a changé\u00a0: bois humide, joint, rouille, vent, pesée.`,
  'drift/run': (p) =>
    `${capital(name(p))}\u00a0: huit flambées ou plus du même côté de la moyenne. Le niveau a glissé\u00a0: cherchez ce qui change lentement.`,

  'predict/noBurns': () => 'Aucune de ces flambées ne peut servir à prévoir.',
  'predict/neverReached': () => 'Avec cette charge, les pertes rattrapent le feu avant la cible.',
  'predict/noWood': () => 'Le bois de ces flambées n’est pas connu.',
  'predict/holdNotAsked': () => 'Aucun maintien n’a été demandé.',
  'predict/noHold': () => 'Aucune de ces flambées n’a tenu sa cible assez longtemps pour dire le bois d’un maintien.',
  'predict/supported': (p) =>
    `${burns(p.count)} de ce foyer ${Number(p.count) === 1 ? 'répond' : 'répondent'} à cette question\u00a0; l’intervalle vaut pour une nouvelle flambée, avec tout ce qui distingue une flambée de la suivante.`,
  'outside/revisions': () =>
    'Ces flambées sont de révisions différentes\u00a0: ce qui est prévu ne vaut pour aucune d’elles.',
  'outside/load': (p) =>
    `La charge (autant de chaleur par kelvin que ${number(p.asked, 0)}\u00a0kg d’eau) est loin de celles qui ont été chauffées (${number(p.least, 0)} à ${number(p.most, 0)}\u00a0kg).`,
  'outside/target': (p) =>
    `La cible (${number(p.asked, 0)}\u00a0°C) dépasse tout ce que ces flambées ont atteint (${number(p.hottest, 0)}\u00a0°C).`,
  'outside/lid': () =>
    'Le couvercle est employé autrement que dans ces flambées, et aucun refroidissement n’a été mesuré ainsi. Laissez une fois le récipient refroidir 30 minutes hors du feu, le couvercle comme demandé.',
  'outside/vessel': () => 'C’est un autre récipient que dans ces flambées.',
  'outside/startKind': (p) => `Un départ ${start(p.asked)} est demandé\u00a0; ces flambées sont parties autrement.`,
  'outside/moisture': (p) =>
    `Le bois (${percent(p.asked)}, base humide) sort de ce qui a été brûlé (${percent(p.driest)} à ${percent(p.wettest)})\u00a0; un bois humide brûle moins bien que ne le dit son pouvoir calorifique.`,
  'outside/holdTarget': (p) => `Aucune flambée n’a tenu ${number(p.asked, 0)}\u00a0°C.`,
  'assumed/scatter': (p) =>
    `Avec ${burns(p.count)}, on a admis d’une flambée à l’autre une différence voisine de ${percent(p.scatter)} (usage courant). Trois flambées ou plus parlent d’elles-mêmes.`,
  'assumed/loss': (p) =>
    `Ce que le récipient perd dans l’air a été tiré de sa taille, à ${percent(p.relative)} près. Laissez-le refroidir une fois 30 minutes hors du feu, et c’est mesuré.`,
  'assumed/lossMeasured': (p) =>
    `Ce que le récipient perd dans l’air a été mesuré en le laissant refroidir\u00a0: ${number(p.factor, 2)} fois ce que sa taille suggère.`,
  'assumed/pace': (p) =>
    `Aucune recharge pesée ne dit quand le bois a brûlé\u00a0: on a admis qu’il brûle ${number(p.faster, 1)} fois plus vite pendant la montée que pendant le maintien. Marquez chaque recharge avec sa masse, et ce sera connu.`,
  'assumed/air': (p) => `L’air a été pris à ${number(p.airTempC, 0)}\u00a0°C.`,
};

function start(value: string | number | undefined): string {
  if (value === 'cold') return 'à froid';
  return value === 'hot' ? 'à chaud' : 'inconnu';
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

function inputName(value: string | number | undefined): string {
  return inputNames[String(value)] ?? String(value);
}
