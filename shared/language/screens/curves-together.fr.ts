/** En français : les courbes de plusieurs essais ensemble. */
import type { curvesTogetherEn } from './curves-together.en.ts';

export const curvesTogetherFr: typeof curvesTogetherEn = {
  overlay: {
    title: 'Courbes ensemble',
    titleMany: (p) => `Courbes de ${p.count} essais ensemble`,
    aligned: {
      lit: 'Tous partent de l’allumage.',
      target: 'Tous se rejoignent à leur cible.',
      temperature: (p) => `Tous se rejoignent quand l’eau passe ${p.temp}.`,
    },
    choose: 'Choisissez deux essais ou plus dans la liste.',
    one: 'Un essai contre un autre montre ce qui s’est passé, pas lequel est meilleur\u202f: les feux changent d’un jour à l’autre.',
    asRevisions: 'Les comparer comme deux révisions',
    difference: 'écart',
    show: (p) => `Montrer ${p.title}`,
    align: 'Se rejoignent à',
    lit: 'l’allumage',
    target: 'la cible',
    temperature: 'une température',
    whichTemperature: 'Quelle température',
    below: 'Sous l’eau',
    bands: { rate: 'vitesse de chauffe', power: 'puissance', flue: 'conduit' },
    power: 'puissance vers la charge',
    powerBand: (p) => `puissance vers la charge, ${p.low} à ${p.high}`,
    styleBy: 'Un trait pour chaque',
    byGroup: 'révision',
    byBurn: 'essai',
    minutesFrom: (p) => `min depuis ${p.what}`,
    without: (p) => `${p.title} n’arrive jamais à ce moment, et n’a donc pas de place ici.`,
  },
};
