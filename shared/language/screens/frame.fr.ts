/** En français : le cadre autour de chaque écran. */
import { cautionsFr } from '../cautions.fr.ts';
import type { frameEn } from './frame.en.ts';

export const frameFr: typeof frameEn = {
  name: 'Stovebench',
  skip: 'Aller au contenu',
  nav: {
    label: 'Écrans',
    now: 'Direct',
    burns: 'Essais',
    compare: 'Comparer',
    probes: 'Sondes',
    stoves: 'Foyers',
    settings: 'Options',
  },
  loading: 'Chargement…',
  notFound: 'Il n’y a pas d’écran à cette adresse.',
  goHome: 'Au premier écran',
  close: 'Fermer',
  cancel: 'Annuler',
  save: 'Enregistrer',
  sending: 'Envoi…',
  again: 'Réessayer',
  drop: 'Abandonner la saisie',
  broken:
    'Cet écran est tombé en panne. Ce que vous avez saisi est en sûreté\u202f; réessayez, ou ouvrez un autre écran.',
  serviceAwayYet: 'Le service ne répond pas. Ceci s’affichera à son retour.',
  serviceAwayNow: 'Le service ne répond pas\u202f: rien n’a été changé. Réessayez quand il sera revenu.',
  link: {
    lostContinues:
      'Le service ne répond pas. Ce que vous saisissez est gardé sur cet appareil et transmis à son retour\u202f; laissez cette page ouverte.',
    lostStored:
      'Le service ne répond pas. Ce que vous saisissez est gardé sur cet appareil, même si cette page est fermée, et transmis à son retour, dès que cette page est ouverte.',
    lostMemory:
      'Le service ne répond pas, et ce navigateur ne garde rien une fois la page fermée. Laissez-la ouverte jusqu’à son retour.',
    waiting: (p) => (p.count === 1 ? '1 saisie en attente' : `${p.count} saisies en attente`),
    diskFull: 'Le disque de la machine du banc est plein. Faites-y de la place tout de suite.',
    diskFails: 'Le disque de la machine du banc ne prend plus de mesures. Allez voir la machine tout de suite.',
    scansWait: (p) => `${p.count} relevés attendent dans sa mémoire`,
    scansLost: (p) => `${p.count} relevés sont perdus`,
    delivering: 'Transmission de vos saisies…',
    newVersion:
      'Le banc a une version plus récente de cette page. Rien de ce que vous avez saisi n’est perdu en la chargeant.',
    reload: 'La charger',
    lookAt: 'Le revoir',
    refused: (p) => `«\u202f${p.what}\u202f» n’a pas été accepté\u202f: ${p.why}`,
  },
  photo: {
    choose: 'Prendre ou choisir une photo',
    hint: 'JPEG, PNG ou WebP. Le lieu et l’heure que le téléphone y a écrits ne sont pas gardés.',
    sending: 'Envoi…',
    alt: 'La photo, en grand',
  },
  cautions: {
    ...cautionsFr,
    title: 'Précautions',
    read: 'Précautions',
    unattended: `${cautionsFr.unattended} Ces alarmes peuvent ne pas vous atteindre.`,
    defer: `${cautionsFr.defer} Cette page ne fait que mesurer.`,
  },
};
