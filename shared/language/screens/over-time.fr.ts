/** En français : un résultat dans le temps. */
import type { overTimeEn } from './over-time.en.ts';

export const overTimeFr: typeof overTimeEn = {
  level: {
    title: 'Niveau dans le temps',
    heading: (p) => `${p.stove}\u202f: niveau dans le temps`,
    intro:
      'Chaque essai contre la moyenne de sa propre révision, dans l’ordre. Bois humide, rouille ou joint neuf se voient ici.',
    result: 'Résultat',
    tooFew: 'Il faut au moins quatre essais, deux ou plus d’une révision, chacun avec sa date et ce résultat.',
    leftOut: 'Hors du graphique, car seuls de leur révision, non comptés, ou sans date ou ce résultat\u202f:',
    asTable: 'Le graphique en tableau',
    burn: 'Essai',
    day: 'Jour',
    revision: 'Révision',
    deviation: 'Écart à la moyenne',
    remark: 'Remarque',
    outside: 'hors des limites',
    run: 'parmi beaucoup d’un même côté',
    plot: (p) => `${p.result} de chaque essai, en écart à la moyenne de sa révision`,
    axisRatio: 'pour cent d’écart à la moyenne de sa révision',
    axisPoints: 'points d’écart à la moyenne de sa révision',
    limit: (p) => `limite ${p.deviation}`,
  },
};
