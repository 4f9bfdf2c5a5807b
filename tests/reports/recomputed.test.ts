/**
 * Recomputes results from the PDF alone. The formulas below are those that the report prints, written by hand here:
 * nothing of the analysis is used.
 */
import { describe, expect, it } from 'vitest';
import { type BurnReportInput, burnReport } from '../../server/reports/burn-report.ts';
import { reportToPdf } from '../../server/reports/report-pdf.ts';
import type { BurnRecord } from '../../shared/contract/burn-record.ts';
import { goldenRecords } from '../analysis/golden/records.ts';
import { sampleRecord } from '../exports/sample-burn.ts';
import { poppler } from './poppler.ts';
import { indexed, numberOf, printedNumbers, withPrefix } from './printed-numbers.ts';
import { reportInput } from './sample-report.ts';

type Choices = Partial<Pick<BurnReportInput, 'language' | 'paper'>>;

interface Words {
  readonly dryWood: string;
  readonly efficiency: string;
  readonly energy: string;
}
const words: Record<'en' | 'fr', Words> = {
  en: { dryWood: 'Dry wood per batch', efficiency: 'Thermal efficiency', energy: 'Fuel energy' },
  fr: { dryWood: 'Bois sec par fournée', efficiency: 'Rendement thermique', energy: 'Énergie du combustible' },
};

/** Returns a result of the table of results: its value, and the number of decimals printed. */
function printedResult(text: string, name: string): { value: number; decimals: number } {
  const figure = new RegExp(`^ *${name} +(\\d[\\d.,]*) (?:kg|%|MJ) `, 'm').exec(text)?.[1];
  if (figure === undefined) throw new Error(`${name} is not in the report`);
  return { value: numberOf(figure), decimals: /[.,](\d+)$/.exec(figure)?.[1]?.length ?? 0 };
}

function recomputed(numbers: ReadonlyMap<string, number>) {
  const get = (symbol: string) => {
    const value = numbers.get(symbol);
    if (value === undefined) throw new Error(`${symbol} is not in the report`);
    return value;
  };
  const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0);
  const r = get('r');
  const fuelMJ = sum(
    indexed(numbers, 'm_').map((m, index) => {
      const [M, q, b = 0, a = 0] = [
        get(`M_${index + 1}`),
        get(`q_${index + 1}`),
        numbers.get(`b_${index + 1}`),
        numbers.get('a'),
      ];
      return m * (q * (1 - M) - r * M) - b * (q * (1 - a * M) - r * a * M);
    }),
  );
  const netMJ = fuelMJ - get('m_char') * get('q_char');
  const hEnd = get('h(T_end)');
  const movedMJ = sum(indexed(numbers, 'M_k').map((M, index) => M * (hEnd - get(`h(T_k${index + 1})`))));
  const goodsMJ = sum(
    indexed(numbers, 'm_j').map((m, index) => {
      const at = index + 1;
      return (m * get(`c_j${at}`) * (get('T_end') - get(`T_j${at}`))) / 1e6;
    }),
  );
  const contentsMJ = sum(
    indexed(numbers, 'm_l').map((m, index) => {
      const at = index + 1;
      return (m * get(`c_l${at}`) * (get('T_end') - get(`T_l${at}`) - get(`L_l${at}`))) / 1e6;
    }),
  );
  const loadMJ = get('M_start') * (hEnd - get('h(T_start)')) + movedMJ + goodsMJ + contentsMJ;
  const evaporatedKg =
    get('M_start') + sum(withPrefix(numbers, 'M_in,')) - sum(withPrefix(numbers, 'M_out,')) - get('M_end');
  return {
    dryWoodKg: netMJ / get('q_net,d') / get('N'),
    efficiency: (loadMJ + evaporatedKg * get('h_fg')) / netMJ,
    energyMJ: netMJ,
  };
}

const burns: [name: string, record: () => BurnRecord, choices: Choices][] = [
  ['two lots and half-burnt wood', sampleRecord, {}],
  [
    'water, goods and contents moved, char still to be weighed',
    goldenRecords['moved load']!,
    { language: 'fr', paper: 'letter' },
  ],
  ['two lots of wood with heating values on other bases, fed by weight', goldenRecords['on a scale']!, {}],
];

describe.each(burns)('dry wood, efficiency and fuel energy of a burn with %s', (_name, record, choices) => {
  it('follow from the text of the PDF alone, to the last digit printed', async () => {
    const input = reportInput(record(), choices);
    const text = poppler(await reportToPdf(burnReport(input), input.paper))
      .text()
      .replaceAll('\u00a0', ' ');
    const { dryWoodKg, efficiency, energyMJ } = recomputed(printedNumbers(text));
    const name = words[input.language];
    const agrees = (value: number, printed: { value: number; decimals: number }) =>
      expect(value.toFixed(printed.decimals)).toBe(printed.value.toFixed(printed.decimals));
    agrees(dryWoodKg, printedResult(text, name.dryWood));
    agrees(100 * efficiency, printedResult(text, name.efficiency));
    agrees(energyMJ, printedResult(text, name.energy));
  });
});

it('the mass carried to the fire is the difference of the weighings of each lot', async () => {
  const input = reportInput(sampleRecord());
  const text = poppler(await reportToPdf(burnReport(input), input.paper))
    .text()
    .replaceAll('\u00a0', ' ');
  const numbers = printedNumbers(text);
  for (const lot of [1, 2]) {
    const [before, after] = ['before', 'after'].map((when) =>
      numberOf(new RegExp(`wood pile, ${when} +${lot}\\. .*? ([\\d.]+) kg`).exec(text)?.[1] ?? ''),
    );
    // Both are printed to the gram.
    expect(Math.abs(before! - after! - numbers.get(`m_${lot}`)!)).toBeLessThan(1.1e-3);
  }
});
