import { describe, expect, it } from 'vitest';
import { readingCases, readingClaims, tallyCase } from '../../scripts/study/readings/cases.ts';
import { analyse } from '../../shared/analysis/analyse.ts';
import { crossingTable, halfWidthOf, isReached, momentOf } from '../../shared/analysis/curves/level-crossing.ts';
import { hasValue } from '../../shared/contract/has-value.ts';
import fc from '../support/properties.ts';
import { calibratedProbe, makeBurn, plainBurn } from './support/hand-made-burn.ts';

/** Lit at 300 s and 20 °C, 1 K/min: at 99.106 °C, half a kelvin below the boil of 100 kPa (IAPWS-IF97), after 79.106 min. */
const TRUE_S = 79.106 * 60;

function timeToBoil(everyS: number, fromS = 0) {
  const record = makeBurn({ ...plainBurn, channels: [calibratedProbe], everyS, fromS });
  const result = analyse(record, { draws: 2000 }).results.find(({ id }) => id === 'timeToBoil')!;
  if (!hasValue(result)) throw new Error(result.missing.code);
  const [low, high] = result.interval95!;
  return { valueS: result.value, low, high };
}

describe('infrequent readings', () => {
  it.each([30, 45, 60, 120])('do not round off the corner at the boil: one every %d s', (everyS) => {
    for (const share of [0, 0.2, 0.4, 0.6, 0.8]) {
      const { valueS, low, high } = timeToBoil(everyS, share * everyS);
      expect(Math.abs(valueS - TRUE_S)).toBeLessThan(everyS / 2);
      expect(low).toBeLessThan(TRUE_S);
      expect(high).toBeGreaterThan(TRUE_S);
    }
  });

  it('increase the uncertainty of the moment gradually, without a step at any period', () => {
    const periods = Array.from({ length: 15 }, (_, at) => 4 + at);
    const widths = periods.map((everyS) => {
      const phases = [0, 0.25, 0.5, 0.75].map((share) => timeToBoil(everyS, share * everyS));
      return phases.reduce((sum, { low, high }) => sum + high - low, 0) / phases.length;
    });
    widths.slice(1).forEach((width, at) => {
      expect(Math.abs(width / widths[at]! - 1)).toBeLessThan(0.15);
    });
  });

  it('locate the moment between the last one below the level and the first above', () => {
    const rises = fc.array(fc.double({ min: 0, max: 6, noNaN: true }), { minLength: 10, maxLength: 40 });
    fc.assert(
      fc.property(
        rises,
        fc.integer({ min: 5, max: 600 }),
        fc.double({ min: 0.1, max: 0.9, noNaN: true }),
        (steps, everyS, share) => {
          const timeS = Float64Array.from(steps, (_, at) => at * everyS);
          let tempC = 0;
          const temps = Float64Array.from(steps, (rise) => (tempC += rise));
          const levelC = temps[0]! + share * (tempC - temps[0]!);
          const water = { timeS, tempC: temps, periodS: everyS };
          const table = crossingTable(water, 0, 1e6, levelC, levelC + 1e-9, 1e-9);
          if (!isReached(table, levelC)) return;
          const above = temps.findIndex((value) => value >= levelC);
          const [moment, half] = [momentOf(table, levelC), halfWidthOf(table, levelC)];
          expect(moment - half).toBeGreaterThanOrEqual(timeS[Math.max(0, above - 1)]! - 1e-6);
          expect(moment + half).toBeLessThanOrEqual(timeS[above]! + 1e-6);
        },
      ),
    );
  });
});

/** The small version of `npm run study -- readings`, with fixed seeds. */
describe('95 % intervals of readings that hide something', () => {
  it.each(readingCases.map((each) => ({ ...each })))('contain the truth as often as they state: $name', (each) => {
    expect(readingClaims(each, tallyCase(each, 12, 1000))).toEqual([]);
  });
});
