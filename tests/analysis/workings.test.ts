import { describe, expect, it } from 'vitest';
import { analyse } from '../../shared/analysis/analyse.ts';
import { declarations } from '../../shared/analysis/methods/methods.ts';
import { methodSets } from '../../shared/contract/burn-record.ts';
import { hasValue } from '../../shared/contract/has-value.ts';
import { languages } from '../../shared/language/language.ts';
import { serviceParts } from '../../shared/language/service/service-parts.ts';
import { goldenRecords } from './golden/records.ts';

const analyses = Object.entries(goldenRecords).flatMap(([name, record]) =>
  methodSets.map((method) => ({ name: `${name}, ${method}`, analysis: analyse(record(), { method, draws: 0 }) })),
);

describe('the quantities on the way to the results', () => {
  it('include every result with its value, each quantity once', () => {
    for (const { name, analysis } of analyses) {
      const workings = analysis.workings!;
      for (const { id, value, unit } of analysis.results.filter(hasValue))
        expect(workings, name).toContainEqual(expect.objectContaining({ result: id, value, unit }));
      expect(new Set(workings.map(({ symbol, name: quantity }) => `${symbol} ${quantity}`)).size).toBe(workings.length);
      for (const { value, numbers = [] } of workings)
        for (const each of [value, ...numbers.map((number) => number.value)])
          expect(each, name).toSatisfy(Number.isFinite);
    }
  });

  it('have names in every language, and so have the numbers in their formulas', () => {
    for (const language of languages) {
      const { inputName } = serviceParts[language].results;
      for (const { name: of, analysis } of analyses)
        for (const { name, result, numbers = [] } of analysis.workings!)
          for (const each of [...(result ? [] : [name]), ...numbers.map((number) => number.name)])
            expect(inputName(each), of).not.toBe(each);
    }
  });

  it('have formulas and sources in French wherever the declaration has words', () => {
    const quantities = declarations.filter((declaration) => declaration.kind === 'quantity');
    const symbols = [...quantities.map(({ symbol }) => symbol), 'LHV', 'LHVc', 'fcm', 'T_sat', 'IAPWS', 'ISO', 'IEC'];
    for (const { formula, source } of quantities)
      for (const text of [formula, source]) {
        const words = text
          .replaceAll(/\S*_\S*/g, ' ')
          .match(/\p{L}{3,}/gu)
          ?.filter((word) => !symbols.some((symbol) => symbol.includes(word)));
        if (words?.length) expect(serviceParts.fr.results.workingText(text), text).not.toBe(text);
      }
  });
});
