import type { DatasetTable } from './column.ts';
import { burn, elapsedUs, fuelLotColumns, NO_WALL_CLOCK, scaleColumns, simulated } from './common-columns.ts';

const NOT_OF_KIND = 'not stated, or not of this kind';

export const marksTable = {
  name: 'marks',
  row: 'something a person did or saw',
  key: ['burn', 'mark'],
  order: 'by burn and time',
  columns: [
    burn,
    simulated,
    { name: 'mark', type: 'text', meaning: 'UUID of the mark' },
    { name: 'kind', type: 'text', meaning: 'what was done or seen, such as lit or fed' },
    {
      name: 'marked_at',
      type: 'timestamp',
      meaning: 'moment of it: a label, only as right as the clock of the burn',
      nullWhen: NO_WALL_CLOCK,
    },
    { ...elapsedUs, meaning: `${elapsedUs.meaning}; negative for something done before` },
    {
      name: 'standard_uncertainty_s',
      type: 'float64',
      unit: 's',
      meaning: 'how well the moment is known',
      nullWhen: 'not stated',
    },
    { name: 'mass_kg', type: 'float64', unit: 'kg', meaning: 'put in or taken out', nullWhen: NOT_OF_KIND },
    { name: 'temp_c', type: 'float64', unit: 'Cel', meaning: 'of what was put in or taken out', nullWhen: NOT_OF_KIND },
    ...fuelLotColumns,
    ...scaleColumns,
    { name: 'channel_id', type: 'text', meaning: 'UUID of the channel moved or read', nullWhen: NOT_OF_KIND },
    { name: 'channel', type: 'text', meaning: 'its name', nullWhen: NOT_OF_KIND },
    { name: 'reading', type: 'float64', meaning: 'read by hand, in the unit of the channel', nullWhen: NOT_OF_KIND },
    { name: 'step', type: 'int32', meaning: 'strength of wind or rain, 0 to 3', nullWhen: NOT_OF_KIND },
    { name: 'marked_by', type: 'text', meaning: 'who made it', nullWhen: 'not stated' },
    { name: 'note', type: 'text', meaning: 'in the words of whoever made it', nullWhen: 'there is none' },
  ],
} as const satisfies DatasetTable;
