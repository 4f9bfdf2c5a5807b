import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { curveStyles } from '../../shared/plot/curve-styles.ts';
import { dayInks, type Ink, inks, nightInks, type Palette, paperInks } from '../../shared/plot/inks.ts';

/** Linear components of an sRGB colour, IEC 61966-2-1. */
function lightOf(hex: string): number[] {
  return [1, 3, 5].map((at) => {
    const share = Number.parseInt(hex.slice(at, at + 2), 16) / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  });
}

/** Contrast as WCAG 2.2 defines it. */
function contrast(a: string, b: string): number {
  const luminance = (hex: string) => {
    const [red = 0, green = 0, blue = 0] = lightOf(hex);
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
  };
  const [dark = 0, light = 0] = [luminance(a), luminance(b)].sort((x, y) => x - y);
  return (light + 0.05) / (dark + 0.05);
}

test('every probe has an ink and a dash of its own, legible in the light and dark themes and in print', () => {
  const probes = [curveStyles.water, curveStyles.contentCore, curveStyles.flue, curveStyles.riser, curveStyles.airGap];
  const drawn = [...probes, curveStyles.body, curveStyles.ambient];
  expect(new Set(drawn.map(({ ink }) => ink)).size).toBe(drawn.length);
  expect(new Set(drawn.map(({ dash }) => dash.join(' '))).size).toBe(drawn.length);
  // Names are written in the ink of their curve: WCAG 2.2 requires 4.5 to 1 for text (success criterion 1.4.3).
  for (const palette of [dayInks, nightInks, paperInks])
    for (const { ink } of drawn) expect(contrast(palette[ink], palette.background)).toBeGreaterThan(4.5);
});

/**
 * The appearance of a colour without the long or the middle cones: Viénot, Brettel, Mollon, Color Research and
 * Application 24 (1999) 243.
 */
function seenWithout(cone: 'long' | 'middle', hex: string): number[] {
  const [red = 0, green = 0, blue = 0] = lightOf(hex);
  const long = 17.8824 * red + 43.5161 * green + 4.11935 * blue;
  const middle = 3.45565 * red + 27.1554 * green + 3.86714 * blue;
  const short = 0.0299566 * red + 0.184309 * green + 1.46709 * blue;
  const [l, m] =
    cone === 'long' ? [2.02344 * middle - 2.52581 * short, middle] : [long, 0.494207 * long + 1.24827 * short];
  return [
    0.0809444479 * l - 0.130504409 * m + 0.116721066 * short,
    -0.0102485335 * l + 0.0540193266 * m - 0.113614708 * short,
    -0.000365296938 * l - 0.00412161469 * m + 0.693511405 * short,
  ].map((share) => Math.min(1, Math.max(0, share)));
}

/** Difference of two colours in CIELAB (ISO/CIE 11664-4), white D65. */
function difference(a: readonly number[], b: readonly number[]): number {
  const lab = ([red = 0, green = 0, blue = 0]: readonly number[]) => {
    const f = (t: number) => (t > 216 / 24389 ? Math.cbrt(t) : (24389 / 27 / 116) * t + 16 / 116);
    const x = f((0.4124 * red + 0.3576 * green + 0.1805 * blue) / 0.9505);
    const y = f(0.2126 * red + 0.7152 * green + 0.0722 * blue);
    const z = f((0.0193 * red + 0.1192 * green + 0.9505 * blue) / 1.089);
    return [116 * y - 16, 500 * (x - y), 200 * (y - z)];
  };
  const [from, to] = [lab(a), lab(b)];
  return Math.hypot(...from.map((part, index) => part - to[index]!));
}

test('the hot probes, overlaid, are distinguishable without red or green as well', () => {
  const hot: Ink[] = ['flue', 'riser', 'air', 'body'];
  for (const palette of [dayInks, nightInks, paperInks])
    for (const [index, a] of hot.entries())
      for (const b of hot.slice(index + 1)) {
        expect(difference(lightOf(palette[a]), lightOf(palette[b])), `${a} ${b}`).toBeGreaterThan(20);
        for (const cone of ['long', 'middle'] as const)
          expect(
            difference(seenWithout(cone, palette[a]), seenWithout(cone, palette[b])),
            `${a} ${b} without ${cone}`,
          ).toBeGreaterThan(15);
      }
});

test('the style sheets contain the inks of the charts', () => {
  const inksIn = (file: string, nth: number): Partial<Record<Ink, string>> => {
    const block = readFileSync(`web/styles/${file}`, 'utf8').split(/:root[^{]*\{/)[nth] ?? '';
    return Object.fromEntries(inks.map((ink) => [ink, new RegExp(`--${ink}: (#[0-9a-f]{6});`).exec(block)?.[1]]));
  };
  const colours: [string, number, Palette][] = [
    ['colours.css', 1, dayInks],
    ['colours.css', 2, nightInks],
    ['colours.css', 3, nightInks],
  ];
  for (const [file, nth, palette] of colours) expect(inksIn(file, nth)).toEqual(palette);
  const print = readFileSync('web/styles/print.css', 'utf8');
  for (const ink of inks) expect(print).toContain(`--${ink}: ${paperInks[ink]};`);
});
