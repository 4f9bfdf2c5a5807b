import { describe, expect, it } from 'vitest';
import { analyse } from '../../shared/analysis/analyse.ts';
import { birgeRatio } from '../../shared/analysis/curves/agreement.ts';
import { codes, found } from './support/asking.ts';
import { calibratedProbe, makeBurn, plainBurn, ramp, secondProbe } from './support/hand-made-burn.ts';

describe('probes that disagree', () => {
  it('have a ratio of |D|/(√2·u) for two, which is at least 1 and rises with the difference', () => {
    // R. T. Birge, Phys. Rev. 40 (1932) 207, from memory; worked by hand: 3/(√2·0.5) = 4.2426.
    expect(birgeRatio([20, 23], [0.5, 0.5])).toBeCloseTo(4.2426, 4);
    expect(birgeRatio([20, 20.1], [0.5, 0.5])).toBe(1);
    expect(birgeRatio([20], [0.5])).toBe(1);
    const edge = Math.SQRT2 * 0.5;
    expect(birgeRatio([20, 20 + 1.001 * edge], [0.5, 0.5])).toBeCloseTo(1.001, 9);
  });

  it('widen the interval until it contains the truth, with a remark', () => {
    const high = (elevationK: number) =>
      makeBurn({
        ...plainBurn,
        everyS: 5,
        channels: [calibratedProbe, secondProbe],
        reads: ({ id }, t) => ramp(99.5)(t) + (id === secondProbe.id ? elevationK : 0),
      });
    // The first probe is right: 99.106 °C is reached 4746.4 s after lighting.
    const apart = found(analyse(high(3), { draws: 2000 }), 'timeToBoil');
    expect(codes(apart.remarks)).toContain('probesDisagree');
    expect(apart.interval95![0]).toBeLessThan(4746.4);
    expect(apart.interval95![1]).toBeGreaterThan(4746.4);
    const together = found(analyse(high(0.02), { draws: 2000 }), 'timeToBoil');
    expect(codes(together.remarks)).not.toContain('probesDisagree');
  });
});
