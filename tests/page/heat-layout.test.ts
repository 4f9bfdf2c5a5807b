import { expect, test } from 'vitest';
import type { HeatPart } from '../../shared/contract/results.ts';
import { heatLayout, roundedToSum } from '../../web/views/burns/heat-layout.ts';
import fc from '../support/properties.ts';

const kinds = ['load', 'steam', 'pot', 'char', 'rest'] as const;
const anyParts = fc
  .tuple(...kinds.map(() => fc.double({ min: 0, max: 100, noNaN: true })))
  .map((masses) => kinds.map((of, index): HeatPart => ({ of, MJ: masses[index]! })));
const sumOf = (parts: readonly HeatPart[]) => parts.reduce((sum, { MJ }) => sum + MJ, 0);

test('the bands of the diagram fill the column of fuel, one below the other, with room for the words of each', () => {
  fc.assert(
    fc.property(anyParts, (parts) => {
      fc.pre(sumOf(parts) > 1e-3);
      const { bands, height } = heatLayout(sumOf(parts), parts)!;
      const column = bands.reduce((sum, { from }) => sum + from.height, 0);
      for (const [index, { from, to, slot }] of bands.entries()) {
        expect(from.height / column).toBeCloseTo(parts[index]!.MJ / sumOf(parts), 9);
        const next = bands[index + 1];
        expect(from.top + from.height).toBeCloseTo(next?.from.top ?? (height + column) / 2, 6);
        expect(slot.top + slot.height).toBeCloseTo(next?.slot.top ?? height, 6);
        expect(to.top).toBeGreaterThanOrEqual(slot.top - 1e-9);
        expect(to.top + to.height).toBeLessThanOrEqual(slot.top + slot.height + 1e-9);
      }
    }),
  );
});

test('more heat than that of the fuel gives no diagram', () => {
  expect(
    heatLayout(10, [
      { of: 'load', MJ: 12 },
      { of: 'rest', MJ: -2 },
    ]),
  ).toBeUndefined();
  expect(heatLayout(0, [{ of: 'rest', MJ: 0 }])).toBeUndefined();
});

test('printed figures add up to the printed sum, and none is wrong by more than one in its last digit', () => {
  fc.assert(
    fc.property(
      fc.array(fc.double({ min: 0, max: 500, noNaN: true }), { minLength: 1, maxLength: 6 }),
      fc.constantFrom(0, 1),
      (values, decimals) => {
        const total = values.reduce((sum, value) => sum + value, 0);
        const printed = roundedToSum(values, total, decimals);
        const place = 10 ** -decimals;
        expect(printed.reduce((sum, value) => sum + value, 0)).toBeCloseTo(Math.round(total / place) * place, 6);
        for (const [index, value] of printed.entries())
          expect(Math.abs(value - values[index]!)).toBeLessThanOrEqual(place * (1 + 1e-6));
      },
    ),
  );
});
