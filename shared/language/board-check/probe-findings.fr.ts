/** Findings of a board check about probes, and what to do, in French. Temperatures °C, masses kg. */
import type { FaultCode } from '../../contract/burn-record.ts';
import { type Params, writeNumber } from '../language.ts';
import type { FindingWords, ProbeFindingCode } from './finding-words.ts';

type Value = Params[string] | undefined;
const number = (value: Value, decimals: number) => writeNumber('fr', Number(value), decimals);
const degrees = (value: Value) => `${number(value, 1)}\u00a0°C`;
const kelvins = (value: Value) => `${number(value, 1)}\u00a0K`;
const kg = (value: Value) => `${number(value, 3)}\u00a0kg`;
const seconds = (value: Value) => `${number(value, 0)}\u00a0s`;

function reading(value: Value, unit: Value): string {
  if (unit === 'Cel') return degrees(value);
  if (unit === 'kg') return kg(value);
  if (unit === 'Pa') return `${number(value, 0)}\u00a0Pa`;
  return unit === '%' ? `${number(value, 1)}\u00a0%` : String(value);
}

function step(value: Value, unit: Value): string {
  return unit === 'Cel' ? `${number(value, 2)}\u00a0K` : reading(value, unit);
}

const faults: Readonly<Record<FaultCode, string>> = {
  open: 'ouverte, rompue ou non branchée',
  shortToGround: 'en court-circuit avec la masse',
  shortToSupply: 'en court-circuit avec l’alimentation',
  outOfRange: 'hors de sa plage',
  noAnswer: 'son circuit ne répond pas',
  unreadable: 'illisible',
};
const fault = (p: Params) => faults[p.fault as FaultCode];

const probe = (p: Params) => `La sonde ${p.number} (${p.label})`;

const toCelsius = 'Que le micrologiciel envoie des degrés Celsius\u202f:';
const intoTheBath = 'Était-ce bien cette sonde\u202f? Plongez-la d’abord, puis recommencez l’essai.';
const farOff =
  'Plus de 5\u00a0K trahissent un mauvais type de sonde, une soudure froide oubliée ou une mauvaise jonction, et ne s’étalonnent pas.';

export const probeFindingsFr: Readonly<Record<ProbeFindingCode, FindingWords>> = {
  'probe/reads': { sentence: (p) => `${probe(p)} indique ${reading(p.value, p.unit)}.` },
  'probe/fault': {
    sentence: (p) => `${probe(p)} ne donne rien\u202f: ${fault(p)}.`,
    help: () => 'Remettez-la sur ses bornes et serrez-les. Des bornes où rien ne pend peuvent rester ainsi.',
  },
  'probe/fault-comes-and-goes': {
    sentence: (p) => `${probe(p)} n’a rien donné dans ${p.count} des ${p.of} derniers relevés\u202f: ${fault(p)}.`,
    help: () => 'Le plus souvent un fil lâche\u202f: serrez ses bornes, puis bougez son câble en regardant.',
  },
  'probe/no-temperature': {
    sentence: (p) => `${probe(p)} envoie des nombres en ${p.unit} dont aucune température ne se déduit.`,
    help: () =>
      'Une tension demande le type du thermocouple et une soudure froide qui se lit, une résistance le genre de la sonde. Que le micrologiciel les nomme dans la ligne de cette voie, ou choisissez le genre de sonde sous Sondes.',
  },
  'probe/impossible': {
    sentence: (p) => `${probe(p)} indique ${reading(p.value, p.unit)}, ce que rien n’atteint près d’un foyer.`,
    help: () =>
      'Voyez l’échelle et l’unité dans la ligne de cette voie. Si le circuit est en panne, le micrologiciel doit envoyer un défaut et non un nombre.',
  },
  'probe/stands-for-none': {
    sentence: (p) =>
      `${probe(p)} envoie toujours ${reading(p.value, p.unit)}, le nombre par lequel bien des circuits et programmes disent qu’il n’y a rien.`,
    help: () => 'Voyez les fils de son circuit, et que le micrologiciel envoie un défaut au lieu de ce nombre.',
  },
  'probe/still': {
    sentence: (p) => `${probe(p)} indique exactement ${reading(p.value, p.unit)} depuis ${seconds(p.seconds)}.`,
    help: () =>
      'Une sonde au repos peut le faire, une sonde morte le fait. Prenez-la en main\u202f: elle doit chauffer.',
  },
  'probe/noisy': {
    sentence: (p) =>
      `${probe(p)} oscille de ${step(p.noise, p.unit)}\u202f; jusqu’à ${step(p.limit, p.unit)} est courant.`,
    help: () =>
      'Éloignez son câble du secteur, des ventilateurs et des allumeurs, torsadez ses deux fils, serrez les bornes. Le micrologiciel peut envoyer la moyenne de plusieurs lectures.',
  },
  'probe/pressure-unit': {
    sentence: (p) =>
      `${probe(p)} indique ${reading(p.value, p.unit)}\u202f; en ${p.named} ce serait la pression de l’air.`,
    help: (p) => `Que le micrologiciel nomme l’unité ${p.named}, ou envoie des pascals.`,
  },
  'probe/looks-fahrenheit': {
    sentence: (p) =>
      `${probe(p)} indique ${degrees(p.tempC)} et ses voisines ${degrees(p.othersC)}, soit la même température en Fahrenheit.`,
    help: () => `Si elle est posée près des autres, ses nombres sont des Fahrenheit. ${toCelsius} (F − 32) / 1,8.`,
  },
  'probe/looks-kelvin': {
    sentence: (p) =>
      `${probe(p)} indique ${degrees(p.tempC)} et ses voisines ${degrees(p.othersC)}, soit la même température en kelvins.`,
    help: () => `Si elle est posée près des autres, ses nombres sont des kelvins. ${toCelsius} K − 273,15.`,
  },
  'probe/hand-passed': {
    sentence: (p) =>
      `${probe(p)} s’est réchauffée de ${kelvins(p.riseK)} dans la main\u202f: elle vit et elle est dans le bon sens.`,
  },
  'probe/hand-falls': {
    sentence: (p) =>
      `${probe(p)} a baissé de ${kelvins(p.fallK)} dans une main chaude\u202f: ses deux fils sont inversés.`,
    help: () =>
      'Inversez les deux fils à ses bornes et recommencez l’essai. Les couleurs du plus et du moins changent d’une norme à l’autre\u202f: c’est l’essai qui tranche.',
  },
  'probe/hand-nothing': {
    sentence: (p) => `${probe(p)} ne s’est pas réchauffée dans la main en ${seconds(p.seconds)}.`,
    help: () =>
      'Était-ce bien cette sonde, et une main nue\u202f? Alors elle n’est pas sur ces bornes, ou la carte répète un ancien nombre.',
  },
  'probe/hand-too-warm': {
    sentence: (p) => `${probe(p)} était déjà à ${degrees(p.tempC)}, à peu près comme une main.`,
    help: () => 'Laissez-la refroidir et recommencez, ou essayez-la dans la glace.',
  },
  'probe/press-passed': { sentence: (p) => `${probe(p)} a indiqué ${kg(p.kg)} de plus quand on a appuyé.` },
  'probe/press-falls': {
    sentence: (p) => `${probe(p)} a indiqué ${kg(p.kg)} de moins quand on a appuyé\u202f: elle compte à l’envers.`,
    help: () =>
      'Inversez les deux fils de signal de la cellule, ou retournez-la\u202f: sa flèche doit pointer vers le bas.',
  },
  'probe/press-nothing': {
    sentence: (p) => `${probe(p)} n’a pas changé quand on a appuyé, en ${seconds(p.seconds)}.`,
    help: () =>
      'Était-ce bien cette balance\u202f? Alors voyez les quatre fils de la cellule et ce sur quoi elle repose.',
  },
  'probe/pull-passed': {
    sentence: (p) => `${probe(p)} débranchée\u202f: la carte l’a dit (${fault(p)}).`,
  },
  'probe/pull-number': {
    sentence: (p) =>
      `${probe(p)} débranchée\u202f: la carte a envoyé ${reading(p.found, p.unit)} comme si c’était une mesure.`,
    help: () =>
      'Un essai enregistrerait ce nombre. Que le micrologiciel regarde les bits de défaut du circuit, ou les nombres qu’aucune sonde ne donne, et envoie un défaut.',
  },
  'probe/pull-unseen': {
    sentence: (p) => `${probe(p)} débranchée\u202f: la carte a continué d’envoyer ${reading(p.found, p.unit)}.`,
    help: () =>
      'Était-ce bien cette sonde\u202f? Alors la carte répète un ancien nombre, ou son entrée flotte. Que le micrologiciel regarde les bits de défaut du circuit et envoie un défaut.',
  },
  'probe/ice-passed': {
    sentence: (p) =>
      `${probe(p)} indique ${degrees(p.tempC)} dans la glace\u202f; jusqu’à ${kelvins(p.allowedK)} d’écart est normal pour elle.`,
  },
  'probe/ice-off': {
    sentence: (p) =>
      `${probe(p)} indique ${degrees(p.tempC)} dans la glace, un écart de ${kelvins(p.offK)}\u202f; jusqu’à ${kelvins(p.allowedK)} est normal pour elle.`,
    help: () => `Remuez, ajoutez de la glace pilée, recommencez l’essai. Si l’écart reste, étalonnez-la. ${farOff}`,
  },
  'probe/ice-not-steady': {
    sentence: (p) =>
      `${probe(p)} ne s’est pas stabilisée dans la glace\u202f: elle bougeait encore de ${kelvins(p.driftK)}.`,
    help: () => 'Pilez la glace, n’ajoutez qu’un peu d’eau, remuez, tenez la pointe au milieu, recommencez.',
  },
  'probe/ice-not-entered': {
    sentence: (p) => `${probe(p)} est restée à ${degrees(p.tempC)}, comme si elle n’était pas dans la glace.`,
    help: () => intoTheBath,
  },
  'probe/boil-passed': {
    sentence: (p) =>
      `${probe(p)} indique ${degrees(p.tempC)} dans l’eau bouillante, qui est à ${degrees(p.truthC)} ici\u202f; jusqu’à ${kelvins(p.allowedK)} d’écart est normal pour elle.`,
  },
  'probe/boil-off': {
    sentence: (p) =>
      `${probe(p)} indique ${degrees(p.tempC)} dans l’eau bouillante, qui est à ${degrees(p.truthC)} ici\u202f: un écart de ${kelvins(p.offK)}\u202f; jusqu’à ${kelvins(p.allowedK)} est normal pour elle.`,
    help: () =>
      `L’eau bouillait-elle fort, et la pression ou l’altitude du lieu est-elle juste\u202f? Si l’écart reste, étalonnez-la. ${farOff}`,
  },
  'probe/boil-not-steady': {
    sentence: (p) =>
      `${probe(p)} ne s’est pas stabilisée dans l’eau bouillante\u202f: elle bougeait encore de ${kelvins(p.driftK)}.`,
    help: () => 'Amenez l’eau à franche ébullition, tenez la pointe loin de la paroi et du fond, recommencez.',
  },
  'probe/boil-not-entered': {
    sentence: (p) => `${probe(p)} est restée à ${degrees(p.tempC)}, comme si elle n’était pas dans l’eau bouillante.`,
    help: () => intoTheBath,
  },
  'probe/boil-no-place': {
    sentence: (p) =>
      `${probe(p)} indique ${degrees(p.tempC)} dans l’eau bouillante. On ignore où l’eau bout ici, et donc si c’est juste.`,
    help: () => 'Entrez la pression de l’air ou l’altitude d’un lieu sous Foyers, puis recommencez l’essai.',
  },
  'probe/reads-fahrenheit': {
    sentence: (p) =>
      `${probe(p)} indique ${number(p.tempC, 1)} là où ${degrees(p.truthC)} est juste\u202f: ses nombres sont des Fahrenheit.`,
    help: () => `${toCelsius} (F − 32) / 1,8.`,
  },
  'probe/reads-kelvin': {
    sentence: (p) =>
      `${probe(p)} indique ${number(p.tempC, 1)} là où ${degrees(p.truthC)} est juste\u202f: ses nombres sont des kelvins.`,
    help: () => `${toCelsius} K − 273,15.`,
  },
  'probe/other-moved': {
    sentence: (p) => `${probe(p)} n’a pas changé, mais la sonde ${p.otherNumber} (${p.other}) oui.`,
    help: () =>
      'Aviez-vous la bonne\u202f? Alors les deux sont interverties\u202f: échangez leurs fils, ou leurs noms. Puis recommencez.',
  },
  'probe/stopped': {
    sentence: (p) =>
      `La carte n’a rien envoyé depuis ${seconds(p.seconds)}, pendant l’essai de la sonde ${p.number} (${p.label}).`,
    help: () =>
      'Si elle s’est tue quand la sonde est partie, son micrologiciel attend un circuit absent\u202f: il doit envoyer un défaut et continuer. Sinon voyez son câble et appuyez sur son bouton de remise à zéro.',
  },
  'probe/test-without-reading': {
    sentence: (p) =>
      `${probe(p)} n’a pas pu être essayée\u202f: elle ne donne rien${p.fault === undefined ? '' : ` (${fault(p)})`}.`,
    help: () => 'Remettez-la d’abord sur ses bornes, puis recommencez l’essai.',
  },
};
