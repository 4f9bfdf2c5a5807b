import type { VNode } from 'preact';

/**
 * One burn as a point: a ring for the first side, a lozenge for the second, so that the sides differ without colour.
 */
export function BurnDot({
  side,
  at,
  y,
  size = 5,
  dx = 0,
  title,
}: {
  side: 'a' | 'b';
  /** Percent of the width. */
  at: number;
  /** Pixels from the top. */
  y: number;
  size?: number;
  /** Horizontal offset in pixels, to separate overlapping signs. */
  dx?: number;
  title: string;
}): VNode {
  return (
    <svg class={`burn-dot ${side}`} x={`${at}%`} y={y} width="1" height="1" overflow="visible">
      <title>{title}</title>
      {side === 'a' ? (
        <circle cx={dx} r={size} />
      ) : (
        <path
          transform={`translate(${dx} 0)`}
          d={`M0 ${-size * 1.3}L${size * 1.3} 0L0 ${size * 1.3}L${-size * 1.3} 0Z`}
        />
      )}
    </svg>
  );
}

/** The same sign in running text. */
export function DotSample({ side }: { side: 'a' | 'b' }): VNode {
  return (
    <svg class={`dot-sample burn-dot ${side}`} viewBox="-8 -8 16 16" aria-hidden="true">
      {side === 'a' ? <circle r="5" /> : <path d="M0 -6.5L6.5 0L0 6.5L-6.5 0Z" />}
    </svg>
  );
}
