import type { VNode } from 'preact';
import { shareOf } from '../../../../shared/plot/scale.ts';
import { roundTicks } from '../../../../shared/plot/ticks.ts';
import { number } from '../../../language/figures.ts';
import type { ResultAxis } from './result-axis.ts';

/** Values in the unit of the result, above the points. */
export function PlotAxis({ low, high, axis }: { low: number; high: number; axis: ResultAxis }): VNode {
  const [from, to] = [axis.onAxis(low), axis.onAxis(high)];
  const at = shareOf(from, to);
  const { values, decimals } = roundTicks(from, to, 6);
  return (
    <div class="plot-row plot-axis" aria-hidden="true">
      <span class="plot-label quiet">{axis.unit}</span>
      <svg height="20" aria-hidden="true">
        {values.map((value) => (
          <text key={value} x={`${at(value)}%`} y="14" text-anchor="middle">
            {number(value, decimals)}
          </text>
        ))}
      </svg>
    </div>
  );
}
