/** The working of each result: every quantity with its formula, and every number used by a formula. */
import type { Analysis, FormulaNumber, WorkedQuantity } from '../../shared/contract/results.ts';
import { type Language, writeNumber } from '../../shared/language/language.ts';
import { withUnit } from '../../shared/language/unit-symbols.ts';
import type { Block } from './report.ts';
import { wordsOf } from './words.ts';

/** More than is known of any of them, so that a recomputation agrees to the last digit printed elsewhere. */
const digits = 6;

export function workingBlocks({ workings = [] }: Analysis, language: Language): Block[] {
  const { report, results } = wordsOf(language);
  const { columns } = report;
  const sources = [...new Set(workings.map(({ source }) => source))];
  const printed = new Set<string>();
  const isNew = ([figure = '']: readonly string[]) => !printed.has(figure) && printed.add(figure);
  return [
    { kind: 'heading', text: report.sections.working },
    { kind: 'text', text: report.working.intro },
    {
      kind: 'table',
      columns: [
        { title: columns.figure, align: 'left', share: 13 },
        { title: columns.meaning, align: 'left', share: 12 },
        { title: columns.formula, align: 'left', share: 15 },
        { title: columns.source, align: 'right', share: 3 },
      ],
      rows: workings.flatMap((quantity) => [
        quantityRow(quantity, sources.indexOf(quantity.source) + 1, language),
        ...(quantity.numbers ?? []).map((number) => numberRow(number, language)).filter(isNew),
      ]),
    },
    { kind: 'heading', text: report.sections.sources },
    { kind: 'list', items: sources.map((source, index) => `${index + 1}. ${results.workingText(source)}`) },
  ];
}

function quantityRow(
  { name, result, formula, ...figure }: WorkedQuantity,
  sourceNumber: number,
  language: Language,
): string[] {
  const { results } = wordsOf(language);
  return [
    figureText(figure, language),
    result ? results.names[result] : results.inputName(name),
    results.workingText(formula),
    `${sourceNumber}`,
  ];
}

function numberRow({ name, of, ...figure }: FormulaNumber, language: Language): string[] {
  const { report, results } = wordsOf(language);
  const named = results.inputName(name);
  return [`\u00a0\u00a0${figureText(figure, language)}`, of ? report.working.of({ name: named, of }) : named, '', ''];
}

/** Symbol, number and unit, never broken across two lines. */
function figureText(
  { symbol, value, unit }: Pick<FormulaNumber, 'symbol' | 'value' | 'unit'>,
  language: Language,
): string {
  return `${symbol} = ${withUnit(withDigits(language, value), unit)}`.replaceAll(' ', '\u00a0');
}

/** Trailing zeros are removed: the numbers are for recomputing. */
function withDigits(language: Language, value: number): string {
  const size = value === 0 ? 0 : Math.floor(Math.log10(Math.abs(value)));
  const decimals = Math.max(0, digits - 1 - size);
  const plain = value.toFixed(decimals);
  const zeros = decimals === 0 ? 0 : /0*$/.exec(plain)![0].length;
  return writeNumber(language, value, decimals - Math.min(decimals, zeros));
}
