import { expect, test } from 'vitest';
import { pointsInSight } from '../../web/charts/points-in-sight.ts';
import fc from '../support/properties.ts';

const curve = fc.array(
  fc.record({ step: fc.integer({ min: 1, max: 5 }), value: fc.option(fc.integer({ min: -40, max: 40 }), { freq: 9 }) }),
  { maxLength: 60 },
);

test('lines between the drawn points pass every point within the tolerance, and end where the curve has a gap', () => {
  fc.assert(
    fc.property(curve, fc.integer({ min: 0, max: 10 }), (steps, slack) => {
      let at = 0;
      const x = steps.map(({ step }) => (at += step));
      const y = steps.map(({ value }) => value);
      const seen = pointsInSight(x, y, slack);
      // Returns the drawn line at a point: a drawn point, or interpolated between the two drawn points around it.
      const lineAt = (place: number): number | null => {
        const after = seen.findIndex((point) => point.x >= place);
        const [a, b] = [seen[after - 1], seen[after]];
        if (b?.x === place) return b.y;
        if (a?.y == null || b?.y == null) return null;
        return a.y + ((b.y - a.y) * (place - a.x)) / (b.x - a.x);
      };
      for (const [index, place] of x.entries()) {
        const [value, drawn] = [y[index] ?? null, lineAt(place)];
        if (value === null) expect(drawn).toBeNull();
        else expect(Math.abs(drawn! - value)).toBeLessThanOrEqual(slack + 1e-9);
      }
    }),
  );
});

test('a straight stretch is drawn from its ends', () => {
  const x = Array.from({ length: 100 }, (_, index) => index);
  expect(pointsInSight(x, x, 0.01)).toEqual([
    { x: 0, y: 0 },
    { x: 99, y: 99 },
  ]);
});
