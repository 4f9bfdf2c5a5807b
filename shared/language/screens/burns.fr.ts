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
    all: 'tout',
    noneMatch: 'Aucun essai n’a à la fois ce foyer, cette révision et ce bois.',
    clear: 'Montrer tous les essais',
    compare: 'Courbes ensemble',
    asRevisions: 'Comparer leurs révisions',
    compareHint: 'Cochez deux essais ou plus.',
    choose: (p) => `Choisir ${p.title}`,
    curveOf: (p) => `Courbe de l’eau de ${p.title}, jusqu’à ${p.high}`,
    scale: (p) =>
      `Petites courbes\u202f: 0 à 100\u00a0°C, ${p.span} d’un bord à l’autre, depuis le début de l’enregistrement.`,
  },
};
