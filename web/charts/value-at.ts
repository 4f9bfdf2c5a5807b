import type { TimeChartCurve } from './time-chart-model.ts';

/** Value of a curve at a minute, straight between its neighbours; nothing across a gap or beyond the ends. */
export function valueAt(curve: Pick<TimeChartCurve, 'x' | 'y'>, minute: number): number | undefined {
  const after = firstAtOrAfter(curve.x, minute);
  const right = curve.y[after];
  const rightX = curve.x[after];
  if (right === null || right === undefined || rightX === undefined) return undefined;
  if (rightX === minute) return right;
  const left = curve.y[after - 1];
  const leftX = curve.x[after - 1];
  if (left === null || left === undefined || leftX === undefined) return undefined;
  return left + ((right - left) * (minute - leftX)) / (rightX - leftX);
}

/** Halving, because the table asks for every minute of every curve at every scan. Past the end when all come before. */
function firstAtOrAfter(x: readonly number[], minute: number): number {
  let [low, high] = [0, x.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((x[middle] ?? 0) < minute) low = middle + 1;
    else high = middle;
  }
  return low;
}
