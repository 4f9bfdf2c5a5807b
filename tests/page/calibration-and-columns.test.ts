import { expect, test } from 'vitest';
import { calibrationFrom, indicatedFrom, spreadOf, steadyReadings } from '../../web/views/probes/calibration.ts';
import { formatOf } from '../../web/views/probes/column-mapping.ts';
import { dippedLitres } from '../../web/views/weighing/dipstick.ts';
import fc from '../support/properties.ts';

const ice = { kind: 'ice' as const, indicated: 0.8, truth: 0, standardUncertainty: 0.1 };
const boil = { kind: 'boil' as const, indicated: 97.8, truth: 99.0, standardUncertainty: 0.2 };

test('one point shifts a probe, two points also stretch it', () => {
  expect(calibrationFrom([ice])).toEqual({ method: 'icePoint', offset: -0.8, gain: 1, standardUncertainty: 0.1 });
  // 97 K indicated between the points stand for 99 K.
  const both = calibrationFrom([boil, ice]);
  expect(both).toMatchObject({ method: 'icePointAndBoilingPoint', standardUncertainty: 0.2 });
  expect(both?.gain).toBeCloseTo(99 / 97, 12);
  expect((both?.gain ?? 0) * 97.8 + (both?.offset ?? 0)).toBeCloseTo(99, 12);
});

test('two points too close together make no slope, and no points make nothing', () => {
  expect(calibrationFrom([ice, { ...boil, indicated: 10 }])).toBeUndefined();
  expect(calibrationFrom([])).toBeUndefined();
});

test('a calibration in force is undone before the next one is taken', () => {
  fc.assert(
    fc.property(
      fc.double({ min: -50, max: 900, noNaN: true }),
      fc.double({ min: 0.9, max: 1.1, noNaN: true }),
      fc.double({ min: -5, max: 5, noNaN: true }),
      (indicated, gain, offset) => {
        expect(indicatedFrom(gain * indicated + offset, { gain, offset })).toBeCloseTo(indicated, 9);
      },
    ),
  );
});

test('a reading counts as steady only after enough of them', () => {
  const readings = Array.from({ length: steadyReadings }, (_, index) => 20 + (index % 2) * 0.1);
  expect(spreadOf(readings.slice(1))).toBeUndefined();
  expect(spreadOf([80, ...readings])).toBeCloseTo(0.1, 12);
});

test('in a pot 36 cm wide a millimetre on the dipstick is a tenth of a litre', () => {
  expect(dippedLitres(0.001, 0.36)).toBeCloseTo(0.1018, 4);
});

test('only measured columns become probes, and a column of time is no probe', () => {
  const layout = { separator: 'comma' as const, decimal: 'point' as const, headerLines: 1 };
  expect(
    formatOf(layout, [
      { use: 'timeMs', name: 't' },
      { use: 'not', name: 'x' },
    ]),
  ).toBeUndefined();
  expect(
    formatOf(layout, [
      { use: 'timeMs', name: 't' },
      { use: 'not', name: 'x' },
      { use: 'temperature', name: ' water ' },
      { use: 'mass', name: '' },
    ]),
  ).toEqual({
    ...layout,
    timeColumn: 0,
    timeUnit: 'ms',
    columns: [
      { column: 2, name: 'water', unit: 'Cel' },
      { column: 3, name: '4', unit: 'kg' },
    ],
  });
});
