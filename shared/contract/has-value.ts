/** Type guard: whether a result has a value or is missing. */
import type { Result, ValueResult } from './results.ts';

export function hasValue(result: Result): result is ValueResult {
  return 'value' in result;
}
