import { expect, test } from 'vitest';
import { createTargetWatch, type Target } from '../../server/simulator/target-rule.ts';

/** Passes a curve of [seconds, °C] vertices to the watch, one point every 2 s, and returns its outcome. */
function reached(target: Target, corners: [number, number][]): number | undefined {
  const watch = createTargetWatch(target, 98);
  let answer: number | undefined;
  for (let i = 1; i < corners.length; i++) {
    const [fromS, fromC] = corners[i - 1]!;
    const [toS, toC] = corners[i]!;
    for (let s = fromS; s < toS; s += 2) {
      answer = watch.see(s, fromC + ((toC - fromC) * (s - fromS)) / (toS - fromS)) ?? answer;
    }
  }
  return answer;
}

test('the boil is the first lasting moment 0.5 K below the boiling point, interpolated between two points', () => {
  // Boiling point 98 °C: 97.5 °C is passed half-way from 96 °C at 1000 s to 99 °C at 1201 s, whatever the points' spacing.
  expect(
    reached({ kind: 'boil' }, [
      [1000, 96],
      [1201, 99],
      [1300, 99],
    ]),
  ).toBeCloseTo(1100.5, 6);
});

test('a boil that falls back within a minute does not count; the next one does', () => {
  expect(
    reached({ kind: 'boil' }, [
      [0, 97],
      [10, 98],
      [40, 98],
      [50, 96.9],
      [100, 96.9],
      [120, 97.9],
      [400, 97.8],
    ]),
  ).toBeCloseTo(112, 6);
});

test('a dip that stays above 1 K below the boiling point does not undo the boil', () => {
  expect(
    reached({ kind: 'boil' }, [
      [0, 97],
      [10, 98],
      [30, 97.1],
      [100, 98],
    ]),
  ).toBeCloseTo(5, 6);
});

test('a stall just short of the boil is never a boil', () => {
  expect(
    reached({ kind: 'boil' }, [
      [0, 90],
      [600, 97.4],
      [3600, 97.45],
    ]),
  ).toBeUndefined();
});

test('a set temperature is reached when the curve first passes it and stays', () => {
  expect(
    reached({ kind: 'temperature', tempC: 90 }, [
      [0, 80],
      [200, 100],
      [300, 100],
    ]),
  ).toBeCloseTo(100, 6);
});
