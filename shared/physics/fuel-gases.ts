import type { TypicalValue } from './fuel.ts';

/**
 * Gases by weight: a burner on a scale is the simplest heat source of known power, good for checking a bench.
 *
 * Sources: propane 46.34, methane 50.05 and liquid butane 45.37 with heat of vaporisation 0.362 MJ/kg, net, 25 °C:
 * Y. A. Çengel and M. A. Boles, Thermodynamics: An Engineering Approach, 8th edition, Table A-27. Gas drawn from a
 * bottle has taken its heat of vaporisation from the air, so butane counts as a gas, 45.73. Pipeline natural gas by
 * weight runs from 45.0 (the same table, with nitrogen) through 47.13 (Hydrogen Analysis Resource Center, United States
 * Department of Energy) to 48.0 (2006 IPCC Guidelines for National Greenhouse Gas Inventories, volume 2, Table 1.2).
 * The spreads of bottled gas allow for the propane in butane, and the reverse, and for propene.
 */
export type FuelGas = 'propane' | 'butane' | 'bottledMixture' | 'methane' | 'naturalGas';

/** Net heating value, MJ per kg of gas. */
export const FUEL_GAS_NET_MJ_PER_KG: Readonly<Record<FuelGas, TypicalValue>> = {
  propane: { value: 46.34, standardUncertainty: 0.2 },
  butane: { value: 45.73, standardUncertainty: 0.2 },
  bottledMixture: { value: 46.0, standardUncertainty: 0.3 },
  methane: { value: 50.05, standardUncertainty: 0.05 },
  naturalGas: { value: 47.1, standardUncertainty: 1 },
};

/** The gas with `id`, in whatever case; `undefined` when it is not in the table. */
export function findFuelGas(id: string): FuelGas | undefined {
  const wanted = id.trim().toLowerCase();
  return (Object.keys(FUEL_GAS_NET_MJ_PER_KG) as FuelGas[]).find((gas) => gas.toLowerCase() === wanted);
}
