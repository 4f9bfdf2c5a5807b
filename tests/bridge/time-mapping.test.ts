import { describe, expect, it } from 'vitest';
import { createTimeMapping } from '../../server/bridge/time-mapping.ts';
import fc from '../support/properties.ts';

/** Deterministic noise: a small linear congruential generator, 0 ≤ x < 1. */
function noise(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}

interface Wire {
  /** Host µs at board time 0. */
  offsetUs: number;
  /** Host time per board time, minus 1. */
  rate: number;
  /** Delay of one line, µs. */
  delayUs: (i: number) => number;
  periodMs?: number;
  fromMs?: number;
  boot?: number;
}

const uint32 = (ms: number) => ms % 2 ** 32;
const trueUs = (wire: Wire, uptimeMs: number) => wire.offsetUs + uptimeMs * 1000 * (1 + wire.rate);

/** Observes `count` scans; returns the error of each mapped time at its arrival, µs, and the true times. */
function watch(mapping: ReturnType<typeof createTimeMapping>, wire: Wire, count: number) {
  const errors: number[] = [];
  for (let i = 0; i < count; i++) {
    const uptimeMs = (wire.fromMs ?? 0) + i * (wire.periodMs ?? 1000);
    const at = trueUs(wire, uptimeMs);
    const arrivalUs = Math.round(at + wire.delayUs(i));
    mapping.observe(wire.boot ?? 1, uint32(uptimeMs), arrivalUs);
    const mapped = mapping.hostUs(wire.boot ?? 1, uint32(uptimeMs))!;
    expect(mapped).toBeLessThanOrEqual(arrivalUs + 1);
    errors.push(mapped - at);
  }
  return errors;
}

const steady = (us: number) => () => us;

describe('The time of a scan on the host’s clock', () => {
  it('is its arrival less the shortest delay, for an exact clock', () => {
    const errors = watch(createTimeMapping(), { offsetUs: 5e6, rate: 0, delayUs: steady(800) }, 100);
    expect(errors.every((error) => Math.abs(error - 800) < 1)).toBe(true);
  });

  it('does not follow delays: lines that are occasionally late have the time of reading', () => {
    const random = noise(7);
    const delayUs = (i: number) => 1000 + random() * 4000 + (i % 17 === 3 ? 400_000 : 0);
    const errors = watch(createTimeMapping(), { offsetUs: 9e9, rate: 0, delayUs }, 1800);
    expect(Math.max(...errors.slice(10))).toBeLessThan(6_000);
  });

  it.each([0.005, -0.005, 0.0003, -0.00004])('follows a clock with an error of %d, within milliseconds', (rate) => {
    const random = noise(11);
    const delayUs = () => 1000 + random() * 8000;
    const mapping = createTimeMapping();
    const errors = watch(mapping, { offsetUs: 1e6, rate, delayUs }, 3600);
    expect(Math.max(...errors.slice(300).map(Math.abs))).toBeLessThan(10_000);
    expect(mapping.rate()).toBeCloseTo(rate, 4);
  });

  it('follows a resonator that warms up next to a stove', () => {
    const mapping = createTimeMapping();
    const random = noise(3);
    let hostUs = 0;
    const errors: number[] = [];
    for (let i = 0; i < 7200; i++) {
      hostUs += 1e6 * (1 + 0.003 * Math.sin(i / 1500));
      const arrivalUs = Math.round(hostUs + 500 + random() * 3000);
      mapping.observe(1, i * 1000, arrivalUs);
      errors.push(mapping.hostUs(1, i * 1000)! - hostUs);
    }
    // Half of its window of ten minutes, times the change of rate in it: at most a tenth of a second.
    expect(Math.max(...errors.slice(300).map(Math.abs))).toBeLessThan(150_000);
  });

  it('needs no arrival for scans fetched later: they are between their neighbours', () => {
    const mapping = createTimeMapping();
    const wire = { offsetUs: 1e6, rate: 0.002, delayUs: steady(1000) };
    watch(mapping, wire, 300);
    watch(mapping, { ...wire, fromMs: 900_000 }, 60);
    for (let uptimeMs = 300_000; uptimeMs < 900_000; uptimeMs += 60_000) {
      expect(Math.abs(mapping.hostUs(1, uptimeMs)! - trueUs(wire, uptimeMs))).toBeLessThan(5_000);
    }
  });

  it('continues across the wrap of the uptime, and maps the scans before it', () => {
    const mapping = createTimeMapping();
    const wire = { offsetUs: 0, rate: 0, delayUs: steady(1000), fromMs: 2 ** 32 - 20_000 };
    const errors = watch(mapping, wire, 40);
    expect(Math.max(...errors.map(Math.abs))).toBeLessThanOrEqual(1000);
    expect(mapping.hostUs(1, 2 ** 32 - 5_000)! - mapping.hostUs(1, 5_000)!).toBe(-10_000_000);
  });

  it('counts the wraps without any scan, by the host’s clock', () => {
    const mapping = createTimeMapping();
    const wire = { offsetUs: 0, rate: 0, delayUs: steady(1000), fromMs: 1_000 };
    watch(mapping, wire, 10);
    const monthsLater = watch(mapping, { ...wire, fromMs: 1_000 + 3 * 2 ** 32 + 777_000 }, 10);
    expect(Math.max(...monthsLater.map(Math.abs))).toBeLessThanOrEqual(1000);
  });

  it('restarts with each boot, with the known rate of the clock', () => {
    const mapping = createTimeMapping();
    watch(mapping, { offsetUs: 1e6, rate: 0.004, delayUs: steady(1000) }, 300);
    expect(mapping.hostUs(2, 0)).toBeNull();
    const errors = watch(mapping, { offsetUs: 4e8, rate: 0.004, delayUs: steady(1000), boot: 2 }, 30);
    expect(Math.max(...errors.map((error) => Math.abs(error - 1000)))).toBeLessThan(50);
    expect(mapping.hostUs(1, 100_000)).toBeCloseTo(1e6 + 1e8 * 1.004, -4);
  });

  it('is not distorted by a sleep that the host’s clock did not count: a new stretch begins', () => {
    const mapping = createTimeMapping();
    const before = { offsetUs: 1e6, rate: 0, delayUs: steady(1000) };
    watch(mapping, before, 100);
    const after = { ...before, offsetUs: 1e6 - 60e6, fromMs: 160_000 };
    const errors = watch(mapping, after, 100);
    expect(Math.max(...errors.map(Math.abs))).toBeLessThanOrEqual(1100);
    expect(mapping.hostUs(1, 50_000)).toBe(trueUs(before, 50_000) + 1000);
  });

  it('follows a board whose own clock stopped for a while', () => {
    const mapping = createTimeMapping();
    watch(mapping, { offsetUs: 0, rate: 0, delayUs: steady(1000) }, 120);
    const errors = watch(mapping, { offsetUs: 30e6, rate: 0, delayUs: steady(1000), fromMs: 120_000 }, 300);
    expect(Math.max(...errors.slice(60).map(Math.abs))).toBeLessThan(2_000);
  });

  it('has the times of reading for lines that waited a minute and arrived at once', () => {
    const mapping = createTimeMapping();
    const wire: Wire = { offsetUs: 0, rate: 0, delayUs: steady(1000) };
    watch(mapping, wire, 120);
    const burst = watch(mapping, { ...wire, fromMs: 120_000, delayUs: (i) => (60 - i) * 1e6 + 1000 }, 60);
    const after = watch(mapping, { ...wire, fromMs: 180_000 }, 300);
    for (const errors of [burst, after]) expect(Math.max(...errors.map(Math.abs))).toBeLessThan(2_000);
  });

  it('uses real time when everything runs faster: a real delay is not a step of a clock', () => {
    const scale = 60;
    const mapping = createTimeMapping(scale);
    const random = noise(9);
    const delayUs = (i: number) => (200 + random() * 2000 + (i % 400 > 300 ? 40_000 : 0)) * scale;
    const errors = watch(mapping, { offsetUs: 0, rate: 0, delayUs }, 4000);
    expect(Math.max(...errors.slice(10))).toBeLessThan(3_000 * scale);
  });

  it('is the same for the same calls, to the last bit', () => {
    const run = () => {
      const random = noise(5);
      const mapping = createTimeMapping();
      watch(mapping, { offsetUs: 3e6, rate: 0.001, delayUs: () => random() * 9000 }, 500);
      return Array.from({ length: 500 }, (_, i) => mapping.hostUs(1, i * 1000));
    };
    expect(run()).toEqual(run());
  });

  it('is never after the arrival and rises with the board’s time, whatever the delays', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 0, max: 900_000 }), { minLength: 2, maxLength: 120 }),
        fc.double({ min: -0.005, max: 0.005, noNaN: true }),
        (delays, rate) => {
          const mapping = createTimeMapping();
          watch(mapping, { offsetUs: 1e9, rate, delayUs: (i) => delays[i]! }, delays.length);
          const mapped = delays.map((_, i) => mapping.hostUs(1, i * 1000)!);
          for (let i = 1; i < mapped.length; i++) expect(mapped[i]!).toBeGreaterThan(mapped[i - 1]!);
        },
      ),
    );
  });
});
