/** Findings of a board check about the board as a whole and its channels, and what to do, in French. */
import { type Params, writeNumber } from '../language.ts';
import type { BoardFindingCode, FindingWords } from './finding-words.ts';

const number = (value: Params[string] | undefined, decimals: number) => writeNumber('fr', Number(value), decimals);
const channel = (p: Params) => `La voie ${p.number}${p.label === undefined ? '' : ` (${p.label})`}`;
const useUnit = (p: Params) => `Écrivez unit=${p.expected} dans sa ligne channel et envoyez-y les lectures.`;
const useJunction = (p: Params) => `Nommez la voie qui mesure la température des bornes\u202f: ${p.expected}.`;

/** @param ratio milliseconds of the board's clock that go by in one millisecond */
function clockWords(ratio: number): string {
  if (ratio === 0) return 'est arrêté';
  if (ratio < 0) return 'va à reculons';
  if (ratio > 500 && ratio < 2000) return 'compte des microsecondes';
  if (ratio > 0.0005 && ratio < 0.002) return 'compte des secondes';
  return ratio > 1 ? `va ${number(ratio, 1)} fois trop vite` : `va ${number(1 / ratio, 1)} fois trop lentement`;
}

export const boardFindingsFr: Readonly<Record<BoardFindingCode, FindingWords>> = {
  'channel/line-missing': {
    sentence: (p) => `${channel(p)} n’a pas de ligne channel\u202f; hello annonce ${p.count} voies.`,
    help: () =>
      'Après hello, envoyez une ligne channel pour chacune, à partir de index=1\u202f; ou annoncez moins de voies.',
  },
  'channel/line-too-many': {
    sentence: (p) => `${channel(p)} est décrite, mais hello n’annonce que ${p.count} voies.`,
    help: () => 'Comptez chaque voie dans channels= de hello, et envoyez une lecture pour chacune.',
  },
  'channel/unit-coulomb': {
    sentence: (p) =>
      `${channel(p)} dit unit=${p.found}\u202f: en UCUM, c’est le coulomb, une charge électrique. Elle ne passe pas pour des degrés.`,
    help: useUnit,
  },
  'channel/unit-farad': {
    sentence: (p) =>
      `${channel(p)} dit unit=${p.found}\u202f: en UCUM, c’est le farad, une capacité électrique. Elle ne passe pas pour des degrés.`,
    help: (p) => `${useUnit(p)} Depuis Fahrenheit\u202f: (F - 32) / 1,8.`,
  },
  'channel/unit-misspelt': {
    sentence: (p) => `${channel(p)} dit unit=${p.found}, qui n’est pas connue ici. Elle ne passe pour aucune grandeur.`,
    help: (p) => `${useUnit(p)} Les unités sont des codes UCUM, et les majuscules comptent.`,
  },
  'channel/unit-unknown': {
    sentence: (p) => `${channel(p)} dit unit=${p.found}, qui n’est pas connue ici. Elle ne passe pour aucune grandeur.`,
    help: (p) => `Sont connues\u202f: ${p.expected}. Envoyez la lecture dans l’une d’elles, ou 1 pour un nombre nu.`,
  },
  'channel/unit-of-other-quantity': {
    sentence: (p) => `${channel(p)} dit unit=${p.found}, qui ne va pas avec sa grandeur.`,
    help: (p) => `Écrivez unit=${p.expected}, ou nommez la grandeur mesurée.`,
  },
  'channel/cold-junction-missing': {
    sentence: (p) =>
      `${channel(p)} nomme ${p.found} comme soudure froide, et cette voie n’existe pas. Elle ne donne pas de température.`,
    help: useJunction,
  },
  'channel/cold-junction-itself': {
    sentence: (p) => `${channel(p)} se nomme elle-même comme soudure froide. Elle ne donne pas de température.`,
    help: useJunction,
  },
  'channel/cold-junction-no-temperature': {
    sentence: (p) => `${channel(p)} nomme ${p.found} comme soudure froide, qui n’est pas une température.`,
    help: useJunction,
  },
  'channel/form-and-unit': {
    sentence: (p) => `${channel(p)} est une tension de thermocouple, mais son unité est ${p.found}.`,
    help: (p) =>
      `Écrivez unit=${p.expected}, l’échelle en microvolts par pas\u202f; ou form=value si c’est déjà une température.`,
  },
  'channel/label-twice': {
    sentence: (p) => `${channel(p)} porte l’étiquette d’une autre voie.`,
    help: (p) => `À l’écran on ne les distingue pas\u202f: par exemple ${p.expected}.`,
  },
  'board/prints-numbers': {
    sentence: (p) => `Cette carte écrit des nombres en colonnes (${p.columns}), pas le protocole\u202f: ${p.line}`,
    help: () =>
      'Raccordez-la comme carte simple et dites quelle colonne est laquelle. Ce qui se perd en route ne se remarque alors pas.',
  },
  'board/prints-text': {
    sentence: (p) =>
      `Cette carte écrit du texte étranger au protocole${p.line === undefined ? '' : `\u202f: ${p.line}`}`,
    help: () =>
      'A-t-elle le bon programme\u202f? Installez-lui le micrologiciel, ou écrivez les lignes comme le dit la page du protocole.',
  },
  'board/silent': {
    sentence: (p) => `${p.path} est ouvert, mais la carte ne dit rien.`,
    help: (p) =>
      `Son programme tourne-t-il, son fil d’émission est-il branché, sa vitesse est-elle ${p.baudRate}\u202f? Appuyez sur son bouton de réinitialisation.`,
  },
  'board/wrong-speed': {
    sentence: (p) =>
      `Il vient des octets qui ne sont pas du texte, comme à une mauvaise vitesse\u202f; elle est réglée sur ${p.baudRate}.`,
    help: () => 'Recommencez avec la vitesse du micrologiciel (--baud 9600, 57600, 115200 …).',
  },
  'board/lines-good': { sentence: (p) => `Toutes les lignes sont bonnes (${p.count}).` },
  'board/described': { sentence: (p) => `Elle se décrit, elle et ses ${p.count} voies.` },
  'board/no-answer': {
    sentence: () => 'La carte envoie, mais ne répond à aucune commande.',
    help: () =>
      'Le fil de l’ordinateur vers la carte est-il branché, le micrologiciel lit-il son entrée\u202f? Sans cela, les relevés perdus ne peuvent être redemandés.',
  },
  'board/no-ok': {
    sentence: () => 'La carte se décrit quand on le demande, mais ne dit jamais «\u202fok describe\u202f».',
    help: () =>
      'Terminez la description par la ligne ok describe\u202f; l’ordinateur redemande jusqu’à ce qu’elle vienne.',
  },
  'board/no-scans': {
    sentence: (p) => `La carte s’est décrite, mais n’a pas envoyé de relevé depuis ${number(p.seconds, 0)}\u00a0s.`,
    help: () =>
      'Envoyez-en à période régulière, que quelqu’un écoute ou non\u202f; pour une sonde qui ne répond pas, nommez un défaut au lieu de l’attendre.',
  },
  'board/period-kept': {
    sentence: (p) =>
      `Elle fait un relevé toutes les ${number(p.measuredMs, 0)}\u00a0ms comme annoncé, à ${number(p.jitterMs, 0)}\u00a0ms près.`,
  },
  'board/period-differs': {
    sentence: (p) =>
      `Elle fait un relevé toutes les ${number(p.measuredMs, 0)}\u00a0ms et annonce ${number(p.statedMs, 0)}\u00a0ms.`,
    help: () =>
      'Le suivant = le dernier + la période, pas maintenant + la période\u202f; et annoncez la période tenue.',
  },
  'board/jitter': {
    sentence: (p) =>
      `Les relevés viennent irrégulièrement\u202f: toutes les ${number(p.measuredMs, 0)}\u00a0ms, à ${number(p.jitterMs, 0)}\u00a0ms près.`,
    help: () =>
      'Comptez le moment suivant depuis le dernier prévu, et n’attendez pas une sonde lente. Les temps restent justes tant que UPTIME est celui de la lecture.',
  },
  'board/clock-good': { sentence: (p) => `Son horloge va à ${number(p.ratio, 3)} du temps réel.` },
  'board/clock-off': {
    sentence: (p) => `Son horloge va à ${number(p.ratio, 3)} du temps réel, plus loin qu’un résonateur bon marché.`,
    help: () => 'Voyez le compteur\u202f: son diviseur, ou des millisecondes perdues interruptions coupées.',
  },
  'board/clock-wrong': {
    sentence: (p) => `Son uptime ${clockWords(Number(p.ratio))}.`,
    help: () => 'UPTIME compte les millisecondes depuis le démarrage, prises au moment de lire les voies.',
  },
  'board/numbering-good': { sentence: (p) => `Ses relevés sont numérotés sans lacune (${p.count}).` },
  'board/numbers-skipped': {
    sentence: (p) => `${p.count} numéros de relevé ont été sautés sans qu’une ligne ait été refusée.`,
    help: () =>
      'Augmentez le numéro de 1 par relevé. Un relevé qui n’a pu partir prend son numéro et repart quand on le demande.',
  },
  'board/numbers-repeated': {
    sentence: (p) => `Un relevé est venu avec un numéro déjà employé (${p.count} fois).`,
    help: () => 'Augmentez SEQUENCE de 1 par relevé. Ce qui est envoyé de nouveau s’appelle again, pas scan.',
  },
  'board/first-number-not-zero': {
    sentence: (p) => `Après un démarrage, son premier relevé portait le numéro ${p.found}.`,
    help: () =>
      'Commencez par 0 à chaque démarrage\u202f: l’ordinateur tient ce qui est en dessous pour des relevés perdus.',
  },
  'board/resends': {
    sentence: (p) => `Elle renvoie un ancien relevé tel quel\u202f; elle garde ses ${p.depth} derniers.`,
  },
  'board/resends-nothing': {
    sentence: () => 'Elle ne garde pas de relevés à renvoyer (depth=0).',
    help: () => 'Ce qui se perd en route reste perdu. Une carte de 2\u00a0Ko peut garder cent relevés de quatre voies.',
  },
  'board/resend-unanswered': {
    sentence: (p) =>
      `Priée de renvoyer le relevé ${p.sequence}, elle qui en garde ${p.depth} ne l’a pas fait (${p.found}).`,
    help: () => 'Répondez ok resend oldest=N, puis envoyez les relevés en lignes again\u202f; ou annoncez depth=0.',
  },
  'board/resend-differs': {
    sentence: (p) => `Le relevé ${p.sequence} est revenu autrement\u202f: ${p.found} au lieu de ${p.expected}.`,
    help: () => 'Gardez boot, uptime et lectures de chaque relevé, et renvoyez les mêmes.',
  },
  'board/reset-loop': {
    sentence: (p) => `La carte redémarre sans cesse\u202f: ${p.count} fois, toutes les ${number(p.seconds, 1)}\u00a0s.`,
    help: () =>
      'Un chien de garde que rien ne relance, une alimentation qui s’effondre quand la lampe ou la radio s’allume, ou une mémoire pleine.',
  },
  'board/restarts': {
    sentence: (p) => `La carte a redémarré d’elle-même (${p.count} fois).`,
    help: () => 'Si vous avez appuyé sur son bouton, tout va bien. Sinon\u202f: alimentation, chien de garde, mémoire.',
  },
  'board/boot-changes': { sentence: () => 'Elle a un autre numéro de démarrage à chaque fois.' },
  'board/boot-unchanged': {
    sentence: () => 'Elle a redémarré avec le même numéro de démarrage.',
    help: () =>
      'Augmentez un compteur en EEPROM ou en flash à chaque démarrage, ou tirez 32 bits au hasard\u202f: sinon les relevés de deux démarrages se mêlent.',
  },
  'board/identity-kept': { sentence: () => 'Elle garde son identité quand son port est rouvert.' },
  'board/identity-not-kept': {
    sentence: () => 'Elle ne peut pas garder d’identité.',
    help: () => 'Elle est connue par son port\u202f: branchée ailleurs, elle compte pour une autre.',
  },
  'board/identity-forgotten': {
    sentence: (p) => `Elle a pris une identité et l’avait oubliée quand son port a été rouvert (${p.found}).`,
    help: () => 'Écrivez-la en EEPROM ou en flash, ou répondez no identity not-supported.',
  },
};
