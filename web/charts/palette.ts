/** Colours and line styles of the charts. Colours come from the style sheet, so day, night and print need no second list. */

export const inks = ['background', 'ink', 'quiet', 'square', 'line', 'water', 'ember', 'flue', 'air', 'body'] as const;
export type Ink = (typeof inks)[number];
export type Palette = Readonly<Record<Ink, string>>;

/** Read the inks in force where an element stands. */
export function readPalette(element: Element): Palette {
  const style = getComputedStyle(element);
  return Object.fromEntries(inks.map((ink) => [ink, style.getPropertyValue(`--${ink}`).trim()])) as Palette;
}

/** Inks for white paper, whatever the screen shows. The style sheet for print has the same. */
export const printPalette: Palette = {
  background: '#ffffff',
  ink: '#000000',
  quiet: '#444444',
  square: '#e4e4e4',
  line: '#b0b0b0',
  water: '#0b5ca8',
  ember: '#b43c0c',
  flue: '#7a3b8f',
  air: '#00705a',
  body: '#7d5a10',
};

/** How a curve is drawn. Colour never stands alone: every style differs in its dashes too. */
export interface CurveStyle {
  readonly ink: Ink;
  readonly dash: readonly number[];
  readonly width: number;
}

const solid: readonly number[] = [];

export const curveStyles = {
  water: { ink: 'water', dash: solid, width: 2.5 },
  waterProbe: { ink: 'quiet', dash: solid, width: 0.75 },
  contentCore: { ink: 'body', dash: [7, 3, 1.5, 3], width: 1.75 },
  flue: { ink: 'flue', dash: [6, 3], width: 1.5 },
  riser: { ink: 'flue', dash: [9, 3, 2, 3], width: 1.5 },
  airGap: { ink: 'air', dash: [1.5, 2.5], width: 1.75 },
  body: { ink: 'body', dash: [10, 4], width: 1.5 },
  ambient: { ink: 'quiet', dash: [2, 4], width: 1.25 },
  rate: { ink: 'ink', dash: solid, width: 1.25 },
  other: { ink: 'quiet', dash: [4, 4], width: 1.25 },
} as const satisfies Record<string, CurveStyle>;
export type CurveStyleName = keyof typeof curveStyles;

/** Styles for burns drawn together, told apart without colour by their dashes. */
export const overlayStyles: readonly CurveStyle[] = [
  { ink: 'water', dash: solid, width: 2.25 },
  { ink: 'flue', dash: [8, 4], width: 2.25 },
  { ink: 'air', dash: [2, 3], width: 2.25 },
  { ink: 'body', dash: [12, 4, 2, 4], width: 2.25 },
  { ink: 'ink', dash: [5, 2], width: 1.75 },
  { ink: 'water', dash: [14, 3], width: 1.75 },
  { ink: 'flue', dash: [1.5, 4], width: 1.75 },
  { ink: 'air', dash: [8, 2, 2, 2, 2, 2], width: 1.75 },
];

/** The two sides of a comparison: what was there before, and what is said to be better or worse. */
export const sideStyles = {
  a: { ink: 'flue', dash: [8, 4], width: 1.75 },
  b: { ink: 'water', dash: solid, width: 1.75 },
} as const satisfies Record<string, CurveStyle>;

export function overlayStyle(index: number): CurveStyle {
  return overlayStyles[index % overlayStyles.length] ?? curveStyles.other;
}
