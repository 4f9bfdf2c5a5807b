import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { beforeAll, expect } from 'vitest';
import { seriesOf } from '../../server/curves/series.ts';
import { type ComparisonReportInput, comparisonReport } from '../../server/reports/comparison-report.ts';
import { reportToHtml } from '../../server/reports/report-html.ts';
import { reportToPdf } from '../../server/reports/report-pdf.ts';
import { toBurnRecord } from '../../server/simulator/burn-record.ts';
import { heronBurns } from '../../server/simulator/heron.ts';
import { simulateBurn } from '../../server/simulator/simulate-burn.ts';
import { analyse } from '../../shared/analysis/analyse.ts';
import { compareRevisions } from '../../shared/comparison/compare-revisions.ts';
import { showPercent } from '../../shared/language/display-units.ts';
import { hostileTexts } from '../exports/tables.ts';
import { test } from '../support/browser.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';
import { poppler } from './poppler.ts';

let compared: { record: ReturnType<typeof toBurnRecord>; analysis: ReturnType<typeof analyse>; side: 'a' | 'b' }[];

/** The burns of the Heron (simulated); one of revision 1 was not counted. */
beforeAll(() => {
  compared = heronBurns().map(({ scenario, seed, errors, description }) => {
    const sparse = { ...scenario, timing: { ...scenario.timing, stepS: 2, readingEveryS: 20 } };
    const record = toBurnRecord(simulateBurn(sparse, seed, errors), description);
    return { record, analysis: analyse(record, { draws: 200 }), side: record.revision!.label === '1' ? 'a' : 'b' };
  });
});

function inputFor(choices: Partial<Pick<ComparisonReportInput, 'language' | 'paper'>> = {}): ComparisonReportInput {
  const language = choices.language ?? 'en';
  const group = (side: 'a' | 'b') =>
    compared.filter((one) => one.side === side).map(({ record, analysis }) => ({ burn: record, analysis }));
  return {
    comparison: compareRevisions(group('a'), group('b'), { language }),
    names: { a: 'revision 1', b: 'revision 2' },
    burns: compared.map(({ record, side }, index) => {
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

test('page one has the verdict and the figure; the rest every burn with its part in it, and what else was different', async () => {
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

test('it is drawn with embedded fonts and no picture, on the paper asked for, and is the same bytes again', async () => {
  const input = inputFor({ paper: 'letter' });
  const first = await pdfOf(input);
  const pdf = poppler(first);
  for (const font of pdf.fonts()) expect(font).toMatch(/TrueType\s+\S+\s+yes yes/);
  expect(pdf.images()).toEqual([]);
  expect(pdf.info()).toMatch(/Page size:\s+612 x 792/);
  expect(first.equals(await pdfOf(input))).toBe(true);
});

test('the French report speaks French, with decimal commas', async () => {
  const words = poppler(await pdfOf(inputFor({ language: 'fr' }))).words();
  expect(words).toContain('Précautions');
  expect(words).toMatch(/\d,\d %/);
});

test('as a page it opens with the network off, asks for nothing, and hostile titles are text', async ({ openPage }) => {
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
