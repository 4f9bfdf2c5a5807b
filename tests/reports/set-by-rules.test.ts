/** Checks the pages of several burns in both languages on both papers, as independent programs read them. */
import { beforeAll, describe, expect, it } from 'vitest';
import { burnReport } from '../../server/reports/burn-report.ts';
import { type Paper, papers } from '../../server/reports/page-size.ts';
import { reportToPdf } from '../../server/reports/report-pdf.ts';
import type { BurnRecord } from '../../shared/contract/burn-record.ts';
import { type Language, languages } from '../../shared/language/language.ts';
import { frameEn } from '../../shared/language/screens/frame.en.ts';
import { frameFr } from '../../shared/language/screens/frame.fr.ts';
import { serviceParts } from '../../shared/language/service/service-parts.ts';
import { goldenRecords } from '../analysis/golden/records.ts';
import { sampleRecord } from '../exports/sample-burn.ts';
import { englishWordsIn } from './english-words.ts';
import { withoutPersonsWords } from './persons-words.ts';
import { poppler } from './poppler.ts';
import { reportInput } from './sample-report.ts';

/** Relative luminance of an sRGB colour, IEC 61966-2-1. */
function luminance(hex: string): number {
  const [red = 0, green = 0, blue = 0] = [1, 3, 5].map((at) => {
    const share = Number.parseInt(hex.slice(at, at + 2), 16) / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
}

/** A burn with many notes, and a long one in a narrow cell. */
function manyNotes(): BurnRecord {
  const record = sampleRecord();
  for (const mark of record.marks) mark.note = 'ñandú';
  record.marks[3]!.note = 'ñandú '.repeat(330).trim();
  record.weatherNote = 'ñandú '.repeat(150).trim();
  return record;
}

const burns: Readonly<Record<string, () => BurnRecord>> = {
  sample: sampleRecord,
  'many notes': manyNotes,
  'moved load': () => ({ ...goldenRecords['moved load']!(), methodSet: 'water-boil-4' }),
  'cooled off the fire': () => ({ ...goldenRecords['cooled off the fire']!(), methodSet: 'iso-19867-char-credit' }),
  unfinished: goldenRecords.unfinished!,
};

const paperNames = Object.keys(papers) as Paper[];

/** One burn in both languages on both papers, every other in each language on one. */
const settings = Object.keys(burns).flatMap((burn, index): [string, Language, Paper][] =>
  index === 0
    ? languages.flatMap((language) => paperNames.map((paper): [string, Language, Paper] => [burn, language, paper]))
    : languages.map((language, at) => [burn, language, paperNames[(index + at) % 2]!]),
);
const reports = new Map<string, Buffer>();
const read = (burn: string, language: Language, paper?: Paper) => {
  const known = settings.find((each) => each[0] === burn && each[1] === language && (!paper || each[2] === paper))!;
  return poppler(reports.get(known.join(' '))!);
};

beforeAll(async () => {
  for (const [name, record] of Object.entries(burns)) {
    const input = { ...reportInput(withoutPersonsWords(record())), softwareVersion: '0.0.0' };
    for (const [burn, language, paper] of settings.filter(([each]) => each === name))
      reports.set(
        [burn, language, paper].join(' '),
        await reportToPdf(burnReport({ ...input, language, paper }), paper),
      );
  }
});

it.each(settings)('the report of the burn “%s”, in %s on %s, has no page with a few lines on it', (...setting) => {
  const pages = read(...setting).linesOfPages();
  expect(pages.length).toBeGreaterThan(2);
  // A quarter of a page is a dozen lines; figures have few.
  for (const page of pages) expect(page.length).toBeGreaterThan(8);
});

it.each(settings)('the report of the burn “%s”, in %s on %s, has all main results on its first page', (...setting) => {
  const { report } = serviceParts[setting[1]];
  const first = read(...setting)
    .firstPage()
    .replaceAll(/\s+/g, ' ');
  for (const caution of report.cautions) expect(first).toContain(caution.replaceAll(/\s+/g, ' '));
  expect(first).toContain(report.figure.water);
  expect(first).not.toContain(report.sections.identity);
});

describe.each(Object.keys(burns))('the report of the burn “%s”', (burn) => {
  it('contains no English in French', () => {
    expect(englishWordsIn(read(burn, 'fr').text())).toEqual([]);
  });

  it('has units as people write them', () => {
    for (const language of languages)
      expect(read(burn, language).text()).not.toMatch(/\bCel\b|\d\s+1\s*[;)]|kg\.K|\d\s*\/s\b/);
  });
});

it('a table that continues on the next page repeats its headings', () => {
  const { columns } = serviceParts.en.report;
  const heads = read('sample', 'en')
    .linesOfPages()
    .flatMap((page) => (page[0]!.includes(columns.figure) && page[0]!.includes(columns.formula) ? [page[0]] : []));
  expect(heads.length).toBeGreaterThan(0);
});

it('the time axis has every figure from zero on', () => {
  const first = read('sample', 'en').firstPage();
  const axis = first.split('\n').find((line) => /^\s*0\s+15\s/.test(line))!;
  expect(axis.trim().split(/\s+/).slice(0, 6)).toEqual(['0', '15', '30', '45', '60', '75']);
});

it('a screen reader finds headings, tables, the figure with its description, language, title and bookmarks', () => {
  for (const language of languages) {
    const { report } = serviceParts[language];
    const pdf = read('sample', language);
    expect(pdf.info()).toMatch(/Tagged:\s+yes/);
    const structure = pdf.structure();
    for (const type of [
      'Document',
      'H1',
      'H2',
      'P',
      'L',
      'LI',
      'LBody',
      'Table',
      'TR',
      'TH',
      'TD',
      'Figure',
      'Caption',
    ])
      expect(structure).toMatch(new RegExp(`^ *${type}\\b`, 'm'));
    expect(structure).toContain(report.sections.working);
    const bookmarks = [...pdf.xml().matchAll(/<item page="\d+">([^<]*)<\/item>/g)].map(([, text]) => text);
    const sections = [report.sections.cautions, report.sections.fuel, report.sections.working, report.sections.check];
    expect(bookmarks).toEqual(expect.arrayContaining(sections));
    // Page numbers, rules and repeated headings are not part of it.
    expect(structure).not.toMatch(/\b1 ?\/ ?\d+\b(?!\d)/);
  }
});

it('in grey every word is legible', () => {
  const colors = read('sample', 'en').colors();
  expect(colors.length).toBeGreaterThan(4);
  // WCAG 2.2 requires 4.5 to 1 for text (success criterion 1.4.3); grey preserves the luminance only.
  for (const color of colors) expect(1.05 / (luminance(color) + 0.05), color).toBeGreaterThan(4.5);
});

it('cautions have the words of the screen', () => {
  for (const [language, { cautions }] of [
    ['en', frameEn],
    ['fr', frameFr],
  ] as const) {
    const { report } = serviceParts[language];
    for (const name of ['lighting', 'hot', 'char', 'scrap'] as const) expect(report.cautions).toContain(cautions[name]);
    expect(report.foodCaution).toBe(cautions.food);
    // The screen adds what applies to the screen only.
    expect(report.cautions.some((caution) => cautions.unattended.startsWith(caution))).toBe(true);
    const local = report.cautions.at(-1)!.split('. ').at(-1)!;
    expect(cautions.defer).toContain(local);
  }
});

it('characters missing from the text typeface use one other typeface in every language, and no others do', () => {
  const otherFace = (language: Language) => {
    const xml = read('sample', language).xml();
    const fonts = [...xml.matchAll(/<fontspec id="(\d+)"[^>]*family="([^"]*)"/g)].filter(([, , family = '']) =>
      /DejaVu/.test(family),
    );
    const ids = new Set(fonts.map(([, id]) => id));
    const pieces = [...xml.matchAll(/<text [^>]*font="(\d+)"[^>]*>(.*?)<\/text>/g)];
    return new Set(pieces.flatMap(([, id, text = '']) => (ids.has(id) ? [...text.replaceAll(/<[^>]*>|\s/g, '')] : [])));
  };
  expect(otherFace('fr')).toEqual(otherFace('en'));
});
