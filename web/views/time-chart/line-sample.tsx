import type { VNode } from 'preact';
import type { CurveStyle } from '../../charts/palette.ts';

/** A short piece of a curve as it is drawn, for a key. */
export function LineSample({ style }: { style: CurveStyle }): VNode {
  return (
    <svg class="line-sample" viewBox="0 0 44 12" aria-hidden="true">
      <line
        x1="0"
        y1="6"
        x2="44"
        y2="6"
        stroke={`var(--${style.ink})`}
        stroke-width={style.width}
        stroke-dasharray={style.dash.join(' ')}
      />
    </svg>
  );
}
