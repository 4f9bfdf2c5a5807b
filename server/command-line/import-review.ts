/** The interpretation of a table or notes, printed for a person who imports them from the command line. */
import type { ImportPreview, NoteLine } from '../../shared/contract/imports.ts';
import { show } from '../../shared/language/display-units.ts';
import { serviceParts } from '../../shared/language/service/service-parts.ts';
import { terminalLanguage } from '../base/start-up.ts';

const { importReview: words, markNames } = serviceParts[terminalLanguage];

/** A line for every remark of notes with what it becomes, and for every doubt. */
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
  const name = markNames[mark].toLowerCase();
  return massKg === undefined ? name : `${name} ${show(terminalLanguage, 'si', 'mass', massKg).text}`;
}
