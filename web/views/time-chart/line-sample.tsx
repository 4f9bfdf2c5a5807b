import type { VNode } from 'preact';
import type { CurveStyle } from '../../../shared/plot/curve-styles.ts';
import { Shapes } from '../kit/shapes.tsx';

const ends = [
  [0, 6],
  [44, 6],
] as const;

/** A short piece of a curve as it is drawn, for a key. */
export function LineSample({ style }: { style: CurveStyle }): VNode {
  return (
    <svg class="line-sample" viewBox="0 0 44 12" aria-hidden="true">
      <Shapes shapes={[{ kind: 'line', points: ends, style }]} />
    </svg>
  );
}
