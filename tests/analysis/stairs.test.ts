import { describe, expect, it } from 'vitest';
import { analyse } from '../../shared/analysis/analyse.ts';
import { findStair } from '../../shared/analysis/curves/stairs.ts';
import { waterCurve } from '../../shared/analysis/curves/water-curve.ts';
import { trustedCurves } from '../../shared/analysis/quantities/trusted-curves.ts';
import type { BurnRecord } from '../../shared/contract/burn-record.ts';
import { createRandom } from '../../shared/statistics/random.ts';
import fc from '../support/properties.ts';
import { found } from './support/asking.ts';
import { calibratedProbe, makeBurn, mark, plainBurn, secondProbe } from './support/hand-made-burn.ts';

const seconds = (toS: number) => Float64Array.from({ length: toS + 1 }, (_, elapsedS) => elapsedS);

/** Lit at 300 s, up at 0.5 K/min; whole kelvins shown, the second probe reading `differenceK` higher. */
function inWholeKelvins(startC: number, targetC: number | 'boil', differenceK: number | undefined): BurnRecord {
  const ceilingC = targetC === 'boil' ? 99.2 : 200;
  const waterC = (t: number) => Math.min(ceilingC, startC + (Math.max(0, t - 300) * 0.5) / 60);
  const half = differenceK === undefined ? 0 : differenceK / 2;
  return makeBurn({
    ...plainBurn,
    toS: 13_000,
    everyS: 2,
    channels: differenceK === undefined ? [calibratedProbe] : [calibratedProbe, secondProbe],
    reads: ({ id }, t) => Math.round(waterC(t) + (id === calibratedProbe.id ? -half : half)),
    marks: [mark('lit', 300), mark('fireOut', 12_900)],
    record: targetC === 'boil' ? {} : { target: { kind: 'temperature', tempC: targetC } },
  });
}

const timeToTarget = (record: BurnRecord) => found(analyse(record, { draws: 2000 }), 'timeToTarget');

describe('readings in whole kelvins', () => {
  it('give the moment of a set target within seconds while the water warms', () => {
    const random = createRandom('whole kelvins');
    for (let burn = 0; burn < 6; burn++) {
      const startC = 15 + 5 * random.uniform();
      const trueS = (80 - startC) * 120;
      const { value, interval95 } = timeToTarget(inWholeKelvins(startC, 80, random.uniform()));
      expect(Math.abs(value - trueS)).toBeLessThan(3);
      expect(interval95![0]).toBeLessThan(trueS);
      expect(interval95![1]).toBeGreaterThan(trueS);
    }
  });

  it('have an error of half a step at the boil, without an edge after it: 34.6 s for two in phase, 24.5 s for two out of phase', () => {
    // 1 K at 0.5 K/min are 120 s: 60/√3, and for the mean of two out of phase 60/√6 (two rectangular errors of 17.3 s
    // each).
    const stepS = (record: BurnRecord) =>
      Math.hypot(
        ...timeToTarget(record)
          .budget!.filter(({ input }) => input === 'water.stepAtTarget')
          .map(({ contribution }) => contribution),
      );
    expect(stepS(inWholeKelvins(15.2, 'boil', undefined))).toBeCloseTo(60 / Math.sqrt(3), 0);
    expect(stepS(inWholeKelvins(15.2, 'boil', 0))).toBeCloseTo(60 / Math.sqrt(3), 0);
    expect(stepS(inWholeKelvins(15.2, 'boil', 0.4))).toBeCloseTo(60 / Math.sqrt(6), 0);
  });

  it('that are truncated count as rounded ones once that is stated, and are late by half a step before', () => {
    const rounded = inWholeKelvins(15.2, 80, 0.4);
    // The same instrument if it truncates: it shows a whole kelvin half a kelvin later.
    const cutOff = { ...rounded, channels: rounded.channels.map((channel) => ({ ...channel, offset: -0.5 })) };
    const stated = { ...cutOff, channels: cutOff.channels.map((channel) => ({ ...channel, truncationStep: 1 })) };
    expect(timeToTarget(stated)).toEqual(timeToTarget(rounded));
    // Half a kelvin at 0.5 K/min.
    expect(timeToTarget(cutOff).value - timeToTarget(rounded).value).toBeCloseTo(60, -1);
  });

  it('give a steady rate where the water warms steadily', () => {
    const record = inWholeKelvins(15.3, 80, 0.3);
    const { timeS, rateKPerS } = waterCurve(trustedCurves(record).map(({ curve }) => curve))!;
    const climbing = rateKPerS.filter((_, at) => timeS[at]! > 900 && timeS[at]! < 7000);
    for (const rate of climbing) expect(Math.abs(60 * rate - 0.5)).toBeLessThan(0.05);
  });
});

describe('the curve through the edges', () => {
  it('is within half a step of the display for any course of the water', () => {
    const rates = fc.array(fc.double({ min: -0.02, max: 0.05, noNaN: true }), { minLength: 4, maxLength: 12 });
    fc.assert(
      fc.property(rates, (steps) => {
        const timeS = seconds(300 * steps.length - 1);
        let tempC = 20;
        const shown = timeS.map((t) => {
          tempC += steps[Math.floor(t / 300)]!;
          return Math.round(tempC);
        });
        const stair = findStair(timeS, shown);
        if (!stair) return;
        for (const [at, value] of stair.value.entries()) {
          expect(Math.abs(value - shown[at]!)).toBeLessThanOrEqual(stair.stepK / 2 + 0.05);
        }
      }),
    );
  });

  it('does not exist for readings that change every time, or with too few steps', () => {
    const timeS = seconds(600);
    expect(
      findStair(
        timeS,
        timeS.map((t) => t / 60),
      ),
    ).toBeUndefined();
    expect(
      findStair(
        timeS,
        timeS.map((t) => Math.round(20 + t / 200)),
      ),
    ).toBeUndefined();
  });
});
