import { describe, expect, test } from 'vitest';
import { adjustmentOf, commonConditions } from '../../shared/comparison/adjustment.ts';
import { compareRevisions } from '../../shared/comparison/compare-revisions.ts';
import type { Conditions } from '../../shared/comparison/conditions.ts';
import { constructedBurn, onDay, owes } from './constructed-burn.ts';

const at = (demandJ: number, more: Partial<Conditions> = {}): Conditions => ({
  loadKg: 30,
  loadJPerK: 125_670,
  demandJ,
  usefulJ: 2 * demandJ,
  usefulPowerW: 2000,
  ...more,
});

describe('adjusting burns to common conditions', () => {
  test('does nothing where the conditions were the same', () => {
    expect(commonConditions([at(10e6), at(10.05e6)])).toBeUndefined();
  });

  test('does nothing where a condition of a burn is unknown', () => {
    expect(commonConditions([at(10e6), { loadKg: 30, loadJPerK: 1 }])).toBeUndefined();
  });

  test('changes a time in proportion to the heat needed', () => {
    const burns = [at(10e6), at(12e6)];
    const common = commonConditions(burns)!;
    expect(common.demandJ).toBe(11e6);
    expect(adjustmentOf('timeToTarget', burns[0]!, common).factor).toBeCloseTo(1.1, 12);
  });

  test('changes wood by the change of that heat over the efficiency of the burn: half the useful heat is steam', () => {
    const burns = [at(10e6), at(12e6)];
    const common = commonConditions(burns)!;
    expect(adjustmentOf('dryWoodPerBatch', burns[0]!, common).factor).toBeCloseTo(1.05, 12);
    expect(adjustmentOf('dryWoodPerBatch', burns[1]!, common).factor).toBeCloseTo(1 - 1 / 24, 12);
  });

  test('adds to useful power the extra loss of the pot in colder air', () => {
    const burns = [at(10e6, { airTempC: 0 }), at(10e6, { airTempC: 20 })];
    const common = commonConditions(burns)!;
    // 30 kg: a cylinder 0.337 m wide and high has 0.535 m²; at 10 W/(m²·K) and 10 K that is 53 W of 2000.
    expect(adjustmentOf('meanUsefulPower', burns[0]!, common).factor).toBeCloseTo(1 + 53.5 / 2000, 3);
    expect(adjustmentOf('timeToTarget', burns[0]!, common).factor).toBeCloseTo(1 / (1 + 53.5 / 2000), 3);
  });

  test('does not change efficiency, which allows for the load itself', () => {
    const burns = [at(10e6), at(12e6)];
    expect(adjustmentOf('thermalEfficiency', burns[0]!, commonConditions(burns)!).factor).toBe(1);
  });
});

describe('a comparison with different loads', () => {
  const burn = (id: string, waterKg: number, woodKg: number) => {
    const timeS = waterKg * 180;
    return constructedBurn({
      id,
      results: {
        dryWoodPerBatch: { value: woodKg },
        timeToTarget: { value: timeS, unit: 's' },
        meanUsefulPower: { value: (waterKg * 4189 * 80) / timeS, unit: 'W' },
        thermalEfficiency: { value: (waterKg * 4189 * 80) / (woodKg * 18.5e6), unit: '1' },
        fuelEnergy: { value: woodKg * 18.5e6, unit: 'J' },
      },
      burn: {
        ...onDay(id, Number(id.slice(1))),
        weighings: [{ id: `${id}w`, of: 'water', when: 'start', massKg: waterKg, tempC: 15 }],
      },
    });
  };
  // The same stove with three quarters of the water: wood in proportion, with a little scatter.
  const a = [burn('a0', 40, 4), burn('a1', 40, 4.1), burn('a2', 40, 3.9)];
  const b = [burn('b0', 30, 3), burn('b1', 30, 3.07), burn('b2', 30, 2.93)];

  test('has its verdict at common conditions, with the raw figures listed', () => {
    const comparison = compareRevisions(a, b, { plannedDays: 3 });
    const wood = comparison.differences[0]!;
    if (!('verdict' in wood)) throw new Error('missing');
    expect(wood.verdict).toBe('cannotTell');
    expect(Math.abs(wood.relative)).toBeLessThan(0.01);
    expect(wood.raw!.relative).toBeCloseTo(-0.25, 2);
    expect(wood.points[0]!.adjusted).toBeLessThan(wood.points[0]!.value);
    expect(comparison.alsoDiffered.map(({ message }) => message.code)).toContain('differed/load');
  });

  test('lets the error of one scale for wood and water cancel: a burn weighed high is adjusted by a load weighed high', () => {
    // All the useful heat is in the load, and wood and water are weighed on the same scale: after adjusting its gain
    // cancels.
    const onScale = (group: typeof a, scale: string) =>
      group.map(({ burn: document, analysis }) => ({
        burn: document,
        analysis: {
          ...analysis,
          results: analysis.results.map((result) => {
            const moves = ['dryWoodPerBatch', 'meanUsefulPower', 'fuelEnergy'].includes(result.id);
            if (!moves || !('value' in result)) return result;
            return { ...result, budget: [owes('scale.gain', 0.05 * result.value, 'scale', scale)] };
          }),
        },
      }));
    const [one, two] = [onScale(a, 'kitchen'), onScale(b, 'yard')];
    const error = (adjust: boolean) => {
      const wood = compareRevisions(one, two, { adjust }).differences[0]!;
      if (!('verdict' in wood)) throw new Error('missing');
      return wood.standardError!;
    };
    expect(error(false)).toBeGreaterThan(0.05 * Math.SQRT2);
    expect(error(true)).toBeLessThan(0.03);
  });

  test('can be left unadjusted on request', () => {
    const wood = compareRevisions(a, b, { adjust: false, plannedDays: 3 }).differences[0]!;
    if (!('verdict' in wood)) throw new Error('missing');
    expect(wood.verdict).toBe('better');
    expect(wood.raw).toBeUndefined();
  });
});
