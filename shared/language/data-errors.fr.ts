/** Refus de ce qui entre, sort, se sauvegarde ou se demande en ligne de commande : en français. */
import type { RecordProblemCode } from '../analysis/check-record.ts';
import type { dataErrorsEn } from './data-errors.en.ts';
import { recordProblemsFr } from './record-problems.fr.ts';

const inJson: Record<string, string> = {
  value: 'une valeur (texte entre guillemets droits, nombre, true, false, null, «\u00a0{\u00a0» ou «\u00a0[\u00a0»)',
  key: 'un nom entre guillemets droits',
  colon: '«\u00a0:\u00a0»',
  commaOrEnd: '«\u00a0,\u00a0» ou la fin de la liste',
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

const found = (text: string | number | undefined) => (text === '' ? 'il n’y a rien' : `il y a «\u00a0${text}\u00a0»`);

export const dataErrorsFr: typeof dataErrorsEn = {
  'import/json-broken': (p) =>
    `${p.file} n’est pas du JSON\u00a0: ligne ${p.line}, colonne ${p.column}, il faudrait ${inJson[String(p.expected)]}, et ${found(p.found)}. Exportez le fichier de nouveau\u00a0; rien n’a été repris.`,
  'import/not-a-record': (p) =>
    `${p.file} est du JSON, mais pas un relevé de flambée\u00a0: son «\u00a0format\u00a0» devrait être «\u00a0${p.expected}\u00a0». Choisissez un relevé, un paquet de données, un tableau de mesures ou des notes\u00a0; rien n’a été repris.`,
  'import/newer-record': (p) =>
    `${p.file} est un relevé de version ${p.version}, écrit par un logiciel plus récent. Mettez d’abord celui-ci à jour\u00a0; rien n’a été repris.`,
  'import/record-wrong': (p) =>
    `${p.file} est un relevé de flambée où quelque chose ne va pas, d’abord à la ligne ${p.line}, colonne ${p.column} («\u00a0${p.path}\u00a0»). Ce qui était attendu figure dessous\u00a0; rien n’a été repris.`,
  'import/not-text': (p) =>
    `${p.file} devrait être du texte en UTF-8 et ne l’est pas. Enregistrez-le en UTF-8, ou choisissez un autre fichier\u00a0; rien n’a été repris.`,
  'import/package-broken': (p) =>
    `${p.file} est une archive abîmée ou incomplète (${p.raw}). Redemandez-la\u00a0; rien n’a été repris.`,
  'import/package-without-records': (p) =>
    `${p.file} est une archive sans aucun relevé de flambée. Choisissez un paquet écrit par Stovebench, et enregistrez un classeur d’abord en CSV\u00a0; rien n’a été repris.`,
  'import/checksum-wrong': (p) =>
    `${p.file} a été changé ou abîmé depuis que son paquet a été fait\u00a0: sa somme de contrôle est autre. Redemandez le paquet\u00a0; rien n’a été repris.`,
  'import/too-large': (p) =>
    `${p.file} dépasse ${p.limitMb}\u00a0Mo, plus qu’aucune flambée. Reprenez-en une partie\u00a0; rien n’a été repris.`,
  'import/empty': (p) =>
    `Il n’y a rien dans ${p.file}. Enregistrez-le de nouveau, ou choisissez un autre fichier\u00a0; rien n’a été repris.`,
  'import/no-text': (p) =>
    `${p.file} ressemble à une image ou à un programme\u00a0: ligne ${p.line}, colonne ${p.column}, il faudrait une lettre ou un chiffre, et c’est un octet qui n’est ni l’un ni l’autre. Choisissez un relevé, un paquet de données, un tableau ou des notes\u00a0; rien n’a été repris.`,
  'import/no-columns': (p) =>
    `Aucune ligne de ${p.file} n’a de nombres en colonnes. Choisissez un tableau (CSV) d’une mesure par ligne\u00a0; rien n’a été repris.`,
  'import/quote-open': (p) =>
    `Dans ${p.file}, un guillemet est ouvert et jamais fermé, vers la ligne ${p.line}. Fermez-le ou ôtez-le\u00a0; rien n’a été repris.`,
  'import/cell-wrong': (p) =>
    `${p.file}, ligne ${p.line}, colonne ${p.column}\u00a0: il faudrait ${inCell[String(p.expected)]}, et ${found(p.found)}${Number(p.count) > 1 ? ` (et ${Number(p.count) - 1} autres de même)` : ''}. Corrigez le fichier ou la façon de le lire, ou sautez ce qui ne se lit pas\u00a0; rien n’a été repris.`,
  'import/note-wrong': (p) =>
    `La ligne ${p.line} des notes devrait avoir ${inNote[String(p.expected)]}, et c’est «\u00a0${p.found}\u00a0». Corrigez-la\u00a0; rien n’a été repris.`,
  'import/no-rows': (p) =>
    `${p.file} n’a aucune mesure à partir de la ligne ${p.row}. Choisissez la première ligne de mesures\u00a0; rien n’a été repris.`,
  'import/burn-running': (p) =>
    `La flambée «\u00a0${p.title}\u00a0» est en cours ici. Terminez-la d’abord, puis reprenez l’autre copie\u00a0; rien n’a été repris.`,
  'import/into-running': (p) =>
    `La flambée «\u00a0${p.title}\u00a0» est en cours. Terminez-la d’abord, puis reprenez ses mesures\u00a0; rien n’a été repris.`,
  'import/differs': (p) =>
    `${p.count} chose${p.count === 1 ? ' est' : 's sont'} déjà ici, mais autrement. Dites pour chacune s’il faut garder la mienne ou prendre la leur\u00a0; d’ici là rien n’est repris.`,
  'import/not-found': () => 'Cette reprise n’attend plus. Choisissez le fichier de nouveau\u00a0; rien n’a été repris.',
  'issue/record': (p) => recordProblemsFr[p.problem as RecordProblemCode](p),

  'backup/exists': (p) => `Il y a déjà quelque chose dans ${p.folder}. Nommez un dossier qui n’existe pas encore.`,
  'backup/not-a-backup': (p) =>
    `${p.folder} n’est pas une sauvegarde faite par Stovebench\u00a0: ${p.file} y manque ou ne se lit pas. Choisissez un dossier fait par «\u00a0stovebench backup\u00a0».`,
  'backup/damaged': (p) =>
    `La sauvegarde est abîmée\u00a0: ${p.file} n’est pas ce qui a été sauvegardé (${p.raw}). Prenez-en une autre\u00a0; rien n’a été changé.`,
  'backup/results-differ': (p) =>
    `La sauvegarde ne fait pas ses preuves\u00a0: la flambée «\u00a0${p.title}\u00a0» n’est pas ce qui a été sauvegardé (${p.what}). Prenez-en une autre\u00a0; rien n’a été changé.`,
  'backup/in-the-way': (p) =>
    `Il y a déjà des données dans ${p.folder}. Pour mettre la sauvegarde à leur place, dites --replace\u00a0: elles sont gardées à côté sous un autre nom.`,

  'command/unknown': (p) =>
    `Il n’y a pas de commande «\u00a0${p.command}\u00a0». «\u00a0stovebench --help\u00a0» dit ce qu’il y a.`,
  'command/usage': (p) => `${p.raw} «\u00a0stovebench ${p.command} --help\u00a0» montre comment s’en servir.`,
  'command/argument-missing': (p) =>
    `Il manque ${p.what}. «\u00a0stovebench ${p.command} --help\u00a0» montre comment s’en servir.`,
  'command/argument-wrong': (p) => `${p.option} ${p.value} n’est pas connu. Choisissez parmi\u00a0: ${p.options}.`,
  'command/file-unreadable': (p) =>
    `${p.file} ne peut pas être lu (${p.raw}). Vérifiez son nom et votre droit de le lire.`,
  'command/file-in-the-way': (p) => `${p.file} existe déjà. Nommez un autre fichier, ou dites --force pour l’écraser.`,
  'command/file-unwritable': (p) => `${p.file} ne peut pas être écrit (${p.raw}). Nommez un autre fichier.`,
  'command/service-silent': (p) =>
    `Le service à ${p.address} ne répond pas (${p.raw}). Lancez-le par «\u00a0stovebench serve\u00a0», ou nommez-en un autre par --service.`,
  'command/burn-unclear': (p) =>
    `«\u00a0${p.text}\u00a0» convient à ${p.count} flambées. Donnez l’identifiant, ou plus du titre\u00a0: «\u00a0stovebench export --list\u00a0» montre les deux.`,
  'command/burn-unknown': (p) =>
    `Aucune flambée ne s’appelle «\u00a0${p.text}\u00a0». «\u00a0stovebench export --list\u00a0» montre ce qu’il y a.`,
};
