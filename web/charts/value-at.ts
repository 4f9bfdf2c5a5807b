import type { StripCurve } from './strip-model.ts';

/** Value of a curve at a minute, straight between its neighbours; nothing across a gap or beyond the ends. */
export function valueAt(curve: Pick<StripCurve, 'x' | 'y'>, minute: number): number | undefined {
  const after = curve.x.findIndex((x) => x >= minute);
  if (after < 0) return undefined;
  const right = curve.y[after];
  const rightX = curve.x[after];
  if (right === null || right === undefined || rightX === undefined) return undefined;
  if (rightX === minute) return right;
  const left = curve.y[after - 1];
  const leftX = curve.x[after - 1];
  if (left === null || left === undefined || leftX === undefined) return undefined;
  return left + ((right - left) * (minute - leftX)) / (rightX - leftX);
}
