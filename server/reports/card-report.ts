/**
 * The card of the next test, to hang next to the stove: which revision on which day from which lot, with boxes to tick.
 */
import type { NextTest } from '../../shared/contract/next-test.ts';
import { comparisonSentence } from '../../shared/language/comparison/comparison.ts';
import type { Language } from '../../shared/language/language.ts';
import type { Report } from './report.ts';
import { wordsOf } from './words.ts';

export function cardReport(
  { change, base, days, says: sentences, card }: NextTest,
  language: Language,
  version: string,
): Report {
  const { report } = wordsOf(language);
  const words = report.card;
  const baseName = comparisonSentence(language, { code: 'name/revision', params: { label: base } });
  return {
    language,
    title: words.title({ change }),
    subtitle: words.subtitle({ base: baseName, days }),
    footer: `Stovebench ${version}`,
    dateUtcMs: undefined,
    blocks: [
      {
        kind: 'table',
        columns: [
          { title: words.columns.day, align: 'right', share: 1 },
          { title: words.columns.revision, align: 'left', share: 4 },
          { title: words.columns.lot, align: 'left', share: 3 },
          { title: words.columns.date, align: 'left', share: 3 },
          { title: words.columns.operator, align: 'left', share: 2 },
        ],
        rows: card.map(({ day, revision, lot }) => [
          `${day}`,
          revision === 'base' ? baseName : words.changed({ change }),
          lot ?? words.anyLot,
          '…………………',
          '……………',
        ]),
      },
      { kind: 'list', items: sentences.map(({ sentence }) => sentence) },
      { kind: 'caution', items: report.cautions },
    ],
  };
}
