/** The report of one burn: page one for a builder, the rest for a reader who wants to check it. */

import type { MethodSet } from '../../shared/contract/burn-record.ts';
import { hasValue } from '../../shared/contract/has-value.ts';
import type { Analysis, Result } from '../../shared/contract/results.ts';
import type { Series } from '../../shared/contract/series.ts';
import type { Language } from '../../shared/language/language.ts';
import { type Reader, showInterval, showValue } from '../../shared/language/result-figures.ts';
import type { Drawing } from '../../shared/plot/shapes.ts';
import type { RecordWithoutReadings } from '../records/record-without-readings.ts';
import { drawBurn } from './burn-figure.ts';
import { burnTimeOf } from './burn-time.ts';
import { courseBlocks } from './course-part.ts';
import { qualityBlocks } from './data-quality.ts';
import { descriptionBlocks } from './description-part.ts';
import { narrowWidthPt, type Paper, textWidthPt } from './page-size.ts';
import type { Block, Report } from './report.ts';
import {
  allResultsBlocks,
  budgetBlocks,
  byMethodBlocks,
  contradictionBlocks,
  mainResultsTable,
  notMeasuredBlocks,
  remarkBlocks,
} from './results-part.ts';
import { setupBlocks } from './setup-part.ts';
import { wordsOf } from './words.ts';
import { workingBlocks } from './working-part.ts';

export interface BurnReportInput {
  readonly record: RecordWithoutReadings;
  readonly analysis: Analysis;
  /** The same burn, analysed by every method set. */
  readonly byMethod: readonly Analysis[];
  readonly series: Series;
  readonly language: Language;
  readonly paper: Paper;
  readonly softwareVersion: string;
  /** Of the burn record as exported. */
  readonly recordSha256: string;
}

/** Write the whole report of a burn as blocks. Pure: the same input gives the same report. */
export function burnReport(input: BurnReportInput): Report {
  const { record, analysis, language, softwareVersion: version, recordSha256: sha256 } = input;
  const { report, results } = wordsOf(language);
  const time = burnTimeOf(record, language);
  const heatsFood = analysis.remarks.some(({ code }) => code === 'preservingSchedule');
  return {
    language,
    title: record.title,
    subtitle: report.burn.subtitle({
      stove: record.stove?.name ?? '',
      revision: record.revision?.label ?? '',
      day: time?.day(0) ?? '',
      time: time?.time(0).slice(0, 5) ?? '',
      place: record.place?.name ?? '',
      operator: record.operator ?? '',
    }),
    footer: report.footer({ version, burnId: record.id, sha256: sha256.slice(0, checksumDigits) }),
    dateUtcMs: record.startedUtcMs,
    blocks: [
      ...verdictBlocks(input),
      ...contradictionBlocks(analysis, language),
      figureBlock(input),
      mainResultsTable(analysis, language),
      { kind: 'heading', text: report.sections.cautions },
      { kind: 'caution', items: [...(heatsFood ? [report.foodCaution] : []), ...report.cautions] },
      { kind: 'pageBreak' },
      ...descriptionBlocks(record, language),
      ...allResultsBlocks(analysis, language),
      ...byMethodBlocks(input.byMethod, language),
      ...notMeasuredBlocks(analysis, language),
      ...courseBlocks(record, language),
      ...setupBlocks(record, language),
      ...qualityBlocks(record, analysis, language),
      ...budgetBlocks(analysis, record, language),
      ...remarkBlocks(analysis, language),
      ...workingBlocks(analysis, language),
      { kind: 'heading', text: report.sections.check },
      {
        kind: 'list',
        items: [
          report.check.software({
            version,
            method: results.methods[analysis.method as MethodSet],
            methodVersion: analysis.methodVersion,
          }),
          report.check.checksum({ sha256 }),
          report.check.how,
        ],
      },
      { kind: 'signature', labels: Object.values(report.signature) },
    ],
  };
}

/** Enough to identify a record; the whole checksum is printed at the end. */
const checksumDigits = 16;

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
  return [
    ...(record.origin === 'simulated' ? [{ kind: 'notice', text: report.burn.simulated } as const] : []),
    { kind: 'verdict', text: sentences.join(' ') },
    { kind: 'list', items: notes },
  ];
}

type Drawn = Pick<BurnReportInput, 'record' | 'series' | 'language'>;

/** The time chart of the burn. */
export function figureOf({ record, series, language }: Drawn, widthPt: number, scale = 1): Drawing {
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
  return drawBurn(series, record.marks, words, widthPt, scale);
}

function figureBlock(input: BurnReportInput): Block {
  const drawing = (scale: number) => figureOf(input, textWidthPt(input.paper), scale);
  return {
    kind: 'figure',
    drawings: [drawing(1), ...[0.9, 0.8, 0.7, 0.6, 0.5, 0.42].map(drawing)],
    narrow: figureOf(input, narrowWidthPt),
    caption: wordsOf(input.language).report.figure.caption,
  };
}

function find(analysis: Analysis, id: string): Result | undefined {
  return analysis.results.find((result) => result.id === id);
}
