/** What a table or notes were understood to say, for whoever brings them in from the command line. */
import type { ImportPreview, NoteLine } from '../../shared/contract/imports.ts';
import type { Language } from '../../shared/language/language.ts';
import { importReviewEn } from '../../shared/language/screens/import-review.en.ts';
import { importReviewFr } from '../../shared/language/screens/import-review.fr.ts';
import { marksEn } from '../../shared/language/screens/marks.en.ts';
import { marksFr } from '../../shared/language/screens/marks.fr.ts';
import { show } from '../../shared/language/shown.ts';
import { terminalLanguage } from '../base/start-up.ts';

const reviews: Record<Language, typeof importReviewEn> = { en: importReviewEn, fr: importReviewFr };
const markNames: Record<Language, typeof marksEn.marks.names> = { en: marksEn.marks.names, fr: marksFr.marks.names };
const words = reviews[terminalLanguage];
const marks = markNames[terminalLanguage];

/** A line for every remark of notes and what it becomes, and for every doubt. */
export function reviewOf(preview: ImportPreview): string[] {
  if (preview.kind === 'burns') return [];
  if (preview.kind === 'columns') return preview.columns.doubts.map((doubt) => words.columnDoubts[doubt]);
  return preview.notes.lines.flatMap((line) => {
    const doubts = (line.doubts ?? []).map((doubt) => `  ${words.noteDoubts[doubt]}`);
    if (line.note === undefined && doubts.length === 0) return [];
    return [words.onLine({ line: line.line, what: becomes(line), text: line.note ?? line.text }), ...doubts];
  });
}

function becomes({ mark, massKg }: NoteLine): string {
  if (mark === undefined) return words.noMark;
  const name = marks[mark].toLowerCase();
  return massKg === undefined ? name : `${name} ${show(terminalLanguage, 'si', 'mass', massKg).text}`;
}
