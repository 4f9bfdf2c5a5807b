/** Errors of publishing, and of the identity of this bench. */
import type { ErrorEntry } from './error-entry.ts';

export const datasetErrors = {
  'bench/unreadable': {
    status: 500,
    exitCode: 3,
    en: (p) =>
      `The file ${p.file}, which says who this bench is among others, cannot be read (${p.raw}). Put it back from a backup; without one, delete it, and the bench will publish under another identity from then on. Nothing was changed.`,
    fr: (p) =>
      `Le fichier ${p.file}, qui dit qui est ce banc parmi d’autres, ne se lit pas (${p.raw}). Reprenez-le d’une sauvegarde\u202f; à défaut, supprimez-le, et le banc publiera désormais sous une autre identité. Rien n’a été changé.`,
  },
  'dataset/busy': {
    status: 409,
    exitCode: 1,
    en: () => 'The bench is being published already. Wait until that is done.',
    fr: () => 'Une publication est déjà en cours. Attendez qu’elle soit finie.',
  },
  'dataset/cancelled': {
    status: 503,
    exitCode: 1,
    en: (p) =>
      `Publishing was cancelled after ${p.done} of ${p.of} files. What is in ${p.folder} is whole; publish again, and it goes on from there.`,
    fr: (p) =>
      `La publication a été annulée après ${p.done} fichiers sur ${p.of}. Ce qui est dans ${p.folder} est entier\u202f; publiez à nouveau, et elle continue de là.`,
  },
  'dataset/bench-only': {
    status: 403,
    exitCode: 1,
    en: () =>
      'Only the bench machine itself can say into which folder to publish. Choose it there once; then any device can publish into it.',
    fr: () =>
      'Seule la machine du banc peut dire dans quel répertoire publier. Choisissez-le là une fois\u202f; ensuite tout appareil peut y publier.',
  },
  'dataset/folder-not-whole': {
    status: 400,
    exitCode: 2,
    en: (p) =>
      `"${p.folder}" is not the whole path of a folder. Begin it at the root of the disk, such as /media/stick/burns.`,
    fr: (p) =>
      `«\u202f${p.folder}\u202f» n’est pas le chemin complet d’un répertoire. Commencez-le à la racine du disque, par exemple /media/cle/essais.`,
  },
  'dataset/folder-not-writable': {
    status: 507,
    exitCode: 1,
    en: (p) =>
      `The folder ${p.folder} cannot be written (${p.raw}). See that the disk or the share is there and that you may write on it, then publish again. Nothing here was changed, and what was published before is whole.`,
    fr: (p) =>
      `Impossible d’écrire dans le répertoire ${p.folder} (${p.raw}). Voyez si le disque ou le partage est là et si vous pouvez y écrire, puis publiez de nouveau. Rien n’a été changé ici, et ce qui était publié est entier.`,
  },
  'dataset/full': {
    status: 507,
    exitCode: 1,
    en: (p) => `There is no room left in ${p.folder}. Make room and publish again: it goes on where it stopped.`,
    fr: (p) =>
      `Il n’y a plus de place dans ${p.folder}. Faites-en, puis publiez de nouveau\u202f: cela reprend où cela s’est arrêté.`,
  },
  'dataset/newer': {
    status: 409,
    exitCode: 1,
    en: (p) =>
      `The file ${p.file} was published by a newer version (schema ${p.found}; this one knows ${p.known}). Use that version again, or another folder. Nothing was changed.`,
    fr: (p) =>
      `Le fichier ${p.file} a été publié par une version plus récente (schéma ${p.found}\u202f; celle-ci connaît ${p.known}). Reprenez cette version, ou un autre répertoire. Rien n’a été changé.`,
  },
  'dataset/no-burns': {
    status: 400,
    exitCode: 2,
    en: (p) => `No burns are published in ${p.folder}. Name the folder that holds "burns", "results" and "readings".`,
    fr: (p) =>
      `Aucun essai n’est publié dans ${p.folder}. Nommez le répertoire qui contient «\u202fburns\u202f», «\u202fresults\u202f» et «\u202freadings\u202f».`,
  },
  'dataset/options': {
    status: 400,
    exitCode: 2,
    en: (p) => `${p.folder} is a folder of published burns: of the options for a file only --keep can be used with it.`,
    fr: (p) =>
      `${p.folder} est un répertoire d’essais publiés\u202f: des options pour un fichier, seule --keep va avec lui.`,
  },
  'dataset/interrupted': {
    status: 500,
    exitCode: 1,
    en: (p) =>
      `Publishing into ${p.folder} ended early (${p.raw}). What is there is whole; publish again and it goes on where it stopped.`,
    fr: (p) =>
      `La publication dans ${p.folder} s’est arrêtée trop tôt (${p.raw}). Ce qui s’y trouve est entier\u202f; publiez de nouveau et elle reprend où elle s’est arrêtée.`,
  },
} satisfies Record<string, ErrorEntry>;
