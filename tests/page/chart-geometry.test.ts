import { expect, test } from 'vitest';
import { stretchesOf, svgPath } from '../../shared/plot/curve-paths.ts';
import { type Box, crossings, freeBox, rowsFor, spread } from '../../shared/plot/label-places.ts';
import { linearScale } from '../../shared/plot/scale.ts';
import type { Point } from '../../shared/plot/shapes.ts';
import { minuteStep, multiplesIn } from '../../shared/plot/ticks.ts';
import { timeChartHeights } from '../../web/charts/time-chart-heights.ts';
import { gutterPx, squareMin } from '../../web/charts/time-chart-model.ts';
import { valueAt } from '../../web/charts/value-at.ts';
import fc from '../support/properties.ts';

const paper = { low: 0, high: 105, square: 5, labelEvery: 20 };
const tracks = [{ marks: [] }];

test('one kelvin per minute runs along the diagonal wherever there is room for squares', () => {
  const heights = timeChartHeights(
    750,
    { range: { fromMin: 0, toMin: 150 }, curves: [], plot: paper, tracks },
    { lowest: 200, highest: 600 },
  );
  const pixelsAMinute = (750 - gutterPx) / 150;
  const pixelsAKelvin = heights.plot / 105;
  expect(pixelsAKelvin / pixelsAMinute).toBeCloseTo(1, 2);
});

test('the drawing stays within the paper, and missing bands take no space', () => {
  const long = timeChartHeights(
    360,
    { range: { fromMin: 0, toMin: 600 }, curves: [], plot: paper, tracks },
    { lowest: 180, highest: 300 },
  );
  expect(long).toMatchObject({ plot: 180, hot: 0, rate: 0 });
  expect(long.total).toBe(long.plot + long.axis + long.track);
});

test('figures on the time axis are at round minutes and never too close to be legible', () => {
  fc.assert(
    fc.property(fc.integer({ min: 10, max: 1440 }), fc.integer({ min: 200, max: 2000 }), (span, width) => {
      const step = minuteStep(span, width);
      expect(step % squareMin).toBe(0);
      if (step < 480) expect((step / span) * width).toBeGreaterThanOrEqual(55);
    }),
  );
});

test('labels are spread, in their order and inside the plot', () => {
  fc.assert(
    fc.property(fc.array(fc.double({ min: -50, max: 150, noNaN: true }), { maxLength: 6 }), (heights) => {
      const placed = spread(heights, 10, 100, 13);
      const sorted = [...placed].sort((a, b) => a - b);
      for (let at = 1; at < sorted.length; at += 1)
        expect((sorted[at] ?? 0) - (sorted[at - 1] ?? 0)).toBeGreaterThanOrEqual(13 - 1e-9);
      for (const height of placed) {
        expect(height).toBeGreaterThanOrEqual(10 - 1e-9);
        expect(height).toBeLessThanOrEqual(100 + 1e-9);
      }
    }),
  );
  expect(spread([50, 20], 0, 100, 10)).toEqual([50, 20]);
});

test('signs of one minute are spread to both sides of it, and closer where so many do not fit', () => {
  expect(spread([50, 50, 50], 0, 100, 10)).toEqual([40, 50, 60]);
  expect(spread([0, 1, 80], 0, 100, 10)).toEqual([0, 10, 80]);
  fc.assert(
    fc.property(fc.array(fc.double({ min: 0, max: 100, noNaN: true }), { minLength: 2, maxLength: 40 }), (places) => {
      const sorted = spread(places, 0, 100, 9).sort((a, b) => a - b);
      const apart = Math.min(9, 100 / (places.length - 1));
      for (let at = 1; at < sorted.length; at += 1)
        expect((sorted[at] ?? 0) - (sorted[at - 1] ?? 0)).toBeGreaterThanOrEqual(apart - 1e-9);
    }),
  );
});

test('every multiple of a step between two ends, and nothing outside them, becomes a figure', () => {
  fc.assert(
    fc.property(
      fc.double({ min: -500, max: 500, noNaN: true }),
      fc.double({ min: 0.1, max: 300, noNaN: true }),
      fc.constantFrom(0.5, 1, 5, 20),
      (low, span, step) => {
        const values = multiplesIn(low, low + span, step);
        for (const value of values) {
          expect(value).toBeGreaterThanOrEqual(low - step * 1e-6);
          expect(value).toBeLessThanOrEqual(low + span + step * 1e-6);
          expect(value / step).toBe(Math.round(value / step));
        }
        expect(values.length).toBeGreaterThanOrEqual(Math.floor(span / step));
      },
    ),
  );
});

test('a path has a break at every gap and contains every reading', () => {
  const straight = linearScale([0, 1], [0, 1]);
  const readings = fc.array(fc.option(fc.double({ min: 0, max: 100, noNaN: true })), { maxLength: 30 });
  fc.assert(
    fc.property(readings, (values) => {
      const x = values.map((_, index) => index);
      const stretches = stretchesOf(x, values, straight, straight);
      expect(stretches.flat()).toEqual(values.flatMap((value, index) => (value === null ? [] : [[index, value]])));
      for (const stretch of stretches)
        for (let at = 1; at < stretch.length; at += 1) expect(stretch[at]![0] - stretch[at - 1]![0]).toBe(1);
      for (const [last, first] of stretches
        .slice(1)
        .map((next, index) => [stretches[index]!.at(-1)!, next[0]!] as const))
        expect(first[0] - last[0]).toBeGreaterThan(1);
    }),
  );
  expect(
    svgPath([
      [0, 1.239],
      [2, 3],
    ]),
  ).toBe('M0 1.24L2 3');
});

const within: Box = { left: 0, right: 200, top: 0, bottom: 100 };
const boxes = fc
  .tuple(fc.integer({ min: -20, max: 190 }), fc.integer({ min: -10, max: 95 }))
  .map(([left, top]): Box => ({ left, right: left + 40, top, bottom: top + 14 }));
const curves = fc
  .array(fc.double({ min: 0, max: 100, noNaN: true }), { minLength: 2, maxLength: 12 })
  .map((heights) => heights.map((height, index): Point => [(index / (heights.length - 1)) * 200, height]));

test('a label is inside and, where one of its positions allows it, overlaps no curve and no other label', () => {
  fc.assert(
    fc.property(
      fc.array(boxes, { maxLength: 8 }),
      curves,
      fc.array(boxes, { maxLength: 3 }),
      (candidates, curve, taken) => {
        const isClear = (box: Box) =>
          crossings(box, curve) === 0 &&
          taken.every((t) => box.right <= t.left || t.right <= box.left || box.bottom <= t.top || t.bottom <= box.top);
        const isInside = ({ left, right, top, bottom }: Box) => left >= 0 && right <= 200 && top >= 0 && bottom <= 100;
        const found = freeBox(candidates, { within, curves: [curve], taken });
        expect(found === undefined).toBe(!candidates.some(isInside));
        if (!found) return;
        expect(isInside(found)).toBe(true);
        expect(isClear(found)).toBe(candidates.some((box) => isInside(box) && isClear(box)));
      },
    ),
  );
});

test('a segment of a curve touches a box when one of its points is in the box', () => {
  const box: Box = { left: 10, right: 20, top: 10, bottom: 20 };
  expect(
    crossings(box, [
      [0, 0],
      [30, 30],
    ]),
  ).toBe(1);
  expect(
    crossings(box, [
      [0, 15],
      [9, 15],
    ]),
  ).toBe(0);
  expect(
    crossings(box, [
      [0, 0],
      [30, 9],
    ]),
  ).toBe(0);
  expect(
    crossings(box, [
      [15, 0],
      [15, 40],
    ]),
  ).toBe(1);
  expect(
    crossings(box, [
      [5, 5],
      [12, 9],
    ]),
  ).toBe(0);
});

test('names above a band never overlap or exceed it while one of them fits', () => {
  fc.assert(
    fc.property(
      fc.array(fc.integer({ min: 20, max: 200 }), { maxLength: 6 }),
      fc.integer({ min: 0, max: 150 }),
      (widths, taken) => {
        const placed = rowsFor(widths, 260, { gap: 12, taken });
        const ends = placed.map(({ row, fromRight }, index) => ({
          row,
          right: 260 - fromRight,
          left: 260 - fromRight - widths[index]!,
        }));
        for (const [index, { row, left }] of ends.entries()) {
          expect(left).toBeGreaterThanOrEqual(row === 0 && taken > 0 ? taken : 0);
          const before = ends[index - 1];
          if (before && before.row === row) expect(left - before.right).toBe(12);
        }
      },
    ),
  );
});

test('the cursor interpolates between two readings, never across a gap and never beyond the ends', () => {
  const curve = { x: [0, 10, 20, 30], y: [10, 20, null, 40] };
  expect(valueAt(curve, 5)).toBe(15);
  expect(valueAt(curve, 10)).toBe(20);
  expect(valueAt(curve, 15)).toBeUndefined();
  expect(valueAt(curve, 25)).toBeUndefined();
  expect(valueAt(curve, 30)).toBe(40);
  expect(valueAt(curve, 31)).toBeUndefined();
  expect(valueAt(curve, -1)).toBeUndefined();
});
