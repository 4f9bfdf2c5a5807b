import { expect, test } from 'vitest';
import { heronScenario } from '../../server/simulator/heron-setup.ts';
import { simulateBurn } from '../../server/simulator/simulate-burn.ts';
import { saturationTempC, vaporisationJPerKg, waterEnthalpyJPerKg } from '../../shared/physics/water.ts';

/** The bench-1 fuel formula by hand: lower heating value as received, MJ/kg (ISO 18125; 2.443 MJ/kg from water at 25 °C). */
const asReceived = (netDry: number, moistureWet: number) => netDry * (1 - moistureWet) - 2.443 * moistureWet;

test('exact weighings with the formulas worked by hand give the exact efficiency within 0.05 points', () => {
  for (const [revision, seed] of [
    ['1', 1],
    ['1', 2],
    ['2', 3],
  ] as const) {
    const scenario = heronScenario(revision, 'M');
    const { masses, truth } = simulateBurn(scenario, seed);
    const grossMJ =
      (masses.woodPileStartKg - masses.woodPileEndKg - masses.brandsKg) *
        asReceived(scenario.wood.netDryMJPerKg, masses.woodMoistureWet) +
      masses.kindlingKg * asReceived(scenario.kindling.netDryMJPerKg, masses.kindlingMoistureWet);
    const netMJ = grossMJ - masses.charKg * scenario.charMJPerKg;
    // Water by IAPWS-IF97, not by the simulator's own fits.
    const rise = waterEnthalpyJPerKg(masses.waterEndTempC) - waterEnthalpyJPerKg(scenario.load.startTempC);
    const loadJ = masses.waterStartKg * rise;
    const vapourJ = (masses.waterStartKg - masses.waterEndKg) * vaporisationJPerKg(truth.localBoilingPoint);
    expect(truth.fuelEnergy! / 1e6 / netMJ).toBeCloseTo(1, 3);
    expect(Math.abs(truth.thermalEfficiency! - (loadJ + vapourJ) / (netMJ * 1e6))).toBeLessThan(0.0005);
    expect(Math.abs(truth.thermalEfficiencyNoCharCredit! - (loadJ + vapourJ) / (grossMJ * 1e6))).toBeLessThan(0.0005);
    expect(truth.dryWoodPerBatch).toBeCloseTo(netMJ / scenario.wood.netDryMJPerKg, 2);
    expect(truth.evaporatedWater).toBeCloseTo(masses.waterStartKg - masses.waterEndKg, 1);
  }
});

test('the boiling point is that of the exact pressure at the place', () => {
  const { truth } = simulateBurn(heronScenario('1', 'M'), 1);
  expect(truth.localBoilingPoint).toBeCloseTo(saturationTempC(98_400), 6);
});

test('a batch that never reached its target has times and wood for a batch missing, not zero', () => {
  const usual = heronScenario('1', 'M');
  const { truth } = simulateBurn({ ...usual, plan: { ...usual.plan, giveUpAfterS: 1200 } }, 1);
  expect(truth).not.toHaveProperty('timeToBoil');
  expect(truth).not.toHaveProperty('timeToTarget');
  expect(truth).not.toHaveProperty('dryWoodPerBatch');
  expect(truth.equivalentDryFuel).toBeGreaterThan(0);
  expect(truth.moments).not.toHaveProperty('target');
});

test('a set target has a time to target and no time to boil', () => {
  const usual = heronScenario('2', 'R');
  const { truth } = simulateBurn({ ...usual, plan: { ...usual.plan, target: { kind: 'temperature', tempC: 90 } } }, 1);
  expect(truth.timeToTarget).toBeGreaterThan(1800);
  expect(truth).not.toHaveProperty('timeToBoil');
});

test('a hold that fell below its floor is not complete, and the batch has no wood figure', () => {
  const usual = heronScenario('1', 'M');
  const neglected = { ...usual.plan, holdFeedBelowKg: -1, holdChargeKg: 0.05, lidOnInHold: false };
  const { truth } = simulateBurn({ ...usual, plan: neglected }, 1);
  expect(truth.holdBelowTarget).toBeGreaterThan(60);
  expect(truth.holdLowest).toBeLessThan(truth.localBoilingPoint - 2);
  expect(truth.holdMet).toBe(false);
  expect(truth).not.toHaveProperty('dryWoodPerBatch');
});

test('the same scenario and seed give the same burn to the last bit; another seed another burn', () => {
  const usual = heronScenario('2', 'R');
  const quick = { ...usual, timing: { ...usual.timing, stepS: 2, readingEveryS: 10 } };
  expect(JSON.stringify(simulateBurn(quick, 7))).toBe(JSON.stringify(simulateBurn(quick, 7)));
  expect(JSON.stringify(simulateBurn(quick, 7).truth)).not.toBe(JSON.stringify(simulateBurn(quick, 8).truth));
});
