import { describe, expect, test } from 'vitest';
import { createProbe, type ProbeFaultKind, type SimulatedChannel } from '../../server/simulator/probes.ts';
import type { Sites } from '../../server/simulator/sites.ts';
import { compensatedTempC } from '../../shared/physics/thermocouple.ts';
import { createRandom } from '../../shared/statistics/random.ts';

const sites: Sites = {
  waterLow: 80,
  waterHigh: 79,
  contentCore: 60,
  flue: 350,
  riser: 700,
  airGap: 90,
  body: 200,
  ambient: 15,
  coldJunction: 20,
  oxygen: 11,
};
const water: SimulatedChannel = {
  site: 'waterLow',
  label: 'water_low',
  role: 'water',
  unit: 'Cel',
  scale: 0.25,
  probe: 'thermocouple-K',
  timeConstantS: 10,
  noise: 0,
};
const exact = { offsetK: 0, gain: 0 };

function probeOf(channel: SimulatedChannel, fault?: ProbeFaultKind, errors = exact, coldJunctionK = 0) {
  const faults = fault ? [{ site: channel.site, kind: fault, fromS: 100, toS: 200 }] : [];
  return createProbe(channel, errors, coldJunctionK, faults, sites, createRandom(1));
}

test('a probe reads whole counts of the temperature at its position', () => {
  expect(probeOf(water).read(0, sites)).toBe(320);
});

test('offset, gain and the shared cold junction shift the reading', () => {
  const probe = probeOf(water, undefined, { offsetK: 1, gain: 0.01 }, 0.5);
  expect(probe.read(0, sites)).toBe(Math.round((80 * 1.01 + 1 + 0.5) / 0.25));
});

test('after one time constant a probe has gone 63 % of a step', () => {
  const probe = probeOf(water);
  const hotter = { ...sites, waterLow: 180 };
  for (let s = 1; s <= 10; s++) probe.follow(1, hotter, s);
  expect((probe.read(10, hotter) as number) * 0.25).toBeCloseTo(80 + 100 * (1 - Math.exp(-1)), 0);
});

test('noise has the standard deviation it was given', () => {
  const probe = probeOf({ ...water, noise: 0.5, scale: 0.01 });
  const values = Array.from({ length: 2000 }, (_, s) => (probe.read(s, sites) as number) * 0.01 - 80);
  const spread = Math.sqrt(values.reduce((sum, value) => sum + value * value, 0) / values.length);
  expect(spread).toBeCloseTo(0.5, 1);
});

test('a raw thermocouple channel sends the voltage at the terminals, which the cold junction compensates', () => {
  const probe = probeOf({ ...water, site: 'flue', unit: 'uV', scale: 1 });
  const microvolts = probe.read(0, sites) as number;
  expect(compensatedTempC('K', microvolts / 1000, sites.coldJunction)).toBeCloseTo(350, 1);
});

describe('faults on demand last from their start to their end', () => {
  test.each([
    ['open', 'open'],
    ['shortToGround', 'short-to-ground'],
    ['shortToSupply', 'short-to-supply'],
    ['outOfRange', 'out-of-range'],
    ['noAnswer', 'no-answer'],
  ] as const)('%s is sent on the wire', (kind, named) => {
    const probe = probeOf(water, kind);
    expect([99, 100, 199, 200].map((s) => probe.read(s, sites))).toEqual([320, named, named, 320]);
  });

  test('a stuck probe repeats its last reading', () => {
    const probe = probeOf(water, 'stuck');
    probe.read(99, sites);
    const hotter = { ...sites, waterLow: 95 };
    for (let s = 1; s <= 200; s++) probe.follow(1, hotter, s);
    expect(probe.read(150, hotter)).toBe(320);
    expect(probe.read(200, hotter)).toBe(380);
  });

  test('a bad contact makes some readings jump and does not change the others', () => {
    const probe = probeOf(water, 'spike');
    const readings = Array.from({ length: 100 }, (_, s) => probe.read(100 + s, sites) as number);
    const jumped = readings.filter((count) => Math.abs(count - 320) > 8).length;
    expect(jumped).toBeGreaterThan(3);
    expect(jumped).toBeLessThan(30);
    expect(probe.read(200, sites)).toBe(320);
  });

  test('a probe out of the water reads the warm air next to the pot, and returns with its lag', () => {
    const probe = probeOf(water, 'outOfWater');
    for (let s = 100; s < 200; s++) probe.follow(1, sites, s);
    expect((probe.read(199, sites) as number) * 0.25).toBeLessThan(60);
    for (let s = 200; s < 260; s++) probe.follow(1, sites, s);
    expect((probe.read(260, sites) as number) * 0.25).toBeCloseTo(80, 0);
  });

  test('a fault can be added while the burn runs', () => {
    const probe = probeOf(water);
    probe.addFault({ site: 'waterHigh', kind: 'open', fromS: 0, toS: 10 });
    expect(probe.read(5, sites)).toBe(320);
    probe.addFault({ site: 'waterLow', kind: 'open', fromS: 0, toS: 10 });
    expect(probe.read(5, sites)).toBe('open');
  });
});
