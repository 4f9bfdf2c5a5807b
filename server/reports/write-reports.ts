/** Writes the report of a burn in the store as a file. */
import { methodSets } from '../../shared/contract/burn-record.ts';
import type { Comparison } from '../../shared/contract/comparison.ts';
import type { NextTest } from '../../shared/contract/next-test.ts';
import type { Analysis } from '../../shared/contract/results.ts';
import { withoutUndefined } from '../../shared/contract/without-undefined.ts';
import { comparisonSentence } from '../../shared/language/comparison/comparison.ts';
import type { Language } from '../../shared/language/language.ts';
import { pagedBoards, recordChecksum, recordJson } from '../exports/record-json.ts';
import { recordWithoutReadings } from '../records/record-without-readings.ts';
import type { Results } from '../results/results.ts';
import type { Store } from '../store/store.ts';
import { type BurnReportInput, burnReport, figureOf } from './burn-report.ts';
import { cardReport } from './card-report.ts';
import { comparisonReport } from './comparison-report.ts';
import { drawingToSvg } from './drawing-svg.ts';
import { type Paper, textWidthPt } from './page-size.ts';
import { type ReportFormat, reportFormats } from './report-formats.ts';
import { reportToHtml } from './report-html.ts';
import { reportToPdf } from './report-pdf.ts';

export interface ReportChoices {
  readonly language: Language;
  readonly paper: Paper;
}

interface ReportSources {
  readonly store: Store;
  readonly results: Results;
  readonly version: string;
}

/** Points per printed curve: more than a printer can resolve across a page. */
const pointsOnPaper = 1000;

/** @throws AppError burn/not-found */
export async function writeBurnReport(
  { store, results, version }: ReportSources,
  burnId: string,
  format: ReportFormat,
  choices: ReportChoices,
): Promise<Buffer | string> {
  const record = recordWithoutReadings(store, burnId);
  const drawn = { record, series: await results.series(burnId, { points: pointsOnPaper }), ...choices };
  if (format === 'curves.svg') return drawingToSvg(figureOf(drawn, textWidthPt(choices.paper)));
  const byMethod: Analysis[] = [];
  for (const method of methodSets) byMethod.push(await results.analysis(burnId, method));
  const input: BurnReportInput = {
    ...drawn,
    analysis: await results.analysis(burnId),
    byMethod,
    softwareVersion: version,
    recordSha256: await recordChecksum(recordJson(record, pagedBoards(store, burnId))),
  };
  const report = burnReport(input);
  return format === 'report.pdf' ? reportToPdf(report, choices.paper) : reportToHtml(report);
}

interface AskedComparison {
  readonly comparison: Comparison;
  readonly a: readonly string[];
  readonly b: readonly string[];
  readonly methodVersion: string;
}

/** Writes the report of a computed comparison. */
export async function writeComparisonReport(
  { store, results, version }: ReportSources,
  { comparison, a, b, methodVersion }: AskedComparison,
  format: 'report.pdf' | 'report.html',
  choices: ReportChoices,
) {
  const overlaid = async (burnId: string, side: 'a' | 'b') => {
    const record = recordWithoutReadings(store, burnId);
    const { litS = 0, curves } = await results.series(burnId, { points: pointsOnPaper });
    const water = curves.find((curve) => curve.id === 'water') ?? { t: [], v: [] };
    return {
      id: burnId,
      side,
      litS,
      water,
      title: record.title,
      method: record.methodSet,
      ...withoutUndefined({
        startedUtcMs: record.startedUtcMs,
        zone: record.zone,
        clockSource: record.clockSource,
      }),
      isSimulated: record.origin === 'simulated',
      revision: record.revision?.label,
      recordSha256: await recordChecksum(recordJson(record, pagedBoards(store, burnId))),
    };
  };
  const burns = await Promise.all([...a.map((one) => overlaid(one, 'a')), ...b.map((one) => overlaid(one, 'b'))]);
  const nameOf = (side: 'a' | 'b') => {
    const labels = new Set(burns.filter((burn) => burn.side === side).map(({ revision }) => revision));
    const [label] = labels;
    return labels.size === 1 && label !== undefined ? label : side.toUpperCase();
  };
  const report = comparisonReport({
    comparison,
    names: revisionNames(choices.language, nameOf('a'), nameOf('b')),
    burns,
    softwareVersion: version,
    method: burns[0]?.method ?? 'bench-1',
    methodVersion,
    ...choices,
  });
  const file = format === 'report.pdf' ? await reportToPdf(report, choices.paper) : reportToHtml(report);
  return { title: report.title, mediaType: reportFormats[format], file };
}

/** Writes the card of the next test, to be printed and hung at the stove. */
export async function writeCard(
  nextTest: NextTest,
  format: 'card.pdf' | 'card.html',
  { language, paper }: ReportChoices,
  version: string,
) {
  const report = cardReport(nextTest, language, version);
  const file = format === 'card.pdf' ? await reportToPdf(report, paper) : reportToHtml(report);
  return { title: report.title, file };
}

function revisionNames(language: Language, a: string, b: string) {
  const name = (label: string) => comparisonSentence(language, { code: 'name/revision', params: { label } });
  return { a: name(a), b: name(b) };
}
