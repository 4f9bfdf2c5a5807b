/** In French: long work that the bench does, how far it is, and what cancelling it comes to. */
import type { workEn } from './work.en.ts';

const nothingChanged = 'Annulé. Rien n’a été changé.';
const noFile = 'Annulé. Aucun fichier n’a été fait.';

export const workFr: typeof workEn = {
  title: 'Travail en cours',
  kinds: {
    receiving: 'Envoi du fichier, en Mo',
    reading: 'Lecture du fichier',
    importing: 'Importation',
    comparing: 'Comparaison des essais',
    exporting: 'Préparation du fichier',
    reporting: 'Préparation du rapport',
    publishing: 'Publication des fichiers',
    backingUp: 'Sauvegarde des essais',
  },
  progress: (p) => `${p.what}\u00a0: ${p.done}\u00a0sur\u00a0${p.of}`,
  cancel: 'Annuler',
  cancelled: {
    receiving: nothingChanged,
    reading: nothingChanged,
    importing: nothingChanged,
    comparing: nothingChanged,
    exporting: noFile,
    reporting: noFile,
    publishing: 'Annulé. Ce qui est publié jusqu’ici est entier.',
    backingUp: 'Annulé. Aucune sauvegarde n’a été faite.',
  },
};
