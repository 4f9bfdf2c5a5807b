/** Steps longer than this many usual ones are a pause in the recording. */
const PAUSE_STEPS = 4;
/** What is shorter is no pause on a small curve, however often the board measured. */
const SHORTEST_PAUSE_S = 120;

/**
 * A small curve in pieces, broken where nothing was measured: no line leads over what nobody saw. Pure.
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
