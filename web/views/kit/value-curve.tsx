import type { VNode } from 'preact';
import { stretchesOf, svgPath } from '../../../shared/plot/curve-paths.ts';
import { linearScale } from '../../../shared/plot/scale.ts';
import { typedNumber } from '../../language/figures.ts';

const width = 120;
const height = 32;
const edge = 2;

/**
 * The values of one column, small, over their own range: it shows which column is the pot that warms.
 * @param values null where the column has none; the curve breaks there
 * @param count number of values from which these were taken; by default their own number
 */
export function ValueCurve({
  values,
  count,
  words,
}: {
  values: readonly (number | null)[];
  count?: number;
  words: (range: { low: string; high: string; count: number }) => string;
}): VNode | null {
  const found = values.filter((value) => value !== null);
  if (found.length < 2) return null;
  const [low, high] = [Math.min(...found), Math.max(...found)];
  const across = linearScale([0, values.length - 1], [0, width]);
  const up = linearScale([low, high > low ? high : low + 1], [height - edge, edge]);
  return (
    <figure class="value-curve">
      <svg viewBox={`0 0 ${width} ${height}`} aria-hidden="true" preserveAspectRatio="none">
        <path
          class="spark-curve"
          d={stretchesOf([...values.keys()], values, across, up)
            .map(svgPath)
            .join('')}
        />
      </svg>
      <figcaption class="quiet">
        {words({ low: typedNumber(low, 4), high: typedNumber(high, 4), count: count ?? found.length })}
      </figcaption>
    </figure>
  );
}
