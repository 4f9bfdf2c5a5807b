/** The fuel's heat less that of the char left, and quantities from it: as oven-dry wood, per hour, per batch. */
import { charMJ } from './char.ts';
import { formula } from './declare.ts';
import { dryMJPerKg, fuelMJ } from './fuel.ts';
import { batches } from './hold.ts';
import { loadStartKg } from './load.ts';
import { wholeS } from './moments.ts';

const SOURCE = 'bench-1 definition';

export const netFuelMJ = formula({
  name: 'netFuelMJ',
  symbol: 'E_net',
  unit: 'MJ',
  formula: 'E_fuel − E_char; E_fuel = Σ m·(q_net,d·(1 − M) − 2.443·M), E_char = m_char·q_char',
  source: `${SOURCE}; as-received heating value by ISO 18125 (from memory)`,
  inputs: [fuelMJ, charMJ],
  compute: (fuel, char) => fuel - char,
});

export const dryFuelKg = formula({
  name: 'dryFuelKg',
  symbol: 'm_dry',
  unit: 'kg',
  formula: '(E_fuel − E_char) / q_net,d',
  source: SOURCE,
  inputs: [netFuelMJ, dryMJPerKg],
  compute: (MJ, MJPerKg) => MJ / MJPerKg,
});

/** The headline is wood per batch, since "useful heat" can be half steam, and steam is not the purpose. */
export const dryFuelPerBatchKg = formula({
  name: 'dryFuelPerBatchKg',
  symbol: 'm_dry / N',
  unit: 'kg',
  formula: '(E_fuel − E_char) / q_net,d, target reached and hold kept',
  source: SOURCE,
  inputs: [batches, dryFuelKg],
  compute: (count, kg) => kg / count,
});

export const firepowerW = formula({
  name: 'firepowerW',
  symbol: 'P_fire',
  unit: 'W',
  formula: '(E_fuel − E_char) / (t_fireOut − t_lit)',
  source: SOURCE,
  inputs: [netFuelMJ, wholeS],
  compute: (MJ, lastsS) => (1e6 * MJ) / lastsS,
});

export const burningRateKgPerH = formula({
  name: 'burningRateKgPerH',
  symbol: 'm_dry / Δt',
  unit: 'kg/h',
  formula: '(E_fuel − E_char) / q_net,d / (t_fireOut − t_lit)',
  source: SOURCE,
  inputs: [dryFuelKg, wholeS],
  compute: (kg, lastsS) => (3600 * kg) / lastsS,
});

export const specificFuelConsumption = formula({
  name: 'specificFuelConsumption',
  symbol: 'SC',
  unit: 'kg/kg',
  formula: '(E_fuel − E_char) / q_net,d / M_load,start',
  source: SOURCE,
  inputs: [dryFuelKg, loadStartKg],
  compute: (kg, loadKg) => kg / loadKg,
});
