/** Whether the lid lay on the pot, by what the person marked. */
import type { Mark } from '../../contract/marks.ts';

/** At a moment of the burn's clock, s: by the last mark; before the first one the other way round; on where there is none. */
export function lidByMarks(marks: readonly Mark[]): (elapsedS: number) => boolean {
  const moves = marks
    .filter(({ kind }) => kind === 'lidOn' || kind === 'lidOff')
    .map(({ kind, elapsedUs }) => ({ atS: elapsedUs / 1e6, on: kind === 'lidOn' }))
    .sort((x, y) => x.atS - y.atS);
  return (elapsedS) => moves.findLast(({ atS }) => atS <= elapsedS)?.on ?? !(moves[0]?.on ?? false);
}

/** Well into a cooling: who takes the pot off moves its lid within this time. */
const SORTED_OUT_S = 300;

/** Whether a pot that cools from a moment on cools under its lid. */
export function coolsUnderLid(marks: readonly Mark[], fromS: number): boolean {
  return lidByMarks(marks)(fromS + SORTED_OUT_S);
}
