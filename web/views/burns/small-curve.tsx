import type { VNode } from 'preact';
import { stretchesOf, svgPath } from '../../../shared/plot/curve-paths.ts';
import { linearScale } from '../../../shared/plot/scale.ts';

const width = 120;
const height = 36;
const lowC = 0;
const highC = 105;

/** The water of one burn, small. All of them have the same scale, so that they compare by eye down a list. */
export function SmallCurve({
  curve,
  spanS,
  label,
}: {
  curve: readonly (readonly [number, number])[];
  spanS: number;
  label: string;
}): VNode {
  const stretches = stretchesOf(
    curve.map(([elapsedS]) => elapsedS),
    curve.map(([, tempC]) => tempC),
    linearScale([0, spanS], [0, width]),
    linearScale([lowC, highC], [height, 0]),
  );
  return (
    <svg class="spark" viewBox={`0 0 ${width} ${height}`} role="img" aria-label={label} preserveAspectRatio="none">
      <path class="spark-ground" d={`M0 ${height - 0.5}H${width}`} />
      {stretches.map((points, index) => (
        <path key={index} class="spark-curve" d={svgPath(points)} />
      ))}
    </svg>
  );
}
