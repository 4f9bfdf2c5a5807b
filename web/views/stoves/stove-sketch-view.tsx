import type { VNode } from 'preact';
import { translate, translateCompare } from '../../language/catalogue.ts';
import { text } from '../../language/figures.ts';
import { Shapes } from '../kit/shapes.tsx';
import { type SketchedStove, sketchExtentM, sketchOf } from './stove-sketch.ts';

const mostPx = { across: 130, up: 230 };

/** Pixels per metre at which the largest of these stoves fits. */
export function sketchScale(stoves: readonly SketchedStove[]): number {
  const extents = stoves.flatMap((stove) => sketchExtentM(stove) ?? []);
  return Math.min(
    ...extents.flatMap(({ acrossM, upM }) => [
      mostPx.across / Math.max(acrossM, 0.01),
      mostPx.up / Math.max(upM, 0.01),
    ]),
  );
}

/** A stove drawn to scale from its dimensions; renders nothing while there are too few. */
export function StoveSketch({
  stove,
  pxPerM = sketchScale([stove]),
  caption,
}: {
  stove: SketchedStove;
  pxPerM?: number;
  caption: string;
}): VNode | null {
  const sketch = sketchOf(stove, pxPerM, { pot: translate().describe.vessel, bar: text('length', 0.1, 0) });
  if (!sketch) return null;
  return (
    <figure class="stove-sketch">
      <svg
        width={sketch.width}
        height={sketch.height}
        viewBox={`0 0 ${sketch.width} ${sketch.height}`}
        role="img"
        aria-label={translateCompare().design.sketch}
      >
        <Shapes shapes={sketch.shapes} />
      </svg>
      <figcaption class="hint">{caption}</figcaption>
    </figure>
  );
}
