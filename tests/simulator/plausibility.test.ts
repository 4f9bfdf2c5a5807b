import { expect, test } from 'vitest';
import { heronScenario } from '../../server/simulator/heron-setup.ts';
import { createPot } from '../../server/simulator/pot.ts';
import type { Scenario } from '../../server/simulator/scenario.ts';
import { simulateBurn } from '../../server/simulator/simulate-burn.ts';
import { vapourPressurePa } from '../../server/simulator/water.ts';
import { median } from '../../shared/statistics/quantile.ts';

// Figures in this file: common practice, no source.

const seeds = [1, 2, 3];

test('a pot of 30 kg boils in 45 to 70 minutes at an efficiency of 20 to 30 % with 3 to 4.5 kg of dry wood for a batch', () => {
  for (const revision of ['1', '2'] as const) {
    const usual = heronScenario(revision, 'M');
    for (const seed of seeds) {
      const { truth } = simulateBurn({ ...usual, load: { ...usual.load, waterKg: 30 } }, seed);
      expect(truth.timeToBoil! / 60).toBeGreaterThan(45);
      expect(truth.timeToBoil! / 60).toBeLessThan(70);
      expect(truth.thermalEfficiency).toBeGreaterThan(0.2);
      expect(truth.thermalEfficiency).toBeLessThan(0.3);
      expect(truth.dryWoodPerBatch).toBeGreaterThan(3);
      expect(truth.dryWoodPerBatch).toBeLessThan(4.5);
      expect(truth.turnDownRatio).toBeGreaterThan(1);
    }
  }
});

test('the insulated sleeve saves wood', () => {
  const wood = (revision: '1' | '2') =>
    median([1, 2, 3, 4, 5].map((seed) => simulateBurn(heronScenario(revision, 'M'), seed).truth.dryWoodPerBatch!));
  expect(wood('2') / wood('1')).toBeLessThan(0.95);
  expect(wood('2') / wood('1')).toBeGreaterThan(0.75);
});

test('a weak stove heats 25 kg from 9 °C at about 0.9 K/min and 1.57 kW', () => {
  const usual = heronScenario('1', 'M');
  const weak: Scenario = {
    ...usual,
    place: { ...usual.place, airTempC: 9, stationPressurePa: 101_400 },
    stove: { ...usual.stove, draughtKgPerS: 0.009, gasToPotWPerK: 5.6, flamingTimeS: 1100, bodyStartTempC: 9 },
    load: { waterKg: 25, startTempC: 9 },
    plan: { ...usual.plan, chargeKg: 0.4, firstChargeKg: 0.4, feedBelowKg: 0.12, kindlingKg: 0.3, holdS: 0 },
  };
  const burns = seeds.map((seed) => simulateBurn(weak, seed).truth);
  const minutes = median(burns.map((truth) => truth.timeToBoil! / 60));
  expect(minutes).toBeGreaterThan(85);
  expect(minutes).toBeLessThan(118);
  for (const truth of burns) {
    // 25 kg × 4.19 kJ/(kg·K) × 91 K in 101 min is 1.57 kW; heat and time must belong together in every burn.
    expect((truth.meanUsefulPower! * truth.timeToBoil!) / (1570 * 101 * 60)).toBeCloseTo(1, 1);
    expect(truth.meanHeatingRate).toBeGreaterThan(0.75);
    expect(truth.meanHeatingRate).toBeLessThan(1.25);
  }
});

test('a large firebox runs 20 to 30 minutes unattended', () => {
  const usual = heronScenario('1', 'R');
  const large: Scenario = {
    ...usual,
    stove: { ...usual.stove, flamingTimeS: 1700, draughtKgPerS: 0.014 },
    load: { waterKg: 45, startTempC: 12 },
    plan: {
      ...usual.plan,
      kindlingKg: 0.5,
      firstChargeKg: 1.2,
      chargeKg: 2.2,
      holdChargeKg: 0.8,
      feedBelowKg: 0.4,
      nudges: false,
    },
  };
  const fedMinutes = seeds.flatMap((seed) => {
    const { actions } = simulateBurn(large, seed);
    const reached = actions.find((action) => action.kind === 'targetReached')!.elapsedS;
    const fed = actions.filter((action) => action.kind === 'fed' && action.elapsedS < reached);
    // The first charge is put on the kindling; the firebox is full from the second on.
    return fed.slice(3).map((action, i) => (action.elapsedS - fed[i + 2]!.elapsedS) / 60);
  });
  expect(fedMinutes.length).toBeGreaterThan(2);
  expect(median(fedMinutes)).toBeGreaterThan(20);
  expect(median(fedMinutes)).toBeLessThan(30);
});

test('an open 30 kg pot cooling from 95 to 60 °C loses about a kilogram, with its lid on a tenth of that', () => {
  const lost = (lidOn: boolean) => {
    const { vessel } = heronScenario('1', 'M');
    const place = { boilingPointC: 100, airVapourPressurePa: 0.6 * vapourPressurePa(15) };
    const pot = createPot(vessel, { waterKg: 30, startTempC: 95 }, place);
    while (pot.meanTempC > 60) pot.step(2, { gasToPotW: 0, airTempC: 15, lidOn });
    return 30 - pot.waterKg;
  };
  expect(lost(false)).toBeGreaterThan(0.8);
  expect(lost(false)).toBeLessThan(1.3);
  expect(lost(true)).toBeLessThan(0.25);
});

test('an open pot over too small a fire stalls below the boil and is not called boiling', () => {
  const { vessel } = heronScenario('1', 'M');
  const place = { boilingPointC: 100, airVapourPressurePa: 0.6 * vapourPressurePa(15) };
  const pot = createPot(vessel, { waterKg: 30, startTempC: 60 }, place);
  for (let step = 0; step < 20_000; step++) pot.step(2, { gasToPotW: 1050, airTempC: 15, lidOn: false });
  expect(pot.meanTempC).toBeGreaterThan(80);
  expect(pot.meanTempC).toBeLessThan(97);
});

test('the lower half of the pot runs ahead of the upper half while it heats, and the approach to the boil is soft', () => {
  const { vessel } = heronScenario('1', 'M');
  const place = { boilingPointC: 100, airVapourPressurePa: 1000 };
  const pot = createPot(vessel, { waterKg: 30, startTempC: 15 }, place);
  const minutesBetween = (fromC: number, toC: number) => {
    let minutes = 0;
    while (pot.meanTempC < toC) {
      pot.step(1, { gasToPotW: 3500, airTempC: 15, lidOn: true });
      if (pot.meanTempC > fromC) minutes += 1 / 60;
    }
    return minutes;
  };
  const halfWay = minutesBetween(60, 61);
  expect(pot.lowTempC - pot.highTempC).toBeGreaterThan(1);
  expect(pot.lowTempC - pot.highTempC).toBeLessThan(6);
  const lastBit = minutesBetween(99.2, 99.5) / 0.3;
  expect(lastBit).toBeGreaterThan(1.3 * halfWay);
});
