import { type Analysis, hasValue, type Result } from '../../shared/contract/results.ts';
import { type Cell, type Table, type TableColumn, tableOf } from './table.ts';

const columns: readonly TableColumn[] = [
  { name: 'id', type: 'text', description: 'which result' },
  { name: 'value', type: 'number', description: 'in the unit beside it; blank where it is missing' },
  { name: 'unit', type: 'text', description: 'UCUM' },
  { name: 'standard uncertainty', type: 'number', description: 'in the unit of the value' },
  { name: 'low 95 %', type: 'number', description: 'lower end of the 95 % interval' },
  { name: 'high 95 %', type: 'number', description: 'upper end of the 95 % interval' },
  { name: 'window', type: 'text', description: 'part of the burn it speaks of' },
  { name: 'method', type: 'text', description: 'set of definitions' },
  { name: 'missing because', type: 'text', description: 'code of the reason' },
];

/** The results of one burn, one row each, missing ones with their reason. */
export function resultsTable(analysis: Analysis): Table {
  return tableOf({
    name: 'results',
    description: 'Results',
    columns,
    rows: analysis.results.map((result) => row(analysis, result)),
  });
}

function row(analysis: Analysis, result: Result): Cell[] {
  if (!hasValue(result)) return [result.id, null, null, null, null, null, null, analysis.method, result.missing.code];
  const { id, value, unit, standardUncertainty = null, interval95 = [null, null], window, method } = result;
  return [id, value, unit, standardUncertainty, ...interval95, window, method, null];
}
