/** En français : la liste des essais. */
import type { burnsEn } from './burns.en.ts';

export const burnsFr: typeof burnsEn = {
  list: {
    title: 'Essais',
    none: 'Pas encore d’essai.',
    status: {
      planned: 'prévu',
      running: 'en cours',
      ended: 'à peser',
      complete: 'complet',
      setAside: 'non compté',
    },
    origin: { measured: 'mesuré', simulated: 'simulé', enteredByHand: 'à la main', imported: 'importé' },
    noRevision: 'sans révision',
    filterStove: 'Foyer',
    filterRevision: 'Révision',
    filterFuel: 'Bois',
    filterTarget: 'Cible',
    filterStatus: 'État',
    filters: 'Filtrer et trier',
    filtersOn: (p) => `Filtrer et trier (${p.count} en vigueur)`,
    search: 'Chercher',
    order: 'Ordre',
    newest: 'récents d’abord',
    oldest: 'anciens d’abord',
    toBoil: 'ébullition',
    toTemperature: (p) => `à ${p.level}`,
    columns: { dryWoodPerBatch: 'Bois sec', timeToTarget: 'À la cible', thermalEfficiency: 'Rendement' },
    meanOf: (p) => (p.count === 1 ? 'd’un essai' : `moy. de ${p.count}`),
    burnCount: (p) => (p.count === 1 ? '1 essai' : `${p.count} essais`),
    changedOnDisk: 'changé sur le disque',
    toWeigh: { char: 'charbon', fuelPile: 'bois', water: 'eau', brands: 'tisons', ash: 'cendres' },
    workingOut: (p) =>
      p.count === 1
        ? 'Les résultats d’un essai sont en cours de calcul.'
        : `Les résultats de ${p.count} essais sont en cours de calcul.`,
    bars: 'Barres\u202f: intervalle à 95\u00a0%, toute une colonne à la même échelle\u202f; le trait qui les croise est la moyenne de la révision.',
    all: 'tout',
    noneMatch: 'Aucun essai ne réunit tout cela.',
    clear: 'Montrer tous les essais',
    compare: 'Courbes ensemble',
    asRevisions: 'Comparer leurs révisions',
    compareHint: 'Cochez deux essais ou plus pour voir leurs courbes ensemble.',
    choose: (p) => `Choisir ${p.title}`,
    curveOf: (p) => `Courbe de l’eau de ${p.title}, jusqu’à ${p.high}`,
    scale: (p) =>
      `Petites courbes\u202f: 0 à 100\u00a0°C, ${p.span} d’un bord à l’autre, depuis le début de l’enregistrement.`,
  },
};
