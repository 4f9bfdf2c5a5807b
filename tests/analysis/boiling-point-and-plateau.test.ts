import { describe, expect, it } from 'vitest';
import { analyse } from '../../shared/analysis/analyse.ts';
import type { Channel } from '../../shared/contract/burn-record.ts';
import { codes, found, resultValue, whyMissing } from './support/asking.ts';
import {
  calibratedProbe,
  type HandMadeBurn,
  id,
  makeBurn,
  mark,
  plainBurn,
  ramp,
  secondProbe,
} from './support/hand-made-burn.ts';

const { calibration: _calibration, ...bare } = calibratedProbe;
/** Type K class 2: ±2.5 K (IEC 60584-1), so a plateau may be well away from the boiling point. */
const uncalibrated: Channel = { ...bare, scale: 0.01, probe: { kind: 'thermocouple', type: 'K', toleranceClass: '2' } };

function at(place: object, more: Partial<HandMadeBurn> = {}) {
  return makeBurn({
    ...plainBurn,
    ...more,
    record: { ...more.record, place: { id: id(200), name: 'yard', ...place } },
  });
}

describe('local boiling point', () => {
  it.each([
    // IAPWS-IF97 region 4: 101.325 kPa 99.974 °C, 100 kPa 99.606 °C, 90 kPa 96.687 °C, 80 kPa 93.485 °C.
    [101_325, 99.974],
    [100_000, 99.606],
    [90_000, 96.687],
    [80_000, 93.485],
  ])('follows the station pressure: %d Pa', (stationPressurePa, tempC) => {
    expect(resultValue(at({ stationPressurePa, standardUncertaintyPa: 50 }), 'localBoilingPoint')).toBeCloseTo(
      tempC,
      3,
    );
  });

  it.each([
    // ISO 2533 and IAPWS-IF97, geometric altitude: 1500 m 84 559.68 Pa, 94.984 °C.
    [0, 99.974],
    [1500, 94.984],
  ])(
    'follows the altitude where there is no pressure: %d m, with the weather in its uncertainty',
    (altitudeM, tempC) => {
      const cold = at({ altitudeM }, { waterC: ramp(70) });
      const { value, standardUncertainty, remarks, defaults } = found(
        analyse(cold, { draws: 20_000 }),
        'localBoilingPoint',
      );
      expect(value).toBeCloseTo(tempC, 2);
      expect(standardUncertainty!).toBeGreaterThan(0.25);
      expect(standardUncertainty!).toBeLessThan(0.35);
      expect(codes(remarks)).toContain('boilingPointFromAltitude');
      expect(codes(defaults)).toEqual(expect.arrayContaining(['weather', 'altitudeUncertainty']));
    },
  );

  it('follows a pressure channel rather than an entered pressure', () => {
    const pressure: Channel = {
      id: id(130),
      boardId: id(50),
      name: 'air',
      role: 'stationPressure',
      unit: 'Pa',
      scale: 1,
    };
    const reads = (channel: Channel, t: number) => (channel.role === 'stationPressure' ? 90_000 : ramp(96.6)(t));
    const record = at({ stationPressurePa: 101_325 }, { channels: [calibratedProbe, pressure], reads });
    expect(resultValue(record, 'localBoilingPoint')).toBeCloseTo(96.687, 3);
  });
});

describe('a plateau as evidence', () => {
  const known = { stationPressurePa: 100_000, standardUncertaintyPa: 50 };

  it('corrects uncalibrated probes where the pressure is known, with a remark: a pot that reads 2 K low did boil', () => {
    const low = at(known, { channels: [uncalibrated], waterC: ramp(97.5, 1, 300, 18) });
    const { value, remarks, interval95 } = found(analyse(low, { draws: 20_000 }), 'timeToBoil');
    // True water: 20 to 99.5 °C at 1 K/min, boil at 99.106 °C.
    expect(Math.abs(value - (99.106 - 20) * 60)).toBeLessThan(40);
    expect(interval95![1] - interval95![0]).toBeLessThan(150);
    expect(codes(remarks)).toContain('plateauCalibratesProbes');
    expect(codes(remarks)).not.toContain('boilingPointFromPlateau');
  });

  it('defines the boiling point where only the altitude is known and the probes are better, and then corrects no probe', () => {
    // A deep low: 98.9 °C instead of the 99.974 °C of the standard atmosphere.
    // Read at two places: what one probe reads may lie further below the mean of the water than this.
    const record = at({ altitudeM: 0 }, { channels: [calibratedProbe, secondProbe], waterC: ramp(98.9) });
    const { value, remarks } = found(analyse(record, { draws: 0 }), 'localBoilingPoint');
    expect(whyMissing(record, 'timeToBoil')).toBe('targetNotReached');
    expect(codes(remarks)).toContain('plateauNotUsed');
    const nearer = at({ altitudeM: 0 }, { waterC: ramp(99.5) });
    const found99 = found(analyse(nearer, { draws: 0 }), 'localBoilingPoint');
    expect(codes(found99.remarks)).toContain('boilingPointFromPlateau');
    expect(codes(found99.remarks)).not.toContain('plateauCalibratesProbes');
    expect(found99.value).toBeGreaterThan(99.5);
    expect(found99.value).toBeLessThan(99.974);
    expect(value).toBeCloseTo(99.974, 2);
  });

  it('defines the boiling point of an unknown place when it lasts', () => {
    const record = at({}, { waterC: ramp(97.3) });
    expect(Math.abs(resultValue(record, 'localBoilingPoint') - 97.3)).toBeLessThan(0.1);
    expect(Math.abs(resultValue(record, 'timeToBoil') - 76.8 * 60)).toBeLessThan(30);
  });

  it('is refused when it is too far from the boiling point', () => {
    const stalled = at(known, { channels: [uncalibrated], waterC: ramp(93) });
    const { remarks } = found(analyse(stalled, { draws: 0 }), 'localBoilingPoint');
    expect(codes(remarks)).toContain('plateauNotUsed');
    expect(whyMissing(stalled, 'timeToBoil')).toBe('targetNotReached');
  });

  it('is refused when the level rises with feeding: the pot stalls, however near the boil', () => {
    const wander = (t: number) => ramp(97.2)(t) + (t < 4932 ? 0 : 1.6 * Math.sin((t - 4932) / 250));
    const marks = [...plainBurn.marks, mark('fed', 5700, { massKg: 0.4 }), mark('fed', 6600, { massKg: 0.4 })];
    const record = at(known, { channels: [uncalibrated], waterC: wander, marks });
    const { remarks } = found(analyse(record, { draws: 0 }), 'localBoilingPoint');
    expect(codes(remarks)).toContain('stalledBelowBoil');
  });

  it('is not used in a burn with a hold below the boil', () => {
    const record = at(known, {
      channels: [uncalibrated],
      waterC: ramp(98.5),
      record: { target: { kind: 'temperature', tempC: 90 } },
    });
    const { remarks } = found(analyse(record, { draws: 0 }), 'timeToTarget');
    expect(codes(remarks)).not.toContain('plateauCalibratesProbes');
  });
});
