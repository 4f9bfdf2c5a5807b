/** The styles of curves, for page and paper. Colour is never the only difference: each style has its own dashes too. */
import type { Ink } from './inks.ts';

export interface CurveStyle {
  readonly ink: Ink;
  /** Lengths of dash and space; empty for a solid line. */
  readonly dash: readonly number[];
  readonly width: number;
}

const solid: readonly number[] = [];

/** Styles of probes by role. */
export const curveStyles = {
  water: { ink: 'water', dash: solid, width: 2.5 },
  waterProbe: { ink: 'quiet', dash: solid, width: 0.75 },
  contentCore: { ink: 'core', dash: [7, 3, 1.5, 3], width: 1.75 },
  flue: { ink: 'flue', dash: [6, 3], width: 1.5 },
  riser: { ink: 'riser', dash: [10, 3, 2, 3], width: 1.75 },
  airGap: { ink: 'air', dash: [1.5, 2.5], width: 1.75 },
  body: { ink: 'body', dash: [14, 4], width: 1.5 },
  ambient: { ink: 'quiet', dash: [2, 4], width: 1.25 },
  rate: { ink: 'ink', dash: solid, width: 1.25 },
  other: { ink: 'quiet', dash: [4, 4], width: 1.25 },
} as const satisfies Record<string, CurveStyle>;
export type CurveStyleName = keyof typeof curveStyles;

/** Returns the style of a role; roles without a style of their own share one. */
export function curveStyleOf(role: string): CurveStyle {
  return role in curveStyles ? curveStyles[role as CurveStyleName] : curveStyles.other;
}

/** Styles for overlaid burns; their dashes distinguish them without colour. */
const overlayStyles: readonly CurveStyle[] = [
  { ink: 'water', dash: solid, width: 2.25 },
  { ink: 'flue', dash: [8, 4], width: 2.25 },
  { ink: 'air', dash: [2, 3], width: 2.25 },
  { ink: 'body', dash: [12, 4, 2, 4], width: 2.25 },
  { ink: 'ink', dash: [5, 2], width: 1.75 },
  { ink: 'water', dash: [14, 3], width: 1.75 },
  { ink: 'flue', dash: [1.5, 4], width: 1.75 },
  { ink: 'air', dash: [8, 2, 2, 2, 2, 2], width: 1.75 },
];

export function overlayStyle(index: number): CurveStyle {
  return overlayStyles[index % overlayStyles.length] ?? curveStyles.other;
}

/** The two sides of a comparison: the earlier side in plain ink, the later side in the style of water. */
export const sideStyles = {
  a: { ink: 'ink', dash: [8, 4], width: 1.75 },
  b: { ink: 'water', dash: solid, width: 1.75 },
} as const satisfies Record<string, CurveStyle>;
