/** The sentences of comparisons and predictions, in French. */

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
} from './changes.fr.ts';
import type { comparisonEn } from './comparison.en.ts';

export const comparisonFr: Record<keyof typeof comparisonEn, Sentence> = {
  'name/revision': (p) => `révision ${p.label}`,

  'verdict/better': (p) =>
    `${capital(String(p.second))}\u202f: mieux que ${p.first}. ${capital(name(p))}\u202f: ${change(p)}\u202f; ${sure(p)}, ${span(p)}. Ce n’est sans doute pas le hasard.`,
  'verdict/worse': (p) =>
    `${capital(String(p.second))}\u202f: moins bien que ${p.first}. ${capital(name(p))}\u202f: ${change(p)}\u202f; ${sure(p)}, ${span(p)}. Ce n’est sans doute pas le hasard.`,
  'verdict/cannotTell': (p) =>
    `On ne peut pas encore dire si ${p.second} vaut mieux que ${p.first}. ${capital(name(p))}\u202f: ${change(p)} observé, mais tout ce qui se trouve ${span(p)} s’accorde avec ces essais (${sure(p)}).`,
  'verdict/noLimits': (p) =>
    `On ne peut pas encore dire si ${p.second} vaut mieux que ${p.first}. ${capital(name(p))}\u202f: ${change(p)} observé, mais ${noLimits(p)}.`,
  'verdict/differs': (p) =>
    `${capital(name(p))}\u202f: ${change(p)} avec ${p.second} qu’avec ${p.first} (${sure(p)}\u202f: ${span(p)})\u202f; ce n’est en soi ni mieux ni moins bien.`,
  'verdict/figures': (p) =>
    `Pas encore de verdict. ${capital(name(p))}\u202f: ${change(p)} observé avec ${p.second} qu’avec ${p.first}, mais ${p.why}`,
  'verdict/missing': (p) => `Pas de verdict (${name(p)})\u202f: ${p.why}`,

  'chosen/before': (p) => `${capital(name(p))}\u202f: choisi avant ces essais pour porter le verdict.`,
  'chosen/after': (p) =>
    `${capital(name(p))}\u202f: choisi après le premier essai pour porter le verdict\u202f; cela montre quoi essayer ensuite et ne décide de rien.`,
  'chosen/notRecorded': (p) =>
    `${capital(name(p))}\u202f: on ne sait pas quand ce résultat a été choisi pour porter le verdict. Choisi après les essais, il ne décide de rien.`,

  'look/before': (p) =>
    `Regardé avant les ${days(p.planned)} prévus (${p.daysA} de ${p.first}, ${p.daysB} de ${p.second})\u202f: jusque-là, une différence ne compte qu’au-delà de 99,9\u00a0%${sharedOut(p)}. ${
      p.decided
        ? 'Celle-ci compte\u202f: on peut s’arrêter ici.'
        : `S’arrêter maintenant, c’est rester sans verdict\u202f; il reste à faire ${moreOfEach(p)}.`
    }`,
  'look/planned': (p) =>
    `${days(p.planned)} de chaque, comme prévu\u202f: 95\u00a0% décide${sharedOut(p)}. ${
      p.decided
        ? 'On peut s’arrêter ici.'
        : 'S’arrêter maintenant laisse la question ouverte\u202f; les jours suivants sont jugés par un intervalle plus large, qui vaut à chaque regard.'
    }`,
  'look/beyond': (p) =>
    `Regardé après plus que les ${days(p.planned)} prévus\u202f: l’intervalle est le plus large, celui qui vaut à chaque regard${sharedOut(p)}. ${stopAnyDay(p)}`,
  'look/untilClear': (p) =>
    `Essayé jusqu’à ce que ce soit clair\u202f: l’intervalle est le plus large, celui qui vaut à chaque regard${sharedOut(p)}. ${stopAnyDay(p)}`,
  'look/notSaid': (p) =>
    `Personne n’a dit d’avance sur combien de jours chaque révision serait essayée\u202f: l’intervalle est le plus large, celui qui vaut à chaque regard${sharedOut(p)}. ${stopAnyDay(p)}`,
  'look/saidLate': (p) =>
    `Le nombre de jours n’a été dit qu’une fois qu’une différence pouvait se voir\u202f: l’intervalle est le plus large, celui qui vaut à chaque regard${sharedOut(p)}. ${stopAnyDay(p)}`,

  'rule/changed': (p) =>
    `Selon la règle d’avant, qui prenait chaque essai pour un jour et chaque regard pour le seul, on lisait ici «\u202f${verdictWords[String(p.former)]}\u202f». La règle a changé, pas les essais.`,

  'seen/interval': (p) => `${capital(name(p))}\u202f: ${change(p)} avec ${p.second} (${sure(p)}\u202f: ${span(p)}).`,
  'seen/noLimits': (p) => `${capital(name(p))}\u202f: ${change(p)} avec ${p.second}\u202f; ${noLimits(p)}.`,
  'seen/standsOut': (p) =>
    `${capital(name(p))}\u202f: ${change(p)} avec ${p.second} (${sure(p)}\u202f: ${span(p)}). Ressort parmi ${p.among}, même à ${confidence(p.sharedConfidence)}\u202f: cela vaut un essai à part.`,
  'seen/figures': (p) => `${capital(name(p))}\u202f: ${change(p)} avec ${p.second}, mais ${p.why}`,
  'seen/missing': (p) => `${capital(name(p))}\u202f: ${p.why}`,
  'seen/shared': (p) =>
    `Sur tant de résultats, quelques-uns diffèrent par hasard. Seul le résultat principal porte le verdict\u202f; un autre ne ressort parmi ${p.among} qu’au-delà de ${confidence(p.confidence)}, et n’en est ni mieux ni moins bien.`,

  'missing/noBurns': (p) => `aucun essai de ${p.side} n’a ce résultat.`,
  'missing/tooFewDays': (p) =>
    `il faut au moins deux jours de chaque pour savoir de combien deux jours diffèrent\u202f; jusqu’ici\u202f: ${days(p.daysA)} de ${p.first}, ${days(p.daysB)} de ${p.second}. Il reste à faire ${moreOfEach(p)}. Un deuxième essai le même jour aide moins qu’un essai un autre jour.${p.undated ? ' Les essais sans date comptent ensemble pour un jour.' : ''}`,
  'missing/ladderTooFew': (p) =>
    `pour une suite de révisions, les jours de toutes ensemble, moins un par révision, doivent être au moins trois\u202f; il y en a ${p.freedom}. Essayez l’une d’elles un jour de plus.`,
  'missing/notPositive': () => 'une valeur nulle ou négative ne peut pas être comparée par son rapport.',
  'missing/noSpread': () =>
    'les valeurs sont égales jusqu’au dernier chiffre et leur incertitude est inconnue\u202f; on ne peut pas dire si une différence est sûre.',
  'missing/tooWide': () =>
    'les essais diffèrent tant qu’aucun intervalle ne peut être donné. Cherchez une saisie fausse parmi eux.',
  'missing/tooFewForRanks': (p) =>
    `un maximum se compare par les rangs, et ${days(p.a)} contre ${days(p.b)} n’y suffisent pas.`,

  'aside/byPerson': (p) => (p.reason ? `Non compté\u202f: ${p.reason}` : 'Non compté, sans raison donnée.'),
  'aside/notBurnt': () => 'Prévu, pas encore fait.',
  'aside/stillRunning': () => 'Encore en cours.',
  'aside/otherStartKind': (p) =>
    `Départ ${start(p.own)}, les autres ${start(p.wanted)}\u202f: on ne compare jamais un départ à froid à un départ à chaud.`,
  'aside/otherTarget': (p) => `Autre cible (${target(p.own)}\u202f; les autres\u202f: ${target(p.wanted)}).`,
  'aside/otherHold': (p) =>
    `Autre maintien (${showDuration('fr', Number(p.own))}\u202f; les autres\u202f: ${showDuration('fr', Number(p.wanted))}).`,
  'aside/otherMethod': (p) => `Calculé par une autre méthode (${p.own}\u202f; les autres\u202f: ${p.wanted}).`,
  'aside/noTimeToTarget': () => 'N’a pas atteint sa cible, ou nul ne sait quand il a été allumé.',
  'aside/noWaterMass': () => 'L’eau n’a pas été pesée avant l’essai.',
  'aside/noCurve': () => 'N’a pas de courbe de l’eau utilisable jusqu’à la cible.',
  'aside/noHeat': () => 'La courbe ne montre aucune chaleur entrant dans l’eau.',
  'aside/coolingRun': () => 'Un refroidissement\u202f: rien n’a brûlé.',
  'aside/otherVessel': () => 'Fait avec une autre marmite que les autres.',

  'remark/lackResult': (p) =>
    `${burns(p.count)} sans ce résultat, non ${Number(p.count) === 1 ? 'compté' : 'comptés'}.`,
  'remark/adjusted': () =>
    'La charge, la température de départ ou l’air différaient\u202f; les valeurs ont été ramenées à des conditions communes par le bilan d’énergie. Les chiffres bruts sont à côté.',
  'remark/burnsOfOneDay': () =>
    'Les essais d’un même jour comptent pour un jour\u202f: ils en partagent le temps et le bois.',
  'remark/undated': () => 'Les essais sans date comptent ensemble pour un jour.',
  'remark/noLotShared': () =>
    'Le bois et le foyer ont changé ensemble\u202f: l’intervalle repose sur l’incertitude déclarée des lots.',
  'remark/blocksIncomplete': () =>
    'Moins de deux blocs contiennent des essais des deux\u202f; on les a comparés comme deux groupes.',
  'remark/maximum': () => 'Un maximum, comparé par les rangs.',
  'remark/scatterBelowInstruments': () =>
    'Les valeurs sont égales jusqu’au dernier chiffre\u202f; la dispersion a été prise des seuls instruments.',

  'differed/operator': (p) => `Opérateur\u202f: ${p.a}\u202f; puis ${p.b}.`,
  'differed/fuelLot': (p) => `Lot de bois\u202f: ${p.a}\u202f; puis ${p.b}.`,
  'differed/sameName': (p) => `${thingNames[String(p.kind)] ?? ''}\u202f: deux du même nom, ${p.name}.`,
  'differed/vessel': (p) => `Marmite\u202f: ${p.a}\u202f; puis ${p.b}.`,
  'differed/place': (p) => `Lieu\u202f: ${p.a}\u202f; puis ${p.b}.`,
  'differed/scale': (p) => `Balance\u202f: ${p.a}\u202f; puis ${p.b}.`,
  'differed/weather': (p) => `Temps noté\u202f: ${p.a}\u202f; puis ${p.b}.`,
  'differed/order': (p) =>
    `Tous les essais de ${p.first} ont précédé ceux de ${p.second}\u202f: tout ce qui change avec le temps (saison, bois, savoir-faire) ressemble alors à la révision. Alternez-les d’un jour à l’autre, ou essayez les deux le même jour.`,
  'differed/load': (p) => `Charge\u202f: ${number(p.a, 1)}\u00a0kg\u202f; puis ${number(p.b, 1)}\u00a0kg (moyennes).`,
  'differed/rise': (p) =>
    `Montée jusqu’à la cible\u202f: ${number(p.a, 1)}\u00a0K\u202f; puis ${number(p.b, 1)}\u00a0K (moyennes).`,
  'differed/air': (p) => `Air\u202f: ${number(p.a, 0)}\u00a0°C\u202f; puis ${number(p.b, 0)}\u00a0°C (moyennes).`,
  'differed/moisture': (p) =>
    `Humidité du bois, base humide\u202f: ${percent(p.a)}\u202f; puis ${percent(p.b)} (moyennes).`,
  'differed/wind': (p) =>
    `Vent noté de 0 à 3\u202f: ${number(p.a, 1)}\u202f; puis ${number(p.b, 1)} (moyennes des plus forts).`,

  'plan/furtherDays': (p) =>
    `Pour trouver quatre fois sur cinq une différence de ${percent(p.worth)}, il faut environ ${moreDays(p.likely)} de chaque, de ${p.low} à ${p.high}, avec la dispersion observée.`,
  'plan/furtherDaysOpen': (p) =>
    `Pour trouver quatre fois sur cinq une différence de ${percent(p.worth)}, il faut ${moreDays(p.low)} de chaque, ou bien davantage\u202f: la dispersion est encore mal connue.`,
  'plan/enough': (p) => `Ces jours suffisent pour trouver quatre fois sur cinq une différence de ${percent(p.worth)}.`,
  'plan/perhapsEnough': (p) =>
    `Ces jours suffisent sans doute pour trouver quatre fois sur cinq une différence de ${percent(p.worth)}\u202f; si leur dispersion est plus grande qu’il n’y paraît, il en faut jusqu’à ${p.high} de plus de chaque.`,
  'plan/noNumber': (p) =>
    `Aucun nombre de jours ne fera trouver une différence de ${percent(p.worth)}\u202f: ce qui ne s’annule pas entre les révisions (${inputName(p.input)}) est trop incertain. Mesurez-le mieux, ou gardez-le commun aux révisions.`,
  'plan/noNumberForScatter': (p) =>
    `Même deux cents jours de plus ne feront pas trouver une différence de ${percent(p.worth)}\u202f: ces jours diffèrent trop entre eux. Cherchez une saisie fausse, ou une conduite plus régulière.`,
  'plan/improveScatter': (p) =>
    `La plus grande part de l’incertitude (${percent(p.share)}) est la dispersion d’un jour à l’autre\u202f: davantage de jours et une conduite plus régulière aident, de meilleurs instruments non.`,
  'plan/improveInput': (p) =>
    `À améliorer d’abord\u202f: ${inputName(p.input)}. De là vient ${percent(p.share)} de l’incertitude, car cela ne s’annule pas entre les révisions.`,

  'drift/steady': (p) => `${capital(name(p))}\u202f: dans les limites d’un essai à l’autre.`,
  'drift/outside': (p) =>
    `${capital(name(p))}\u202f: ${burns(p.count)} hors des limites. Quelque chose a changé\u202f: bois humide, joint, rouille, vent, pesée.`,
  'drift/run': (p) =>
    `${capital(name(p))}\u202f: huit essais ou plus du même côté de la moyenne. Le niveau a glissé\u202f: cherchez ce qui change lentement.`,

  'predict/noBurns': () => 'Aucun de ces essais ne peut servir à prévoir.',
  'predict/neverReached': () => 'Avec cette charge, les pertes rattrapent le feu avant la cible.',
  'predict/noWood': () => 'Le bois de ces essais n’est pas connu.',
  'predict/holdNotAsked': () => 'Aucun maintien n’a été demandé.',
  'predict/noHold': () => 'Aucun de ces essais n’a tenu sa cible assez longtemps pour dire le bois d’un maintien.',
  'predict/supported': (p) =>
    `${burns(p.count)} de ce foyer ${Number(p.count) === 1 ? 'répond' : 'répondent'} à cette question\u202f; l’intervalle vaut pour un nouvel essai, avec tout ce qui distingue un essai du suivant.`,
  'outside/revisions': () =>
    'Ces essais sont de révisions différentes\u202f: ce qui est prévu ne vaut pour aucune d’elles.',
  'outside/load': (p) =>
    `La charge (autant de chaleur par kelvin que ${number(p.asked, 0)}\u00a0kg d’eau) est loin de celles qui ont été chauffées (${number(p.least, 0)} à ${number(p.most, 0)}\u00a0kg).`,
  'outside/target': (p) =>
    `La cible (${number(p.asked, 0)}\u00a0°C) dépasse tout ce que ces essais ont atteint (${number(p.hottest, 0)}\u00a0°C).`,
  'outside/lid': () =>
    'Le couvercle est employé autrement que dans ces essais, et aucun refroidissement n’a été mesuré ainsi. Laissez une fois la marmite refroidir 30 minutes hors du feu, le couvercle comme demandé.',
  'outside/vessel': () => 'C’est une autre marmite que dans ces essais.',
  'outside/startKind': (p) => `Un départ ${start(p.asked)} est demandé\u202f; ces essais sont partis autrement.`,
  'outside/moisture': (p) =>
    `Le bois (${percent(p.asked)}, base humide) sort de ce qui a été brûlé (${percent(p.driest)} à ${percent(p.wettest)})\u202f; un bois humide brûle moins bien que ne le dit son pouvoir calorifique.`,
  'outside/holdTarget': (p) => `Aucun essai n’a tenu ${number(p.asked, 0)}\u00a0°C.`,
  'assumed/scatter': (p) =>
    `Avec ${burns(p.count)}, on a admis d’un essai à l’autre une différence voisine de ${percent(p.scatter)} (usage courant). Trois essais ou plus parlent d’eux-mêmes.`,
  'assumed/loss': (p) =>
    `Ce que la marmite perd dans l’air a été tiré de sa taille, à ${percent(p.relative)} près. Laissez-la refroidir une fois 30 minutes hors du feu, et c’est mesuré.`,
  'assumed/lossMeasured': (p) =>
    `Ce que la marmite perd dans l’air a été mesuré en la laissant refroidir\u202f: ${number(p.factor, 2)} fois ce que sa taille suggère.`,
  'assumed/pace': (p) =>
    `Aucune recharge pesée ne dit quand le bois a brûlé\u202f: on a admis qu’il brûle ${number(p.faster, 1)} fois plus vite pendant la montée que pendant le maintien. Marquez chaque recharge avec sa masse, et ce sera connu.`,
  'assumed/air': (p) => `L’air a été pris à ${number(p.airTempC, 0)}\u00a0°C.`,
};

function start(value: string | number | undefined): string {
  if (value === 'cold') return 'à froid';
  return value === 'hot' ? 'à chaud' : 'inconnu';
}

function target(value: string | number | undefined): string {
  return value === 'boil' ? 'l’ébullition' : `${value}\u00a0°C`;
}

const verdictWords: Readonly<Record<string, string>> = {
  better: 'mieux',
  worse: 'moins bien',
  cannotTell: 'on ne peut pas encore dire',
};

/** Kinds of things that two revisions may have had in common. */
export const thingNames: Readonly<Record<string, string>> = {
  operator: 'Opérateur',
  fuelLot: 'Lot de bois',
  scale: 'Balance',
  vessel: 'Marmite',
  place: 'Lieu',
};

function sharedOut(p: Params): string {
  return Number(p.steps) > 1 ? `, à répartir entre les ${p.steps} étapes de ce foyer` : '';
}

function stopAnyDay(p: Params): string {
  return p.decided
    ? 'On peut s’arrêter ici.'
    : 'S’arrêter maintenant laisse la question ouverte\u202f; on peut s’arrêter n’importe quel jour.';
}

function moreOfEach(p: Params): string {
  return [
    [p.moreA, p.first],
    [p.moreB, p.second],
  ]
    .filter(([count]) => Number(count) > 0)
    .map(([count, side]) => `${moreDays(count)} de ${side}`)
    .join(' et ');
}
