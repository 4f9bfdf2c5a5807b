/** Refus de ce qui entre, sort, se sauvegarde ou se demande en ligne de commande : en français. */
import type { RecordProblemCode } from '../analysis/check-record.ts';
import type { dataErrorsEn } from './data-errors.en.ts';
import { recordProblemsFr } from './record-problems.fr.ts';

const inJson: Record<string, string> = {
  value: 'une valeur (texte entre guillemets droits, nombre, true, false, null, « { » ou « [ »)',
  key: 'un nom entre guillemets droits',
  colon: '« : »',
  commaOrEnd: '« , » ou la fin de la liste',
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
  noTime: 'un moment au début, comme 10:05, 10h05 ou 5 min',
  laterTime: 'un moment qui ne précède pas celui du dessus',
  values: 'au plus autant de valeurs que de sondes',
};

const found = (text: string | number | undefined) => (text === '' ? 'il n’y a rien' : `il y a « ${text} »`);

export const dataErrorsFr: typeof dataErrorsEn = {
  'import/json-broken': (p) =>
    `${p.file} n’est pas du JSON : ligne ${p.line}, colonne ${p.column}, il faudrait ${inJson[String(p.expected)]}, et ${found(p.found)}. Exportez le fichier de nouveau ; rien n’a été repris.`,
  'import/not-a-record': (p) =>
    `${p.file} est du JSON, mais pas un relevé de flambée : son « format » devrait être « ${p.expected} ». Choisissez un relevé, un paquet de données, un tableau de mesures ou des notes ; rien n’a été repris.`,
  'import/newer-record': (p) =>
    `${p.file} est un relevé de version ${p.version}, écrit par un logiciel plus récent. Mettez d’abord celui-ci à jour ; rien n’a été repris.`,
  'import/record-wrong': (p) =>
    `${p.file} est un relevé de flambée où quelque chose ne va pas, d’abord à la ligne ${p.line}, colonne ${p.column} (« ${p.path} »). Ce qui était attendu figure dessous ; rien n’a été repris.`,
  'import/not-text': (p) =>
    `${p.file} devrait être du texte en UTF-8 et ne l’est pas. Enregistrez-le en UTF-8, ou choisissez un autre fichier ; rien n’a été repris.`,
  'import/package-broken': (p) =>
    `${p.file} est une archive abîmée ou incomplète (${p.raw}). Redemandez-la ; rien n’a été repris.`,
  'import/package-without-records': (p) =>
    `${p.file} est une archive sans aucun relevé de flambée. Choisissez un paquet écrit par Stovebench, et enregistrez un classeur d’abord en CSV ; rien n’a été repris.`,
  'import/checksum-wrong': (p) =>
    `${p.file} a été changé ou abîmé depuis que son paquet a été fait : sa somme de contrôle est autre. Redemandez le paquet ; rien n’a été repris.`,
  'import/too-large': (p) =>
    `${p.file} dépasse ${p.limitMb} Mo, plus qu’aucune flambée. Reprenez-en une partie ; rien n’a été repris.`,
  'import/empty': (p) =>
    `Il n’y a rien dans ${p.file}. Enregistrez-le de nouveau, ou choisissez un autre fichier ; rien n’a été repris.`,
  'import/no-text': (p) =>
    `${p.file} ressemble à une image ou à un programme : ligne ${p.line}, colonne ${p.column}, il faudrait une lettre ou un chiffre, et c’est un octet qui n’est ni l’un ni l’autre. Choisissez un relevé, un paquet de données, un tableau ou des notes ; rien n’a été repris.`,
  'import/no-columns': (p) =>
    `Aucune ligne de ${p.file} n’a de nombres en colonnes. Choisissez un tableau (CSV) d’une mesure par ligne ; rien n’a été repris.`,
  'import/quote-open': (p) =>
    `Dans ${p.file}, un guillemet est ouvert et jamais fermé, vers la ligne ${p.line}. Fermez-le ou ôtez-le ; rien n’a été repris.`,
  'import/cell-wrong': (p) =>
    `${p.file}, ligne ${p.line}, colonne ${p.column} : il faudrait ${inCell[String(p.expected)]}, et ${found(p.found)}${Number(p.count) > 1 ? ` (et ${Number(p.count) - 1} autres de même)` : ''}. Corrigez le fichier ou la façon de le lire, ou sautez ce qui ne se lit pas ; rien n’a été repris.`,
  'import/note-wrong': (p) =>
    `La ligne ${p.line} des notes devrait avoir ${inNote[String(p.expected)]}, et c’est « ${p.found} ». Corrigez-la ; rien n’a été repris.`,
  'import/no-rows': (p) =>
    `${p.file} n’a aucune mesure à partir de la rangée ${p.row}. Choisissez la première rangée de mesures ; rien n’a été repris.`,
  'import/burn-running': (p) =>
    `La flambée « ${p.title} » est en cours ici. Terminez-la d’abord, puis reprenez l’autre copie ; rien n’a été repris.`,
  'import/into-running': (p) =>
    `La flambée « ${p.title} » est en cours. Terminez-la d’abord, puis reprenez ses mesures ; rien n’a été repris.`,
  'import/differs': (p) =>
    `${p.count} chose${p.count === 1 ? ' est' : 's sont'} déjà ici, mais autrement. Dites pour chacune s’il faut garder la mienne ou prendre la leur ; d’ici là rien n’est repris.`,
  'import/not-found': () => 'Cette reprise n’attend plus. Choisissez le fichier de nouveau ; rien n’a été repris.',
  'issue/record': (p) => recordProblemsFr[p.problem as RecordProblemCode](p),

  'backup/exists': (p) => `Il y a déjà quelque chose dans ${p.folder}. Nommez un dossier qui n’existe pas encore.`,
  'backup/not-a-backup': (p) =>
    `${p.folder} n’est pas une sauvegarde faite par Stovebench : ${p.file} y manque ou ne se lit pas. Choisissez un dossier fait par « stovebench backup ».`,
  'backup/damaged': (p) =>
    `La sauvegarde est abîmée : ${p.file} n’est pas ce qui a été sauvegardé (${p.raw}). Prenez-en une autre ; rien n’a été changé.`,
  'backup/results-differ': (p) =>
    `La sauvegarde ne fait pas ses preuves : la flambée « ${p.title} » n’est pas ce qui a été sauvegardé (${p.what}). Prenez-en une autre ; rien n’a été changé.`,
  'backup/in-the-way': (p) =>
    `Il y a déjà des données dans ${p.folder}. Pour mettre la sauvegarde à leur place, dites --replace : elles sont gardées à côté sous un autre nom.`,

  'command/unknown': (p) => `Il n’y a pas de commande « ${p.command} ». « stovebench --help » dit ce qu’il y a.`,
  'command/usage': (p) => `${p.raw} « stovebench ${p.command} --help » montre comment s’en servir.`,
  'command/argument-missing': (p) =>
    `Il manque ${p.what}. « stovebench ${p.command} --help » montre comment s’en servir.`,
  'command/argument-wrong': (p) => `${p.option} ${p.value} n’est pas connu. Choisissez parmi : ${p.options}.`,
  'command/file-unreadable': (p) =>
    `${p.file} ne peut pas être lu (${p.raw}). Vérifiez son nom et votre droit de le lire.`,
  'command/file-in-the-way': (p) => `${p.file} existe déjà. Nommez un autre fichier, ou dites --force pour l’écraser.`,
  'command/file-unwritable': (p) => `${p.file} ne peut pas être écrit (${p.raw}). Nommez un autre fichier.`,
  'command/service-silent': (p) =>
    `Le service à ${p.address} ne répond pas (${p.raw}). Lancez-le par « stovebench serve », ou nommez-en un autre par --service.`,
  'command/burn-unclear': (p) =>
    `« ${p.text} » convient à ${p.count} flambées. Donnez l’identifiant, ou plus du titre : « stovebench export --list » montre les deux.`,
  'command/burn-unknown': (p) =>
    `Aucune flambée ne s’appelle « ${p.text} ». « stovebench export --list » montre ce qu’il y a.`,
};
