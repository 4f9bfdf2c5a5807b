import { describe, expect, it } from 'vitest';
import { FUEL_GAS_NET_MJ_PER_KG } from '../../shared/physics/fuel-gases.ts';

// Enthalpies of formation at 298.15 K, kJ/mol, gases: NIST Chemistry WebBook (from memory). The net heat of combustion of
// CxHy follows as x·393.51 + (y/2)·241.83 + ΔfH.
const CARBON_DIOXIDE = 393.51;
const STEAM = 241.83;

describe('net heating value of gases', () => {
  it.each([
    ['methane', 1, 4, -74.87, 16.043],
    ['propane', 3, 8, -104.7, 44.097],
    ['butane', 4, 10, -125.6, 58.123],
  ] as const)('of %s agrees with its enthalpy of formation to 0.1 %%', (gas, carbon, hydrogen, formation, gPerMol) => {
    const netMJPerKg = (carbon * CARBON_DIOXIDE + (hydrogen / 2) * STEAM + formation) / gPerMol;
    expect(Math.abs(FUEL_GAS_NET_MJ_PER_KG[gas].value / netMJPerKg - 1)).toBeLessThan(1e-3);
  });

  // 45.0 (Çengel and Boles, Table A-27), 47.13 (United States Department of Energy), 48.0 (2006 IPCC Guidelines).
  it.each([45, 47.13, 48])('of natural gas reaches the published %d MJ/kg within 2.2 of its spread', (published) => {
    const { value, standardUncertainty } = FUEL_GAS_NET_MJ_PER_KG.naturalGas;
    expect(Math.abs(value - published)).toBeLessThan(2.2 * standardUncertainty);
  });

  // Liquefied petroleum gas 46.6 MJ/kg net: Hydrogen Analysis Resource Center, United States Department of Energy.
  it('of a bottled mixture is between butane and propane and near the published 46.6', () => {
    const { value, standardUncertainty } = FUEL_GAS_NET_MJ_PER_KG.bottledMixture;
    expect(value).toBeGreaterThan(FUEL_GAS_NET_MJ_PER_KG.butane.value);
    expect(value).toBeLessThan(FUEL_GAS_NET_MJ_PER_KG.propane.value);
    expect(Math.abs(value - 46.596)).toBeLessThan(2 * standardUncertainty);
  });
});
