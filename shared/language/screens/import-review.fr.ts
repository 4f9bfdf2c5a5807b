/** Ce qu'un fichier à l'entrée laisse ouvert, pour la personne qui le regarde : en français. */
import type { importReviewEn } from './import-review.en.ts';

export const importReviewFr: typeof importReviewEn = {
  columnDoubts: {
    decimal: 'Des nombres entiers entre virgules\u202f: ce sont peut-être les deux moitiés de nombres à virgule.',
    thousands:
      'Certains nombres portent un signe qui sépare peut-être les milliers, comme 1.050. Voyez plus bas ce qui a été lu.',
    dayMonth: 'Le jour ou le mois d’abord\u202f? Ces dates ne le disent pas.',
    timeUnit: 'Le fichier ne dit pas en quoi ses temps sont comptés. Regardez la durée.',
    noTime: 'Aucune colonne ne ressemble à des temps. Dites laquelle en est une, ou l’écart entre deux mesures.',
    clockSet:
      'L’horloge du fichier semble avoir été réglée en route, comme au passage à l’heure d’été ou à l’heure d’hiver.',
    openQuote:
      'Un guillemet est ouvert et aucun autre ne le ferme dans sa ligne. Chaque ligne est lue comme une mesure\u202f; les guillemets ne comptent pas.',
    rowNumbers: 'Une colonne qui numérote les lignes est laissée de côté.',
    unit: 'Une colonne n’a pas d’unité, ni dans son titre ni derrière ses nombres, et passe pour des °C. Corrigez si ce n’en est pas.',
    fahrenheit: 'Aucune unité n’est donnée, et la plus haute valeur est à peu près là où l’eau bout en °F.',
    role: 'Quelle sonde était dans l’eau\u202f? Rien dans les titres ne le dit.',
  },
  noteProblems: {
    noTime: 'pas de temps au début, comme 10:05, 10h05 ou 5\u00a0min',
    laterTime: 'son temps précède celui de la ligne du dessus',
    values: 'plus de valeurs que de sondes',
    empty: 'rien après son temps, elle est laissée de côté',
  },
  noteDoubts: {
    unsure: 'On ne sait pas ce qui a été fait\u202f: gardé comme note, à moins que vous ne disiez ce que c’était.',
    several: 'Dit plus d’une chose\u202f: seule la première devient un repère. Écrivez l’autre sur une ligne à elle.',
    mass: 'Nomme une masse qui n’est pas gardée comme nombre. Entrez ce qui a été rechargé, ou laissez les mots.',
    thousands:
      'Un signe suivi de trois chiffres\u202f: vérifiez s’il s’agit de milliers, de décimales ou de deux valeurs.',
    value: 'Nomme peut-être une température, après les mots. Mettez-la juste après l’heure pour qu’elle soit lue.',
    clockSet:
      'Plus d’une heure après ou avant la ligne du dessus, la nuit. L’horloge a-t-elle été changée entre les deux\u202f?',
  },
  onLine: (p) => `ligne ${p.line}\u202f: ${p.what} («\u202f${p.text}\u202f»)`,
  noMark: 'rien',
  openQuote: (p) => `Il est ouvert à la ligne ${p.line}.`,
};
