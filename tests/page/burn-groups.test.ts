import { expect, test } from 'vitest';
import type { BurnSummary } from '../../shared/contract/burns.ts';
import {
  burnOrders,
  columnScale,
  figureOf,
  groupBurns,
  matches,
  noFilter,
  searchedText,
} from '../../web/views/burns/burn-groups.ts';
import { unbrokenStretches } from '../../web/views/burns/unbroken-stretches.ts';
import fc from '../support/properties.ts';

function burnOf(title: string, more: Partial<BurnSummary> = {}): BurnSummary {
  return {
    id: title,
    title,
    status: 'complete',
    origin: 'measured',
    fuelLots: [],
    target: { kind: 'boil' },
    methodSet: 'bench-1',
    primaryResult: 'dryWoodPerBatch',
    curve: [],
    ...more,
  };
}

const wood = (value: number, halfWidth = 0.1): Pick<BurnSummary, 'figures'> => ({
  figures: [{ id: 'dryWoodPerBatch', value, unit: 'kg', interval95: [value - halfWidth, value + halfWidth] }],
});
const ofRevision = (label: string) => ({ revision: { id: label, label } });

test('the mean of a revision is over the burns of the same test conditions, with their number', () => {
  const burns = [
    burnOf('a', { ...ofRevision('2'), ...wood(3) }),
    burnOf('b', { ...ofRevision('2'), ...wood(4) }),
    burnOf('to 90 °C', { ...ofRevision('2'), ...wood(9), target: { kind: 'temperature', tempC: 90 } }),
    burnOf('set aside', { ...ofRevision('2'), ...wood(9), status: 'setAside' }),
    burnOf('without wood', { ...ofRevision('2'), figures: [] }),
  ];
  const [group] = groupBurns(burns, 'newest');
  expect(group?.means.dryWoodPerBatch).toEqual({ value: 3.5, unit: 'kg', count: 2 });
  expect(group?.means.timeToTarget).toBeUndefined();
});

test('a burn without a recorded start counts with the cold ones; cold and hot ones are never pooled', () => {
  const start = (title: string, value: number, startKind?: 'cold' | 'hot') =>
    burnOf(title, { ...ofRevision('1'), ...wood(value), ...(startKind && { startKind }) });
  const [group] = groupBurns(
    [start('a', 3, 'cold'), start('b', 5), start('c', 4, 'cold'), start('d', 9, 'hot')],
    'newest',
  );
  expect(group?.means.dryWoodPerBatch).toEqual({ value: 4, unit: 'kg', count: 3 });
});

test('the best revision and its best burn come first when sorted by a result, those without it last', () => {
  const burns = [
    burnOf('nothing', { ...ofRevision('1'), figures: [] }),
    burnOf('more', { ...ofRevision('1'), ...wood(4) }),
    burnOf('less', { ...ofRevision('1'), ...wood(3.8) }),
    burnOf('best', { ...ofRevision('2'), ...wood(3) }),
  ];
  const titles = groupBurns(burns, 'dryWoodPerBatch').map((group) => group.burns.map(({ title }) => title));
  expect(titles).toEqual([['best'], ['less', 'more', 'nothing']]);
  expect(groupBurns(burns, 'oldest')[0]?.burns.map(({ title }) => title)).toEqual(['best']);
});

test('in any order, every burn is in the list once', () => {
  const anyBurns = fc.uniqueArray(
    fc.record({
      title: fc.string(),
      revision: fc.constantFrom('1', '2', undefined),
      kg: fc.option(fc.double({ min: 0.1, max: 9, noNaN: true })),
    }),
    { selector: ({ title }) => title },
  );
  fc.assert(
    fc.property(anyBurns, fc.constantFrom(...burnOrders), (made, order) => {
      const burns = made.map(({ title, revision, kg }) =>
        burnOf(title, { ...(revision && ofRevision(revision)), ...(kg === null ? {} : wood(kg)) }),
      );
      const listed = groupBurns(burns, order).flatMap((group) => group.burns);
      expect(listed.map(({ id }) => id).sort()).toEqual(burns.map(({ id }) => id).sort());
    }),
  );
});

test('every interval of a column is within its scale', () => {
  fc.assert(
    fc.property(
      fc.array(fc.tuple(fc.double({ min: 0, max: 50, noNaN: true }), fc.double({ min: 0, max: 5, noNaN: true })), {
        minLength: 1,
      }),
      (figures) => {
        const burns = figures.map(([value, halfWidth], index) => burnOf(`${index}`, wood(value, halfWidth)));
        const scale = columnScale(burns, 'dryWoodPerBatch')!;
        for (const burn of burns) {
          const [low, high] = figureOf(burn, 'dryWoodPerBatch')!.interval95!;
          expect(low).toBeGreaterThanOrEqual(scale.low);
          expect(high).toBeLessThanOrEqual(scale.high);
        }
        expect(scale.high).toBeGreaterThan(scale.low);
      },
    ),
  );
});

test('a search finds words in any order, in names and in the date', () => {
  const burn = burnOf('Scouring', {
    operator: 'M',
    ...ofRevision('2'),
    fuelLots: [{ id: 'lot', name: 'Beech, split' }],
  });
  const finds = (search: string) => matches(burn, { ...noFilter, search }, () => searchedText(burn, '9 Nov 2026'));
  expect(['beech scour', 'NOV 2026', '  ', 'split 2'].map(finds)).toEqual([true, true, true, true]);
  expect(['oak', 'beech oak'].map(finds)).toEqual([false, false]);
});

test('a small curve has a gap where there are no readings, and nowhere else', () => {
  const every = (fromS: number, count: number) =>
    Array.from({ length: count }, (_, index) => [fromS + index * 60, 20] as const);
  expect(unbrokenStretches([...every(0, 30), ...every(3600, 30)]).map((part) => part.length)).toEqual([30, 30]);
  expect(unbrokenStretches(every(0, 40))).toHaveLength(1);
  expect(unbrokenStretches([])).toEqual([]);
  fc.assert(
    fc.property(fc.array(fc.double({ min: 0, max: 1e5, noNaN: true })), (times) => {
      const curve = [...times].sort((a, b) => a - b).map((elapsedS) => [elapsedS, 20] as const);
      expect(unbrokenStretches(curve).flat()).toEqual(curve);
    }),
  );
});
