/** The report of one burn: page one for a builder, the rest for whoever wants to check it. */

import { hasValue } from '../../shared/contract/has-value.ts';
import type { Analysis, Result } from '../../shared/contract/results.ts';
import type { Series } from '../../shared/contract/series.ts';
import { type Language, writing } from '../../shared/language/language.ts';
import { type Reader, showInterval, showValue } from '../../shared/language/result-figures.ts';
import type { Drawing } from '../../shared/plot/shapes.ts';
import type { RecordWithoutReadings } from '../records/record-without-readings.ts';
import { drawBurn } from './burn-figure.ts';
import { qualityBlocks } from './data-quality.ts';
import { descriptionBlocks } from './description-part.ts';
import { type Paper, textWidthPt } from './page-size.ts';
import type { Block, Report } from './report.ts';
import {
  allResultsBlocks,
  budgetBlocks,
  byMethodBlocks,
  contradictionBlocks,
  mainResultsTable,
  notMeasuredBlocks,
  workingBlocks,
} from './results-part.ts';
import { setupBlocks } from './setup-part.ts';
import { wordsOf } from './words.ts';

export interface BurnReportInput {
  readonly record: RecordWithoutReadings;
  readonly analysis: Analysis;
  /** The same burn by every method set. */
  readonly byMethod: readonly Analysis[];
  readonly series: Series;
  readonly language: Language;
  readonly paper: Paper;
  readonly softwareVersion: string;
  /** Of the burn record as exported. */
  readonly recordSha256: string;
}

/** Say everything there is to say about a burn, as blocks. Pure: the same input gives the same report. */
export function burnReport(input: BurnReportInput): Report {
  const { record, analysis, language, softwareVersion: version, recordSha256: sha256 } = input;
  const { report } = wordsOf(language);
  return {
    language,
    title: record.title,
    subtitle: report.burn.subtitle({
      stove: record.stove?.name ?? '',
      revision: record.revision?.label ?? '',
      day: dayOf(record, language),
      operator: record.operator ?? '',
    }),
    footer: report.footer({ version, sha256 }),
    dateUtcMs: record.startedUtcMs,
    blocks: [
      ...verdictBlocks(input),
      { kind: 'figure', drawing: figureOf(input), caption: report.figure.caption },
      mainResultsTable(analysis, language),
      ...contradictionBlocks(analysis, language),
      { kind: 'heading', text: report.sections.cautions },
      { kind: 'caution', items: report.cautions },
      { kind: 'pageBreak' },
      ...allResultsBlocks(analysis, language),
      ...byMethodBlocks(input.byMethod, language),
      ...notMeasuredBlocks(analysis, language),
      ...descriptionBlocks(record, language),
      ...setupBlocks(record, language),
      ...qualityBlocks(record, analysis, language),
      ...budgetBlocks(analysis, language),
      ...workingBlocks(analysis, language),
      { kind: 'heading', text: report.sections.check },
      {
        kind: 'list',
        items: [
          report.check.software({ version, method: analysis.method, methodVersion: analysis.methodVersion }),
          report.check.checksum({ sha256 }),
          report.check.how,
        ],
      },
    ],
  };
}

function verdictBlocks({ record, analysis, language }: BurnReportInput): Block[] {
  const { report, results } = wordsOf(language);
  const reader: Reader = { language, system: 'si' };
  const primary = find(analysis, record.primaryResult);
  const sentences: string[] = [];
  if (primary && hasValue(primary)) {
    const value = showValue(reader, primary.value, primary.unit, primary.id);
    const interval = showInterval(reader, primary) ?? report.unknown;
    sentences.push(report.burn.headline({ name: results.names[primary.id], value, interval }));
  } else if (primary) {
    const name = results.names[primary.id];
    sentences.push(report.burn.headlineMissing({ name, why: results.missing(primary.missing) }));
  }
  const reached = find(analysis, 'timeToTarget');
  if (reached && hasValue(reached)) {
    sentences.push(report.burn.reached({ time: showValue(reader, reached.value, 's') }));
  }
  const held = find(analysis, 'holdDuration');
  if (held && hasValue(held)) sentences.push(report.burn.held({ time: showValue(reader, held.value, 's') }));
  const notes = [report.burn.oneBurn];
  if (record.setAsideReason) notes.unshift(report.burn.setAside({ reason: record.setAsideReason }));
  if (record.origin === 'simulated') notes.unshift(report.burn.simulated);
  return [
    { kind: 'verdict', text: sentences.join(' ') },
    { kind: 'list', items: notes },
  ];
}

/** The time chart of the burn, as it stands in the report. */
export function figureOf({
  record,
  series,
  language,
  paper,
}: Pick<BurnReportInput, 'record' | 'series' | 'language' | 'paper'>): Drawing {
  const { report, number } = wordsOf(language);
  const words = {
    description: report.figure.description({ title: record.title }),
    waterC: report.figure.water,
    otherC: report.figure.other,
    rateKPerMin: report.figure.rate,
    minutes: report.figure.minutes,
    woodKg: report.figure.wood,
    number,
  };
  return drawBurn(series, record.marks, words, textWidthPt(paper));
}

function find(analysis: Analysis, id: string): Result | undefined {
  return analysis.results.find((result) => result.id === id);
}

function dayOf(record: RecordWithoutReadings, language: Language): string {
  if (record.startedUtcMs === undefined) return '';
  const format = new Intl.DateTimeFormat(writing[language].locale, {
    dateStyle: 'long',
    timeZone: record.zone ?? 'UTC',
  });
  return format.format(record.startedUtcMs);
}
