import { expect, test } from 'vitest';
import { commandLineFr } from '../../shared/language/command-line/command-line.fr.ts';
import { comparisonFr } from '../../shared/language/comparison/comparison.fr.ts';
import { errors } from '../../shared/language/errors/errors.ts';
import { issueSentences } from '../../shared/language/errors/issue-sentences.ts';
import { type Language, languages } from '../../shared/language/language.ts';
import { reportFr } from '../../shared/language/report/report.fr.ts';
import { defaultsFr, missingFr, remarksFr } from '../../shared/language/results/messages.fr.ts';
import { firstPartEn } from '../../shared/language/screens/first-part.en.ts';
import { firstPartFr } from '../../shared/language/screens/first-part.fr.ts';
import { laterPartEn } from '../../shared/language/screens/later-part.en.ts';
import { laterPartFr } from '../../shared/language/screens/later-part.fr.ts';

const { compare: compareEn, probes: probesEn, boardCheck: boardCheckEn, findings: findingsEn } = laterPartEn;
const { imports: importFr, compare: compareFr, probes: probesFr, boardCheck: boardCheckFr } = laterPartFr;
const { findings: findingsFr } = laterPartFr;
const wordsEn = {
  ...firstPartEn,
  compare: compareEn,
  probes: probesEn,
  boardCheck: boardCheckEn,
  findings: findingsEn,
};
const wordsFr: typeof wordsEn = {
  ...firstPartFr,
  compare: compareFr,
  probes: probesFr,
  boardCheck: boardCheckFr,
  findings: findingsFr,
};
const pages: Record<Language, typeof wordsEn> = { en: wordsEn, fr: wordsFr };

/** Returns every sentence of a catalogue, with "7" for each figure and a result by its name. */
function sentences(part: unknown, path = ''): [string, string][] {
  if (typeof part === 'string') return [[path, part]];
  if (typeof part === 'function') {
    const anything = new Proxy({}, { get: (_, key) => (key === 'result' ? 'timeToTarget' : '7') });
    return [[path, String(part(anything))]];
  }
  return Object.entries(part as object).flatMap(([key, value]) => sentences(value, `${path}/${key}`));
}

const everySentence = Object.values(pages).flatMap((words) => sentences(words));

test('all languages have the same sentences, none of them empty', () => {
  for (const words of Object.values(pages))
    expect(sentences(words).map(([path]) => path)).toEqual(sentences(wordsEn).map(([path]) => path));
  expect(everySentence.filter(([, text]) => text.trim() === '')).toEqual([]);
});

test.each(languages.filter((language) => language !== 'en'))(
  'a sentence of several words is translated into %s, not left in English',
  (language) => {
    const translated = new Map(sentences(pages[language]));
    const same = sentences(wordsEn).filter(([path, text]) => / .* /.test(text) && translated.get(path) === text);
    expect(same).toEqual([]);
  },
);

// Atkinson Hyperlegible Next has no Greek, no arrows and no "at least" sign: they would be in another typeface.
test('no sentence uses a character that the bundled typeface does not have', () => {
  const missing = /[\u0370-\u03ff\u2190-\u21ff\u2248\u2264\u2265\u2080-\u2089]/;
  expect(everySentence.filter(([, text]) => missing.test(text))).toEqual([]);
});

test('French has no-break spaces before its double signs, before units and inside its quotation marks', () => {
  // A code, not a figure, selects the sentence of a record problem.
  const { 'issue/record': _, ...issues } = issueSentences;
  const errorsFr = Object.fromEntries(Object.entries({ ...errors, ...issues }).map(([code, { fr }]) => [code, fr]));
  const all = {
    ...wordsFr,
    importFr,
    commandLineFr,
    comparisonFr,
    defaultsFr,
    errorsFr,
    missingFr,
    remarksFr,
    reportFr,
  };
  const loose = sentences(all).filter(([, text]) => /[ \u00a0][:;?!»]|«[ \u00a0]| %|\d (°C|kg|MJ|K)(?!\w)/.test(text));
  expect(loose).toEqual([]);
});

test('emphasis is opened and closed', () => {
  // Findings of a board check are shown without markup, and quote the mark of a checksum.
  const markedUp = everySentence.filter(([path]) => !path.startsWith('/findings/'));
  const odd = markedUp.filter(([, text]) => text.split('*').length % 2 === 0 || text.split('~').length % 2 === 0);
  expect(odd).toEqual([]);
});
