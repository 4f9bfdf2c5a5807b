/** Detects a feed with a misplaced decimal mark: 4 kg where 0.40 kg was meant. Pure. */
import type { ShownMark } from './burn-state.ts';

/**
 * Ratio of a doubtful feed to the heaviest before: kindling and the heaviest log for one firebox differ by less (common
 * practice, no source).
 */
const doubtedAbove = 3;
/** Finer than any scale for wood: three times 1.2 kg is 3.6 kg. */
const sameKg = 1e-6;

/**
 * The heaviest known feed of this stove, kg; undefined before the first weighed one.
 * @param elsewhereKg the heaviest in other burns of the stove
 * @param but the mark that is being corrected, which must not be compared with itself
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

/** Whether a mass is so far above every feed before it that the person should check it. */
export function looksTooHeavy(massKg: number, largestKg: number | undefined): boolean {
  return largestKg !== undefined && massKg > doubtedAbove * largestKg + sameKg;
}
