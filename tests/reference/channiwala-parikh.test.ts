import { describe, expect, it } from 'vitest';
import { netDryFromGrossDryMJPerKg } from '../../shared/physics/fuel.ts';
import { grossDryFromUltimateMJPerKg, type UltimateAnalysis } from '../../shared/physics/ultimate-analysis.ts';

function analysis(c: number, h: number, o: number, n: number, s: number, ash: number): UltimateAnalysis {
  return {
    carbonPercent: c,
    hydrogenPercent: h,
    oxygenPercent: o,
    nitrogenPercent: n,
    sulphurPercent: s,
    ashPercent: ash,
  };
}

const PINE = analysis(49.25, 5.99, 44.36, 0.06, 0.03, 0.3);
const HEMLOCK = analysis(50.4, 5.8, 41.1, 0.1, 0.1, 2.2);
const FIR = analysis(49, 5.98, 44.75, 0.05, 0.01, 0.25);
const REDWOOD = analysis(53.5, 5.9, 40.3, 0.1, 0, 0.2);
const OAK = analysis(49.48, 5.38, 43.13, 0.35, 0.01, 1.52);

// S. A. Channiwala and P. P. Parikh, Fuel 81 (2002) 1051–1063: composition, value calculated by the authors, value
// measured, gross MJ/kg dry. Calculated and measured columns from memory.
const ROWS: [wood: string, composition: UltimateAnalysis, calculated: number, measured: number][] = [
  ['ponderosa pine', PINE, 19.66, 20.02],
  ['western hemlock', HEMLOCK, 20.14, 20.05],
  ['white fir', FIR, 19.52, 19.95],
  ['redwood', REDWOOD, 21.45, 21.03],
  ['white oak', OAK, 19.12, 19.42],
];

describe('gross heating value from the ultimate analysis', () => {
  it.each(ROWS)('of %s is the value the authors calculate', (_wood, composition, calculated, measured) => {
    const { value: grossMJPerKg, standardUncertainty } = grossDryFromUltimateMJPerKg(composition);
    expect(Math.abs(grossMJPerKg - calculated)).toBeLessThan(0.0065);
    expect(Math.abs(grossMJPerKg - measured)).toBeLessThan(2 * standardUncertainty);
  });

  // Compositions from a table of alkali deposits found in biomass power plants; net by the ISO 18125 conversion.
  it.each([
    ['red oak sawdust', analysis(49.96, 5.92, 43.77, 0.03, 0.01, 0.31), 18.594],
    ['fir mill waste', analysis(51.23, 5.98, 42.29, 0.06, 0.03, 0.41), 19.248],
    ['hybrid poplar', analysis(50.18, 6.06, 40.44, 0.6, 0.02, 2.7), 19.094],
  ])('of %s converts to a net dry value inside the range of woods', (_wood, composition, netMJPerKg) => {
    const net = netDryFromGrossDryMJPerKg(grossDryFromUltimateMJPerKg(composition).value, composition);
    expect(net).toBeCloseTo(netMJPerKg, 3);
    expect(net).toBeGreaterThan(18);
    expect(net).toBeLessThan(20);
  });

  it('refuses shares outside the range of the fit and shares that exceed the whole', () => {
    expect(() => grossDryFromUltimateMJPerKg(analysis(95, 1, 1, 0, 0, 0))).toThrow(/carbon must lie from 0 to 92.25/);
    expect(() => grossDryFromUltimateMJPerKg(analysis(60, 6, 44, 0, 0, 0))).toThrow(/sum of the shares/);
  });
});
