import type { VNode } from 'preact';
import { translateProbes } from '../../language/catalogue.ts';
import { typedNumber } from '../../language/figures.ts';

const width = 120;
const height = 32;
const edge = 2;

/** The last values of one column, small, over their own range: a person sees which of them is the pot that warms. */
export function LastValues({ values }: { values: readonly number[] }): VNode | null {
  const words = translateProbes();
  if (values.length < 2) return null;
  const [low, high] = [Math.min(...values), Math.max(...values)];
  const span = high - low || 1;
  const at = (value: number, index: number) => {
    const x = (index / (values.length - 1)) * width;
    const y = height - edge - ((value - low) / span) * (height - 2 * edge);
    return `${x.toFixed(1)} ${y.toFixed(1)}`;
  };
  const range = words.lastValues({ low: typedNumber(low, 4), high: typedNumber(high, 4), count: values.length });
  return (
    <figure class="last-values">
      <svg viewBox={`0 0 ${width} ${height}`} aria-hidden="true" preserveAspectRatio="none">
        <path class="spark-curve" d={`M${values.map(at).join('L')}`} />
      </svg>
      <figcaption class="quiet">{range}</figcaption>
    </figure>
  );
}
