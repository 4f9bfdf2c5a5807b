/** Questions about a file to be imported, for the person who reviews it, in English. */
import type { columnDoubts, NoteDoubt, NoteLine } from '../../contract/imports.ts';

export const importReviewEn = {
  columnDoubts: {
    decimal: 'Whole numbers between commas: they may be the two halves of numbers with a decimal comma.',
    thousands: 'Some numbers have a mark that may set thousands apart, like 1,050. See below what they were read as.',
    dayMonth: 'Day or month first? These dates do not tell.',
    timeUnit: 'The file does not say in what its times are counted. Look at the duration.',
    noTime: 'No column looks like times. Say which one is, or how far apart the readings are.',
    clockSet: 'The clock of the file seems to have been set on the way, as at the change to or from summer time.',
    openQuote:
      'A quotation mark is opened and no other closes it in its row. Every line is read as a row; quotation marks count for nothing.',
    rowNumbers: 'A column that numbers the rows is left out.',
    unit: 'A column has no unit, neither in its heading nor behind its numbers, and is taken for °C. Say so if it is not.',
    fahrenheit: 'No unit is given, and the highest value is about where water boils in °F.',
    role: 'Which probe hung in the water? Nothing in the headings says so.',
  } satisfies Record<(typeof columnDoubts)[number], string>,
  noteProblems: {
    noTime: 'begins with no time, like 10:05, 10h05 or 5 min',
    laterTime: 'its time is before that of the line above',
    values: 'more values than there are probes',
    empty: 'says nothing after its time, and is left out',
  } satisfies Record<NonNullable<NoteLine['problem']>, string>,
  noteDoubts: {
    unsure: 'Not certain what was done: kept as a note unless you say what it was.',
    several: 'Says more than one thing: only the first becomes a mark. Write the other on a line of its own.',
    mass: 'Names a mass that is not kept as a number. Enter what was fed, or leave it as words.',
    thousands: 'A mark with three digits behind it: check whether thousands, decimals or two values are meant.',
    value: 'Names what may be a temperature, behind the words. Put it right behind the time to have it read.',
    clockSet: 'More than an hour later or earlier than the line above, at night. Was the clock changed in between?',
  } satisfies Record<NoteDoubt, string>,
  onLine: (p: { line: number; what: string; text: string }) => `line ${p.line}: ${p.what} (“${p.text}”)`,
  noMark: 'nothing',
  openQuote: (p: { line: number }) => `It is opened in line ${p.line}.`,
};
