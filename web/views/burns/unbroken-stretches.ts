/** Steps longer than this many usual ones are a pause in the recording. */
const PAUSE_STEPS = 4;
/** A shorter interval is no pause on a small curve, whatever the period of the board. */
const SHORTEST_PAUSE_S = 120;

/**
 * Splits a small curve into pieces where nothing was measured, so that no line is drawn across a pause. Pure.
 * @param curve points of [elapsed s, value] in rising order of time
 */
export function unbrokenStretches<P extends readonly [number, number]>(curve: readonly P[]): P[][] {
  const steps = curve.slice(1).map(([elapsedS], index) => elapsedS - curve[index]![0]);
  const usualS = [...steps].sort((a, b) => a - b)[Math.floor(steps.length / 2)] ?? 0;
  const pauseS = Math.max(SHORTEST_PAUSE_S, usualS * PAUSE_STEPS);
  const stretches: P[][] = [];
  for (const [index, point] of curve.entries()) {
    if (index === 0 || steps[index - 1]! > pauseS) stretches.push([]);
    stretches.at(-1)!.push(point);
  }
  return stretches;
}
