/** Columns that several tables share, so that a name has one meaning in all of them. */
import type { Column } from './column.ts';

export const burn = { name: 'burn', type: 'text', meaning: 'UUID of the burn' } as const satisfies Column;

export const simulated = {
  name: 'simulated',
  type: 'boolean',
  meaning: 'true for a burn of the simulator, which says nothing of any real stove',
} as const satisfies Column;

export const NO_WALL_CLOCK = 'the bench had no clock that could be right';

export const elapsedUs = {
  name: 'elapsed_us',
  type: 'int64',
  unit: 'us',
  meaning: 'since recording of the burn started, on the steady clock of the bench',
} as const satisfies Column;

export const fuelLotColumns = [
  { name: 'fuel_lot_id', type: 'text', meaning: 'UUID of the fuel lot', nullWhen: 'none was named' },
  { name: 'fuel_lot', type: 'text', meaning: 'its name', nullWhen: 'none was named' },
] as const satisfies readonly Column[];

export const scaleColumns = [
  { name: 'scale_id', type: 'text', meaning: 'UUID of the scale', nullWhen: 'none was named' },
  { name: 'scale', type: 'text', meaning: 'its name', nullWhen: 'none was named' },
] as const satisfies readonly Column[];
