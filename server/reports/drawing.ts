/**
 * A drawing in plain shapes, in points (1/72 inch) from the top left corner.
 * One drawing serves the PDF, the HTML file and the stand-alone SVG, so that they cannot disagree.
 */

export interface Stroke {
  readonly color: string;
  readonly widthPt: number;
  /** Lengths of dash and space in points; colour never carries a meaning alone. */
  readonly dash?: readonly number[];
}

export type Point = readonly [xPt: number, yPt: number];

export type Shape =
  | { readonly kind: 'line'; readonly points: readonly Point[]; readonly stroke: Stroke }
  | { readonly kind: 'area'; readonly points: readonly Point[]; readonly fill: string }
  | {
      readonly kind: 'text';
      readonly at: Point;
      readonly text: string;
      readonly sizePt: number;
      readonly color: string;
      readonly anchor: 'start' | 'middle' | 'end';
    };

export interface Drawing {
  readonly widthPt: number;
  readonly heightPt: number;
  /** What the drawing shows, for a reader who cannot see it. */
  readonly description: string;
  readonly shapes: readonly Shape[];
}

/** Ink and paper of everything printed: dark on white, distinguishable in grey by line style. */
export const ink = {
  text: '#1b1c1f',
  quiet: '#5d5f66',
  rule: '#c9c5b4',
  paperLine: '#e6e2d3',
  water: '#0f5aa5',
  flue: '#b4551d',
  body: '#2f7d4f',
  wood: '#b23a10',
} as const;
