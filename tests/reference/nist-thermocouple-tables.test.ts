import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { polynomial } from '../../shared/physics/polynomial.ts';
import {
  compensatedTempC,
  THERMOCOUPLE_TYPES,
  type ThermocoupleType,
  thermocoupleInverseRangeC,
  thermocoupleMillivolts,
  thermocoupleSensitivityUvPerK,
  thermocoupleTempC,
} from '../../shared/physics/thermocouple.ts';
import { THERMOCOUPLE_FUNCTIONS } from '../../shared/physics/thermocouple-coefficients.ts';

// NIST Standard Reference Database 60, ITS-90 Thermocouple Database: the whole one-degree tables (see data/nist-srd-60).
function nistTable(type: ThermocoupleType): Map<number, number> {
  const table = new Map<number, number>();
  let direction = 1;
  const file = new URL(`./data/nist-srd-60/type-${type.toLowerCase()}.txt`, import.meta.url);
  for (const line of readFileSync(file, 'utf8').trim().split('\n')) {
    if (line === 'up' || line === 'down') {
      direction = line === 'up' ? 1 : -1;
      continue;
    }
    const [tempC, ...microvolts] = line.split(' ').map(Number);
    microvolts.forEach((value, index) => {
      table.set(tempC! + direction * index, value / 1000);
    });
  }
  return table;
}

const TABLE_POINTS = { K: 1643, J: 1411, T: 671, N: 1571, E: 1271, S: 1819, R: 1819, B: 1821 };

describe('NIST ITS-90 thermocouple tables', () => {
  it('are complete: 12,026 points', () => {
    const counts = Object.fromEntries(THERMOCOUPLE_TYPES.map((type) => [type, nistTable(type).size]));
    expect(counts).toEqual(TABLE_POINTS);
    expect(Object.values(counts).reduce((sum, count) => sum + count)).toBe(12_026);
  });

  it.each(THERMOCOUPLE_TYPES)('agree with type %s at every degree to the rounding of the print', (type) => {
    let worst = 0;
    for (const [tempC, millivolts] of nistTable(type)) {
      worst = Math.max(worst, Math.abs(thermocoupleMillivolts(type, tempC) - millivolts));
    }
    expect(worst).toBeLessThanOrEqual(0.0006);
  });

  it.each(THERMOCOUPLE_TYPES)('give the temperature of type %s from the printed voltage', (type) => {
    const { low, high } = thermocoupleInverseRangeC(type);
    let worstSteps = 0;
    for (const [tempC, millivolts] of nistTable(type)) {
      // The ends are left out: half a printed microvolt beyond the limit is refused.
      if (tempC <= low || tempC >= Math.floor(high)) continue;
      const halfStepK = 0.5 / thermocoupleSensitivityUvPerK(type, tempC);
      worstSteps = Math.max(worstSteps, Math.abs(thermocoupleTempC(type, millivolts) - tempC) / halfStepK);
    }
    expect(worstSteps).toBeLessThan(1.05);
  });
});

// The same database states for each inverse polynomial the range of its error; the bounds here are those ranges widened
// by the rounding of their printed digit.
const INVERSE_ERROR_BANDS: Record<ThermocoupleType, readonly (readonly [low: number, high: number])[]> = {
  K: [
    [-0.025, 0.045],
    [-0.055, 0.045],
    [-0.055, 0.065],
  ],
  J: [
    [-0.055, 0.035],
    [-0.045, 0.045],
    [-0.045, 0.035],
  ],
  T: [
    [-0.025, 0.045],
    [-0.035, 0.035],
  ],
  N: [
    [-0.025, 0.035],
    [-0.025, 0.035],
    [-0.045, 0.025],
  ],
  E: [
    [-0.015, 0.035],
    [-0.025, 0.025],
  ],
  S: [
    [-0.025, 0.025],
    [-0.015, 0.015],
    [-0.00025, 0.00025],
    [-0.0025, 0.0025],
  ],
  R: [
    [-0.025, 0.025],
    [-0.0055, 0.0055],
    [-0.00055, 0.0015],
    [-0.0015, 0.0025],
  ],
  B: [
    [-0.0255, 0.035],
    [-0.015, 0.025],
  ],
};

describe('inverse polynomials of the NIST database', () => {
  it.each(THERMOCOUPLE_TYPES)('of type %s have no larger error than the database states', (type) => {
    const pieces = THERMOCOUPLE_FUNCTIONS[type].inverse;
    expect(pieces).toHaveLength(INVERSE_ERROR_BANDS[type].length);
    pieces.forEach((piece, index) => {
      const [low, high] = INVERSE_ERROR_BANDS[type][index]!;
      for (let tempC = piece.fromC; tempC <= piece.toC; tempC += 0.5) {
        const error = polynomial(piece.coefficients, thermocoupleMillivolts(type, tempC)) - tempC;
        expect(error).toBeGreaterThan(low);
        expect(error).toBeLessThan(high);
      }
    });
  });
});

// Worked examples printed in the documentation of a general-purpose thermocouple library (two decimals or full double
// precision as shown), type K.
describe('published worked examples', () => {
  it('give the voltage of type K', () => {
    expect(thermocoupleMillivolts('K', 42)).toBeCloseTo(1.6938477049901346, 12);
    // biome-ignore lint/suspicious/noApproximativeNumericConstant: the printed example has these digits
    expect(thermocoupleMillivolts('K', -3.14159)).toBeCloseTo(-0.12369326, 8);
    expect(thermocoupleMillivolts('K', 54)).toBeCloseTo(2.18822176, 8);
  });

  it('compensate the cold junction by adding voltages', () => {
    expect(compensatedTempC('K', 4.096, 25)).toBeCloseTo(124.3, 1);
    expect(compensatedTempC('K', 1.1, 23)).toBeCloseTo(49.907928030075773, 9);
    expect(compensatedTempC('K', 1.0, 23)).toBeCloseTo(47.48175880786998, 9);
  });
});
