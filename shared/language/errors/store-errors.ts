/** Errors of the data on disk and of their backups. */
import type { ErrorEntry } from './error-entry.ts';

export const storeErrors = {
  'store/folder-not-writable': {
    status: 507,
    exitCode: 1,
    en: (p) =>
      `The data folder ${p.folder} cannot be written (${p.raw}). Give yourself the right to write there, or name another folder: STOVEBENCH_DATA=/a/folder npm start. Nothing was changed.`,
    fr: (p) =>
      `Impossible d’écrire dans le répertoire de données ${p.folder} (${p.raw}). Donnez-vous le droit d’y écrire, ou nommez un autre répertoire\u202f: STOVEBENCH_DATA=/un/repertoire npm start. Rien n’a été changé.`,
  },
  'store/in-use': {
    status: 400,
    exitCode: 1,
    en: (p) =>
      `Another copy of the service is already using ${p.folder}${p.address ? ` (open ${p.address} instead)` : ''}${p.processId ? `; it is process ${p.processId}` : ''}. Use that one, or stop it first.`,
    fr: (p) =>
      `Un autre exemplaire du service utilise déjà ${p.folder}${p.address ? ` (ouvrez plutôt ${p.address})` : ''}${p.processId ? `\u202f; c’est le processus ${p.processId}` : ''}. Servez-vous de celui-là, ou arrêtez-le d’abord.`,
  },
  'store/newer': {
    status: 400,
    exitCode: 1,
    en: (p) =>
      `The data in ${p.folder} were written by a newer version (layout ${p.found}; this version knows ${p.known}). Install the newer version again; nothing was changed.`,
    fr: (p) =>
      `Les données de ${p.folder} viennent d’une version plus récente (disposition ${p.found}\u202f; celle-ci connaît ${p.known}). Réinstallez la version récente\u202f; rien n’a été changé.`,
  },
  'store/damaged': {
    status: 500,
    exitCode: 3,
    en: (p) =>
      `The database ${p.file} is damaged (${p.raw}). Nothing was changed. Put back a backup (stovebench restore), or get what can be read into a new folder: stovebench verify --salvage NEW-FOLDER.`,
    fr: (p) =>
      `La base de données ${p.file} est abîmée (${p.raw}). Rien n’a été changé. Remettez une sauvegarde (stovebench restore), ou sauvez ce qui se lit dans un nouveau répertoire\u202f: stovebench verify --salvage NOUVEAU.`,
  },
  'store/log-alone': {
    status: 500,
    exitCode: 3,
    en: (p) =>
      `The database ${p.file} is empty, and its log beside it is not: the newest entries are in the log alone. Nothing was changed. Get them into a new folder: stovebench verify --salvage NEW-FOLDER.`,
    fr: (p) =>
      `La base de données ${p.file} est vide, mais pas son journal à côté\u202f: les dernières entrées ne sont que là. Rien n’a été changé. Sauvez-les dans un nouveau répertoire\u202f: stovebench verify --salvage NOUVEAU.`,
  },
  'store/folder-for-file': {
    status: 507,
    exitCode: 1,
    en: (p) =>
      `${p.file} is a folder, where a file of the data has to be. Move it elsewhere, then start again. Nothing was changed.`,
    fr: (p) =>
      `${p.file} est un répertoire, là où il faut un fichier de données. Déplacez-le, puis recommencez. Rien n’a été changé.`,
  },
  'store/block-damaged': {
    status: 500,
    exitCode: 3,
    en: () =>
      'Readings of this burn have changed on the disk and cannot be read. Keep a copy of the whole data folder, then restore the newest backup: stovebench restore. Nothing was changed.',
    fr: () =>
      'Des mesures de cet essai ont changé sur le disque et sont illisibles. Gardez une copie de tout le répertoire de données, puis restaurez la sauvegarde la plus récente\u202f: stovebench restore. Rien n’a été changé.',
  },
  'store/no-bench': {
    status: 400,
    exitCode: 2,
    en: (p) =>
      `There is no bench in ${p.folder}: the file ${p.file} is not there. Check the name of the folder. Nothing was made.`,
    fr: (p) =>
      `Il n’y a pas de banc dans ${p.folder}\u202f: le fichier ${p.file} n’y est pas. Vérifiez le nom du répertoire. Rien n’a été créé.`,
  },
  'store/full': {
    status: 507,
    exitCode: 1,
    en: () =>
      'The disk is full, so this could not be kept. Make room on the disk; what was kept before is safe, and recording goes on by itself.',
    fr: () =>
      'Le disque est plein\u202f: ceci n’a pas pu être gardé. Faites de la place\u202f; ce qui était gardé est sauf, et l’enregistrement reprend de lui-même.',
  },
  'store/not-finite': {
    status: 400,
    exitCode: 1,
    en: (p) => `${p.what} is not a number that can be kept (${p.value}). Send whole counts and finite times.`,
    fr: (p) =>
      `${p.what} n’est pas un nombre que l’on puisse garder (${p.value}). Envoyez des comptes entiers et des temps finis.`,
  },
  'store/conflict': {
    status: 409,
    exitCode: 1,
    en: (p) =>
      `Somebody else changed this meanwhile: you started from version ${p.expected}, the newest is ${p.found}. Look at both and save again.`,
    fr: (p) =>
      `Quelqu’un d’autre a changé ceci entre-temps\u202f: vous partiez de la version ${p.expected}, la plus récente est la ${p.found}. Regardez les deux, puis enregistrez de nouveau.`,
  },
  'backup/exists': {
    status: 409,
    exitCode: 1,
    en: (p) => `There is already something in ${p.folder}. Name a folder that does not exist yet.`,
    fr: (p) => `Il y a déjà quelque chose dans ${p.folder}. Nommez un répertoire qui n’existe pas encore.`,
  },
  'backup/not-a-backup': {
    status: 400,
    exitCode: 1,
    en: (p) =>
      `${p.folder} is no backup made by Stovebench: it has no readable ${p.file}. Choose a folder made by "stovebench backup".`,
    fr: (p) =>
      `${p.folder} n’est pas une sauvegarde faite par Stovebench\u202f: ${p.file} y manque ou ne se lit pas. Choisissez un répertoire fait par «\u202fstovebench backup\u202f».`,
  },
  'backup/damaged': {
    status: 400,
    exitCode: 3,
    en: (p) =>
      `The backup is damaged: ${p.file} is not what was backed up (${p.raw}). Use another backup; nothing was changed.`,
    fr: (p) =>
      `La sauvegarde est abîmée\u202f: ${p.file} n’est pas ce qui a été sauvegardé (${p.raw}). Prenez-en une autre\u202f; rien n’a été changé.`,
  },
  'backup/results-differ': {
    status: 400,
    exitCode: 3,
    en: (p) =>
      `The backup does not prove itself: the burn "${p.title}" is not what was backed up (${p.what}). Use another backup; nothing was changed.`,
    fr: (p) =>
      `La sauvegarde ne fait pas ses preuves\u202f: l’essai «\u202f${p.title}\u202f» n’est pas ce qui a été sauvegardé (${p.what}). Prenez-en une autre\u202f; rien n’a été changé.`,
  },
  'backup/in-the-way': {
    status: 400,
    exitCode: 1,
    en: (p) =>
      `There are data in ${p.folder} already. To put the backup in their place, say --replace: they are kept beside it under another name.`,
    fr: (p) =>
      `Il y a déjà des données dans ${p.folder}. Pour mettre la sauvegarde à leur place, dites --replace\u202f: elles sont gardées à côté sous un autre nom.`,
  },
} satisfies Record<string, ErrorEntry>;
