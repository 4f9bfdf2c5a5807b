import { describe, expect, it } from 'vitest';
import { resultValue } from './support/asking.ts';
import { makeBurn, mark, plainBurn, ramp } from './support/hand-made-burn.ts';

/** Common practice, no source: figures that people who heat big pots with wood report. */
describe('plausible figures (common practice, no source)', () => {
  it('25 kg of water from 9 to 100 °C in 101 min is 0.90 K/min and 1.57 kW', () => {
    const rate = 91 / 101;
    const record = makeBurn({
      ...plainBurn,
      waterC: ramp(99.97, rate, 300, 9),
      toS: 8400,
      marks: [mark('lit', 300), mark('fireOut', 8000)],
      weighings: plainBurn.weighings.map((weighing) =>
        weighing.of === 'water' ? { ...weighing, massKg: weighing.when === 'start' ? 25 : 24 } : weighing,
      ),
      record: {
        place: {
          ...plainBurn.record?.place,
          id: '00000000-0000-7000-8000-000000000200',
          name: 'yard',
          stationPressurePa: 101_325,
        },
      },
    });
    expect(resultValue(record, 'meanHeatingRate')).toBeCloseTo(0.9, 2);
    expect(resultValue(record, 'meanUsefulPower') / 1000).toBeCloseTo(1.57, 2);
    // Half a kelvin less than the full rise.
    expect(resultValue(record, 'timeToBoil') / 60).toBeCloseTo(100.4, 0);
  });

  it('a preserving bath at the boil completes its 60 min', () => {
    const record = makeBurn({
      ...plainBurn,
      toS: 10_000,
      marks: [mark('lit', 300), mark('fed', 400, { massKg: 2 }), mark('fireOut', 9600)],
      record: { hold: { durationS: 3600, onDrop: 'restart' } },
    });
    expect(resultValue(record, 'holdDuration')).toBeCloseTo(3600, -1);
    expect(resultValue(record, 'dryWoodPerBatch')).toBeGreaterThan(0);
  });

  it('a large firebox fed every 25 min runs 20 to 30 min unattended', () => {
    const feeds = [310, 1800, 3300, 4800, 6300].map((moment) => mark('fed', moment, { massKg: 0.9 }));
    const record = makeBurn({ ...plainBurn, marks: [mark('lit', 300), ...feeds, mark('fireOut', 7500)] });
    expect(resultValue(record, 'typicalUnattended') / 60).toBeGreaterThan(20);
    expect(resultValue(record, 'typicalUnattended') / 60).toBeLessThan(30);
  });
});
