import { describe, expect, it } from 'vitest';
import { analyse } from '../../shared/analysis/analyse.ts';
import { onePlaceU } from '../../shared/analysis/quantities/layers.ts';
import type { ResultId } from '../../shared/contract/results.ts';
import { found } from './support/asking.ts';
import {
  calibratedProbe,
  type HandMadeBurn,
  makeBurn,
  plainBurn,
  ramp,
  secondProbe,
} from './support/hand-made-burn.ts';

/** A pot whose top stands `differenceK` above its bottom from the first minutes on; its mean rises by 1 K/min to 80 °C, and stays. */
function layered(differenceK: number, channels: HandMadeBurn['channels']) {
  const meanC = (t: number) => ramp(80.6)(t);
  const grown = (t: number) => Math.min(1, Math.max(0, (t - 300) / 300));
  const record = makeBurn({
    ...plainBurn,
    everyS: 5,
    channels,
    reads: ({ id }, t) => meanC(t) + ((id === secondProbe.id ? 1 : -1) * grown(t) * differenceK) / 2,
    record: { target: { kind: 'temperature', tempC: 80 }, hold: { durationS: 1800, onDrop: 'pause' } },
  });
  const analysis = analyse(record, { draws: 4000 });
  return (id: ResultId) => found(analysis, id);
}

/** Of the mean of the water: 60 K at 1 K/min from lighting on; the hold never below 80 °C. */
const truth = { timeToTarget: 3600, meanHeatingRate: 1, holdLowest: 80 } as const;
const width = ({ interval95 }: { interval95?: readonly [number, number] | undefined }) =>
  interval95![1] - interval95![0];

describe('water in layers', () => {
  it.each([
    ['the cool end', 2],
    ['the warm end', -2],
  ])('read at %s alone still holds the truth, and says what was taken', (_where, differenceK) => {
    const result = layered(differenceK, [calibratedProbe]);
    for (const [id, exact] of Object.entries(truth)) {
      const { interval95, defaults } = result(id as ResultId);
      expect(interval95![0], id).toBeLessThanOrEqual(exact);
      expect(interval95![1], id).toBeGreaterThanOrEqual(exact);
      expect(
        defaults!.map(({ code }) => code),
        id,
      ).toContain('singleProbe');
    }
  });

  it('is known several times as well by a probe at each end', () => {
    const [one, both] = [layered(2, [calibratedProbe]), layered(2, [calibratedProbe, secondProbe])];
    for (const [id, exact] of Object.entries(truth)) {
      const { interval95 } = both(id as ResultId);
      expect(interval95![0], id).toBeLessThanOrEqual(exact);
      expect(interval95![1], id).toBeGreaterThanOrEqual(exact);
      expect(width(one(id as ResultId)), id).toBeGreaterThan(2 * width(both(id as ResultId)));
    }
  });

  it('is stirred by its own bubbles, so that one probe knows more near the boil', () => {
    expect(onePlaceU(0.5)).toBeLessThan(0.6 * onePlaceU(20));
    expect(onePlaceU(Number.NaN)).toBe(onePlaceU(20));
  });
});
