import { describe, expect, it } from 'vitest';
import {
  airRatioFromOxygen,
  atReferenceOxygen,
  carbonDioxideFromOxygenPercent,
  siegertFromComposition,
  siegertStackLossPercent,
} from '../../shared/physics/flue-gas.ts';

describe('dry flue gas of wood', () => {
  // Computed from the definitions λ = 20.9/(20.9 − O2) (stack-testing practice), 21/(21 − O2) (boiler trade), CO2 =
  // 20.3·(20.9 − O2)/20.9 and C·(20.9 − 13)/(20.9 − O2).
  it.each([
    [3, 1.1676, 1.1667, 17.39, 0.4413],
    [5, 1.3145, 1.3125, 15.44, 0.4969],
    [8, 1.6202, 1.6154, 12.53, 0.6124],
    [10, 1.9174, 1.9091, 10.59, 0.7248],
    [13, 2.6456, 2.625, 7.67, 1],
    [15, 3.5424, 3.5, 5.73, 1.339],
  ])('at %d %% oxygen', (oxygen, ratio209, ratio21, carbonDioxide, reference) => {
    expect(airRatioFromOxygen(oxygen)).toBeCloseTo(ratio209, 4);
    expect(airRatioFromOxygen(oxygen, 21)).toBeCloseTo(ratio21, 4);
    expect(carbonDioxideFromOxygenPercent(oxygen)).toBeCloseTo(carbonDioxide, 2);
    expect(atReferenceOxygen(1, oxygen)).toBeCloseTo(reference, 4);
  });
});

describe('stack loss by Siegert', () => {
  // A1 = 0.65 for dry wood: table of solid-fuel engineers; losses computed from the formula.
  it.each([
    [200, 20, 10, 11.7],
    [250, 20, 8, 18.69],
    [300, 20, 6, 30.33],
  ])('with gas at %d °C, air at %d °C and %d %% CO2 is %d %%', (flueTempC, airTempC, carbonDioxide, lossPercent) => {
    expect(siegertStackLossPercent(flueTempC, airTempC, carbonDioxide)).toBeCloseTo(lossPercent, 2);
  });

  // Boiler operators' manual: K1 = 255·C/Q with 50 % carbon and 19 000 kJ/kg gives 0.671; the engineers' table has 0.650.
  it('has a coefficient that follows from carbon and heating value', () => {
    const { a1 } = siegertFromComposition(50, 19);
    expect(a1).toBeCloseTo(0.671, 3);
    expect(Math.abs(a1 / 0.65 - 1)).toBeLessThan(0.04);
  });
});
