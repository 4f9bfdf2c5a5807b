import { byMethods } from '../../shared/analysis/by-methods.ts';
import { contradictionsOf, isContradiction } from '../../shared/analysis/messages/contradiction-codes.ts';
import type { MethodSet } from '../../shared/contract/burn-record.ts';
import { hasValue } from '../../shared/contract/has-value.ts';
import type { Analysis, Message, ResultId, ValueResult } from '../../shared/contract/results.ts';
import { showPercent } from '../../shared/language/display-units.ts';
import type { Language } from '../../shared/language/language.ts';
import { showInterval, showPlain, showValue } from '../../shared/language/result-figures.ts';
import type { Block } from './report.ts';
import { wordsOf } from './words.ts';

/** Entries of a budget worth a line each; the rest together change nothing a reader could see. */
const shareShown = 0.01;

/** What a builder asks first; everything else stands further back. */
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
  return tableOfResults(
    valuesOf(analysis).filter(({ id }) => mainResults.includes(id)),
    analysis,
    language,
  );
}

/** What does not fit together, numbered as beside the results. */
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

function tableOfResults(values: readonly ValueResult[], analysis: Analysis, language: Language): Block {
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

/** The numbers of what makes a result doubtful: " (1, 3)". */
function marksOf({ remarks }: Analysis, id: ResultId): string {
  const numbers = contradictionsOf(remarks, id);
  return numbers.length === 0 ? '' : ` (${numbers.join(', ')})`;
}

/** What each method set makes of the burn, under its name. */
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

/** Budgets, defaults and remarks of the results with a value. */
export function budgetBlocks(analysis: Analysis, language: Language): Block[] {
  const { report, results } = wordsOf(language);
  const values = valuesOf(analysis);
  const rows = values.flatMap((result) => {
    const variance = (result.budget ?? []).reduce((sum, { contribution }) => sum + contribution ** 2, 0);
    return (result.budget ?? [])
      .map((entry) => ({ ...entry, share: entry.contribution ** 2 / variance }))
      .filter(({ share }) => share >= shareShown)
      .map(({ input, contribution, share }, index) => [
        index === 0 ? results.names[result.id] : '',
        results.inputName(input),
        `${showPlain(language, contribution)} ${result.unit}`,
        showPercent(language, share, 0),
      ]);
  });
  return [
    { kind: 'heading', text: report.sections.budget },
    {
      kind: 'table',
      columns: [
        { title: report.columns.result, align: 'left', share: 3 },
        { title: report.columns.input, align: 'left', share: 4 },
        { title: report.columns.contribution, align: 'right', share: 2 },
        { title: report.columns.share, align: 'right', share: 2 },
      ],
      rows,
    },
    ...messageBlocks(
      report.sections.defaults,
      values.flatMap((result) => result.defaults.map(results.defaults)),
    ),
    ...messageBlocks(
      report.sections.remarks,
      [...analysis.remarks.filter((message) => !isContradiction(message)), ...values.flatMap(remarksOf)].map(
        results.remarks,
      ),
    ),
  ];
}

export function workingBlocks(analysis: Analysis, language: Language): Block[] {
  const { report, results } = wordsOf(language);
  return [
    { kind: 'heading', text: report.sections.working },
    {
      kind: 'table',
      columns: [
        { title: report.columns.result, align: 'left', share: 2 },
        { title: report.columns.formula, align: 'left', share: 4 },
        { title: report.columns.input, align: 'left', share: 4 },
        { title: report.columns.source, align: 'left', share: 2 },
      ],
      rows: valuesOf(analysis).map(({ id, working, inputs }) => [
        results.names[id],
        working.formula,
        workingLines([...inputs, ...working.steps], language),
        working.source,
      ]),
    },
  ];
}

/** Every quantity of a working once, as "name = figure unit". */
function workingLines(
  quantities: readonly { readonly name: string; readonly value: number; readonly unit: string }[],
  language: Language,
): string {
  const { results } = wordsOf(language);
  const lines = quantities.map(({ name, value, unit }) => {
    const symbol = unit === '1' ? '' : `\u00a0${unit === 'Cel' ? '°C' : unit}`;
    return `${results.inputName(name)} = ${showPlain(language, value)}${symbol}`;
  });
  return [...new Set(lines)].join('\n');
}

function valuesOf(analysis: Analysis): ValueResult[] {
  return analysis.results.filter(hasValue);
}

function remarksOf(result: ValueResult): readonly Message[] {
  return result.remarks;
}

/** Many results share a remark: each sentence is said once. */
function messageBlocks(heading: string, sentences: readonly string[]): Block[] {
  const items = [...new Set(sentences)];
  return items.length === 0
    ? []
    : [
        { kind: 'heading', text: heading },
        { kind: 'list', items },
      ];
}
