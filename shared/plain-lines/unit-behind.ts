import type { PlainFormat } from '../contract/boards.ts';
import type { ColumnUnit } from '../contract/ucum-units.ts';
import { readPlainField } from './field.ts';
import { measureTheSame } from './stored-units.ts';

/** Returns the unit after most of the numbers; undefined where they are of different quantities. */
export function unitBehind(texts: readonly string[], decimal: PlainFormat['decimal']): ColumnUnit | undefined {
  const counts = new Map<ColumnUnit, number>();
  for (const text of texts) {
    const field = readPlainField(text, decimal);
    if (field.kind === 'number' && field.unit) counts.set(field.unit, (counts.get(field.unit) ?? 0) + 1);
  }
  const [most] = [...counts].sort(([, a], [, b]) => b - a);
  return most && [...counts.keys()].every((unit) => measureTheSame(unit, most[0])) ? most[0] : undefined;
}
