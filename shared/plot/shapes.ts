/**
 * A drawing in plain shapes, from its top left corner, all lengths in one unit: points (1/72 inch) on paper, CSS pixels
 * on a screen. Every medium renders the same drawing, so that they cannot differ.
 */
import type { CurveStyle } from './curve-styles.ts';
import type { Ink } from './inks.ts';

export type Point = readonly [x: number, y: number];

export type Shape =
  | { readonly kind: 'line'; readonly points: readonly Point[]; readonly style: CurveStyle }
  | { readonly kind: 'area'; readonly points: readonly Point[]; readonly ink: Ink }
  | {
      readonly kind: 'text';
      /** Position of the baseline. */
      readonly at: Point;
      readonly text: string;
      readonly size: number;
      readonly ink: Ink;
      readonly anchor: 'start' | 'middle' | 'end';
    };

export interface Drawing {
  readonly width: number;
  readonly height: number;
  /** What the drawing shows, for a reader who cannot see it. */
  readonly description: string;
  readonly shapes: readonly Shape[];
}
