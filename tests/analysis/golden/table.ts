/** Makes the table of the results of the golden records under every method set, in the form in which it is saved. */
import { createHash } from 'node:crypto';
import { analyse } from '../../../shared/analysis/analyse.ts';
import { methodSets } from '../../../shared/contract/burn-record.ts';
import { hasValue } from '../../../shared/contract/has-value.ts';
import type { Result } from '../../../shared/contract/results.ts';
import { goldenRecords } from './records.ts';

/** Value, standard uncertainty and the ends of the 95 % interval, or the code of the reason why it is missing. */
export type GoldenEntry = readonly [value: number, u: number, low: number, high: number] | string;
/** By record, method set and result. What a method does not define is left out. */
export type GoldenTable = Record<string, Record<string, Record<string, GoldenEntry>>>;

export function goldenTable(draws: number): GoldenTable {
  return Object.fromEntries(
    Object.entries(goldenRecords).map(([name, make]) => {
      const record = make();
      return [
        name,
        Object.fromEntries(methodSets.map((method) => [method, entries(analyse(record, { method, draws }).results)])),
      ];
    }),
  );
}

/**
 * Returns the line that identifies a table in the changelog's section of its version. Ten digits: the last ones differ
 * between engines.
 */
export function changelogLine(table: GoldenTable): string {
  const text = JSON.stringify(table, (_, value) => (typeof value === 'number' ? Number(value.toPrecision(10)) : value));
  return `Golden table: \`${createHash('sha256').update(text).digest('hex').slice(0, 16)}\``;
}

function entries(results: readonly Result[]): Record<string, GoldenEntry> {
  return Object.fromEntries(
    results.flatMap((result): [string, GoldenEntry][] => {
      if (hasValue(result)) {
        const { id, value, standardUncertainty: u = 0, interval95: [low, high] = [value, value] } = result;
        return [[id, [value, sevenDigits(u), sevenDigits(low), sevenDigits(high)]]];
      }
      const { id, missing } = result;
      return missing.code === 'notDefinedByMethod' ? [] : [[id, missing.code]];
    }),
  );
}

/** Draws are not more precise. */
function sevenDigits(value: number): number {
  return Number(value.toPrecision(7));
}
