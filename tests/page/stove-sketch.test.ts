import { expect } from 'vitest';
import type { Point, Shape } from '../../shared/plot/shapes.ts';
import { sketchExtentM, sketchOf } from '../../web/views/stoves/stove-sketch.ts';
import { test } from '../support/browser.ts';
import fc from '../support/properties.ts';
import { overflow } from './accessible.ts';
import { benchWithPage, fillInventory } from './bench-with-page.ts';
import { patiently } from './patiently.ts';

const words = { pot: 'pot', bar: '10 cm' };

function linesOf(shapes: readonly Shape[], ink: string): (readonly Point[])[] {
  return shapes.flatMap((shape) => (shape.kind === 'line' && shape.style.ink === ink ? [shape.points] : []));
}

function sizeOf(points: readonly Point[]): [across: number, up: number] {
  const span = (axis: 0 | 1) => Math.max(...points.map((p) => p[axis])) - Math.min(...points.map((p) => p[axis]));
  return [span(0), span(1)];
}

test('a stove is drawn to scale, inside the drawing, with the pot and its gap', () => {
  const length = fc.double({ min: 0.02, max: 1.5, noNaN: true });
  const stoves = fc.record({
    width: length,
    height: length,
    diameter: length,
    riser: length,
    gap: length,
    pot: length,
  });
  fc.assert(
    fc.property(stoves, fc.double({ min: 20, max: 600, noNaN: true }), (m, pxPerM) => {
      const sketch = sketchOf(
        {
          dimensionsM: {
            'firebox width': m.width,
            'firebox height': m.height,
            'riser diameter': m.diameter,
            'riser height': m.riser,
            'pot gap': m.gap,
            sleeve: 0.05,
          },
          potDiameterM: m.pot,
        },
        pxPerM,
        words,
      );
      if (!sketch) throw new Error('there was enough to draw');
      const close = (px: number, metres: number) => expect(px).toBeCloseTo(metres * pxPerM, 6);
      const [firebox, riser, ...more] = linesOf(sketch.shapes, 'ink').map(sizeOf);
      expect(more).toEqual([]);
      close(firebox![0], m.width);
      close(firebox![1], m.height);
      close(riser![0], m.diameter);
      close(riser![1], m.riser);
      close(sizeOf(linesOf(sketch.shapes, 'water').flat())[0], m.pot);
      close(sizeOf(linesOf(sketch.shapes, 'air').flat())[0], m.pot + 2 * m.gap);
      for (const [x, y] of sketch.shapes.flatMap((shape) => (shape.kind === 'line' ? shape.points : []))) {
        expect(x).toBeGreaterThanOrEqual(0);
        expect(y).toBeGreaterThanOrEqual(0);
        expect(y).toBeLessThanOrEqual(sketch.height);
      }
    }),
  );
});

test('a part is drawn once its width and its height are known, in either language', () => {
  expect(sketchExtentM({ dimensionsM: { 'riser height': 0.5, sleeve: 0.05 } })).toBeUndefined();
  expect(sketchExtentM({ dimensionsM: { 'riser height': 0.5, 'riser diameter': 0.13 } })).toEqual({
    acrossM: 0.13,
    upM: 0.5,
  });
  expect(sketchExtentM({ dimensionsM: { 'hauteur foyer': 0.3, 'largeur foyer': 0.2 } })).toEqual({
    acrossM: 0.2,
    upM: 0.3,
  });
});

test('lengths are typed in centimetres next to their sketch, and stored in metres', async ({ openPage }) => {
  const bench = await benchWithPage();
  await fillInventory(bench);
  const page = await openPage(`${bench.url}#/shelf`, { width: 390, language: 'fr' });
  await page.setViewportSize({ width: 320, height: 600 });
  await page.getByRole('button', { name: /^Ajouter\s: révision/ }).tap();
  const form = page.locator('dialog.sheet');
  await form.getByLabel('Nom court, comme on le dit').fill('3');
  for (const [name, cm] of [
    ['diamètre cheminée', '13,5'],
    ['hauteur cheminée', '34'],
  ] as const) {
    await form.getByLabel('Quoi', { exact: true }).fill(name);
    await form.getByRole('button', { name: 'Ajouter une longueur' }).tap();
    await form.getByLabel(name, { exact: true }).fill(cm);
  }
  await form.locator('.stove-sketch svg').waitFor();
  expect(await form.locator('.stove-sketch text').allTextContents()).toEqual(['cheminée', 'Marmite', '10\u00a0cm']);
  expect(await overflow(page)).toBe(0);
  await form.getByRole('button', { name: 'Enregistrer' }).tap();
  await patiently(async () => {
    const { revisions } = await bench.ask<{ revisions: { label: string; dimensionsM?: object }[] }>(
      'GET',
      '/revisions',
    );
    return revisions.find(({ label }) => label === '3')?.dimensionsM;
  }).toEqual({ 'diamètre cheminée': 0.135, 'hauteur cheminée': 0.34 });
});
