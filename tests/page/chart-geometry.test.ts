import { expect, test } from 'vitest';
import { spread } from '../../web/charts/label-spacing.ts';
import { minuteStep, squareMin, timeChartHeights } from '../../web/charts/time-chart-model.ts';
import { valueAt } from '../../web/charts/value-at.ts';
import fc from '../support/properties.ts';

const paper = { low: 0, high: 105, square: 5, labelEvery: 20 };
const tracks = [{ marks: [] }];

test('one kelvin a minute runs along the diagonal wherever there is room for true squares', () => {
  const heights = timeChartHeights(
    750,
    { range: { fromMin: 0, toMin: 150 }, plot: paper, tracks: tracks },
    { lowest: 200, highest: 600 },
  );
  const pixelsAMinute = 750 / 150;
  const pixelsAKelvin = heights.plot / 105;
  expect(pixelsAKelvin / pixelsAMinute).toBeCloseTo(1, 2);
});

test('paper keeps within its limits, and bands that do not exist take no room', () => {
  const long = timeChartHeights(
    360,
    { range: { fromMin: 0, toMin: 600 }, plot: paper, tracks: tracks },
    { lowest: 180, highest: 300 },
  );
  expect(long).toMatchObject({ plot: 180, hot: 0, rate: 0 });
  expect(long.total).toBe(long.plot + long.axis + long.track);
});

test('figures on the time axis stand on round minutes and never closer than they can be read', () => {
  fc.assert(
    fc.property(fc.integer({ min: 10, max: 1440 }), fc.integer({ min: 200, max: 2000 }), (span, width) => {
      const step = minuteStep(span, width);
      expect(step % squareMin).toBe(0);
      if (step < 480) expect((step / span) * width).toBeGreaterThanOrEqual(55);
    }),
  );
});

test('labels are moved apart, keep their order and stay inside', () => {
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

test('the cursor reads between two readings, never across a gap and never beyond the ends', () => {
  const curve = { x: [0, 10, 20, 30], y: [10, 20, null, 40] };
  expect(valueAt(curve, 5)).toBe(15);
  expect(valueAt(curve, 10)).toBe(20);
  expect(valueAt(curve, 15)).toBeUndefined();
  expect(valueAt(curve, 25)).toBeUndefined();
  expect(valueAt(curve, 30)).toBe(40);
  expect(valueAt(curve, 31)).toBeUndefined();
  expect(valueAt(curve, -1)).toBeUndefined();
});
