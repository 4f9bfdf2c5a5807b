/** En français : les dimensions d’un foyer et ses résultats. */
import type { dimensionsEn } from './dimensions.en.ts';

export const dimensionsFr: typeof dimensionsEn = {
  design: {
    title: 'Ce qui a été construit',
    sketch: 'Croquis du foyer à l’échelle',
    sketchHelp:
      'À l’échelle. Une partie est dessinée dès qu’elle a une largeur ou un diamètre et une hauteur, comme «\u202fdiamètre cheminée\u202f» et «\u202fhauteur cheminée\u202f»\u202f; comment les parties se joignent n’est pas connu.',
    nameHelp: 'Par exemple largeur foyer, hauteur foyer, diamètre cheminée, hauteur cheminée, jeu marmite.',
    heading: (p) => `${p.stove}\u202f: dimensions`,
    noAdvice: 'Simple calcul sur les dimensions saisies. Ce que cela signifie pour le feu, c’est à vous d’en juger.',
    what: 'Dimension',
    lengths: 'saisies',
    figures: 'calculées\u202f: surfaces, et l’une sur l’autre',
    change: 'changement',
    unchanged: 'pareil',
    noDimensions:
      'Aucune dimension n’a été saisie pour ces révisions. Ajoutez à la révision, à l’écran Foyers, les longueurs qui comptent.',
    against: 'Une dimension contre un résultat',
    figure: 'En abscisse',
    result: 'En ordonnée',
    noPoints: 'Aucun essai n’a les deux.',
    plot: (p) => `${p.result} selon ${p.figure}, chaque essai en un point`,
  },
};
