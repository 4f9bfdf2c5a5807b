import { describe, expect, it } from 'vitest';
import {
  type ThermocoupleToleranceClass,
  type ThermocoupleType,
  thermocoupleToleranceK,
} from '../../shared/physics/thermocouple.ts';

// IEC 60584-2 (now part of IEC 60584-1) tolerances as listed side by side with JIS C 1602 and ASTM E230 in an instrument
// maker's table; values at chosen temperatures follow from its rows, e.g. "±2.5 °C (−40 to 333 °C), ±0.0075·|t|
// (333 to 1200 °C)".
type Row = [ThermocoupleType, ThermocoupleToleranceClass, tempC: number, expectedK: number | undefined];

const ROWS: Row[] = [
  ['K', '1', 100, 1.5],
  ['K', '1', 375, 1.5],
  ['K', '1', 500, 2],
  ['K', '1', 1000, 4],
  ['K', '1', 1001, undefined],
  ['K', '2', 100, 2.5],
  ['K', '2', 333, 2.5],
  ['K', '2', 500, 3.75],
  ['K', '2', 1000, 7.5],
  ['K', '2', 1200, 9],
  ['K', '2', -41, undefined],
  ['K', '3', -100, 2.5],
  ['K', '3', -200, 3],
  ['K', '3', 40, 2.5],
  ['K', '3', 41, undefined],
  ['N', '2', 1200, 9],
  ['E', '1', 800, 3.2],
  ['E', '2', 900, 6.75],
  ['E', '2', 901, undefined],
  ['J', '1', 750, 3],
  ['J', '2', 751, undefined],
  ['J', '3', -50, undefined],
  ['T', '1', 100, 0.5],
  ['T', '1', 200, 0.8],
  ['T', '2', 100, 1],
  ['T', '2', 350, 2.625],
  ['T', '3', -67, 1.005],
  ['T', '3', -200, 3],
  ['R', '1', 1100, 1],
  ['S', '1', 1600, 2.5],
  ['S', '2', 600, 1.5],
  ['R', '2', 1600, 4],
  ['R', '3', 100, undefined],
  ['B', '1', 1000, undefined],
  ['B', '2', 1000, 2.5],
  ['B', '3', 700, 4],
  ['B', '3', 1700, 8.5],
  ['B', '2', 599, undefined],
];

describe('IEC 60584 tolerance classes', () => {
  it.each(ROWS)('type %s class %s at %d °C is ±%s K', (type, toleranceClass, tempC, expectedK) => {
    const toleranceK = thermocoupleToleranceK(type, toleranceClass, tempC);
    if (expectedK === undefined) expect(toleranceK).toBeUndefined();
    else expect(toleranceK).toBeCloseTo(expectedK, 10);
  });

  it('does not have the misprint ±1.0 K for type T class 1 of one vendor article', () => {
    expect(thermocoupleToleranceK('T', '1', 20)).toBe(0.5);
  });
});
