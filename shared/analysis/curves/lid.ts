/** Returns whether the lid is on the pot, from the person's marks. */
import type { Mark } from '../../contract/marks.ts';

/**
 * Returns the state at a moment of the burn's clock, s: that of the last mark; before the first mark its opposite; on
 * without marks.
 */
export function lidByMarks(marks: readonly Mark[]): (elapsedS: number) => boolean {
  const moves = marks
    .filter(({ kind }) => kind === 'lidOn' || kind === 'lidOff')
    .map(({ kind, elapsedUs }) => ({ atS: elapsedUs / 1e6, on: kind === 'lidOn' }))
    .sort((x, y) => x.atS - y.atS);
  return (elapsedS) => moves.findLast(({ atS }) => atS <= elapsedS)?.on ?? !(moves[0]?.on ?? false);
}

/** Time into a cooling, s: a person who takes the pot off moves its lid within this time. */
const SORTED_OUT_S = 300;

/** Returns whether a pot that cools from a moment on cools under its lid. */
export function coolsUnderLid(marks: readonly Mark[], fromS: number): boolean {
  return lidByMarks(marks)(fromS + SORTED_OUT_S);
}
