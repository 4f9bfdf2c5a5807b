import { describe, expect, it } from 'vitest';
import { analyse } from '../../shared/analysis/analyse.ts';
import { crossingTable, momentOf } from '../../shared/analysis/curves/level-crossing.ts';
import { codes, found, resultValue, whyMissing } from './support/asking.ts';
import { calibratedProbe, makeBurn, mark, plainBurn, ramp, secondProbe } from './support/hand-made-burn.ts';

/** Returns the moment at which a level is reached for good on a curve with one reading per second. */
function reached(tempC: (elapsedS: number) => number, levelC: number, toS = 2000): number {
  const timeS = Float64Array.from({ length: toS + 1 }, (_, elapsedS) => elapsedS);
  const table = crossingTable({ timeS, tempC: timeS.map(tempC), periodS: 1 }, 0, toS, levelC, levelC + 1, 1);
  return momentOf(table, levelC);
}

describe('reaching a level for good', () => {
  it('takes the first crossing when the curve then stays up', () => {
    expect(reached((t) => t / 60, 10)).toBeCloseTo(600, 9);
  });

  it('places the crossing between two readings', () => {
    expect(reached((t) => (t < 101 ? 9 : 9 + (t - 100)), 9.5)).toBeCloseTo(100.5, 9);
  });

  it('does not count a touch that falls more than half a kelvin within the minute', () => {
    const touch = (t: number) => (t >= 300 && t < 330 ? 99 : 98.4);
    expect(reached((t) => (t >= 900 ? 99.2 : touch(t)), 99)).toBeCloseTo(900, 0);
  });

  it('lets the curve sag by less than half a kelvin', () => {
    expect(reached((t) => (t < 300 ? 98 : t < 320 ? 99 : 98.6), 99)).toBeCloseTo(300, 0);
  });

  it('counts a fall after the minute as a fall, and the boil as reached', () => {
    expect(reached((t) => (t < 300 ? 90 : t < 365 ? 99 : 90), 99)).toBeCloseTo(300, 0);
  });

  it('never reaches a higher level earlier than a lower one', () => {
    const wobble = (t: number) => 90 + 8 * (1 - Math.exp(-t / 400)) + 0.4 * Math.sin(t / 37);
    const timeS = Float64Array.from({ length: 2001 }, (_, t) => t);
    const table = crossingTable({ timeS, tempC: timeS.map(wobble), periodS: 1 }, 0, 2000, 90, 99, 0.05);
    const moments = [...table.timeS].filter((moment) => !Number.isNaN(moment));
    expect(moments.length).toBeGreaterThan(100);
    expect(moments).toEqual([...moments].sort((a, b) => a - b));
  });

  it('does not count a crossing in the last minute of the readings, which may not last', () => {
    expect(reached((t) => (t > 1960 ? 99 : 90), 99)).toBeNaN();
  });
});

describe('time to boil', () => {
  // At 100 kPa water boils at 99.606 °C (IAPWS-IF97); half a kelvin below is reached 79.106 min after lit at 1 K/min from 20 °C.
  const byHand = (99.606 - 0.5 - 20) * 60;

  it('is the time from lit to half a kelvin below the local boiling point', () => {
    expect(resultValue(makeBurn(plainBurn), 'timeToBoil')).toBeCloseTo(byHand, -1);
    expect(Math.abs(resultValue(makeBurn(plainBurn), 'timeToBoil') - byHand)).toBeLessThan(3);
  });

  it('does not depend on whether lit is before or after the start of recording', () => {
    const marks = plainBurn.marks.map((item) => (item.kind === 'lit' ? mark('lit', 240) : item));
    expect(resultValue(makeBurn({ ...plainBurn, marks }), 'timeToBoil')).toBeCloseTo(byHand + 60, -1);
  });

  it('is corrected for the lag of the probes where it is known', () => {
    const lagged = { ...calibratedProbe, timeConstantS: 40 };
    const waterC = (t: number) => ramp(99.5)(t - 40);
    expect(
      Math.abs(resultValue(makeBurn({ ...plainBurn, channels: [lagged], waterC }), 'timeToBoil') - byHand),
    ).toBeLessThan(4);
  });

  it('follows from the mean of the probes, not from the first of them', () => {
    const channels = [calibratedProbe, secondProbe];
    const reads = (channel: { id: string }, t: number) => ramp(99.5)(t) + (channel.id === secondProbe.id ? 0.4 : -0.4);
    const value = resultValue(makeBurn({ ...plainBurn, channels, reads }), 'timeToBoil');
    expect(Math.abs(value - byHand)).toBeLessThan(5);
  });

  it('is missing, with the reason, for a pot that stalls at 89 °C', () => {
    const record = makeBurn({ ...plainBurn, waterC: ramp(89) });
    expect(whyMissing(record, 'timeToBoil')).toBe('targetNotReached');
    expect(whyMissing(record, 'dryWoodPerBatch')).toBe('targetNotReached');
  });

  it('is missing for a set target below the boil, which has a time to target', () => {
    const record = makeBurn({ ...plainBurn, record: { target: { kind: 'temperature', tempC: 80 } } });
    expect(whyMissing(record, 'timeToBoil')).toBe('targetBelowBoil');
    expect(resultValue(record, 'timeToTarget')).toBeCloseTo(3600, -1);
  });

  it('refuses a target that water cannot reach here', () => {
    const record = makeBurn({ ...plainBurn, record: { target: { kind: 'temperature', tempC: 105 } } });
    expect(whyMissing(record, 'timeToTarget')).toBe('targetAboveBoiling');
  });

  it('is the person’s moment where there is a mark, stored with the moment from the curves', () => {
    const marks = [...plainBurn.marks, mark('targetReached', 5000)];
    const record = makeBurn({ ...plainBurn, marks });
    expect(resultValue(record, 'timeToTarget')).toBe(4700);
  });

  it('has a value, with a remark, for water that stayed below by less than the uncertainty of its probes', () => {
    // The boil begins at 99.106 °C; the probe is known to 0.05 K, so 0.06 K below is not significant.
    const short = found(analyse(makeBurn({ ...plainBurn, waterC: ramp(99.05) }), { draws: 500 }), 'timeToBoil');
    expect(codes(short.remarks)).toContain('targetWithinProbes');
    expect(short.value).toBeCloseTo(79 * 60, -2);
    expect(whyMissing(makeBurn({ ...plainBurn, waterC: ramp(97.5) }), 'timeToBoil')).toBe('targetNotReached');
  });

  it.each([120, 240, 300])('is inside a gap of %d s, at any point of it', (gapS) => {
    // 99.106 °C is reached at 5046 s.
    for (const share of [0.1, 0.5, 0.9]) {
      const fromS = 5046 - share * gapS;
      const reads = (_channel: unknown, t: number) => (t > fromS && t < fromS + gapS ? null : ramp(99.5)(t));
      const probes = [calibratedProbe, secondProbe];
      const { value, interval95 } = found(
        analyse(makeBurn({ ...plainBurn, channels: probes, reads }), { draws: 4000 }),
        'timeToBoil',
      );
      const [low, high] = interval95!;
      expect(low).toBeLessThan(4746.4);
      expect(high).toBeGreaterThan(4746.4);
      expect(low).toBeGreaterThan(fromS - 300 - 15);
      expect(high).toBeLessThan(fromS - 300 + gapS + 15);
      if (gapS === 300 && share >= 0.5) {
        // A rectangular distribution of 300 s: its central 95 % are 285 s.
        expect(value).toBeCloseTo(fromS - 300 + 150, -1);
        expect(high - low).toBeGreaterThan(280);
        expect(high - low).toBeLessThan(290);
      }
    }
  });

  it('does not interpolate across a long gap that contains the boil', () => {
    const reads = (_channel: unknown, t: number) => (t > 4800 && t < 5400 ? null : ramp(99.5)(t));
    expect(whyMissing(makeBurn({ ...plainBurn, reads }), 'timeToBoil')).toBe('crossingInGap');
  });
});
