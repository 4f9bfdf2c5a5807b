import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { beforeAll, expect } from 'vitest';
import { seriesOf } from '../../server/curves/series.ts';
import { burnReport } from '../../server/reports/burn-report.ts';
import { type ComparisonReportInput, comparisonReport } from '../../server/reports/comparison-report.ts';
import { reportToHtml } from '../../server/reports/report-html.ts';
import { reportToPdf } from '../../server/reports/report-pdf.ts';
import { toBurnRecord } from '../../server/simulator/burn-record.ts';
import { heronBurns } from '../../server/simulator/heron.ts';
import { simulateBurn } from '../../server/simulator/simulate-burn.ts';
import { analyse } from '../../shared/analysis/analyse.ts';
import { compareRevisions } from '../../shared/comparison/compare-revisions.ts';
import { showPercent } from '../../shared/language/display-units.ts';
import { languages } from '../../shared/language/language.ts';
import { serviceParts } from '../../shared/language/service/service-parts.ts';
import { hostileTexts } from '../exports/tables.ts';
import { test } from '../support/browser.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';
import { englishWordsIn } from './english-words.ts';
import { withoutPersonsWords } from './persons-words.ts';
import { poppler } from './poppler.ts';
import { reportInput } from './sample-report.ts';

let compared: { record: ReturnType<typeof toBurnRecord>; analysis: ReturnType<typeof analyse>; side: 'a' | 'b' }[];

/** The burns of the Heron (simulated); one of revision 1 was not counted. */
beforeAll(() => {
  compared = heronBurns().map(({ scenario, seed, errors, description }) => {
    const sparse = { ...scenario, timing: { ...scenario.timing, stepS: 2, readingEveryS: 20 } };
    const record = toBurnRecord(simulateBurn(sparse, seed, errors), description);
    return { record, analysis: analyse(record, { draws: 200 }), side: record.revision!.label === '1' ? 'a' : 'b' };
  });
});

function inputFor(
  choices: Partial<Pick<ComparisonReportInput, 'language' | 'paper'>> = {},
  burns = compared,
): ComparisonReportInput {
  const language = choices.language ?? 'en';
  const group = (side: 'a' | 'b') =>
    burns.filter((one) => one.side === side).map(({ record, analysis }) => ({ burn: record, analysis }));
  return {
    comparison: compareRevisions(group('a'), group('b'), { language }),
    names: { a: 'revision 1', b: 'revision 2' },
    burns: burns.map(({ record, side }, index) => {
      const { litS = 0, curves } = seriesOf(record, { points: 200 });
      const water = curves.find(({ id }) => id === 'water')!;
      const recordSha256 = `${index}`.repeat(64);
      return {
        id: record.id,
        title: record.title,
        side,
        litS,
        water,
        recordSha256,
        startedUtcMs: record.startedUtcMs!,
        zone: record.zone!,
        isSimulated: true,
      };
    }),
    paper: 'a4',
    softwareVersion: '0.0.0-test',
    method: 'bench-1',
    methodVersion: '1',
    ...choices,
    language,
  };
}
const pdfOf = (input: ComparisonReportInput) => reportToPdf(comparisonReport(input), input.paper);

test('page one has the verdict and the figure; the others every burn with its values, and what else was different', async () => {
  const input = inputFor();
  const { comparison } = input;
  const pdf = poppler(await pdfOf(input));
  const [first] = comparison.differences;
  expect(pdf.firstPage().replace(/\s+/g, ' ')).toContain(first!.sentence.replace(/\s+/g, ' '));
  const words = pdf.words();
  for (const { record } of compared) expect(words).toContain(record.title);
  expect(comparison.setAside.length).toBeGreaterThan(0);
  for (const { sentence } of comparison.setAside) expect(words).toContain(sentence.slice(0, 20));
  for (const { recordSha256 } of input.burns) expect(words).toContain(recordSha256);
  for (const { sentence } of comparison.alsoDiffered) expect(words).toContain(sentence);
  for (const difference of comparison.differences) {
    if ('missing' in difference || difference.scale !== 'ratio') continue;
    expect(words).toContain(showPercent('en', difference.relative, 1).replace(/\s/, ' '));
  }
  // A share differs by points, a temperature by kelvins.
  const efficiency = comparison.differences.find(({ id }) => id === 'thermalEfficiency')!;
  expect(words).toContain('missing' in efficiency ? 'never' : `+${(100 * efficiency.difference).toFixed(1)} points`);
});

test('it has embedded fonts and no bitmap, on the requested paper, and the same bytes again', async () => {
  const input = inputFor({ paper: 'letter' });
  const first = await pdfOf(input);
  const pdf = poppler(first);
  for (const font of pdf.fonts()) expect(font).toMatch(/TrueType\s+\S+\s+yes yes/);
  expect(pdf.images()).toEqual([]);
  expect(pdf.info()).toMatch(/Page size:\s+612 x 792/);
  expect(first.equals(await pdfOf(input))).toBe(true);
});

test('the French report is in French, with decimal commas', async () => {
  const words = poppler(await pdfOf(inputFor({ language: 'fr' }))).words();
  expect(words).toContain('Précautions');
  expect(words).toMatch(/\d,\d %/);
});

test('simulated burns are labelled as large as in the report of a burn, and distinguished by date and identifier', async () => {
  const pdf = poppler(await pdfOf(inputFor()));
  const ofBurn = poppler(await reportToPdf(burnReport(reportInput(compared[0]!.record)), 'a4'));
  const size = pdf.typeOf('SIMULATED');
  expect(size).toBe(ofBurn.typeOf('SIMULATED'));
  expect(size).toBeGreaterThan(pdf.typeOf('Stovebench'));
  expect(pdf.firstPage()).toContain('SIMULATED. The readings of these burns');
  const words = pdf.words();
  for (const { record } of compared) expect(words).toContain(record.id);
  for (const day of ['14 September 2026', '9 November 2026']) expect(words).toContain(day);
  const some = inputFor();
  const [first, ...others] = some.burns;
  const mixed = poppler(await pdfOf({ ...some, burns: [{ ...first!, isSimulated: false }, ...others] }));
  expect(mixed.firstPage()).toContain('SIMULATED IN PART. The readings of 7 of 8 burns');
});

test('it has the whole verdict on its first page and no page with a few lines, on both papers and in both languages', async () => {
  for (const language of languages)
    for (const paper of ['a4', 'letter'] as const) {
      const pages = poppler(await pdfOf(inputFor({ language, paper }))).linesOfPages();
      for (const page of pages) expect(page.length).toBeGreaterThan(8);
      const first = pages[0]!.join(' ').replaceAll(/\s+/g, ' ');
      for (const caution of serviceParts[language].report.cautions)
        expect(first).toContain(caution.replaceAll(/\s+/g, ' '));
    }
});

test('in French it contains no English, and the order of the requested burns changes nothing', async () => {
  const nameless = compared.map((each) => ({ ...each, record: withoutPersonsWords(each.record) }));
  const input = inputFor({ language: 'fr' }, nameless);
  const french = { ...input, names: { a: 'révision 1', b: 'révision 2' }, softwareVersion: '0.0.0' };
  const pdf = await pdfOf(french);
  expect(englishWordsIn(poppler(pdf).text())).toEqual([]);
  expect(pdf.equals(await pdfOf({ ...french, burns: [...french.burns].reverse() }))).toBe(true);
});

test('as a page it opens with the network off, sends no request, and hostile titles are text', async ({ openPage }) => {
  const input = inputFor();
  const hostile = { ...input, burns: input.burns.map((burn, index) => ({ ...burn, title: hostileTexts[index]! })) };
  const file = join(temporaryFolder(), 'comparison.html');
  writeFileSync(file, reportToHtml(comparisonReport(hostile)));
  const page = await openPage(pathToFileURL(file).href, { width: 390 });
  expect(await page.locator('figure svg path').count()).toBeGreaterThan(5);
  const text = await page.locator('body').textContent();
  expect(text).toContain(input.comparison.sentence);
  for (const { title } of hostile.burns) expect(text).toContain(title.trim());
  expect(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth)).toBe(true);
});
