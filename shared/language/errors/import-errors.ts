/** Errors about files that are imported. */
import type { Language } from '../language.ts';
import type { ErrorEntry } from './error-entry.ts';

const inJson: Record<Language, Record<string, string>> = {
  en: {
    value: 'a value (text in quotation marks, a number, true, false, null, "{" or "[")',
    key: 'a name in quotation marks',
    colon: '":"',
    commaOrEnd: '"," or the end of the list',
    stringEnd: 'the closing quotation mark',
    escape: 'one of \\" \\\\ \\/ \\b \\f \\n \\r \\t \\u0000 after the backslash',
    nothingMore: 'nothing more',
  },
  fr: {
    value: 'une valeur (texte entre guillemets droits, nombre, true, false, null, «\u202f{\u202f» ou «\u202f[\u202f»)',
    key: 'un nom entre guillemets droits',
    colon: '«\u202f:\u202f»',
    commaOrEnd: '«\u202f,\u202f» ou la fin de la liste',
    stringEnd: 'le guillemet fermant',
    escape: 'l’un de \\" \\\\ \\/ \\b \\f \\n \\r \\t \\u0000 après la barre oblique inverse',
    nothingMore: 'plus rien',
  },
};

const inCell: Record<Language, Record<string, string>> = {
  en: {
    number: 'a number',
    time: 'a time',
    laterTime: 'a time that is not before the one above',
    cells: 'as many cells as the mapped columns need',
  },
  fr: {
    number: 'un nombre',
    time: 'une heure ou une durée',
    laterTime: 'un moment qui ne précède pas celui du dessus',
    cells: 'autant de cases que les colonnes désignées en demandent',
  },
};

const inNote: Record<Language, Record<string, string>> = {
  en: {
    noTime: 'a time at the beginning, like 10:05, 10h05 or 5 min',
    laterTime: 'a time that is not before the one above',
    values: 'no more values than there are probes',
    noLine: 'a line that says something, for the mark that is said of it',
  },
  fr: {
    noTime: 'un moment au début, comme 10:05, 10h05 ou 5\u00a0min',
    laterTime: 'un moment qui ne précède pas celui du dessus',
    values: 'au plus autant de valeurs que de sondes',
    noLine: 'quelque chose d’écrit, pour le repère qui en est dit',
  },
};

const found: Record<Language, (text: string | number | undefined) => string> = {
  en: (found: string | number | undefined) => (found === '' ? 'nothing' : `"${found}"`),
  fr: (text: string | number | undefined) => (text === '' ? 'il n’y a rien' : `il y a «\u202f${text}\u202f»`),
};

export const importErrors = {
  'import/json-broken': {
    status: 400,
    exitCode: 2,
    en: (p) =>
      `${p.file} is not JSON: line ${p.line}, column ${p.column} should have ${inJson.en[String(p.expected)]}, and has ${found.en(p.found)}. Export the file again; nothing was imported.`,
    fr: (p) =>
      `${p.file} n’est pas du JSON\u202f: ligne ${p.line}, colonne ${p.column}, il faudrait ${inJson.fr[String(p.expected)]}, et ${found.fr(p.found)}. Exportez le fichier de nouveau\u202f; rien n’a été importé.`,
  },
  'import/not-a-record': {
    status: 400,
    exitCode: 2,
    en: (p) =>
      `${p.file} is JSON, but no burn record: its "format" should be "${p.expected}". Choose a burn record, a data package, a table of readings or a note; nothing was imported.`,
    fr: (p) =>
      `${p.file} est du JSON, mais pas un dossier d’essai\u202f: son «\u202fformat\u202f» devrait être «\u202f${p.expected}\u202f». Choisissez un dossier d’essai, un paquet de données, un tableau de mesures ou des notes\u202f; rien n’a été importé.`,
  },
  'import/newer-record': {
    status: 400,
    exitCode: 2,
    en: (p) =>
      `${p.file} is a burn record of version ${p.version}, written by newer software. Update this one first; nothing was imported.`,
    fr: (p) =>
      `${p.file} est un dossier d’essai de version ${p.version}, écrit par un logiciel plus récent. Mettez d’abord celui-ci à jour\u202f; rien n’a été importé.`,
  },
  'import/record-wrong': {
    status: 400,
    exitCode: 2,
    en: (p) =>
      `${p.file} is a burn record with something wrong in it, first at line ${p.line}, column ${p.column} ("${p.path}"). What was expected stands below; nothing was imported.`,
    fr: (p) =>
      `${p.file} est un dossier d’essai où quelque chose ne va pas, d’abord à la ligne ${p.line}, colonne ${p.column} («\u202f${p.path}\u202f»). Ce qui était attendu figure dessous\u202f; rien n’a été importé.`,
  },
  'import/not-text': {
    status: 400,
    exitCode: 2,
    en: (p) =>
      `${p.file} should be text in UTF-8 and is not. Save it as UTF-8, or choose another file; nothing was imported.`,
    fr: (p) =>
      `${p.file} devrait être du texte en UTF-8 et ne l’est pas. Enregistrez-le en UTF-8, ou choisissez un autre fichier\u202f; rien n’a été importé.`,
  },
  'import/package-broken': {
    status: 400,
    exitCode: 2,
    en: (p) => `${p.file} is a damaged or incomplete archive (${p.raw}). Ask for it again; nothing was imported.`,
    fr: (p) => `${p.file} est une archive abîmée ou incomplète (${p.raw}). Redemandez-la\u202f; rien n’a été importé.`,
  },
  'import/package-without-records': {
    status: 400,
    exitCode: 2,
    en: (p) =>
      `${p.file} is an archive without any burn record in it. Choose a package that Stovebench has written, and save a spreadsheet as CSV first; nothing was imported.`,
    fr: (p) =>
      `${p.file} est une archive sans aucun dossier d’essai. Choisissez un paquet écrit par Stovebench, et enregistrez un classeur d’abord en CSV\u202f; rien n’a été importé.`,
  },
  'import/checksum-wrong': {
    status: 400,
    exitCode: 2,
    en: (p) =>
      `${p.file} was changed or damaged since its package was made: its checksum is another. Ask for the package again; nothing was imported.`,
    fr: (p) =>
      `${p.file} a été changé ou abîmé depuis que son paquet a été fait\u202f: sa somme de contrôle est autre. Redemandez le paquet\u202f; rien n’a été importé.`,
  },
  'import/record-twice': {
    status: 400,
    exitCode: 2,
    en: (p) =>
      `${p.file} has the burn "${p.title}" twice, as ${p.first} and as ${p.second}, and they say different things. Ask whoever made the package which is right, and for a package with that one; nothing was imported.`,
    fr: (p) =>
      `${p.file} contient deux fois l’essai «\u202f${p.title}\u202f», comme ${p.first} et comme ${p.second}, et les deux ne disent pas la même chose. Demandez à qui a fait le paquet lequel est juste, et un paquet avec celui-là seul\u202f; rien n’a été importé.`,
  },
  'import/too-large': {
    status: 413,
    exitCode: 2,
    en: (p) =>
      `${p.file} is larger than ${p.limitMb} MB, more than any burn. Import a part of it; nothing was imported.`,
    fr: (p) =>
      `${p.file} dépasse ${p.limitMb}\u00a0Mo, plus qu’aucun essai. Importez-en une partie\u202f; rien n’a été importé.`,
  },
  'import/too-many-lines': {
    status: 413,
    exitCode: 2,
    en: (p) =>
      `${p.file} has more than ${p.limitMillions} million lines, more than any burn has readings. Import a part of it; nothing was imported.`,
    fr: (p) =>
      `${p.file} a plus de ${p.limitMillions}\u00a0millions de lignes, plus qu’aucun essai n’a de relevés. Importez-en une partie\u202f; rien n’a été importé.`,
  },
  'import/line-too-long': {
    status: 422,
    exitCode: 2,
    en: (p) =>
      `Line ${p.line} of ${p.file} is longer than ${p.limitKb} kB, which no row of readings is. Is it a table or notes? Take that line out; nothing was imported.`,
    fr: (p) =>
      `La ligne ${p.line} de ${p.file} dépasse ${p.limitKb}\u00a0ko, plus qu’aucune ligne de mesures. Est-ce un tableau ou des notes\u202f? Ôtez cette ligne\u202f; rien n’a été importé.`,
  },
  'import/empty': {
    status: 400,
    exitCode: 2,
    en: (p) => `There is nothing in ${p.file}. Save it again, or choose another file; nothing was imported.`,
    fr: (p) =>
      `Il n’y a rien dans ${p.file}. Enregistrez-le de nouveau, ou choisissez un autre fichier\u202f; rien n’a été importé.`,
  },
  'import/no-text': {
    status: 400,
    exitCode: 2,
    en: (p) =>
      `${p.file} looks like a picture or a program: line ${p.line}, column ${p.column} should have a letter or a digit, and has a byte that is neither. Choose a burn record, a data package, a table or a note; nothing was imported.`,
    fr: (p) =>
      `${p.file} ressemble à une image ou à un programme\u202f: ligne ${p.line}, colonne ${p.column}, il faudrait une lettre ou un chiffre, et c’est un octet qui n’est ni l’un ni l’autre. Choisissez un dossier d’essai, un paquet de données, un tableau ou des notes\u202f; rien n’a été importé.`,
  },
  'import/no-columns': {
    status: 400,
    exitCode: 2,
    en: (p) =>
      `No row of ${p.file} has numbers in columns. Choose a table (CSV) with one reading a line; nothing was imported.`,
    fr: (p) =>
      `Aucune ligne de ${p.file} n’a de nombres en colonnes. Choisissez un tableau (CSV) d’une mesure par ligne\u202f; rien n’a été importé.`,
  },
  'import/quote-open': {
    status: 400,
    exitCode: 2,
    en: (p) =>
      `In ${p.file} a quotation mark is opened and never closed, near line ${p.line}. Close or remove it; nothing was imported.`,
    fr: (p) =>
      `Dans ${p.file}, un guillemet est ouvert et jamais fermé, vers la ligne ${p.line}. Fermez-le ou ôtez-le\u202f; rien n’a été importé.`,
  },
  'import/cell-wrong': {
    status: 400,
    exitCode: 2,
    en: (p) =>
      `${p.file}, line ${p.line}, column ${p.column} should have ${inCell.en[String(p.expected)]}, and has ${found.en(p.found)}${Number(p.count) > 1 ? ` (and ${Number(p.count) - 1} more like it)` : ''}. Correct the file or its reading, or skip what cannot be read; nothing was imported.`,
    fr: (p) =>
      `${p.file}, ligne ${p.line}, colonne ${p.column}\u202f: il faudrait ${inCell.fr[String(p.expected)]}, et ${found.fr(p.found)}${Number(p.count) > 1 ? ` (et ${Number(p.count) - 1} autres de même)` : ''}. Corrigez le fichier ou la façon de le lire, ou sautez ce qui ne se lit pas\u202f; rien n’a été importé.`,
  },
  'import/note-wrong': {
    status: 400,
    exitCode: 2,
    en: (p) =>
      `Line ${p.line} of the notes should have ${inNote.en[String(p.expected)]}, and is ${found.en(p.found)}. Correct it; nothing was imported.`,
    fr: (p) =>
      `La ligne ${p.line} des notes devrait avoir ${inNote.fr[String(p.expected)]}, et c’est «\u202f${p.found}\u202f». Corrigez-la\u202f; rien n’a été importé.`,
  },
  'import/no-rows': {
    status: 400,
    exitCode: 2,
    en: (p) =>
      `${p.file} has no readings from row ${p.row} on. Choose the first row with readings; nothing was imported.`,
    fr: (p) =>
      `${p.file} n’a aucune mesure à partir de la ligne ${p.row}. Choisissez la première ligne de mesures\u202f; rien n’a été importé.`,
  },
  'import/burn-running': {
    status: 409,
    exitCode: 1,
    en: (p) => `The burn "${p.title}" is running here. End it first, then import the other copy; nothing was imported.`,
    fr: (p) =>
      `L’essai «\u202f${p.title}\u202f» est en cours ici. Terminez-le d’abord, puis importez l’autre copie\u202f; rien n’a été importé.`,
  },
  'import/into-running': {
    status: 409,
    exitCode: 1,
    en: (p) => `The burn "${p.title}" is running. End it first, then import its readings; nothing was imported.`,
    fr: (p) =>
      `L’essai «\u202f${p.title}\u202f» est en cours. Terminez-le d’abord, puis importez ses mesures\u202f; rien n’a été importé.`,
  },
  'import/differs': {
    status: 409,
    exitCode: 3,
    en: (p) =>
      `${p.count} thing${p.count === 1 ? ' is' : 's are'} here already and different${p.count === 1 ? '' : ' each'}. Say for each whether to keep mine or take theirs; until then nothing is imported.`,
    fr: (p) =>
      `${p.count} chose${p.count === 1 ? ' est' : 's sont'} déjà ici, mais autrement. Dites pour chacune s’il faut garder la mienne ou prendre la leur\u202f; d’ici là rien n’est importé.`,
  },
  'import/not-found': {
    status: 404,
    exitCode: 1,
    en: () => 'This import is not waiting any more. Choose the file again; nothing was imported.',
    fr: () => 'Cet import n’attend plus. Choisissez le fichier de nouveau\u202f; rien n’a été importé.',
  },
} satisfies Record<string, ErrorEntry>;
