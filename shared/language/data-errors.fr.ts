/** Refus de ce qui entre, sort, se sauvegarde ou se demande en ligne de commande : en français. */
import type { RecordProblemCode } from '../analysis/check-record.ts';
import type { dataErrorsEn } from './data-errors.en.ts';
import { recordProblemsFr } from './record-problems.fr.ts';

const inJson: Record<string, string> = {
  value: 'une valeur (texte entre guillemets droits, nombre, true, false, null, «\u202f{\u202f» ou «\u202f[\u202f»)',
  key: 'un nom entre guillemets droits',
  colon: '«\u202f:\u202f»',
  commaOrEnd: '«\u202f,\u202f» ou la fin de la liste',
  stringEnd: 'le guillemet fermant',
  escape: 'l’un de \\" \\\\ \\/ \\b \\f \\n \\r \\t \\u0000 après la barre oblique inverse',
  nothingMore: 'plus rien',
};

const inCell: Record<string, string> = {
  number: 'un nombre',
  time: 'une heure ou une durée',
  laterTime: 'un moment qui ne précède pas celui du dessus',
  cells: 'autant de cases que les colonnes désignées en demandent',
};

const inNote: Record<string, string> = {
  noTime: 'un moment au début, comme 10:05, 10h05 ou 5\u00a0min',
  laterTime: 'un moment qui ne précède pas celui du dessus',
  values: 'au plus autant de valeurs que de sondes',
  noLine: 'quelque chose d’écrit, pour le repère qui en est dit',
};

const found = (text: string | number | undefined) => (text === '' ? 'il n’y a rien' : `il y a «\u202f${text}\u202f»`);

export const dataErrorsFr: typeof dataErrorsEn = {
  'import/json-broken': (p) =>
    `${p.file} n’est pas du JSON\u202f: ligne ${p.line}, colonne ${p.column}, il faudrait ${inJson[String(p.expected)]}, et ${found(p.found)}. Exportez le fichier de nouveau\u202f; rien n’a été importé.`,
  'import/not-a-record': (p) =>
    `${p.file} est du JSON, mais pas un dossier d’essai\u202f: son «\u202fformat\u202f» devrait être «\u202f${p.expected}\u202f». Choisissez un dossier d’essai, un paquet de données, un tableau de mesures ou des notes\u202f; rien n’a été importé.`,
  'import/newer-record': (p) =>
    `${p.file} est un dossier d’essai de version ${p.version}, écrit par un logiciel plus récent. Mettez d’abord celui-ci à jour\u202f; rien n’a été importé.`,
  'import/record-wrong': (p) =>
    `${p.file} est un dossier d’essai où quelque chose ne va pas, d’abord à la ligne ${p.line}, colonne ${p.column} («\u202f${p.path}\u202f»). Ce qui était attendu figure dessous\u202f; rien n’a été importé.`,
  'import/not-text': (p) =>
    `${p.file} devrait être du texte en UTF-8 et ne l’est pas. Enregistrez-le en UTF-8, ou choisissez un autre fichier\u202f; rien n’a été importé.`,
  'import/package-broken': (p) =>
    `${p.file} est une archive abîmée ou incomplète (${p.raw}). Redemandez-la\u202f; rien n’a été importé.`,
  'import/package-without-records': (p) =>
    `${p.file} est une archive sans aucun dossier d’essai. Choisissez un paquet écrit par Stovebench, et enregistrez un classeur d’abord en CSV\u202f; rien n’a été importé.`,
  'import/checksum-wrong': (p) =>
    `${p.file} a été changé ou abîmé depuis que son paquet a été fait\u202f: sa somme de contrôle est autre. Redemandez le paquet\u202f; rien n’a été importé.`,
  'import/too-large': (p) =>
    `${p.file} dépasse ${p.limitMb}\u00a0Mo, plus qu’aucun essai. Importez-en une partie\u202f; rien n’a été importé.`,
  'import/empty': (p) =>
    `Il n’y a rien dans ${p.file}. Enregistrez-le de nouveau, ou choisissez un autre fichier\u202f; rien n’a été importé.`,
  'import/no-text': (p) =>
    `${p.file} ressemble à une image ou à un programme\u202f: ligne ${p.line}, colonne ${p.column}, il faudrait une lettre ou un chiffre, et c’est un octet qui n’est ni l’un ni l’autre. Choisissez un dossier d’essai, un paquet de données, un tableau ou des notes\u202f; rien n’a été importé.`,
  'import/no-columns': (p) =>
    `Aucune ligne de ${p.file} n’a de nombres en colonnes. Choisissez un tableau (CSV) d’une mesure par ligne\u202f; rien n’a été importé.`,
  'import/quote-open': (p) =>
    `Dans ${p.file}, un guillemet est ouvert et jamais fermé, vers la ligne ${p.line}. Fermez-le ou ôtez-le\u202f; rien n’a été importé.`,
  'import/cell-wrong': (p) =>
    `${p.file}, ligne ${p.line}, colonne ${p.column}\u202f: il faudrait ${inCell[String(p.expected)]}, et ${found(p.found)}${Number(p.count) > 1 ? ` (et ${Number(p.count) - 1} autres de même)` : ''}. Corrigez le fichier ou la façon de le lire, ou sautez ce qui ne se lit pas\u202f; rien n’a été importé.`,
  'import/note-wrong': (p) =>
    `La ligne ${p.line} des notes devrait avoir ${inNote[String(p.expected)]}, et c’est «\u202f${p.found}\u202f». Corrigez-la\u202f; rien n’a été importé.`,
  'import/no-rows': (p) =>
    `${p.file} n’a aucune mesure à partir de la ligne ${p.row}. Choisissez la première ligne de mesures\u202f; rien n’a été importé.`,
  'import/burn-running': (p) =>
    `L’essai «\u202f${p.title}\u202f» est en cours ici. Terminez-le d’abord, puis importez l’autre copie\u202f; rien n’a été importé.`,
  'import/into-running': (p) =>
    `L’essai «\u202f${p.title}\u202f» est en cours. Terminez-le d’abord, puis importez ses mesures\u202f; rien n’a été importé.`,
  'import/differs': (p) =>
    `${p.count} chose${p.count === 1 ? ' est' : 's sont'} déjà ici, mais autrement. Dites pour chacune s’il faut garder la mienne ou prendre la leur\u202f; d’ici là rien n’est importé.`,
  'import/not-found': () => 'Cet import n’attend plus. Choisissez le fichier de nouveau\u202f; rien n’a été importé.',
  'issue/record': (p) => recordProblemsFr[p.problem as RecordProblemCode](p),

  'backup/exists': (p) => `Il y a déjà quelque chose dans ${p.folder}. Nommez un répertoire qui n’existe pas encore.`,
  'backup/not-a-backup': (p) =>
    `${p.folder} n’est pas une sauvegarde faite par Stovebench\u202f: ${p.file} y manque ou ne se lit pas. Choisissez un répertoire fait par «\u202fstovebench backup\u202f».`,
  'backup/damaged': (p) =>
    `La sauvegarde est abîmée\u202f: ${p.file} n’est pas ce qui a été sauvegardé (${p.raw}). Prenez-en une autre\u202f; rien n’a été changé.`,
  'backup/results-differ': (p) =>
    `La sauvegarde ne fait pas ses preuves\u202f: l’essai «\u202f${p.title}\u202f» n’est pas ce qui a été sauvegardé (${p.what}). Prenez-en une autre\u202f; rien n’a été changé.`,
  'backup/in-the-way': (p) =>
    `Il y a déjà des données dans ${p.folder}. Pour mettre la sauvegarde à leur place, dites --replace\u202f: elles sont gardées à côté sous un autre nom.`,

  'command/unknown': (p) =>
    `Il n’y a pas de commande «\u202f${p.command}\u202f». «\u202fstovebench --help\u202f» dit ce qu’il y a.`,
  'command/usage': (p) => `${p.raw} «\u202fstovebench ${p.command} --help\u202f» montre comment s’en servir.`,
  'command/argument-missing': (p) =>
    `Il manque ${p.what}. «\u202fstovebench ${p.command} --help\u202f» montre comment s’en servir.`,
  'command/argument-wrong': (p) => `${p.option} ${p.value} n’est pas connu. Choisissez parmi\u202f: ${p.options}.`,
  'command/file-unreadable': (p) =>
    `${p.file} ne peut pas être lu (${p.raw}). Vérifiez son nom et votre droit de le lire.`,
  'command/file-in-the-way': (p) => `${p.file} existe déjà. Nommez un autre fichier, ou dites --force pour l’écraser.`,
  'command/file-unwritable': (p) => `${p.file} ne peut pas être écrit (${p.raw}). Nommez un autre fichier.`,
  'command/service-silent': (p) =>
    `Le service à ${p.address} ne répond pas (${p.raw}). Lancez-le par «\u202fstovebench serve\u202f», ou nommez-en un autre par --service.`,
  'command/burn-unclear': (p) =>
    `«\u202f${p.text}\u202f» convient à ${p.count} essais. Donnez l’identifiant, ou plus du titre\u202f: «\u202fstovebench export --list\u202f» montre les deux.`,
  'command/burn-unknown': (p) =>
    `Aucun essai ne s’appelle «\u202f${p.text}\u202f». «\u202fstovebench export --list\u202f» montre ce qu’il y a.`,
};
