/** Heat into the load and into steam, as power and as a share of the fuel's heat. */
import { remark } from '../messages/messages.ts';
import { formula, type GivenBurn } from './declare.ts';
import { vapourMJ } from './evaporated-water.ts';
import { fuelMJ } from './fuel.ts';
import { loadMJ, loadToTargetMJ, vesselMJ } from './load.ts';
import { wholeS } from './moments.ts';
import { netFuelMJ } from './net-fuel.ts';
import { litToTargetS } from './target.ts';

const SOURCE = 'bench-1 definition';
/** Share of steam in the useful heat from which a remark says so. */
const MUCH_STEAM = 0.4;

export const usefulMJ = formula({
  name: 'usefulMJ',
  symbol: 'H_useful',
  unit: 'MJ',
  formula: 'ΔH_load + M_evap·h_fg',
  source: SOURCE,
  inputs: [loadMJ, vapourMJ],
  alsoShown: [vesselMJ],
  compute: (load, vapour) => load + vapour,
  remarks(given: GivenBurn) {
    const vapour = given.best(vapourMJ);
    const share = vapour / (given.best(loadMJ) + vapour);
    const vessel = given.best(vesselMJ);
    return [
      ...(share > MUCH_STEAM ? [remark('steamIsHalf', { share })] : []),
      ...(Number.isNaN(vessel) ? [] : [remark('vesselHeatApart', { MJ: vessel })]),
    ];
  },
});

export const usefulPowerToTargetW = formula({
  name: 'usefulPowerToTargetW',
  symbol: 'P_useful',
  unit: 'W',
  window: 'toTarget',
  formula: 'ΔH_load / (t_target − t_lit)',
  source: SOURCE,
  inputs: [loadToTargetMJ, litToTargetS],
  compute: (MJ, lastsS) => (1e6 * MJ) / lastsS,
});

export const cookingPowerW = formula({
  name: 'cookingPowerW',
  symbol: 'P_cooking',
  unit: 'W',
  formula: '(ΔH_load + M_evap·h_fg) / (t_fireOut − t_lit)',
  source: SOURCE,
  inputs: [usefulMJ, wholeS],
  compute: (MJ, lastsS) => (1e6 * MJ) / lastsS,
});

export const thermalEfficiency = formula({
  name: 'thermalEfficiency',
  symbol: 'η',
  unit: '1',
  formula: '(ΔH_load + M_evap·h_fg) / (E_fuel − E_char)',
  source: SOURCE,
  inputs: [usefulMJ, netFuelMJ],
  compute: (useful, net) => useful / net,
});

export const thermalEfficiencyNoCharCredit = formula({
  name: 'thermalEfficiencyNoCharCredit',
  symbol: 'η_fuel',
  unit: '1',
  formula: '(ΔH_load + M_evap·h_fg) / E_fuel',
  source: SOURCE,
  inputs: [usefulMJ, fuelMJ],
  compute: (useful, fuel) => useful / fuel,
});

export const sensibleEfficiency = formula({
  name: 'sensibleEfficiency',
  symbol: 'η_load',
  unit: '1',
  formula: 'ΔH_load / (E_fuel − E_char)',
  source: SOURCE,
  inputs: [loadMJ, netFuelMJ],
  compute: (load, net) => load / net,
});
