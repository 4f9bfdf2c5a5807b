import { requireWithin } from './range.ts';
import type { ThermocoupleType } from './thermocouple-coefficients.ts';
import { ZERO_CELSIUS_K } from './units.ts';

/**
 * Tolerance classes of new thermocouple wire, IEC 60584-1 (formerly IEC 584-2), reference junction at 0 °C. Wire drifts
 * above its rated temperature and in a flame; the class does not cover that. ASTM E230 differs (type K ±2.2 °C or 0.75
 * %).
 */
export type ThermocoupleToleranceClass = '1' | '2' | '3';

/** The larger of a fixed half-width and a share of the temperature in °C. */
interface Tolerance {
  readonly fromC: number;
  readonly toC: number;
  readonly atLeastK: number;
  readonly share: number;
}

const BASE_CLASS_1 = (toC: number): Tolerance => ({ fromC: -40, toC, atLeastK: 1.5, share: 0.004 });
const BASE_CLASS_2 = (toC: number): Tolerance => ({ fromC: -40, toC, atLeastK: 2.5, share: 0.0075 });
const BASE_CLASS_3: Tolerance = { fromC: -200, toC: 40, atLeastK: 2.5, share: 0.015 };
const NOBLE_CLASS_2: Tolerance = { fromC: 0, toC: 1600, atLeastK: 1.5, share: 0.0025 };

const TOLERANCES: Readonly<Record<ThermocoupleType, Readonly<Partial<Record<ThermocoupleToleranceClass, Tolerance>>>>> =
  {
    K: { '1': BASE_CLASS_1(1000), '2': BASE_CLASS_2(1200), '3': BASE_CLASS_3 },
    N: { '1': BASE_CLASS_1(1000), '2': BASE_CLASS_2(1200), '3': BASE_CLASS_3 },
    E: { '1': BASE_CLASS_1(800), '2': BASE_CLASS_2(900), '3': BASE_CLASS_3 },
    J: { '1': BASE_CLASS_1(750), '2': BASE_CLASS_2(750) },
    T: {
      '1': { fromC: -40, toC: 350, atLeastK: 0.5, share: 0.004 },
      '2': { fromC: -40, toC: 350, atLeastK: 1, share: 0.0075 },
      '3': { fromC: -200, toC: 40, atLeastK: 1, share: 0.015 },
    },
    R: { '2': NOBLE_CLASS_2 },
    S: { '2': NOBLE_CLASS_2 },
    B: {
      '2': { fromC: 600, toC: 1700, atLeastK: 1.5, share: 0.0025 },
      '3': { fromC: 600, toC: 1700, atLeastK: 4, share: 0.005 },
    },
  };

/**
 * Half-width, K, of the tolerance of `type` in `toleranceClass` at `tempC`: the reading lies within plus or minus this
 * of the truth when the wire is new. `undefined` where the standard gives none (no such class, or outside its
 * temperatures).
 * @throws RangeError for a value that is not a number, or outside −273.15 to 2000 °C.
 */
export function thermocoupleToleranceK(
  type: ThermocoupleType,
  toleranceClass: ThermocoupleToleranceClass,
  tempC: number,
): number | undefined {
  requireWithin('The temperature of a thermocouple', tempC, -ZERO_CELSIUS_K, 2000, '°C');
  // Platinum–rhodium class 1 is the only one that counts from 1100 °C instead of from zero.
  if ((type === 'R' || type === 'S') && toleranceClass === '1') {
    if (tempC < 0 || tempC > 1600) return undefined;
    return 1 + 0.003 * Math.max(0, tempC - 1100);
  }
  const tolerance = TOLERANCES[type][toleranceClass];
  if (tolerance === undefined || tempC < tolerance.fromC || tempC > tolerance.toC) return undefined;
  return Math.max(tolerance.atLeastK, tolerance.share * Math.abs(tempC));
}
