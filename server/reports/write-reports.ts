/** From a burn in the store to its report as a file. */
import type { Language } from '../../shared/language/language.ts';
import type { Answers } from '../burns/answers.ts';
import { draftRecord } from '../burns/record-draft.ts';
import { pagedBoards, recordChecksum, recordJson } from '../exports/record-json.ts';
import type { Store } from '../store/store.ts';
import { type BurnReportInput, burnReport, figureOf } from './burn-report.ts';
import { drawingToSvg } from './drawing-svg.ts';
import type { Paper } from './report.ts';
import { reportToHtml } from './report-html.ts';
import { reportToPdf } from './report-pdf.ts';

export const reportFormats = {
  'report.pdf': 'application/pdf',
  'report.html': 'text/html; charset=utf-8',
  'curves.svg': 'image/svg+xml',
} as const;
export type ReportFormat = keyof typeof reportFormats;

export interface ReportChoices {
  readonly language: Language;
  readonly paper: Paper;
}

/** Points a printed curve is made of: more than a printer can show across a page. */
const pointsOnPaper = 1000;

/** @throws AppError burn/not-found */
export async function writeBurnReport(
  { store, answers, version }: { store: Store; answers: Answers; version: string },
  burnId: string,
  format: ReportFormat,
  choices: ReportChoices,
): Promise<Buffer | string> {
  const draft = draftRecord(store, burnId);
  const input: BurnReportInput = {
    record: draft,
    analysis: await answers.analysis(burnId),
    series: await answers.series(burnId, { points: pointsOnPaper }),
    softwareVersion: version,
    recordSha256: await recordChecksum(recordJson(draft, pagedBoards(store, burnId))),
    ...choices,
  };
  switch (format) {
    case 'report.pdf':
      return reportToPdf(burnReport(input), choices.paper);
    case 'report.html':
      return reportToHtml(burnReport(input));
    case 'curves.svg':
      return drawingToSvg(figureOf(input));
  }
}
