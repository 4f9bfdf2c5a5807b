/** En français : révision contre révision, toutes les révisions d’un foyer, le prochain essai. */
import type { compareRevisionsEn } from './compare-revisions.en.ts';

export const compareRevisionsFr: typeof compareRevisionsEn = {
  start: {
    title: 'Révision contre révision',
    intro:
      'Est-ce mieux, de combien, et avec quelle certitude\u202f? Tous les essais de l’une contre tous ceux de l’autre.',
    tooFew:
      'Il faut deux révisions essayées. Donnez à chaque essai sa révision sous Décrire, et essayez plusieurs fois chacune.',
    pair: (p) => `${p.stove}\u202f: révision ${p.b} contre ${p.a}`,
    whole: 'Courbes, autres résultats et suite à donner',
    others: 'Autres comparaisons',
    before: 'Avant',
    after: 'Après',
    same: 'Choisissez-en deux différentes.',
    compare: 'Comparer',
    byHand: 'Choisir les essais à la main',
  },
  byHand: {
    title: 'Essais choisis à la main',
    intro:
      'Mettez chaque essai de son côté\u202f: A, ce qu’il y avait avant\u202f; B, ce qui sera dit mieux ou moins bien.',
    neither: 'aucun',
    pick: (p) => `Côté de ${p.title}`,
    compare: (p) => `Comparer B (${p.b}) à A (${p.a})`,
    hint: 'Au moins un essai de chaque côté\u202f; trois ou plus pour apprendre quelque chose.',
  },
  verdict: {
    alsoDifferent: 'Différait aussi',
    nothingDifferent: 'Rien d’autre qui ait été noté.',
  },
  verdicts: {
    better: 'mieux',
    worse: 'moins bien',
    cannotTell: 'on ne sait pas encore',
    higher: 'plus haut',
    lower: 'plus bas',
    standsOut: (p) => `${p.way}\u202f: ressort parmi ${p.among}`,
    untested: 'montré, sans verdict',
  },
  plot: {
    label: (p) => `${p.result}, chaque essai en un point`,
    difference: 'écart',
    same: 'aucun écart',
    pointsUnit: 'points',
    caption: (p) =>
      `Anneaux\u202f: essais de ${p.a}. Losanges\u202f: essais de ${p.b}. La barre est l’intervalle à ${p.confidence} de l’écart\u202f; là où elle croise la ligne, rien n’est tranché.`,
    atCommon: 'Toutes les valeurs sont en conditions communes.',
  },
  controls: {
    line: (p) => `Comment on compare\u202f: ${p.parts}.`,
    summary: (p) => `verdict sur ${p.result.toLowerCase()}`,
    blocksSummary: { none: 'sans blocs', day: 'par même jour', lot: 'par même lot de bois' },
    commonSummary: 'conditions rendues égales',
    asBurntSummary: 'telles quelles',
    primary: 'Verdict sur',
    blocks: 'Blocs',
    blockKinds: { none: 'aucun', day: 'même jour', lot: 'même lot de bois' },
    blocksHelp: 'Les essais des deux faits le même jour, ou du même lot de bois, sont d’abord comparés entre eux.',
    conditions: 'Conditions',
    common: 'rendues égales',
    asBurnt: 'telles quelles',
    conditionsHelp: 'Les différences connues de charge, de départ et d’air sont retirées par le bilan d’énergie.',
  },
  ladder: {
    title: (p) => `Toutes les révisions, étape par étape\u202f: ${p.result.toLowerCase()}`,
    label: (p) => `${p.result} de chaque révision, avec son étape`,
    caption: (p) =>
      p.steps === 1
        ? 'Le point est le niveau d’une révision, la ligne celui de la révision dont elle est faite\u202f; là où la barre croise la ligne, l’étape n’est pas tranchée.'
        : `Le point est le niveau d’une révision, la ligne celui de la révision dont elle est faite\u202f; là où la barre croise la ligne, l’étape n’est pas tranchée. Les ${p.steps} étapes valent à la fois.`,
    days: (p) => (p.count > 1 ? `${p.count}\u00a0jours` : `${p.count}\u00a0jour`),
    step: (p) => `${p.change} sur ${p.from}\u202f:`,
    tooFew: 'pas de verdict, trop peu de jours',
    refused: 'Aucune étape n’est jugée\u202f:',
    best: 'la meilleure',
    mayBe: 'peut-être la meilleure',
    changed: 'Ce qui a été changé',
    named: (p) => `${p.name}\u202f: ${p.text}`,
    effects: 'Effet d’une cote',
  },
  nextTest: {
    title: 'Le prochain essai',
    noGuess:
      'Pour une idée à vous\u202f: avec quoi on la confondrait, combien de jours il faut, et quoi essayer quand. Ce qu’elle gagnerait, seuls les essais le disent.',
    change: 'Que changeriez-vous\u202f?',
    changeMissing: 'Notez l’idée en quelques mots.',
    parts: 'Tout ce qui changerait',
    partsHelp: 'Une chose par ligne\u202f: une cote, une pièce, la façon de recharger.',
    lots: 'Le bois que vous avez',
    lotsHelp: 'Un lot par ligne, avec le nombre d’essais qu’il donne\u202f: chêne: 6',
    ask: 'Que faudrait-il\u202f?',
    card: 'Quoi essayer quel jour',
    day: 'Jour',
    burn: 'À essayer',
    lot: 'Lot de bois',
    anyLot: 'un même lot pour les deux jours de la paire',
    print: 'Fiche à imprimer (PDF)',
    make: (p) => `L’ajouter comme révision, ${p.days} jours de chaque`,
    made: (p) => `Ajoutée comme révision, avec ${p.days} jours dits d’avance. Décrivez-la à l’écran Foyers.`,
  },
  curves: { title: 'Les essais', chart: 'L’eau de tous les essais dans le temps' },
  seen: {
    title: 'Autres résultats',
    result: 'résultat',
    against: (p) => `${p.b} contre ${p.a}, avec intervalle`,
    inWords: 'en mots',
    everyBurn: (p) => `chaque essai\u202f: ${p.a} · ${p.b} ${p.unit}`,
    more: (p) => (p.count === 1 ? '1 autre résultat' : `${p.count} autres résultats`),
  },
  everyBurn: {
    label: (p) => `${p.result} de chaque essai`,
    burn: 'Essai',
    day: 'Jour',
    operator: 'Opérateur',
    asBurnt: 'Tel quel',
    common: 'En conditions communes',
  },
  statistics: {
    line: (p) =>
      `${p.a} et ${p.b} essais en ${p.daysA} et ${p.daysB} jours\u202f; erreur-type ${p.error}, degrés de liberté ${p.freedom}.`,
    infinite: 'sans limite',
    doubt: 'D’où vient l’incertitude',
    scatter: (p) => `dispersion de ${p.side}, d’un jour à l’autre`,
    scatterOfAll: 'dispersion au sein des révisions, d’un jour à l’autre',
  },
  planning: {
    title: 'Combien d’essais encore',
    axis: 'jours de plus, de chaque',
    narrowing: 'À quoi une heure de travail le resserrerait',
    range: (p) => `Jours de plus, de chaque\u202f: de ${p.low} à ${p.high}, sans doute ${p.likely}`,
  },
};
