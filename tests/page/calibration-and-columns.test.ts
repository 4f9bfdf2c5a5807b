import { expect, test } from 'vitest';
import { indicatedFrom } from '../../shared/board-check/indicated.ts';
import { STEADY_READINGS } from '../../shared/board-check/steadiness.ts';
import { guessPlainFormat } from '../../shared/plain-lines/guess-format.ts';
import { calibrationFrom, spreadOf } from '../../web/views/probes/calibration.ts';
import { columnsOf, formatOf, valuesAt } from '../../web/views/probes/column-mapping.ts';
import { dippedLitres } from '../../web/views/weighing/dipstick.ts';
import fc from '../support/properties.ts';

const ice = { kind: 'ice' as const, indicated: 0.8, truth: 0, standardUncertainty: 0.1 };
const boil = { kind: 'boil' as const, indicated: 97.8, truth: 99.0, standardUncertainty: 0.2 };

test('one point shifts a probe, two points also stretch it', () => {
  expect(calibrationFrom([ice])).toEqual({ method: 'icePoint', offset: -0.8, gain: 1, standardUncertainty: 0.1 });
  // 97 K indicated between the points are 99 K.
  const both = calibrationFrom([boil, ice]);
  expect(both).toMatchObject({ method: 'icePointAndBoilingPoint', standardUncertainty: 0.2 });
  expect(both?.gain).toBeCloseTo(99 / 97, 12);
  expect((both?.gain ?? 0) * 97.8 + (both?.offset ?? 0)).toBeCloseTo(99, 12);
});

test('two points too close together give no slope, and no points give nothing', () => {
  expect(calibrationFrom([ice, { ...boil, indicated: 10 }])).toBeUndefined();
  expect(calibrationFrom([])).toBeUndefined();
});

test('an active calibration is inverted before the next one is made', () => {
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
  const readings = Array.from({ length: STEADY_READINGS }, (_, index) => 20 + (index % 2) * 0.1);
  expect(spreadOf(readings.slice(1))).toBeUndefined();
  expect(spreadOf([80, ...readings])).toBeCloseTo(0.1, 12);
});

test('in a pot 36 cm wide a millimetre on the dipstick is a tenth of a litre', () => {
  expect(dippedLitres(0.001, 0.36)).toBeCloseTo(0.1018, 4);
});

const lines = ['t;Pot (F);Mass;state', '250;74.3;12.5 kg;ok', '500;74.4;12.6 kg;ok', '750;74.6;12.4 kg;ok'];
const semicolons = {
  layout: 'columns' as const,
  separator: 'semicolon' as const,
  decimal: 'point' as const,
  headerLines: 1,
};

function mappingOf(seen: readonly string[]) {
  const { format } = guessPlainFormat(seen, { separator: 'semicolon' });
  return columnsOf(format, semicolons, seen, (index) => `Column ${index + 1}`);
}

test('only measured columns become probes, not a clock or a word', () => {
  const columns = mappingOf(lines);
  expect(columns.map(({ use }) => use)).toEqual(['timeMs', '[degF]', 'kg', 'not']);
  expect(formatOf(semicolons, columns)).toEqual({
    ...semicolons,
    timeColumn: 0,
    timeUnit: 'ms',
    columns: [
      { column: 1, name: 'Pot (F)', unit: '[degF]', unitFrom: 'heading' },
      { column: 2, name: 'Mass', unit: 'kg', printed: 'kg', unitFrom: 'number' },
    ],
  });
  expect(
    formatOf(
      semicolons,
      columns.map((column) => ({ ...column, use: 'not' as const })),
    ),
  ).toBeUndefined();
});

test('a unit that is not printed is open until a person chooses it, and is stored as the person’s choice', () => {
  const columns = mappingOf(['20.5;30.25', '20.6;30.5', '20.5;30.75']);
  expect(columns.map(({ use }) => use)).toEqual(['ask', 'ask']);
  expect(formatOf(semicolons, columns)?.columns).toEqual([
    { column: 0, name: 'Column 1', unitFrom: 'nowhere' },
    { column: 1, name: 'Column 2', unitFrom: 'nowhere' },
  ]);
  const chosen = columns.map((column) => ({ ...column, use: '[degF]' as const, name: '' }));
  expect(formatOf(semicolons, chosen)?.columns[1]).toEqual({
    column: 1,
    name: '2',
    unit: '[degF]',
    unitFrom: 'nowhere',
  });
});

test('the preview draws the values of a column as printed, whatever is next to them', () => {
  expect(valuesAt('2', semicolons, lines)).toEqual([12.5, 12.6, 12.4]);
  const labelled = { layout: 'labelled' as const, separator: 'comma' as const, decimal: 'point' as const };
  expect(valuesAt('F', labelled, ['C = 23.5', 'F = 74.3', 'C = 23.6', 'F = nan', 'F = 74.5'])).toEqual([74.3, 74.5]);
});
