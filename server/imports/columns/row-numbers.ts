import { isCountHeading } from '../../../shared/plain-lines/count-heading.ts';
import { unitIn } from '../../../shared/plain-lines/written-units.ts';
import { roleIn } from './cells.ts';

/** So many in a row rise by one only where somebody counts; from the beginning, fewer say it. */
const FEWEST = 10;
const FEWEST_FROM_THE_BEGINNING = 4;

/** Whether a column numbers its rows. One that says its unit or what it measures does not. */
export function isRowNumbers(values: readonly number[], heading: string): boolean {
  if (!values.every(Number.isInteger) || values.length < 2) return false;
  if (unitIn(heading) !== undefined || roleIn(heading) !== undefined) return false;
  const steps = values.slice(1).map((value, index) => value - values[index]!);
  if (isCountHeading(heading)) return steps.every((step) => step > 0);
  if (!steps.every((step) => step === 1)) return false;
  return values.length >= (values[0] === 0 || values[0] === 1 ? FEWEST_FROM_THE_BEGINNING : FEWEST);
}
