import { describe, expect, it } from 'vitest';
import { SPECIFIC_HEAT_J_PER_KG_K, wateryGoodsSpecificHeatJPerKgK } from '../../shared/physics/heat-capacity.ts';

// R. L. Earle, Unit Operations in Food Processing, Appendix 7: water %, specific heat above freezing kJ/(kg·K).
const GOODS: [name: string, waterPercent: number, kJPerKgK: number][] = [
  ['apples', 84, 3.6],
  ['bananas', 75, 3.35],
  ['grapefruit', 89, 3.81],
  ['peaches', 87, 3.78],
  ['pineapples', 85, 3.68],
  ['asparagus', 93, 3.93],
  ['green beans', 89, 3.81],
  ['cabbage', 92, 3.93],
  ['carrots', 88, 3.6],
  ['corn', 76, 3.35],
  ['peas', 74, 3.31],
  ['tomatoes', 95, 3.98],
  ['beef', 75, 3.22],
  ['pork', 60, 2.85],
];

describe('specific heat of watery goods', () => {
  it.each(GOODS)('agrees with the table for %s within 5.5 %%', (_name, waterPercent, kJPerKgK) => {
    expect(Math.abs(wateryGoodsSpecificHeatJPerKgK(waterPercent / 100) / (1000 * kJPerKgK) - 1)).toBeLessThan(0.055);
  });

  it('has a typical vegetable that covers the fruit and vegetables of the table', () => {
    const { value, standardUncertainty } = SPECIFIC_HEAT_J_PER_KG_K.vegetables;
    for (const [name, , kJPerKgK] of GOODS) {
      if (name === 'beef' || name === 'pork') continue;
      expect(Math.abs(1000 * kJPerKgK - value)).toBeLessThan(3.3 * standardUncertainty);
    }
  });
});

describe('specific heat of vessels', () => {
  // C. J. Geankoplis and other handbooks: published tables of metals and glass, J/(kg·K); pairs of independent tables.
  it.each([
    ['stainlessSteel', 500, 500],
    ['mildSteel', 490, 510],
    ['castIron', 460, 460],
    ['aluminium', 896, 910],
    ['copper', 385, 390],
    ['brass', 380, 380],
    ['glass', 840, 840],
  ] as const)('of %s covers %d and %d', (material, low, high) => {
    const { value, standardUncertainty } = SPECIFIC_HEAT_J_PER_KG_K[material];
    expect(Math.abs(value - low)).toBeLessThanOrEqual(2 * standardUncertainty);
    expect(Math.abs(value - high)).toBeLessThanOrEqual(2 * standardUncertainty);
  });
});
