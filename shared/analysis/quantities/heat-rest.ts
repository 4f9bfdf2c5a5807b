/**
 * The heat of the fuel that is in neither water, steam, pot nor char: it left through the flue or is not accounted for.
 */
import { charMJ } from './char.ts';
import { formula } from './declare.ts';
import { vapourMJ } from './evaporated-water.ts';
import { fuelMJ } from './fuel.ts';
import { loadMJ, vesselMJ } from './load.ts';

const SOURCE = 'bench-1 definition';

export const restMJ = formula({
  name: 'restMJ',
  symbol: 'E_rest',
  unit: 'MJ',
  formula: 'E_fuel − ΔH_load − M_evap·h_fg − ΔH_vessel − E_char',
  source: SOURCE,
  inputs: [fuelMJ, loadMJ, vapourMJ, charMJ, vesselMJ],
  compute: (fuel, load, vapour, char, vessel) => fuel - load - vapour - char - vessel,
});

/** The heat of a pot of unknown mass is unknown: it is part of the rest. */
export const restWithPotMJ = formula({
  name: 'restWithPotMJ',
  symbol: 'E_rest',
  unit: 'MJ',
  formula: 'E_fuel − ΔH_load − M_evap·h_fg − E_char',
  source: SOURCE,
  inputs: [fuelMJ, loadMJ, vapourMJ, charMJ],
  compute: (fuel, load, vapour, char) => fuel - load - vapour - char,
});
