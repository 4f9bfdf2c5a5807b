import { expect, test } from 'vitest';
import { thinCurve } from '../../server/curves/thin-curve.ts';
import { longestBridgeS, scanPeriodS } from '../../shared/analysis/curves/segments.ts';
import fc from '../support/properties.ts';

const step = fc.constantFrom(1, 1, 1, 1, 1, 1, 1, 1, 90);
const value = fc.oneof(
  { weight: 12, arbitrary: fc.integer({ min: -800, max: 14_400 }).map((count) => count * 0.0625) },
  { weight: 1, arbitrary: fc.constant(Number.NaN) },
);
const curve = fc.array(fc.tuple(step, value), { minLength: 1, maxLength: 400 }).map((readings) => {
  let elapsedS = 0;
  const timeS = Float64Array.from(readings, ([stepS]) => {
    elapsedS += stepS;
    return elapsedS;
  });
  return { timeS, value: Float64Array.from(readings, ([, reading]) => reading) };
});

const whole = (timeS: Float64Array, points: number) => ({ fromS: 0, toS: timeS.at(-1) ?? 0, points });

test('the highest and the lowest reading of a curve are always included', () => {
  fc.assert(
    fc.property(curve, fc.integer({ min: 2, max: 60 }), ({ timeS, value: values }, points) => {
      const usable = Array.from(values).filter((each) => !Number.isNaN(each));
      const stored = thinCurve(timeS, values, whole(timeS, points)).v.filter((each) => each !== null);
      expect([Math.max(...stored), Math.min(...stored)]).toEqual([Math.max(...usable), Math.min(...usable)]);
    }),
  );
});

test('every point is a reading at its own moment, in order of time, and a gap is never crossed', () => {
  fc.assert(
    fc.property(curve, fc.integer({ min: 2, max: 60 }), ({ timeS, value: values }, points) => {
      const readings = new Map(Array.from(timeS, (at, index) => [at, values[index]!]));
      const { t, v } = thinCurve(timeS, values, whole(timeS, points));
      const bridgeS = longestBridgeS(scanPeriodS(timeS));
      let lastS = Number.NEGATIVE_INFINITY;
      let lastReadingS: number | undefined;
      t.forEach((at, place) => {
        expect(at).toBeGreaterThan(lastS);
        lastS = at;
        if (v[place] === null) {
          lastReadingS = undefined;
          return;
        }
        expect(v[place]).toBe(readings.get(at));
        // Readings between two points of a drawn line have no longer pause than may be interpolated.
        if (lastReadingS !== undefined) {
          const between = Array.from(timeS).filter(
            (each) => each >= lastReadingS! && each <= at && !Number.isNaN(readings.get(each)),
          );
          for (const [index, each] of between.slice(1).entries()) {
            expect(each - between[index]!).toBeLessThanOrEqual(bridgeS);
          }
        }
        lastReadingS = at;
      });
    }),
  );
});

test('a long curve has about the requested number of points', () => {
  const timeS = Float64Array.from({ length: 14_400 }, (_, index) => index);
  const values = timeS.map((at) => 20 + at / 200 + (at % 7));
  const { t } = thinCurve(timeS, values, whole(timeS, 1000));
  expect(t.length).toBeGreaterThan(900);
  expect(t.length).toBeLessThanOrEqual(1002);
});

test('a window shows its own readings, finer than the whole', () => {
  const timeS = Float64Array.from({ length: 14_400 }, (_, index) => index);
  const { t, v } = thinCurve(timeS, timeS, { fromS: 1000, toS: 1050, points: 200 });
  expect(t).toEqual(Array.from({ length: 51 }, (_, index) => 1000 + index));
  expect(v).toEqual(t);
});
