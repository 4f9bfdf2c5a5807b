/** En français : une marmite qui refroidit hors du feu, pour connaître sa perte de chaleur. */
import type { coolingEn } from './cooling.en.ts';

export const coolingFr: typeof coolingEn = {
  title: 'Comment une marmite perd sa chaleur',
  intro:
    'Laissez une marmite d’eau chaude refroidir une demi-heure, sans aucun feu. On en tire sa perte de chaleur, et de meilleures prévisions pour une autre charge\u202f: une fois par marmite, avec son couvercle, et une fois sans si vous l’utilisez ainsi.',
  steps: [
    'Mettez la marmite hors du feu, à l’abri du vent et pas sur un foyer tiède. Ne la soulevez jamais pleine et brûlante\u202f: écartez-la, ou posez-la vide et remplissez-la d’eau chaude broc par broc.',
    'Remplissez-la comme d’habitude\u202f: l’eau usuelle, les sondes dedans. De l’eau chaude, 60\u00a0°C ou plus.',
    'Couvercle comme d’habitude, mis ou ôté. N’y touchez plus pendant une demi-heure.',
  ],
  pot: 'Marmite',
  noPot: 'Décrivez d’abord la marmite, sous Foyers.',
  water: 'Eau dans la marmite',
  waterHelp: 'Pesée maintenant ou froide après, ou lue en litres\u202f: un litre fait environ un kilogramme.',
  lid: 'Couvercle',
  lidOn: 'mis',
  lidOff: 'ôté',
  air: 'Air autour de la marmite',
  airHelp: 'Vide\u202f: une sonde d’air le dit, sinon 20\u00a0°C sont supposés, à 5 près.',
  start: 'Commencer la demi-heure',
  runTitle: (p) => `Refroidissement de ${p.pot}, couvercle ${p.lid}`,
  live: 'La marmite refroidit',
  waterNow: 'eau, maintenant',
  noReading: 'Pas encore de relevé de l’eau. Une sonde d’eau est-elle branchée, et pend-elle dans la marmite\u202f?',
  progress: (p) => `${p.minutes} sur ${p.of} · baisse de ${p.fell}`,
  leaveAlone: 'Laissez marmite, couvercle et sondes tranquilles. Rien à faire tant que la barre n’est pas pleine.',
  tooLittle: (p) =>
    `Le temps est passé, mais l’eau a baissé de moins de ${p.least}\u202f: laissez refroidir jusque-là.`,
  enough: 'Cela suffit. Terminez, et voyez ce que perd la marmite.',
  finish: 'Terminer',
  tooEarly: (p) =>
    `Terminé maintenant, il n’y aurait pas de résultat\u202f: il faut ${p.minutes} et une baisse de ${p.least}.`,
  finishAll: 'Terminer quand même',
  read: 'Saisir un relevé',
  insteadOfBurn: 'Pas de feu aujourd’hui\u202f? Mesurez comment une marmite perd sa chaleur',
  measureIt: 'Mesurez-la\u202f: laissez refroidir la marmite une fois',
};
