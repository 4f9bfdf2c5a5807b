import { hasValue } from '../../shared/contract/has-value.ts';
import type { Analysis, Result } from '../../shared/contract/results.ts';
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
  { name: 'method version', type: 'text', description: 'of the program of definitions' },
  { name: 'missing because', type: 'text', description: 'code of the reason' },
  { name: 'defaults', type: 'text', description: 'codes of the values taken because none was given' },
  { name: 'remarks', type: 'text', description: 'codes of what has to be known with it' },
  { name: 'formula', type: 'text', description: 'how it was computed' },
  { name: 'source', type: 'text', description: 'of the formula' },
];

const budgetColumns: readonly TableColumn[] = [
  { name: 'result', type: 'text', description: 'which result' },
  { name: 'rank', type: 'integer', description: '1 for what brings most of its uncertainty' },
  { name: 'input', type: 'text', description: 'what brings the uncertainty' },
  { name: 'contribution', type: 'number', description: 'standard uncertainty it brings, in the unit beside it' },
  { name: 'unit', type: 'text', description: 'UCUM, of the result' },
  { name: 'sign', type: 'integer', description: '1 where the result rises with the input, -1 where it falls' },
  { name: 'sharing', type: 'text', description: 'what this error is shared with' },
  { name: 'shared with', type: 'text', description: 'identifier of the shared thing' },
];

/** The results of one burn, one row each, missing ones with their reason. */
export function resultsTable(analysis: Analysis): Table {
  return tableOf({
    name: 'results',
    description: 'Results',
    columns,
    primaryKey: ['id'],
    rows: analysis.results.map((result) => row(analysis, result)),
  });
}

/** What makes each result uncertain, largest first. */
export function budgetTable({ results }: Analysis): Table {
  const rows = results.filter(hasValue).flatMap(({ id, unit, budget = [] }) =>
    budget.map(({ input, contribution, sign, sharing, sharedId = null }, index): Cell[] => {
      return [id, index + 1, input, contribution, unit, sign, sharing, sharedId];
    }),
  );
  return tableOf({
    name: 'budget',
    description: 'What makes each result uncertain',
    columns: budgetColumns,
    primaryKey: ['result', 'rank'],
    references: [{ column: 'result', table: 'results', of: 'id' }],
    rows,
  });
}

function row({ method, methodVersion }: Analysis, result: Result): Cell[] {
  if (!hasValue(result)) {
    const nothing = [null, null, null, null, null, null];
    return [result.id, ...nothing, method, methodVersion, result.missing.code, null, null, null, null];
  }
  const { id, value, unit, standardUncertainty = null, interval95 = [null, null], window, working } = result;
  const codes = [result.defaults, result.remarks].map((list) => list.map(({ code }) => code).join(' ') || null);
  const head = [id, value, unit, standardUncertainty, ...interval95, window, result.method, methodVersion, null];
  return [...head, ...codes, working.formula, working.source];
}
