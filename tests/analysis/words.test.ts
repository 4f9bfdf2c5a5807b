import { describe, expect, it } from 'vitest';
import { analyse } from '../../shared/analysis/analyse.ts';
import { recordProblemCodes } from '../../shared/analysis/check-record.ts';
import { defaultCodes, missingCodes, remarkCodes } from '../../shared/analysis/messages/messages.ts';
import { declarations } from '../../shared/analysis/methods/methods.ts';
import { methodSets } from '../../shared/contract/burn-record.ts';
import { hasValue } from '../../shared/contract/has-value.ts';
import { issueSentence } from '../../shared/language/errors/issue-sentences.ts';
import { languages } from '../../shared/language/language.ts';
import { serviceParts } from '../../shared/language/service/service-parts.ts';
import { dryWood, id, makeBurn, mark, plainBurn } from './support/hand-made-burn.ts';

/** Numbers and names for every parameter of a sentence. */
const params = new Proxy({} as Record<string, number | string>, {
  get: (_target, key) =>
    ['channel', 'lot', 'scale', 'content', 'method', 'of', 'id'].includes(String(key)) ? 'X' : 1.5,
});

describe.each(languages)('the language %s', (language) => {
  const words = serviceParts[language].results;

  it('has a sentence for every code, without an undefined part', () => {
    const sentences = [
      ...missingCodes.map((code) => words.missing({ code, params })),
      ...defaultCodes.map((code) => words.defaults({ code, params })),
      ...remarkCodes.map((code) => words.remarks({ code, params })),
      ...recordProblemCodes.map((problem) =>
        issueSentence(language, 'issue/record', Object.create(params, { problem: { value: problem } })),
      ),
    ];
    for (const sentence of sentences) {
      expect(sentence).toMatch(/^[A-ZÀ-Ý«\d−].*[.]$/s);
      expect(sentence).not.toMatch(/undefined|NaN|\[object/);
    }
  });

  it('names every quantity that a working can show', () => {
    const quantities = declarations.filter((declaration) => declaration.kind === 'quantity');
    const shown = new Set(quantities.flatMap(({ inputs = [], alsoShown = [] }) => [...inputs, ...alsoShown]));
    for (const { name, label = name } of shown) expect(words.inputName(label), name).not.toBe(label);
  });

  it('has names for everything in a working, in a list of inputs or in a budget', () => {
    const kindling = { ...dryWood, id: id(301), name: 'kindling', kind: 'kindling' as const };
    const record = makeBurn({
      ...plainBurn,
      marks: [
        ...plainBurn.marks,
        mark('waterIn', 5000, { massKg: 1, tempC: 15 }),
        mark('goodsIn', 5100, { massKg: 1, tempC: 15 }),
        mark('goodsOut', 7000, { massKg: 1, tempC: 90 }),
      ],
      weighings: [
        ...plainBurn.weighings,
        { of: 'brands', when: 'end', massKg: 0.1 },
        { of: 'char', when: 'start', massKg: 0.02 },
      ],
      record: {
        fuelLots: [dryWood, kindling],
        hold: { durationS: 600, onDrop: 'pause' },
        vessel: { id: id(400), name: 'vat', massKg: 3 },
      },
    });
    for (const method of methodSets) {
      for (const result of analyse(record, { method, draws: 50 }).results.filter(hasValue)) {
        const asked = [...result.inputs, ...result.working.steps].map(({ name }) => name);
        for (const name of [...asked, ...result.budget!.map(({ input }) => input)])
          expect(words.inputName(name)).not.toBe(name);
      }
    }
  });
});

describe('the cautions on preserving food', () => {
  it('name the bath, the low acid and the authority, and give no times or lethality', () => {
    for (const { results: words } of Object.values(serviceParts)) {
      const all = (['preservingJarTemperature', 'preservingLowAcid', 'preservingSchedule'] as const)
        .map((code) => words.remarks({ code, params: {} }))
        .join(' ');
      expect(all).toMatch(/pH/);
      expect(all).toMatch(/4[.,]6/);
      expect(all).not.toMatch(/\bF0\b|lethal|létal|minutes at/i);
    }
  });
});
