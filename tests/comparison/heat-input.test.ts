import { describe, expect, test } from 'vitest';
import { coolingLoss } from '../../shared/comparison/prediction/carry-over.ts';
import { lossFactor } from '../../shared/comparison/prediction/cooling.ts';
import { fitHeatInput, type HeatedLoad, timeToReach } from '../../shared/comparison/prediction/heat-input.ts';
import { potLossW } from '../../shared/comparison/prediction/pot-losses.ts';
import fc from '../support/properties.ts';

const pot = { contentKg: 30, innerDiameterM: 0.36 };
const load = (waterKg: number, factor = 1): HeatedLoad => ({
  capacityJPerK: waterKg * 4189,
  startTempC: 15,
  onFromS: 0,
  lossW: (tempC) => potLossW(pot, tempC, 15, true, factor),
});

/** The model's own curve, from its times for each temperature. */
function curve(steadyW: number, warmUpS: number, heated: HeatedLoad) {
  const tempC = Array.from({ length: 80 }, (_, index) => 16 + index);
  const timeS = tempC.map((target) => timeToReach(target, { steadyW, warmUpS }, heated)!);
  return { timeS, tempC };
}

describe('the model of the heating to the target', () => {
  test('takes m·c·ΔT/P without warm-up and losses', () => {
    const heated = { ...load(30), lossW: () => 0 };
    expect(timeToReach(95, { steadyW: 3000, warmUpS: 0 }, heated)).toBeCloseTo((30 * 4189 * 80) / 3000, 6);
  });

  test('is late by the warm-up time of the stove, long after the start', () => {
    const heated = { ...load(30), lossW: () => 0 };
    expect(timeToReach(95, { steadyW: 3000, warmUpS: 300 }, heated)).toBeCloseTo((30 * 4189 * 80) / 3000 + 300, 0);
  });

  test('starts when the pot is on the fire', () => {
    const heated = { ...load(30), lossW: () => 0, onFromS: 600 };
    expect(timeToReach(95, { steadyW: 3000, warmUpS: 0 }, heated)).toBeCloseTo((30 * 4189 * 80) / 3000 + 600, 6);
  });

  test('never reaches the target when the losses equal the heat first', () => {
    expect(timeToReach(95, { steadyW: 150, warmUpS: 0 }, load(30))).toBeUndefined();
    expect(timeToReach(10, { steadyW: 150, warmUpS: 0 }, load(30))).toBe(0);
  });

  test('is recovered from its own curve, and then gives the time of another load', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1500, max: 6000, noNaN: true }),
        fc.double({ min: 0, max: 1500, noNaN: true }),
        (steadyW, warmUpS) => {
          const { timeS, tempC } = curve(steadyW, warmUpS, load(30));
          const fit = fitHeatInput(timeS, tempC, load(30))!;
          const truth = timeToReach(95, { steadyW, warmUpS }, load(42))!;
          expect(Math.abs(timeToReach(95, fit, load(42))! / truth - 1)).toBeLessThan(0.01);
          expect(fit.residualK).toBeLessThan(0.5);
        },
      ),
      { numRuns: 25 },
    );
  });

  test('is undefined where the water takes up no heat', () => {
    expect(fitHeatInput([100, 200, 300], [15, 14, 13], { ...load(30), lossW: () => 0 })).toBeUndefined();
  });
});

describe('a cooling off the fire', () => {
  const factor = 1.4;
  const cooled = (lastsS: number) => {
    const timeS: number[] = [];
    const tempC: number[] = [];
    let now = 96;
    for (let elapsedS = 0; elapsedS <= lastsS; elapsedS += 10) {
      timeS.push(elapsedS);
      tempC.push(now);
      now -= (potLossW(pot, now, 15, true, factor) * 10) / (30 * 4189);
    }
    return { timeS, tempC };
  };

  test('gives the losses as a factor of those of the model', () => {
    const { timeS, tempC } = cooled(1800);
    expect(lossFactor(timeS, tempC, load(30))).toBeCloseTo(factor, 2);
  });

  test('is not used when it is too short', () => {
    const { timeS, tempC } = cooled(600);
    expect(lossFactor(timeS, tempC, load(30))).toBeUndefined();
  });
});

test('a cooling at the end is that of the water left, not of the water at the start', () => {
  const cooling = {
    timeS: [],
    tempC: [],
    lidOn: false,
    waterKg: 34,
    goods: [],
    vessel: undefined,
    airTempC: 15,
  };
  // 34 kg of water at 4189 J/(kg·K) (mean from 20 to 100 °C by IAPWS-IF97).
  expect(coolingLoss(cooling).capacityJPerK).toBeCloseTo(34 * 4189, 6);
});

test('an open pot of 30 kg cooling from 95 to 60 °C loses about a kilogram of vapour', () => {
  // Common practice, no source: between half a kilogram and two.
  let tempC = 95;
  let vapourKg = 0;
  while (tempC > 60) {
    const open = potLossW(pot, tempC, 15, false, 1);
    const closed = potLossW(pot, tempC, 15, true, 1);
    // The lid retains nine tenths of the evaporation.
    vapourKg += ((open - closed) / 0.9 / 2.3e6) * 10;
    tempC -= (open * 10) / (30 * 4189);
  }
  expect(vapourKg).toBeGreaterThan(0.5);
  expect(vapourKg).toBeLessThan(2);
});
