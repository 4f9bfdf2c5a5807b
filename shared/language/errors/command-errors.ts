/** Errors of the command line. */
import type { ErrorEntry } from './error-entry.ts';

export const commandErrors = {
  'command/unknown': {
    status: 400,
    exitCode: 2,
    en: (p) => `There is no command "${p.command}". "stovebench --help" lists what there is.`,
    fr: (p) => `Il n’y a pas de commande «\u202f${p.command}\u202f». «\u202fstovebench --help\u202f» dit ce qu’il y a.`,
  },
  'command/usage': {
    status: 400,
    exitCode: 2,
    en: (p) => `${p.raw} "stovebench ${p.command} --help" shows how it is used.`,
    fr: (p) => `${p.raw} «\u202fstovebench ${p.command} --help\u202f» montre comment s’en servir.`,
  },
  'command/argument-missing': {
    status: 400,
    exitCode: 2,
    en: (p) => `${p.what} is missing. "stovebench ${p.command} --help" shows how it is used.`,
    fr: (p) => `Il manque ${p.what}. «\u202fstovebench ${p.command} --help\u202f» montre comment s’en servir.`,
  },
  'command/argument-wrong': {
    status: 400,
    exitCode: 2,
    en: (p) => `${p.option} ${p.value} is not known. Choose one of: ${p.options}.`,
    fr: (p) => `${p.option} ${p.value} n’est pas connu. Choisissez parmi\u202f: ${p.options}.`,
  },
  'command/argument-unneeded': {
    status: 400,
    exitCode: 2,
    en: (p) =>
      `"${p.argument}" is one argument too many. Put a name of several words in quotation marks; "stovebench ${p.command} --help" shows how it is used.`,
    fr: (p) =>
      `«\u202f${p.argument}\u202f» est un argument de trop. Mettez un nom de plusieurs mots entre guillemets\u202f; «\u202fstovebench ${p.command} --help\u202f» montre comment s’en servir.`,
  },
  'command/file-missing': {
    status: 400,
    exitCode: 2,
    en: (p) => `There is no file ${p.file}. Check its name and its folder.`,
    fr: (p) => `Il n’y a pas de fichier ${p.file}. Vérifiez son nom et son dossier.`,
  },
  'command/not-json': {
    status: 400,
    exitCode: 2,
    en: (p) => `${p.file} is not JSON (${p.raw}). Name a file that was saved as JSON.`,
    fr: (p) => `${p.file} n’est pas du JSON (${p.raw}). Nommez un fichier enregistré en JSON.`,
  },
  'command/not-a-record': {
    status: 400,
    exitCode: 2,
    en: (p) => `${p.file} is not a burn record. Correct what is named below, or name another file.`,
    fr: (p) =>
      `${p.file} n’est pas le relevé d’un essai. Corrigez ce qui est nommé ci-dessous, ou nommez un autre fichier.`,
  },
  'command/record-contradicts': {
    status: 400,
    exitCode: 2,
    en: (p) => `${p.file} is a burn record whose parts do not fit together. Correct what is named below.`,
    fr: (p) =>
      `${p.file} est le relevé d’un essai dont les parties ne vont pas ensemble. Corrigez ce qui est nommé ci-dessous.`,
  },
  'command/not-a-load': {
    status: 400,
    exitCode: 2,
    en: (p) =>
      `${p.file} is not a load. Correct what is named below; "stovebench predict --schema" prints what a load is.`,
    fr: (p) =>
      `${p.file} n’est pas une charge. Corrigez ce qui est nommé ci-dessous\u202f; «\u202fstovebench predict --schema\u202f» affiche ce qu’est une charge.`,
  },
  'command/not-an-idea': {
    status: 400,
    exitCode: 2,
    en: () =>
      'The idea cannot be compared as it was given. Correct what is named below; "stovebench compare --help" shows how it is used.',
    fr: () =>
      'L’idée ne peut pas être comparée telle qu’elle a été donnée. Corrigez ce qui est nommé ci-dessous\u202f; «\u202fstovebench compare --help\u202f» montre comment s’en servir.',
  },
  'command/burn-twice': {
    status: 400,
    exitCode: 2,
    en: (p) => `The burn "${p.title}" (${p.id}) is given twice. Give each burn once.`,
    fr: (p) => `L’essai «\u202f${p.title}\u202f» (${p.id}) est donné deux fois. Donnez chaque essai une fois.`,
  },
  'command/no-burns': {
    status: 400,
    exitCode: 1,
    en: () => 'There is no burn in this bench yet. Nothing was written.',
    fr: () => 'Il n’y a pas encore d’essai dans ce banc. Rien n’a été écrit.',
  },
  'command/file-unreadable': {
    status: 400,
    exitCode: 2,
    en: (p) => `${p.file} cannot be read (${p.raw}). Check its name and your right to read it.`,
    fr: (p) => `${p.file} ne peut pas être lu (${p.raw}). Vérifiez son nom et votre droit de le lire.`,
  },
  'command/file-in-the-way': {
    status: 400,
    exitCode: 2,
    en: (p) => `${p.file} is there already. Name another file, or say --force to write over it.`,
    fr: (p) => `${p.file} existe déjà. Nommez un autre fichier, ou dites --force pour l’écraser.`,
  },
  'command/file-unwritable': {
    status: 400,
    exitCode: 2,
    en: (p) => `${p.file} cannot be written (${p.raw}). Name another file.`,
    fr: (p) => `${p.file} ne peut pas être écrit (${p.raw}). Nommez un autre fichier.`,
  },
  'command/cancelled': {
    status: 400,
    exitCode: 1,
    en: () => 'Cancelled, as you asked. Nothing half done was left behind.',
    fr: () => 'Annulé, comme demandé. Rien d’inachevé n’a été laissé.',
  },
  'command/answer-cut': {
    status: 400,
    exitCode: 1,
    en: (p) => `${p.file} could not be written to its end (${p.raw}). Try again; what the service printed says more.`,
    fr: (p) =>
      `${p.file} n’a pas pu être écrit jusqu’au bout (${p.raw}). Réessayez\u202f; ce que le service a affiché en dit plus.`,
  },
  'command/failed': {
    status: 500,
    exitCode: 1,
    en: (p) => `"stovebench ${p.command}" failed (${p.raw}). What was saved is safe; report this with the lines below.`,
    fr: (p) =>
      `«\u202fstovebench ${p.command}\u202f» a échoué (${p.raw}). Ce qui était gardé est sauf\u202f; signalez-le avec les lignes ci-dessous.`,
  },
  'command/service-silent': {
    status: 400,
    exitCode: 1,
    en: (p) =>
      `The service at ${p.address} does not answer (${p.raw}). Start it with "stovebench serve", or name another with --service.`,
    fr: (p) =>
      `Le service à ${p.address} ne répond pas (${p.raw}). Lancez-le par «\u202fstovebench serve\u202f», ou nommez-en un autre par --service.`,
  },
  'command/burn-unclear': {
    status: 400,
    exitCode: 2,
    en: (p) =>
      `"${p.text}" fits ${p.count} burns. Give the identifier, or more of the title: "stovebench export --list" shows both.`,
    fr: (p) =>
      `«\u202f${p.text}\u202f» convient à ${p.count} essais. Donnez l’identifiant, ou plus du titre\u202f: «\u202fstovebench export --list\u202f» montre les deux.`,
  },
  'command/burn-unknown': {
    status: 400,
    exitCode: 2,
    en: (p) => `No burn is called "${p.text}". "stovebench export --list" shows what there is.`,
    fr: (p) =>
      `Aucun essai ne s’appelle «\u202f${p.text}\u202f». «\u202fstovebench export --list\u202f» montre ce qu’il y a.`,
  },
} satisfies Record<string, ErrorEntry>;
