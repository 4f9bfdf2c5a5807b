import type { VNode } from 'preact';
import { svgPath } from '../../../shared/plot/curve-paths.ts';
import { linearScale } from '../../../shared/plot/scale.ts';
import { unbrokenStretches } from './unbroken-stretches.ts';

const width = 120;
const height = 36;
const lowC = 0;
const highC = 105;

/**
 * The water temperature of one burn, small. All have the same scale, so that they can be compared by eye down a list.
 */
export function SmallCurve({
  curve,
  spanS,
  label,
}: {
  curve: readonly (readonly [number, number])[];
  spanS: number;
  label: string;
}): VNode {
  const across = linearScale([0, spanS], [0, width]);
  const up = linearScale([lowC, highC], [height, 0]);
  const drawn = unbrokenStretches(curve).map((stretch) =>
    svgPath(stretch.map(([elapsedS, tempC]) => [across(elapsedS), up(tempC)] as const)),
  );
  return (
    <svg class="spark" viewBox={`0 0 ${width} ${height}`} role="img" aria-label={label} preserveAspectRatio="none">
      <path class="spark-ground" d={`M0 ${height - 0.5}H${width}`} />
      {curve.length > 1 && <path class="spark-curve" d={drawn.join('')} />}
    </svg>
  );
}
