import { expect, test } from 'vitest';
import { aroundAll, shareOf } from '../../shared/plot/scale.ts';
import { roundTicks } from '../../shared/plot/ticks.ts';
import { type CompareRoute, parseCompare } from '../../web/addresses/compare-route.ts';
import { parseRoute, type Route, routeHash } from '../../web/addresses/router.ts';
import fc from '../support/properties.ts';

const id = fc.uuid();
const options = fc.record({
  blocks: fc.constantFrom('none' as const, 'day' as const, 'lot' as const),
  adjust: fc.boolean(),
});
const routes: fc.Arbitrary<CompareRoute> = fc.oneof(
  fc.constantFrom<CompareRoute>({ show: 'start' }, { show: 'byHand' }, { show: 'level' }, { show: 'load' }),
  fc.record({ a: id, b: id, options }).map((asked): CompareRoute => ({ show: 'revisions', ...asked })),
  fc
    .record({
      a: fc.array(id, { minLength: 1, maxLength: 5 }),
      b: fc.array(id, { minLength: 1, maxLength: 5 }),
      options: options.map((each) => ({ ...each, primary: 'timeToTarget' as const })),
    })
    .map((asked): CompareRoute => ({ show: 'burns', ...asked })),
  id.map((stove): CompareRoute => ({ show: 'cost', stove })),
  id.map((stove): CompareRoute => ({ show: 'design', stove })),
  id.map((revision): CompareRoute => ({ show: 'load', revision })),
);

test('every comparing screen has an address that leads back to it, its choices included', () => {
  fc.assert(
    fc.property(routes, (of) => {
      const route: Route = { at: 'compare', of };
      expect(parseRoute(routeHash(route))).toEqual(route);
    }),
  );
});

test('an address with half a comparison, or an unknown choice, opens no wrong screen', () => {
  expect(parseCompare(['revisions', 'one'])).toBeUndefined();
  expect(parseCompare(['dance'])).toBeUndefined();
  expect(parseCompare(['revisions', 'one', 'two?blocks=moon&adjust=perhaps'])).toEqual({
    show: 'revisions',
    a: 'one',
    b: 'two',
    options: { blocks: 'none', adjust: true },
  });
});

test('figures on an axis are round, inside it, few, and have no rounding error in their last digit', () => {
  const ends = fc.tuple(
    fc.double({ min: -1e4, max: 1e4, noNaN: true }),
    fc.double({ min: 1e-3, max: 1e4, noNaN: true }),
  );
  fc.assert(
    fc.property(ends, fc.integer({ min: 2, max: 8 }), ([low, span], most) => {
      const high = low + span;
      const { values, decimals } = roundTicks(low, high, most);
      expect(values.length).toBeLessThanOrEqual(most + 1);
      for (const value of values) {
        expect(value).toBeGreaterThanOrEqual(low - span * 1e-6);
        expect(value).toBeLessThanOrEqual(high + span * 1e-6);
        expect(Math.abs(Number(value.toFixed(decimals)) - value)).toBeLessThan(1e-9 * Math.max(1, Math.abs(value)));
      }
      const steps = values.slice(1).map((value, index) => value - (values[index] ?? 0));
      for (const step of steps)
        expect([1, 2, 5, 10]).toContain(Number((step / 10 ** Math.floor(Math.log10(step * 1.000001))).toFixed(3)));
    }),
  );
  expect(roundTicks(0, 0.35, 4)).toEqual({ values: [0, 0.1, 0.2, 0.3], decimals: 1 });
  expect(roundTicks(3.1, 3.99, 5)).toEqual({ values: [3.2, 3.4, 3.6, 3.8], decimals: 1 });
  expect(roundTicks(-12, 19, 4)).toEqual({ values: [-10, 0, 10], decimals: 0 });
});

test('a range around values has a margin on both sides, even around a single one', () => {
  fc.assert(
    fc.property(fc.array(fc.double({ min: -1e6, max: 1e6, noNaN: true }), { minLength: 1, maxLength: 9 }), (values) => {
      const { low, high } = aroundAll(values);
      for (const value of values) {
        const share = shareOf(low, high)(value);
        expect(share).toBeGreaterThan(0);
        expect(share).toBeLessThan(100);
      }
    }),
  );
});
