import { describe, expect, it } from 'vitest';
import { analyse } from '../../shared/analysis/analyse.ts';
import { each } from '../../shared/analysis/engine/columns.ts';
import { ownError } from '../../shared/analysis/engine/declaration.ts';
import { declaring } from '../../shared/analysis/engine/declare.ts';
import { spreads } from '../../shared/analysis/engine/draws.ts';
import { evaluate } from '../../shared/analysis/engine/evaluation.ts';
import { checkDeclarations, declarationsOf } from '../../shared/analysis/engine/graph.ts';
import { pathOf, plan } from '../../shared/analysis/engine/plan.ts';
import { uncertaintiesOf } from '../../shared/analysis/engine/uncertainty.ts';
import type { Method } from '../../shared/analysis/methods/method.ts';
import { declarations, methodNamed } from '../../shared/analysis/methods/methods.ts';
import type { BurnEvaluation } from '../../shared/analysis/quantities/declare.ts';
import { knownQuantities, resultsOf } from '../../shared/analysis/results.ts';
import { methodSets } from '../../shared/contract/burn-record.ts';
import { hasValue } from '../../shared/contract/has-value.ts';
import { createRandom } from '../../shared/statistics/random.ts';
import { goldenRecords } from './golden/records.ts';
import { calibratedProbe, id, makeBurn, plainBurn } from './support/hand-made-burn.ts';

const drawnResults = (method: Method, burn: BurnEvaluation, draws: number) =>
  resultsOf(method, burn, uncertaintiesOf(burn, knownQuantities(method, burn), draws, 'seed'));

const { fact, quantity, formula } = declaring<{ readonly lengthM: number }>();
const names = { symbol: 'x', unit: 'm', formula: 'x', source: 'a test' };
const measured = quantity({
  ...names,
  name: 'measured',
  needs: [],
  state: ({ subject }) => ({
    measured: [{ constant: subject.lengthM, terms: [{ input: ownError('rule', 0.1), weight: 1 }] }],
    compute: each((lengthM) => lengthM),
  }),
});

describe('declarations', () => {
  it('of all method sets are consistent in any order', () => {
    const random = createRandom('order');
    const shuffled = [...declarations].sort(() => random.uniform() - 0.5);
    expect(() => checkDeclarations(shuffled)).not.toThrow();
  });

  it('without one of them are refused, unless it is a published result', () => {
    const needed = new Set(declarations.flatMap(({ needs }) => needs));
    expect(needed.size).toBeGreaterThan(60);
    for (const one of needed) {
      const rest = declarations.filter((declaration) => declaration !== one);
      expect(() => checkDeclarations(rest), one.name).toThrow(`needs ${one.name} that is not declared`);
    }
  });

  it('of a formula with one input fewer than its arguments are refused', () => {
    for (const one of declarations) {
      if (one.kind === 'fact' || !one.inputs) continue;
      const less = { ...one, inputs: one.inputs.slice(1) };
      const changed = declarations.map((declaration) => (declaration === one ? less : declaration));
      expect(() => checkDeclarations(changed), one.name).toThrow(`${one.name} declares`);
    }
  });

  it('with a cycle or a duplicate name are refused', () => {
    const first = { ...measured, name: 'first', needs: [] as (typeof measured)[] };
    const second = { ...measured, name: 'second', needs: [first] };
    first.needs.push(second);
    expect(() => checkDeclarations(declarationsOf([first]))).toThrow('These need each other: first, second, first');
    expect(() => checkDeclarations([measured, { ...measured }])).toThrow('Two declarations are named measured');
  });

  it('can read only what they declare', () => {
    const doubled = fact('doubled', [], (given) => 2 * given.best(measured));
    expect(() => evaluate({ lengthM: 1 }).fact(doubled)).toThrow('doubled does not declare that it needs measured');
  });

  it('of different inputs with one name are refused', () => {
    const other = quantity({
      ...names,
      name: 'other',
      needs: [],
      state: () => ({ measured: [ownError('rule', 0.2)], compute: each((lengthM) => lengthM) }),
    });
    expect(() => plan(evaluate({ lengthM: 1 }), [measured, other])).toThrow('Two inputs are named rule');
  });
});

describe('draws', () => {
  const area = formula({ ...names, name: 'area', inputs: [measured, measured], compute: (a, b) => a * b });
  const height = quantity({
    ...names,
    name: 'height',
    needs: [],
    state: () => ({ measured: [ownError('ladder', 0.3)], compute: each((lengthM) => 3 + lengthM) }),
  });
  const spreadOf = (wanted: readonly (typeof area)[]) => {
    const evaluation = evaluate({ lengthM: 2 });
    const values = wanted.map((each) => evaluation.quantity(each).best);
    return spreads(plan(evaluation, wanted), values, 2000, 'seed');
  };

  it('of a quantity are the same to the last bit whatever else is drawn, in any order', () => {
    const [alone] = spreadOf([area]);
    expect(spreadOf([height, area])[1]).toEqual(alone);
    expect(spreadOf([area, height])[0]).toEqual(alone);
  });

  it('of a burn give every result the same to the last bit when fewer results are requested', () => {
    const record = goldenRecords['little stated']!();
    const whole = methodNamed('bench-1');
    const burn = evaluate(record);
    const all = drawnResults(whole, burn, 500);
    for (const id of ['dryWoodPerBatch', 'timeToBoil', 'thermalEfficiency'] as const) {
      const only = drawnResults({ ...whole, results: { [id]: whole.results[id]! } }, evaluate(record), 500);
      const found = all.find((result) => result.id === id)!;
      expect(hasValue(found)).toBe(true);
      expect(only.find((result) => result.id === id)).toEqual(found);
    }
  });
});

describe.each(Object.keys(goldenRecords))('the defaults of the results of a burn: %s', (name) => {
  const record = goldenRecords[name]!();

  it('include those of the budget, and values without uncertainty on the path', () => {
    const burn = evaluate(record);
    for (const methodSet of methodSets) {
      const method = methodNamed(methodSet);
      for (const result of drawnResults(method, burn, 200).filter(hasValue)) {
        const behind = pathOf(burn, [method.results[result.id]!]).map(({ found }) => found!);
        const inputs = behind.flatMap(({ measured: all = [] }) =>
          all.flatMap((each) => ('terms' in each ? each.terms.map(({ input }) => input) : [each])),
        );
        const inBudget = (input: (typeof inputs)[number]) =>
          result.budget!.some((entry) => entry.input === input.name && entry.sharedId === input.sharedId);
        const expected = [
          ...inputs.filter(inBudget).flatMap(({ defaults = [] }) => defaults),
          ...behind.flatMap(({ defaults = [] }) => defaults),
        ];
        const text = (messages: readonly object[]) => [...new Set(messages.map((each) => JSON.stringify(each)))].sort();
        expect(text(result.defaults), `${methodSet} ${result.id}`).toEqual(text(expected));
      }
    }
  });
});

describe('a default weather', () => {
  it('is listed for the lowest temperature of a hold, where it contributes most of the uncertainty', () => {
    // Probes of which nothing is stated, at a known altitude: the plateau corrects them by the boiling point, and that
    // depends on the weather.
    const { calibration: _calibration, ...probe } = calibratedProbe;
    const record = makeBurn({
      ...plainBurn,
      channels: [probe],
      record: { place: { id: id(200), name: 'yard', altitudeM: 100 }, hold: { durationS: 900, onDrop: 'pause' } },
    });
    const { results } = analyse(record, { draws: 500 });
    const result = results.find(({ id }) => id === 'holdLowest')!;
    if (!hasValue(result)) throw new Error(result.missing.code);
    expect(result.budget!.map(({ input }) => input)).toContain('place.weather');
    expect(result.defaults.map(({ code }) => code)).toContain('weather');
  });
});
