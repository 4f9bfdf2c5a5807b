/** Analyses records with mistakes that a tired person, or another program, may make. */
import { describe, expect, it } from 'vitest';
import { analyse } from '../../shared/analysis/analyse.ts';
import { channelCurves } from '../../shared/analysis/curves/channel-curve.ts';
import { thermocoupleMillivolts } from '../../shared/physics/thermocouple.ts';
import { calibratedProbe, id, makeBurn, mark, plainBurn, ramp } from './support/hand-made-burn.ts';

const answer = (record: ReturnType<typeof makeBurn>, wanted: string) => {
  const result = analyse(record, { draws: 0 }).results.find((one) => one.id === wanted)!;
  return 'value' in result ? result.value : result.missing.code;
};

describe('mistakes in a record', () => {
  it('a pot taken off and put back does not move the start of the burn', () => {
    const usual = answer(makeBurn(plainBurn), 'timeToBoil');
    const back = makeBurn({ ...plainBurn, marks: [...plainBurn.marks, mark('potOff', 6000), mark('potOn', 6300)] });
    expect(answer(back, 'timeToBoil')).toBe(usual);
  });

  it('a pot put on after lighting starts at the temperature its probes read before that', () => {
    const waited = makeBurn({
      ...plainBurn,
      waterC: ramp(99.5, 1, 500),
      marks: [...plainBurn.marks, mark('potOn', 500)],
    });
    const rise = analyse(waited, { draws: 0 }).results.find(({ id: one }) => one === 'meanUsefulPower')!;
    const start = ('value' in rise ? rise.inputs : []).find(({ name }) => name === 'loadToTargetMJ');
    // 20 kg from 20.00 to 99.106 °C: 79.1 K at 4.19 kJ/kgK.
    expect(start?.value).toBeCloseTo((20 * 79.106 * 4.19) / 1000, 1);
  });

  it('with a gap at the boil the moment is missing, but the batch counts', () => {
    const reads = (_channel: unknown, t: number) => (t > 4800 && t < 5400 ? null : ramp(99.5)(t));
    const record = makeBurn({ ...plainBurn, reads });
    expect(answer(record, 'timeToBoil')).toBe('crossingInGap');
    expect(answer(record, 'dryWoodPerBatch')).toBeGreaterThan(0);
  });

  it('a fire that ends before it is lit has no efficiency', () => {
    const marks = plainBurn.marks.map((one) => (one.kind === 'fireOut' ? mark('fireOut', 100) : one));
    expect(answer(makeBurn({ ...plainBurn, marks }), 'thermalEfficiency')).toBe('windowEmpty');
  });

  it('a target below the start needs no heat', () => {
    const record = makeBurn({ ...plainBurn, record: { target: { kind: 'temperature', tempC: 20 } } });
    expect(answer(record, 'timeToTarget')).toBe('targetAlreadyReached');
  });

  it('very thin goods are heated with the water and do not slow the analysis', () => {
    const thread = { id: id(400), name: 'yarn', massKg: 1, specificHeatJPerKgK: 1400, radiusM: 1e-6 };
    expect(answer(makeBurn({ ...plainBurn, record: { contents: [thread] } }), 'thermalEfficiency')).toBeGreaterThan(0);
  });

  it('a calibration corrects the temperature, both of a raw voltage and of finished degrees', () => {
    const cold = { ...calibratedProbe, id: id(120), name: 'cold', role: 'coldJunction' as const };
    const raw = {
      ...calibratedProbe,
      unit: 'uV' as const,
      scale: 1,
      probe: { kind: 'thermocouple' as const, type: 'K' as const },
      coldJunctionChannelId: cold.id,
      calibration: { ...calibratedProbe.calibration!, offset: 1.5 },
    };
    const microvolts = (tempC: number) => 1000 * (thermocoupleMillivolts('K', tempC) - thermocoupleMillivolts('K', 20));
    const reads = (channel: { role: string }) => (channel.role === 'coldJunction' ? 20 : microvolts(60));
    const record = makeBurn({ ...plainBurn, channels: [raw, cold], reads });
    const curve = channelCurves(record).find(({ channel }) => channel.id === raw.id)!;
    // A microvolt is 0.025 K.
    expect(curve.value[10]).toBeCloseTo(61.5, 1);
  });
});
