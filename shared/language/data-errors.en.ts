/** Refusals of what comes in, goes out, is backed up or is asked for on the command line, in English. */
import type { RecordProblemCode } from '../analysis/check-record.ts';
import type { Sentence } from './language.ts';
import { recordProblemsEn } from './record-problems.en.ts';

const inJson: Record<string, string> = {
  value: 'a value (text in quotation marks, a number, true, false, null, "{" or "[")',
  key: 'a name in quotation marks',
  colon: '":"',
  commaOrEnd: '"," or the end of the list',
  stringEnd: 'the closing quotation mark',
  escape: 'one of \\" \\\\ \\/ \\b \\f \\n \\r \\t \\u0000 after the backslash',
  nothingMore: 'nothing more',
};

const inCell: Record<string, string> = {
  number: 'a number',
  time: 'a time',
  laterTime: 'a time that is not before the one above',
  cells: 'as many cells as the mapped columns need',
};

const inNote: Record<string, string> = {
  noTime: 'a time at the beginning, like 10:05, 10h05 or 5 min',
  laterTime: 'a time that is not before the one above',
  values: 'no more values than there are probes',
  noLine: 'a line that says something, for the mark that is said of it',
};

const quoted = (found: string | number | undefined) => (found === '' ? 'nothing' : `"${found}"`);

export const dataErrorsEn = {
  /* ---- importing ---- */
  'import/json-broken': (p) =>
    `${p.file} is not JSON: line ${p.line}, column ${p.column} should have ${inJson[String(p.expected)]}, and has ${quoted(p.found)}. Export the file again; nothing was imported.`,
  'import/not-a-record': (p) =>
    `${p.file} is JSON, but no burn record: its "format" should be "${p.expected}". Choose a burn record, a data package, a table of readings or a note; nothing was imported.`,
  'import/newer-record': (p) =>
    `${p.file} is a burn record of version ${p.version}, written by newer software. Update this one first; nothing was imported.`,
  'import/record-wrong': (p) =>
    `${p.file} is a burn record with something wrong in it, first at line ${p.line}, column ${p.column} ("${p.path}"). What was expected stands below; nothing was imported.`,
  'import/not-text': (p) =>
    `${p.file} should be text in UTF-8 and is not. Save it as UTF-8, or choose another file; nothing was imported.`,
  'import/package-broken': (p) =>
    `${p.file} is a damaged or incomplete archive (${p.raw}). Ask for it again; nothing was imported.`,
  'import/package-without-records': (p) =>
    `${p.file} is an archive without any burn record in it. Choose a package that Stovebench has written, and save a spreadsheet as CSV first; nothing was imported.`,
  'import/checksum-wrong': (p) =>
    `${p.file} was changed or damaged since its package was made: its checksum is another. Ask for the package again; nothing was imported.`,
  'import/too-large': (p) =>
    `${p.file} is larger than ${p.limitMb} MB, more than any burn. Import a part of it; nothing was imported.`,
  'import/empty': (p) => `There is nothing in ${p.file}. Save it again, or choose another file; nothing was imported.`,
  'import/no-text': (p) =>
    `${p.file} looks like a picture or a program: line ${p.line}, column ${p.column} should have a letter or a digit, and has a byte that is neither. Choose a burn record, a data package, a table or a note; nothing was imported.`,
  'import/no-columns': (p) =>
    `No row of ${p.file} has numbers in columns. Choose a table (CSV) with one reading a line; nothing was imported.`,
  'import/quote-open': (p) =>
    `In ${p.file} a quotation mark is opened and never closed, near line ${p.line}. Close or remove it; nothing was imported.`,
  'import/cell-wrong': (p) =>
    `${p.file}, line ${p.line}, column ${p.column} should have ${inCell[String(p.expected)]}, and has ${quoted(p.found)}${Number(p.count) > 1 ? ` (and ${Number(p.count) - 1} more like it)` : ''}. Correct the file or its reading, or skip what cannot be read; nothing was imported.`,
  'import/note-wrong': (p) =>
    `Line ${p.line} of the notes should have ${inNote[String(p.expected)]}, and is ${quoted(p.found)}. Correct it; nothing was imported.`,
  'import/no-rows': (p) =>
    `${p.file} has no readings from row ${p.row} on. Choose the first row with readings; nothing was imported.`,
  'import/burn-running': (p) =>
    `The burn "${p.title}" is running here. End it first, then import the other copy; nothing was imported.`,
  'import/into-running': (p) =>
    `The burn "${p.title}" is running. End it first, then import its readings; nothing was imported.`,
  'import/differs': (p) =>
    `${p.count} thing${p.count === 1 ? ' is' : 's are'} here already and different${p.count === 1 ? '' : ' each'}. Say for each whether to keep mine or take theirs; until then nothing is imported.`,
  'import/not-found': () => 'This import is not waiting any more. Choose the file again; nothing was imported.',
  'issue/record': (p) => recordProblemsEn[p.problem as RecordProblemCode](p),

  /* ---- backups ---- */
  'backup/exists': (p) => `There is already something in ${p.folder}. Name a folder that does not exist yet.`,
  'backup/not-a-backup': (p) =>
    `${p.folder} is no backup made by Stovebench: it has no readable ${p.file}. Choose a folder made by "stovebench backup".`,
  'backup/damaged': (p) =>
    `The backup is damaged: ${p.file} is not what was backed up (${p.raw}). Use another backup; nothing was changed.`,
  'backup/results-differ': (p) =>
    `The backup does not prove itself: the burn "${p.title}" is not what was backed up (${p.what}). Use another backup; nothing was changed.`,
  'backup/in-the-way': (p) =>
    `There are data in ${p.folder} already. To put the backup in their place, say --replace: they are kept beside it under another name.`,

  /* ---- the command line ---- */
  'command/unknown': (p) => `There is no command "${p.command}". "stovebench --help" lists what there is.`,
  'command/usage': (p) => `${p.raw} "stovebench ${p.command} --help" shows how it is used.`,
  'command/argument-missing': (p) => `${p.what} is missing. "stovebench ${p.command} --help" shows how it is used.`,
  'command/argument-wrong': (p) => `${p.option} ${p.value} is not known. Choose one of: ${p.options}.`,
  'command/file-unreadable': (p) => `${p.file} cannot be read (${p.raw}). Check its name and your right to read it.`,
  'command/file-in-the-way': (p) => `${p.file} is there already. Name another file, or say --force to write over it.`,
  'command/file-unwritable': (p) => `${p.file} cannot be written (${p.raw}). Name another file.`,
  'command/service-silent': (p) =>
    `The service at ${p.address} does not answer (${p.raw}). Start it with "stovebench serve", or name another with --service.`,
  'command/burn-unclear': (p) =>
    `"${p.text}" fits ${p.count} burns. Give the identifier, or more of the title: "stovebench export --list" shows both.`,
  'command/burn-unknown': (p) => `No burn is called "${p.text}". "stovebench export --list" shows what there is.`,
} satisfies Record<string, Sentence>;
