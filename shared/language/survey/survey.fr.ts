/** Ce que dit le relevé d’un jeu de données publié, en français. */
import type { surveyEn } from './survey.en.ts';

export const surveyFr: typeof surveyEn = {
  title: () => 'Enquête sur des essais publiés',
  simulatedTitle: () => 'Enquête sur des essais SIMULÉS',
  simulated: () => 'SIMULÉ\u202f: ces essais ont été calculés et ne disent rien d’un vrai poêle.',
  subtitle: (p) => `${p.result}\u202f; ${p.burns} essais retenus\u202f: complets, ${p.start}, selon la méthode bench-1`,
  starts: { cold: 'commencés à froid', hot: 'commencés à chaud' },
  footer: (p) =>
    `Stovebench ${p.version}\u202f; les questions sont des fichiers SQL, voir la page de la commande survey`,
  more: (p) => `Les ${p.shown} premières lignes sur ${p.of}\u202f; toutes sont dans ce que la commande écrit.`,
  inUnit: (p) => `En ${p.unit}.`,
  questions: {
    contents: {
      question: 'À qui sont les essais du répertoire, et combien sont retenus\u202f?',
      meaning:
        'Les valeurs de deux versions de la méthode peuvent différer\u202f: y regarder à deux fois là où un banc en a plus d’une.',
      nothing: 'Il n’y a pas d’essai dans le répertoire.',
    },
    'by-revision': {
      question: 'Que faut-il à chaque révision sur tous les bancs, et de combien les bancs s’écartent-ils\u202f?',
      meaning:
        'La moyenne des bancs compte chaque banc une fois, quel que soit le nombre de ses essais. La charge est celle de chaque banc\u202f: des charges différentes ne sont pas une dispersion du poêle\u202f; demander alors le bois par kg de charge (--result specificFuelConsumption).',
      nothing: 'Aucun essai retenu ne nomme sa révision.',
    },
    'step-on-every-bench': {
      question:
        'A-t-il fallu moins à chaque révision qu’à celle dont elle vient, sur chaque banc qui a essayé les deux\u202f?',
      meaning:
        'Intervalles à 95 % d’après Welch, tirés de la dispersion des essais sur ce banc. Si les essais ont alterné et dans des conditions semblables n’est pas regardé ici\u202f; «\u202fcompare\u202f» le fait pour les essais d’un banc.',
      nothing: 'Aucun banc n’a d’essais d’une révision et de celle dont elle vient.',
    },
    'drifting-benches': {
      question: 'Quel banc dérive\u202f: donne de plus en plus, ou de moins en moins, pour la même révision\u202f?',
      meaning:
        'Une droite par les écarts de chaque essai à la moyenne de sa révision sur son banc. Les intervalles valent à 95 % pour tous les bancs ensemble. Un bois qui sèche, une saison ou un poêle qui s’use ressemblent à une balance qui dérive.',
      nothing: 'Aucun banc n’a trois essais datés d’une révision.',
    },
    'lot-on-several-stoves': {
      question: 'Qu’ont donné plusieurs poêles avec le même lot de combustible\u202f?',
      meaning:
        'Seuls comptent les essais à un seul lot de bois. Que le lot soit le même ne veut pas dire que les poêles ont été essayés les mêmes jours ni sous la même charge.',
      nothing: 'Aucun lot n’a été brûlé dans deux poêles.',
    },
    repeatability: {
      question: 'Un banc se répète-t-il bien, et les bancs s’accordent-ils (ISO 5725-2)\u202f?',
      meaning:
        'Les bancs sont les laboratoires de la norme et les révisions ses niveaux. Deux essais sur un banc diffèrent de moins que la limite de répétabilité, deux essais sur deux bancs de moins que la limite de reproductibilité, dans 95 cas sur 100. Aucun banc n’est écarté comme aberrant.',
      nothing: 'Aucune révision n’a été essayée sur deux bancs, et deux fois sur l’un d’eux.',
    },
    'declared-intervals': {
      question:
        'Combien de fois les intervalles à 95 % déclarés couvraient-ils l’écart à l’essai suivant de la même révision sur le même banc\u202f?',
      meaning:
        'Les deux intervalles sont pris ensemble (E_n de l’ISO 13528), chaque essai est dans une seule paire. Moins de 95 % ne veut pas dire que les intervalles sont faux\u202f: ils parlent de la mesure, et les essais diffèrent en plus. Les erreurs communes aux deux essais, d’une balance ou d’une sonde, font tenir plus de 95 %. La dernière colonne est la dispersion des écarts sur celle qui est déclarée\u202f: 1 là où les intervalles l’expliquent toute.',
      nothing: 'Aucune révision n’a été essayée deux fois sur un banc.',
    },
  },
  figuresOf: {
    'by-revision': 'Chiffres de chaque révision',
    'step-on-every-bench': 'Chiffres de chaque pas sur chaque banc',
    'drifting-benches': 'Chiffres de chaque banc dans le temps',
    'lot-on-several-stoves': 'Chiffres de chaque lot',
    repeatability: 'Chiffres de la répétabilité et de la reproductibilité',
  },
  step: (p) =>
    `${p.step}\u202f: moins sur ${p.lower} des ${p.benches} bancs\u202f; au-delà du hasard (95 %) sur ${p.clearlyLower}, et davantage au-delà du hasard sur ${p.clearlyHigher}.`,
  drift: (p) => `Au-delà du hasard, sur ${p.of} bancs\u202f: ${p.benches} par an.`,
  noDrift: (p) => `Aucun des ${p.benches} bancs ne dérive au-delà du hasard.`,
  held: (p) =>
    `${p.held} paires sur ${p.pairs} ont tenu\u202f; on en attendrait ${p.low} à ${p.high} si rien d’autre que la mesure ne différait.`,
  captions: {
    'by-revision': 'Carré\u202f: moyenne des bancs\u202f; barre\u202f: du banc le plus bas au plus haut.',
    'step-on-every-bench': 'Écart à la révision d’avant, avec son intervalle à 95 %.',
    'drifting-benches': 'Écart en un an, avec des intervalles qui valent ensemble à 95 %.',
    'lot-on-several-stoves': 'Carré\u202f: moyenne des essais\u202f; barre\u202f: un écart-type de part et d’autre.',
    repeatability:
      'Carré\u202f: moyenne des essais\u202f; barre\u202f: la limite de reproductibilité de part et d’autre.',
  },
  columns: {
    bench: 'Identifiant du banc',
    bench_name: 'Banc',
    burns: 'Essais',
    simulated_burns: 'Simulés',
    counted_burns: 'Retenus',
    method_versions: 'Version de la méthode',
    first_start: 'Premier',
    last_start: 'Dernier',
    stove: 'Poêle',
    revision: 'Révision',
    benches: 'Bancs',
    mean_of_benches: 'Moyenne des bancs',
    between_benches: 'Entre bancs',
    within_benches: 'Dans un banc',
    lowest_bench: 'Banc le plus bas',
    highest_bench: 'Banc le plus haut',
    from_revision: 'De',
    to_revision: 'À',
    burns_before: 'Essais avant',
    burns_after: 'Essais après',
    mean_before: 'Moyenne avant',
    mean_after: 'Moyenne après',
    relative_difference: 'Écart',
    relative_standard_error: 'Erreur type',
    degrees_of_freedom: 'Degrés de liberté',
    revisions: 'Révisions',
    drift_per_year: 'Écart par an',
    standard_error_per_year: 'Erreur type',
    wood_lot: 'Lot de combustible',
    mean: 'Moyenne',
    standard_deviation: 'Écart-type',
    repeatability_deviation: 'Répétabilité',
    reproducibility_deviation: 'Reproductibilité',
    repeatability_limit: 'Limite de répétabilité',
    reproducibility_limit: 'Limite de reproductibilité',
    result: 'Résultat',
    pairs: 'Paires',
    held: 'Tenues',
    share_held: 'Part tenue',
    scatter_over_declared: 'Dispersion / déclaré',
  },
};
