import { expect, test } from 'vitest';
import { drawErrors, type SharedThings, usualErrorBudget } from '../../server/simulator/measurement-errors.ts';

const things: SharedThings = {
  equipment: 'a',
  woodScale: 's',
  waterScale: 's',
  woodLot: 'beech',
  kindlingLot: 'spruce',
  place: 'yard',
  burn: '1',
};
const draw = (changed: Partial<SharedThings> = {}, study: number | string = 1) =>
  drawErrors(usualErrorBudget, { ...things, ...changed }, study);

test('two burns share exactly the errors of the things they share', () => {
  const first = draw();
  const second = draw({ burn: '2' });
  expect(second.moisture.wood).toBe(first.moisture.wood);
  expect(second.netDryMJPerKg.wood).toBe(first.netDryMJPerKg.wood);
  expect(second.stationPressurePa).toBe(first.stationPressurePa);
  expect(second.probe('waterLow')).toEqual(first.probe('waterLow'));
  expect(second.markS('lit')).not.toBe(first.markS('lit'));
  expect(second.weighed('wood', 1, 'char')).not.toBe(first.weighed('wood', 1, 'char'));
  expect(draw({ woodLot: 'oak' }).moisture.wood).not.toBe(first.moisture.wood);
  expect(draw({ equipment: 'b' }).probe('waterLow')).not.toEqual(first.probe('waterLow'));
  expect(draw({}, 2).moisture.wood).not.toBe(first.moisture.wood);
});

test('weighings share gain and zero of their scale, only the reading error is independent', () => {
  const reading = 1e-9;
  const errors = drawErrors({ ...usualErrorBudget, scaleReadingKg: reading }, things, 1);
  const zero = errors.weighed('water', 0.5, 'a') - errors.weighed('water', 0.25, 'b');
  const gain = (errors.weighed('water', 30, 'c') - errors.weighed('water', 20, 'd')) / 10;
  expect(zero / 0.25).toBeCloseTo(gain, 6);
  expect(errors.weighed('wood', 2, 'e')).toBeCloseTo(errors.weighed('water', 2, 'f'), 6);
});

test('drawn errors have the spread of their budget', () => {
  const draws = Array.from({ length: 600 }, (_, study) => draw({}, study));
  const spread = (values: number[]) => Math.sqrt(values.reduce((sum, value) => sum + value ** 2, 0) / values.length);
  expect(spread(draws.map((errors) => errors.moisture.wood)) / usualErrorBudget.moisture).toBeCloseTo(1, 0.9);
  expect(spread(draws.map((errors) => errors.probe('waterHigh').offsetK)) / usualErrorBudget.probeOffsetK).toBeCloseTo(
    1,
    0.9,
  );
  expect(spread(draws.map((errors) => errors.markS('lit'))) / usualErrorBudget.markS).toBeCloseTo(1, 0.9);
  expect(draws.every((errors) => errors.charBurntOnKg >= 0)).toBe(true);
});
