import { describe, expect, it } from 'vitest';
import { analyse } from '../../shared/analysis/analyse.ts';
import { codes, found } from './support/asking.ts';
import { calibratedProbe, makeBurn, plainBurn, secondProbe } from './support/hand-made-burn.ts';

/** Lit at 300 s at 20 °C, 1 K/min from then on; read from `fromS` on. */
const readFrom = (fromS: number) =>
  analyse(makeBurn({ ...plainBurn, channels: [calibratedProbe, secondProbe], fromS }), { draws: 4000 });
/** 20 kg from 20 °C to 99.106 °C (half a kelvin below the boil of 100 kPa): 20·(415.3 − 83.9) kJ by IAPWS-IF97, in 4746.4 s. */
const TRUE_W = (20 * (415.3 - 83.9) * 1000) / 4746.4;

describe('a recording that begins after lighting', () => {
  it.each([60, 120, 230])('%d s late has an interval that covers the possible rise of the water before', (lateS) => {
    const power = found(readFrom(300 + lateS), 'meanUsefulPower');
    const [low, high] = power.interval95!;
    expect(low).toBeLessThan(TRUE_W);
    expect(high).toBeGreaterThan(TRUE_W);
    // On one side only: a missed rise cannot reduce the load.
    expect(high - power.value).toBeGreaterThan(5 * (power.value - low));
    const [remarked] = power.remarks.filter(({ code }) => code === 'recordingStartedAfterLit');
    // Half as much again as it rises in that time: 1.5 K a minute.
    expect(remarked!.params.mostK).toBeCloseTo((1.5 * lateS) / 60, 1);
    expect(power.budget!.map(({ input }) => input)).toContain('water.missedRise');
  });

  it('is less certain the later it begins, with a remark on every result that depends on the start', () => {
    const widths = [350, 420, 500].map((fromS) => {
      const [low, high] = found(readFrom(fromS), 'thermalEfficiency').interval95!;
      return high - low;
    });
    expect([...widths].sort((a, b) => a - b)).toEqual(widths);
    const late = readFrom(420);
    for (const id of ['thermalEfficiency', 'sensibleEfficiency', 'cookingPower'] as const) {
      expect(codes(found(late, id).remarks), id).toContain('recordingStartedAfterLit');
    }
  });

  it('has no remark where the water was read before', () => {
    expect(codes(found(readFrom(250), 'meanUsefulPower').remarks)).not.toContain('recordingStartedAfterLit');
  });
});
