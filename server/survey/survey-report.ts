/** A survey as a report: for each question a sentence, a figure and a table. */
import type { ResultId } from '../../shared/contract/results.ts';
import { showPercent } from '../../shared/language/display-units.ts';
import { type Language, writeNumber } from '../../shared/language/language.ts';
import { showValue } from '../../shared/language/result-figures.ts';
import { revisionName } from '../../shared/language/revision-name.ts';
import { serviceParts } from '../../shared/language/service/service-parts.ts';
import { narrowWidthPt, textWidthPt } from '../reports/page-size.ts';
import type { Block, Report } from '../reports/report.ts';
import { type Change, directionOf, driftOf, expectedHeld, stepOf } from './conclusions.ts';
import { type ColumnKind, type Findings, type Question, questionNames, questions } from './questions.ts';
import { drawRanges, type Range } from './ranges-figure.ts';
import type { Survey } from './survey.ts';

/** Further rows are in the JSON only. */
const MOST_ROWS = 60;

interface Context extends Survey {
  readonly language: Language;
}

export function surveyReport(survey: Survey, language: Language, softwareVersion: string): Report {
  const { choice, findings } = survey;
  const { words, results } = wordsOf(language);
  const context = { ...survey, language };
  const burns = findings.contents.reduce((sum, { counted_burns }) => sum + (counted_burns ?? 0), 0);
  const subtitle = words.subtitle({
    result: results.names[choice.result as ResultId],
    burns,
    start: words.starts[choice.start],
  });
  return {
    language,
    title: choice.simulated ? words.simulatedTitle() : words.title(),
    subtitle,
    footer: words.footer({ version: softwareVersion }),
    dateUtcMs: undefined,
    blocks: [
      ...(choice.simulated ? [{ kind: 'notice', text: words.simulated() } as const] : []),
      ...questionNames.flatMap((question) => blocksOf(question, context)),
      { kind: 'pageBreak' },
      ...questionNames.flatMap((question) => tableBehind(question, context)),
    ],
  };
}

function wordsOf(language: Language) {
  const { survey: words, results } = serviceParts[language];
  return { words, results };
}

/** A question with its conclusion: in sentences and a figure where there is one, else in its table. */
function blocksOf(question: Question, context: Context): Block[] {
  const { words } = wordsOf(context.language);
  const { question: text, meaning, nothing } = words.questions[question];
  const heading: Block = { kind: 'heading', text };
  if (context.findings[question].length === 0) return [heading, { kind: 'text', text: nothing }];
  const figure = figures[question]?.(context);
  const sentences = conclusions[question]?.(context) ?? [];
  return [
    heading,
    ...(sentences.length > 0 ? [{ kind: 'list', items: sentences } as const] : []),
    ...(figure ? [figure] : tableOf(question, context)),
    { kind: 'text', text: meaning },
  ];
}

/** The table of a question that has a figure, for readers who need the numbers. */
function tableBehind(question: Question, context: Context): Block[] {
  const titles: Partial<Record<Question, string>> = wordsOf(context.language).words.figuresOf;
  const title = titles[question];
  if (title === undefined || context.findings[question].length === 0) return [];
  return [{ kind: 'heading', text: title }, ...tableOf(question, context)];
}

function tableOf(question: Question, context: Context): Block[] {
  const { words } = wordsOf(context.language);
  const columns = Object.entries(questions[question]) as [keyof typeof words.columns, ColumnKind][];
  // The identifier of a bench is for programs.
  const shown = columns.filter(([name]) => name !== 'bench');
  const rows = context.findings[question];
  const table: Block = {
    kind: 'table',
    columns: shown.map(([name, kind]) => ({
      title: words.columns[name],
      align: kind === 'text' || kind === 'result' || kind === 'moment' ? 'left' : 'right',
      share: kind === 'text' ? 2 : 1,
    })),
    rows: rows
      .slice(0, MOST_ROWS)
      .map((row) => shown.map(([name, kind]) => written((row as Row)[name] ?? null, kind, context))),
  };
  if (rows.length <= MOST_ROWS) return [table];
  return [table, { kind: 'text', text: words.more({ shown: MOST_ROWS, of: rows.length }) }];
}

type Row = Readonly<Record<string, string | number | null>>;

function written(value: string | number | null, kind: ColumnKind, { language, unit, choice }: Context): string {
  if (value === null) return '–';
  if (kind === 'moment') return String(value).slice(0, 10);
  if (kind === 'result') return wordsOf(language).results.names[value as ResultId] ?? String(value);
  if (typeof value === 'string') return value;
  switch (kind) {
    case 'value':
      return showValue({ language, system: 'si' }, value, unit, choice.result);
    case 'deviation':
      return `${twoFigures(language, value)}${unit === '1' ? '' : `\u00a0${unit === 'Cel' ? 'K' : unit}`}`;
    case 'share':
      return showPercent(language, value);
    case 'change':
      return changeText(value, language);
    case 'factor':
      return writeNumber(language, value, 1);
    default:
      return writeNumber(language, value, 0);
  }
}

/** The precision to which a scatter is known. */
function twoFigures(language: Language, value: number): string {
  return writeNumber(language, value, value === 0 ? 0 : Math.max(0, 1 - Math.floor(Math.log10(value))));
}

function changeText(value: number, language: Language): string {
  return `${value > 0 ? '+' : ''}${showPercent(language, value)}`;
}

/** Conclusions in sentences, where they add something to the table. */
const conclusions: { readonly [Q in Question]?: (context: Context) => string[] } = {
  'step-on-every-bench': ({ findings, language }) => {
    const { words } = wordsOf(language);
    const rows = findings['step-on-every-bench'];
    const steps = Map.groupBy(rows, stepName);
    return [...steps].map(([step, ofStep]) => {
      const directions = ofStep.map((row) => directionOf(stepOf(row)));
      const count = (wanted: number) => directions.filter((direction) => direction === wanted).length;
      const lower = ofStep.filter(({ relative_difference: difference }) => (difference ?? 0) < 0).length;
      return words.step({ step, benches: ofStep.length, lower, clearlyLower: count(-1), clearlyHigher: count(1) });
    });
  },
  'drifting-benches': ({ findings, language }) => {
    const { words } = wordsOf(language);
    const rows = findings['drifting-benches'];
    const drifting = rows.filter((row) => directionOf(driftOf(row, rows.length)) !== 0);
    if (drifting.length === 0) return [words.noDrift({ benches: rows.length })];
    const each = drifting.map((row) => `${row.bench_name} (${changeText(row.drift_per_year ?? 0, language)})`);
    return [words.drift({ benches: each.join(', '), of: rows.length })];
  },
  'declared-intervals': ({ findings, language, choice }) => {
    const { words } = wordsOf(language);
    const row = findings['declared-intervals'].find(({ result }) => result === choice.result);
    if (!row?.pairs) return [];
    const { low, high } = expectedHeld(row.pairs);
    return [words.held({ held: row.held ?? 0, pairs: row.pairs, low, high })];
  },
};

const figures: { readonly [Q in Question]?: (context: Context) => Block } = {
  'by-revision': (context) =>
    figureOf('by-revision', context, (row) => ({
      name: nameOf(row),
      value: row.mean_of_benches,
      low: row.lowest_bench,
      high: row.highest_bench,
    })),
  'step-on-every-bench': (context) =>
    figureOf('step-on-every-bench', context, (row) => ({
      above: stepName(row),
      name: `${row.bench_name}`,
      ...ofChange(stepOf(row)),
    })),
  'drifting-benches': (context) =>
    figureOf('drifting-benches', context, (row) => ({
      name: `${row.bench_name}`,
      ...ofChange(driftOf(row, context.findings['drifting-benches'].length)),
    })),
  'lot-on-several-stoves': (context) =>
    figureOf('lot-on-several-stoves', context, (row) => ({
      name: `${row.wood_lot}, ${nameOf(row)}`,
      value: row.mean,
      low: row.mean! - (row.standard_deviation ?? 0),
      high: row.mean! + (row.standard_deviation ?? 0),
    })),
  repeatability: (context) =>
    figureOf('repeatability', context, (row) => ({
      name: nameOf(row),
      value: row.mean,
      low: row.mean! - row.reproducibility_limit!,
      high: row.mean! + row.reproducibility_limit!,
    })),
};

function stepName({ stove, from_revision: from, to_revision: to }: Findings['step-on-every-bench'][number]): string {
  return `${stove}, ${from} → ${to}`;
}

function nameOf({ stove, revision }: { stove: string | null; revision: string | null }): string {
  return revisionName({ name: stove ?? '' }, { label: revision ?? '' });
}

function ofChange({ value, interval }: Change): Omit<RangeOfRow, 'name'> {
  return { value, low: interval?.[0], high: interval?.[1] };
}

interface RangeOfRow {
  /** Printed once above all rows that have it. */
  readonly above?: string;
  readonly name: string;
  readonly value: number | null;
  readonly low?: number | null | undefined;
  readonly high?: number | null | undefined;
}

function figureOf<Q extends Question>(
  question: Q,
  context: Context,
  rangeOf: (row: Findings[Q][number]) => RangeOfRow,
): Block {
  const { language, unit } = context;
  const { words } = wordsOf(language);
  const isRelative = question === 'step-on-every-bench' || question === 'drifting-benches';
  const caption = words.captions[question as keyof typeof words.captions];
  const description = isRelative ? caption : `${caption} ${words.inUnit({ unit: unit === 'Cel' ? '°C' : unit })}`;
  const figure = isRelative
    ? (value: number) => showPercent(language, value, 0)
    : (value: number, decimals: number) => writeNumber(language, value, decimals);
  let last: string | undefined;
  const ranges = context.findings[question].slice(0, MOST_ROWS).flatMap((row): Range[] => {
    const { above, name, value, low, high } = rangeOf(row);
    const isNew = above !== undefined && above !== last;
    last = above;
    const range = { name, value: value ?? 0, low: low ?? undefined, high: high ?? undefined };
    return isNew ? [{ name: above }, range] : [range];
  });
  const drawn = (width: number) => drawRanges(ranges, { description, figure }, { width, zero: isRelative });
  return { kind: 'figure', drawings: [drawn(textWidthPt('a4'))], narrow: drawn(narrowWidthPt), caption: description };
}
