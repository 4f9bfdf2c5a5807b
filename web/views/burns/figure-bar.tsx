import type { VNode } from 'preact';
import type { ListedFigure } from '../../../shared/contract/burns.ts';
import { shareOf } from '../../../shared/plot/scale.ts';
import type { ColumnScale } from './burn-groups.ts';

/** A result and its interval on the scale of its column, with the level of its revision behind it. */
export function FigureBar({
  figure: { value, interval95 },
  scale: { low, high },
  level,
}: {
  figure: Pick<ListedFigure, 'value' | 'interval95'>;
  scale: ColumnScale;
  level?: number | undefined;
}): VNode {
  const at = shareOf(low, high);
  const [from, to] = interval95 ?? [value, value];
  return (
    <svg class="figure-bar" aria-hidden="true">
      <line class="bar-ground" x1="0" x2="100%" y1="6" y2="6" />
      {level !== undefined && <line class="bar-level" x1={`${at(level)}%`} x2={`${at(level)}%`} y1="0" y2="12" />}
      <rect class="bar-interval" x={`${at(from)}%`} width={`${at(to) - at(from)}%`} y="4" height="4" />
      <circle class="bar-value" cx={`${at(value)}%`} cy="6" r="3.5" />
    </svg>
  );
}
