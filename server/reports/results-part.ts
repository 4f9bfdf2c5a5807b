import { byMethods } from '../../shared/analysis/by-methods.ts';
import { contradictionsOf, isContradiction } from '../../shared/analysis/messages/contradiction-codes.ts';
import type { MethodSet } from '../../shared/contract/burn-record.ts';
import { hasValue } from '../../shared/contract/has-value.ts';
import type { Analysis, BudgetEntry, ResultId, ValueResult } from '../../shared/contract/results.ts';
import { showPercent } from '../../shared/language/display-units.ts';
import type { Language } from '../../shared/language/language.ts';
import { isPlainRatio, showInterval, showValue } from '../../shared/language/result-figures.ts';
import { differenceUnit, withUnit } from '../../shared/language/unit-symbols.ts';
import type { RecordWithoutReadings } from '../records/record-without-readings.ts';
import type { Block } from './report.ts';
import { wordsOf } from './words.ts';

/** Entries of a budget above this share have a line each; the rest together make no visible difference. */
const shareShown = 0.01;

/** The results that a builder needs first; all others are printed further back. */
export const mainResults: readonly ResultId[] = [
  'dryWoodPerBatch',
  'timeToTarget',
  'meanUsefulPower',
  'thermalEfficiency',
  'specificFuelConsumption',
  'evaporatedWater',
  'longestUnattended',
];

export function mainResultsTable(analysis: Analysis, language: Language): Block {
  const values = valuesOf(analysis).filter(({ id }) => mainResults.includes(id));
  const { columns, rows } = tableOfResults(values, analysis, language);
  // The part of the burn is omitted here: it is printed with all results.
  return { kind: 'table', columns: columns.slice(0, -1), rows: rows.map((row) => row.slice(0, -1)) };
}

/** What does not fit together, with the numbers used next to the results. */
export function contradictionBlocks(analysis: Analysis, language: Language): Block[] {
  const { results } = wordsOf(language);
  const items = analysis.remarks
    .filter(isContradiction)
    .map((message, index) => `${index + 1}. ${results.remarks(message)}`);
  return items.length === 0
    ? []
    : [
        { kind: 'heading', text: results.contradictions.title },
        { kind: 'list', items },
      ];
}

export function allResultsBlocks(analysis: Analysis, language: Language): Block[] {
  const { report } = wordsOf(language);
  return [{ kind: 'heading', text: report.sections.results }, tableOfResults(valuesOf(analysis), analysis, language)];
}

function tableOfResults(
  values: readonly ValueResult[],
  analysis: Analysis,
  language: Language,
): Extract<Block, { kind: 'table' }> {
  const { report, results } = wordsOf(language);
  const reader = { language, system: 'si' } as const;
  const { columns } = report;
  return {
    kind: 'table',
    columns: [
      { title: columns.result, align: 'left', share: 4 },
      { title: columns.value, align: 'right', share: 2 },
      { title: columns.interval, align: 'right', share: 3 },
      { title: columns.window, align: 'left', share: 3 },
    ],
    rows: values.map((result) => [
      `${results.names[result.id]}${marksOf(analysis, result.id)}`,
      showValue(reader, result.value, result.unit, result.id),
      showInterval(reader, result) ?? '',
      results.windows[result.window],
    ]),
  };
}

/** The numbers of the remarks that make a result doubtful: " (1, 3)". */
function marksOf({ remarks }: Analysis, id: ResultId): string {
  const numbers = contradictionsOf(remarks, id);
  return numbers.length === 0 ? '' : ` (${numbers.join(', ')})`;
}

/** The results of the burn by each method set. */
export function byMethodBlocks(analyses: readonly Analysis[], language: Language): Block[] {
  const { results } = wordsOf(language);
  const { byMethod } = results;
  const reader = { language, system: 'si' } as const;
  const rows = byMethods(analyses);
  if (rows.length === 0) return [];
  return [
    { kind: 'heading', text: byMethod.title },
    { kind: 'text', text: `${byMethod.intro} ${byMethod.spreadHelp}` },
    {
      kind: 'table',
      columns: [
        { title: byMethod.result, align: 'left', share: 5 },
        ...analyses.map(({ method }) => ({
          title: results.methods[method as MethodSet],
          align: 'right' as const,
          share: 4,
        })),
        { title: byMethod.spread, align: 'right', share: 2 },
      ],
      rows: rows.map(({ id, cells, spread }) => [
        results.names[id],
        ...cells.map((cell) => (cell ? showValue(reader, cell.value, cell.unit, id) : byMethod.none)),
        spread ? showPercent(language, spread.share, 0) : '',
      ]),
    },
  ];
}

export function notMeasuredBlocks(analysis: Analysis, language: Language): Block[] {
  const { report, results } = wordsOf(language);
  const rows = analysis.results.flatMap((result) =>
    hasValue(result) ? [] : [[results.names[result.id], results.missing(result.missing)]],
  );
  if (rows.length === 0) return [];
  return [
    { kind: 'heading', text: report.sections.notMeasured },
    {
      kind: 'table',
      columns: [
        { title: report.columns.result, align: 'left', share: 2 },
        { title: report.columns.why, align: 'left', share: 5 },
      ],
      rows,
    },
  ];
}

/** The uncertainty budget of each result, one row per result. */
export function budgetBlocks(analysis: Analysis, record: RecordWithoutReadings, language: Language): Block[] {
  const { report, results } = wordsOf(language);
  const { columns } = report;
  return [
    { kind: 'heading', text: report.sections.budget },
    {
      kind: 'table',
      columns: [
        { title: columns.result, align: 'left', share: 5 },
        { title: columns.uncertainty, align: 'right', share: 3 },
        { title: columns.shares, align: 'left', share: 12 },
      ],
      rows: valuesOf(analysis).flatMap((result) => {
        const { id, budget = [], standardUncertainty } = result;
        if (standardUncertainty === undefined || budget.length === 0) return [];
        return [[results.names[id], uncertaintyText(result, language), sharesText(budget, record, language)]];
      }),
    },
  ];
}

/** Two significant digits: it is an estimate of an estimate. */
function uncertaintyText({ unit, standardUncertainty = 0, id }: ValueResult, language: Language): string {
  const isShare = unit === '1' && !isPlainRatio(id);
  const shown = isShare ? standardUncertainty * 100 : standardUncertainty;
  const decimals = shown === 0 ? 0 : Math.max(0, 1 - Math.floor(Math.log10(shown)));
  return withUnit(wordsOf(language).number(shown, decimals), isShare ? '%' : differenceUnit(unit));
}

function sharesText(budget: readonly BudgetEntry[], record: RecordWithoutReadings, language: Language): string {
  const { report, results } = wordsOf(language);
  const variance = budget.reduce((sum, { contribution }) => sum + contribution ** 2, 0);
  const shares = budget
    .map((entry) => ({ ...entry, share: entry.contribution ** 2 / variance }))
    .filter(({ share }) => share >= shareShown)
    .map(({ input, sharedId, share }) => {
      const of = nameOf(record, sharedId);
      const name = results.inputName(input);
      return `${of ? report.working.of({ name, of }) : name} ${showPercent(language, share, 0)}`;
    });
  return shares.join(report.working.separator);
}

/** Name of the probe, scale or lot that an uncertainty comes from, where there are several. */
function nameOf({ channels, scales = [], fuelLots }: RecordWithoutReadings, sharedId: string | undefined) {
  const several = [channels, scales, fuelLots].filter(({ length }) => length > 1);
  return several.flat().find(({ id }) => id === sharedId)?.name;
}

/** Defaults that were assumed, and remarks that qualify the results. */
export function remarkBlocks(analysis: Analysis, language: Language): Block[] {
  const { report, results } = wordsOf(language);
  const values = valuesOf(analysis);
  const remarks = analysis.remarks.filter((message) => !isContradiction(message));
  return [
    ...messageBlocks(
      report.sections.defaults,
      values.flatMap((result) => result.defaults.map(results.defaults)),
    ),
    ...messageBlocks(
      report.sections.remarks,
      [...remarks, ...values.flatMap((result) => result.remarks)].map(results.remarks),
    ),
  ];
}

function valuesOf(analysis: Analysis): ValueResult[] {
  return analysis.results.filter(hasValue);
}

/** Many results share a remark: each sentence is printed once. */
function messageBlocks(heading: string, sentences: readonly string[]): Block[] {
  const items = [...new Set(sentences)];
  return items.length === 0
    ? []
    : [
        { kind: 'heading', text: heading },
        { kind: 'list', items },
      ];
}
