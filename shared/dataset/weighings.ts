import type { DatasetTable } from './column.ts';
import { burn, elapsedUs, fuelLotColumns, scaleColumns, simulated } from './common-columns.ts';

const NOT_STATED = 'not stated';

export const weighingsTable = {
  name: 'weighings',
  row: 'something that was weighed, or measured by volume',
  key: ['burn', 'weighing'],
  order: 'by burn, as they were made',
  columns: [
    burn,
    simulated,
    { name: 'weighing', type: 'text', meaning: 'UUID of the weighing' },
    {
      name: 'thing',
      type: 'text',
      meaning: 'what was weighed: fuelPile, brands (unburnt wood raked out), char, ash or water',
    },
    { name: 'phase', type: 'text', meaning: 'start or end of the burn' },
    {
      name: 'mass_kg',
      type: 'float64',
      unit: 'kg',
      meaning: 'net, without the container',
      nullWhen: 'it is pending, or a volume was measured',
    },
    {
      name: 'tare_kg',
      type: 'float64',
      unit: 'kg',
      meaning: 'of the container, already taken off the mass',
      nullWhen: NOT_STATED,
    },
    {
      name: 'volume_l',
      type: 'float64',
      unit: 'L',
      meaning: 'of water, where it was measured instead',
      nullWhen: 'it was weighed',
    },
    { name: 'temp_c', type: 'float64', unit: 'Cel', meaning: 'of the water when it was weighed', nullWhen: NOT_STATED },
    { name: 'lid_on', type: 'boolean', meaning: 'whether the lid stayed on until then', nullWhen: NOT_STATED },
    ...fuelLotColumns,
    ...scaleColumns,
    {
      name: 'standard_uncertainty_kg',
      type: 'float64',
      unit: 'kg',
      meaning: 'of this weighing',
      nullWhen: 'that of the scale counts',
    },
    {
      name: 'weighed_at',
      type: 'timestamp',
      meaning: 'moment of it: a label, only as right as the clock of the burn',
      nullWhen: 'the moment is not stated, or the bench had no clock that could be right',
    },
    { ...elapsedUs, nullWhen: 'the moment is not stated' },
    { name: 'pending', type: 'boolean', meaning: 'true where it is still to be weighed' },
  ],
} as const satisfies DatasetTable;
