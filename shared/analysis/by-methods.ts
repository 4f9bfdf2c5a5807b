/** Compares the results of one burn by several method sets: a row per result, with the spread of its values. */

import { hasValue } from '../contract/has-value.ts';
import type { Analysis, ResultId, ValueResult } from '../contract/results.ts';

/** Results that more than one method set defines, in the order in which they are read. */
const compared: readonly ResultId[] = [
  'thermalEfficiency',
  'equivalentDryFuel',
  'specificFuelConsumption',
  'burningRate',
  'firepower',
  'timeToTarget',
  'timeToBoil',
];

export interface MethodsRow {
  readonly id: ResultId;
  /** UCUM. A result that methods state in different units has one row for each: they cannot be compared. */
  readonly unit: string;
  /** One cell per method, in the order given; undefined where it has no such value. */
  readonly cells: readonly (ValueResult | undefined)[];
  /** Where two or more have a value: the lowest and the highest, and their distance as a share of their middle. */
  readonly spread?: { readonly low: number; readonly high: number; readonly share: number };
}

/** @param analyses of one burn, each by another method set */
export function byMethods(analyses: readonly Analysis[]): MethodsRow[] {
  return compared.flatMap((id) => {
    const found = analyses.map(({ results }) =>
      results.find((result): result is ValueResult => result.id === id && hasValue(result)),
    );
    const units = [...new Set(found.flatMap((result) => (result ? [result.unit] : [])))];
    return units.map((unit) => {
      const cells = found.map((result) => (result?.unit === unit ? result : undefined));
      const spread = spreadOf(cells.flatMap((cell) => (cell ? [cell.value] : [])));
      return { id, unit, cells, ...(spread && { spread }) };
    });
  });
}

function spreadOf(values: readonly number[]): MethodsRow['spread'] {
  if (values.length < 2) return undefined;
  const [low, high] = [Math.min(...values), Math.max(...values)];
  const middle = (low + high) / 2;
  return middle > 0 ? { low, high, share: (high - low) / middle } : undefined;
}
