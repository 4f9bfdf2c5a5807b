import type { DatasetTable } from './column.ts';
import { burn, elapsedUs, NO_WALL_CLOCK, simulated } from './common-columns.ts';

const NO_CHANNEL = 'nobody described what the board measures';
const BY_HAND = 'a person read the probe: the reading is a mark of the burn too';

export const readingsTable = {
  name: 'readings',
  row: 'what one channel gave in one scan of its board, or one reading by a person',
  key: ['burn', 'board_id', 'channel_id', 'elapsed_us'],
  order: 'by board, channel and time',
  columns: [
    burn,
    simulated,
    { name: 'channel_id', type: 'text', meaning: 'UUID of the channel', nullWhen: NO_CHANNEL },
    { name: 'channel', type: 'text', meaning: 'its name', nullWhen: NO_CHANNEL },
    {
      name: 'role',
      type: 'text',
      meaning: 'what it measures in the burn, such as water or flue',
      nullWhen: NO_CHANNEL,
    },
    {
      name: 'quantity',
      type: 'text',
      meaning: 'temperature, mass, pressure, fraction, number, voltage or resistance: that of value and unit',
      nullWhen: NO_CHANNEL,
    },
    { name: 'unit', type: 'text', meaning: 'UCUM, of value', nullWhen: NO_CHANNEL },
    {
      name: 'value',
      type: 'float64',
      meaning: 'as sent: count times the scale of the channel plus its offset, in the unit of the row',
      nullWhen: 'there is a fault, or the board sent nothing for the channel in this scan',
    },
    {
      name: 'corrected',
      type: 'float64',
      meaning:
        'as the results use it: calibrated, and a voltage or resistance converted to °C; elsewhere the value is used as it is',
      nullWhen: 'the channel is neither calibrated nor converted, or there is no usable value',
    },
    {
      name: 'corrected_unit',
      type: 'text',
      meaning: 'UCUM, of corrected',
      nullWhen: 'the channel is neither calibrated nor converted',
    },
    { name: 'fault', type: 'text', meaning: 'what the board named instead of a reading', nullWhen: 'it named none' },
    {
      name: 'measured_at',
      type: 'timestamp',
      meaning: 'moment of the reading: a label, only as right as the clock of the burn',
      nullWhen: NO_WALL_CLOCK,
    },
    elapsedUs,
    {
      name: 'count',
      type: 'int32',
      meaning: 'as the board sent it',
      nullWhen: 'there is a fault, or nothing was sent',
    },
    { name: 'board_id', type: 'text', meaning: 'UUID of the board', nullWhen: BY_HAND },
    { name: 'boot', type: 'int64', meaning: 'number of the start of the board', nullWhen: BY_HAND },
    { name: 'sequence', type: 'int64', meaning: 'number of the scan since then', nullWhen: BY_HAND },
  ],
} as const satisfies DatasetTable;
