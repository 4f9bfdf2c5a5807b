/** A feed that is probably a slip of the decimal mark: 4 kg where 0.40 kg was meant. Pure. */
import type { ShownMark } from './burn-state.ts';

/** Between the kindling and the heaviest log a person carries to one firebox lie less than this (common practice, no source). */
const doubtedAbove = 3;
/** Finer than any scale under wood: three times 1.2 kg is 3.6 kg. */
const sameKg = 1e-6;

/**
 * The heaviest feed that is known of this stove, kg; undefined before the first weighed one.
 * @param elsewhereKg the heaviest in other burns of the stove
 * @param but the mark that is being corrected, which is no measure of itself
 */
export function largestFeedKg(
  marks: readonly ShownMark[],
  elsewhereKg: number | undefined,
  but?: string,
): number | undefined {
  const weighed = marks.flatMap(({ mark }) =>
    mark.kind === 'fed' && mark.massKg !== undefined && mark.id !== but ? [mark.massKg] : [],
  );
  const all = [...weighed, ...(elsewhereKg === undefined ? [] : [elsewhereKg])];
  return all.length > 0 ? Math.max(...all) : undefined;
}

/** Whether a mass is so far above every feed before it that the person had better look again. */
export function looksTooHeavy(massKg: number, largestKg: number | undefined): boolean {
  return largestKg !== undefined && massKg > doubtedAbove * largestKg + sameKg;
}
