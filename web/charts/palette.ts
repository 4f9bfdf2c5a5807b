import { inks, type Palette } from '../../shared/plot/inks.ts';

/** Read the inks in force where an element stands, by day or by night. */
export function readPalette(element: Element): Palette {
  const style = getComputedStyle(element);
  return Object.fromEntries(inks.map((ink) => [ink, style.getPropertyValue(`--${ink}`).trim()])) as Palette;
}
