import type { DatasetTable } from './column.ts';
import { burn, simulated } from './common-columns.ts';

const MISSING = 'the result is missing';

export const resultsTable = {
  name: 'results',
  row: 'one result of a burn by one method set: bench-1, which all benches have in common, and the one chosen for the burn where it is another',
  key: ['burn', 'method', 'result'],
  order: 'by burn, method and result as the method lists them',
  columns: [
    burn,
    simulated,
    { name: 'method', type: 'text', meaning: 'method set it was computed by' },
    { name: 'method_version', type: 'text', meaning: 'version of the definitions; values of two versions may differ' },
    { name: 'result', type: 'text', meaning: 'which result, such as dryWoodPerBatch' },
    { name: 'value', type: 'float64', meaning: 'in the unit of the row', nullWhen: MISSING },
    { name: 'unit', type: 'text', meaning: 'UCUM; 1 for fractions', nullWhen: MISSING },
    {
      name: 'standard_uncertainty',
      type: 'float64',
      meaning: 'in the unit of the row (JCGM 100)',
      nullWhen: 'the result is missing, or none is stated',
    },
    {
      name: 'interval_low',
      type: 'float64',
      meaning: 'lower end of the 95 % coverage interval, in the unit of the row',
      nullWhen: 'the result is missing, or no interval is stated',
    },
    {
      name: 'interval_high',
      type: 'float64',
      meaning: 'upper end of the 95 % coverage interval, in the unit of the row',
      nullWhen: 'the result is missing, or no interval is stated',
    },
    {
      name: 'part',
      type: 'text',
      meaning: 'part of the burn it speaks of: toTarget, hold, whole, moment or cooling',
      nullWhen: MISSING,
    },
    { name: 'missing', type: 'text', meaning: 'code of the reason why there is no value', nullWhen: 'there is one' },
    { name: 'defaults', type: 'textList', meaning: 'codes of the values taken because none was given; empty for none' },
    { name: 'remarks', type: 'textList', meaning: 'codes of what has to be known with it; empty for none' },
  ],
} as const satisfies DatasetTable;
