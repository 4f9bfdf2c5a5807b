import type { VNode } from 'preact';

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
  const at = ([t, temp]: readonly [number, number]) =>
    `${((t / spanS) * width).toFixed(1)} ${(height - ((temp - lowC) / (highC - lowC)) * height).toFixed(1)}`;
  return (
    <svg class="spark" viewBox={`0 0 ${width} ${height}`} role="img" aria-label={label} preserveAspectRatio="none">
      <path class="spark-ground" d={`M0 ${height - 0.5}H${width}`} />
      {curve.length > 1 && <path class="spark-curve" d={`M${curve.map(at).join('L')}`} />}
    </svg>
  );
}
