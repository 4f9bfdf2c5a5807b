import type { VNode } from 'preact';
import { svgPath } from '../../../shared/plot/curve-paths.ts';
import type { Shape } from '../../../shared/plot/shapes.ts';

/** Plain shapes inside an SVG, in the colours of the page. */
export function Shapes({ shapes }: { shapes: readonly Shape[] }): VNode {
  return (
    <>
      {shapes.map((shape, index) => (
        <ShapeView key={index} shape={shape} />
      ))}
    </>
  );
}

function ShapeView({ shape }: { shape: Shape }): VNode {
  if (shape.kind === 'text') {
    const [x, y] = shape.at;
    return (
      <text x={x} y={y} font-size={shape.size} fill={`var(--${shape.ink})`} text-anchor={shape.anchor}>
        {shape.text}
      </text>
    );
  }
  if (shape.kind === 'area') return <path d={`${svgPath(shape.points)}Z`} fill={`var(--${shape.ink})`} />;
  const { ink, width, dash } = shape.style;
  return (
    <path
      d={svgPath(shape.points)}
      fill="none"
      stroke={`var(--${ink})`}
      stroke-width={width}
      stroke-dasharray={dash.join(' ')}
      stroke-linejoin="round"
    />
  );
}
