/** Tells the results that have a value from those that are missing. */
import type { Result, ValueResult } from './results.ts';

export function hasValue(result: Result): result is ValueResult {
  return 'value' in result;
}
