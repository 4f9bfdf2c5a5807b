import { describe, expect, test } from 'vitest';
import { burntShare } from '../../shared/comparison/prediction/burnt-wood.ts';
import fc from '../support/properties.ts';

describe('the share of the wood burnt', () => {
  test('rises from feed to feed, without the embers, to all of it at fire out', () => {
    const share = burntShare(
      [
        { atS: 0, massKg: 1 },
        { atS: 1000, massKg: 1 },
      ],
      2000,
    )!;
    expect(share(0)).toBe(0);
    // Of the first kilogram 0.3 kg are embers when the second is put on: 0.7 of 2.
    expect(share(1000)).toBeCloseTo(0.35, 12);
    expect(share(500)).toBeCloseTo(0.175, 12);
    expect(share(2000)).toBe(1);
  });

  test('counts wood that was raked out unburnt as fed but never burnt', () => {
    const feeds = [
      { atS: 0, massKg: 1 },
      { atS: 1000, massKg: 1 },
    ];
    const share = burntShare(feeds, 2000, 0.6)!;
    // 0.7 of the 1.4 kg that burnt.
    expect(share(1000)).toBeCloseTo(0.5, 12);
    expect(share(2000)).toBe(1);
    // More brands than the last charge: all wood that burns had burnt before.
    expect(burntShare(feeds, 2000, 1.5)!(1000)).toBe(1);
    expect(burntShare(feeds, 2000, 2.5)).toBeUndefined();
  });

  test('never falls and stays between 0 and 1', () => {
    const feeds = fc.array(
      fc.record({
        atS: fc.double({ min: 0, max: 5000, noNaN: true }),
        massKg: fc.double({ min: 0.05, max: 2, noNaN: true }),
      }),
      { minLength: 2, maxLength: 12 },
    );
    fc.assert(
      fc.property(feeds, fc.double({ min: 0, max: 3, noNaN: true }), (list, rakedOutKg) => {
        const share = burntShare(list, 6000, rakedOutKg);
        if (!share) return;
        const shares = Array.from({ length: 61 }, (_, step) => share(step * 100));
        expect(shares.every((value, step) => value >= (shares[step - 1] ?? 0) - 1e-12 && value <= 1 + 1e-12)).toBe(
          true,
        );
        expect(shares[60]).toBeCloseTo(1, 12);
      }),
    );
  });

  test('is undefined without feeds after lighting', () => {
    expect(burntShare([], 1000)).toBeUndefined();
    expect(burntShare([{ atS: -5, massKg: 1 }], 1000)).toBeUndefined();
  });
});
