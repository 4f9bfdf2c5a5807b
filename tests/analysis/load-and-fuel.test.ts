import { describe, expect, it } from 'vitest';
import { analyse } from '../../shared/analysis/analyse.ts';
import { cylinderMeansC } from '../../shared/analysis/curves/contents.ts';
import { waterCurve } from '../../shared/analysis/curves/water-curve.ts';
import { trustedCurves } from '../../shared/analysis/quantities/trusted-curves.ts';
import type { BurnRecord } from '../../shared/contract/burn-record.ts';
import type { Moisture } from '../../shared/contract/moisture.ts';
import type { Analysis } from '../../shared/contract/results.ts';
import type { Language } from '../../shared/language/language.ts';
import { codes, found, resultValue, whyMissing } from './support/asking.ts';
import { dryWood, type HandMadeBurn, id, makeBurn, mark, plainBurn, ramp } from './support/hand-made-burn.ts';

const plain = makeBurn(plainBurn);

/** A step of the working of thermal efficiency. */
function step(record: BurnRecord, name: string): number {
  const { working } = found(analyse(record, { draws: 0 }), 'thermalEfficiency');
  return working.steps.find((candidate) => candidate.name === name)!.value;
}

function withWeighings(change: (weighing: HandMadeBurn['weighings'][number]) => HandMadeBurn['weighings'][number]) {
  return makeBurn({ ...plainBurn, weighings: plainBurn.weighings.map(change) });
}

describe('heat into the load', () => {
  it('is the enthalpy rise of the water present at the start', () => {
    // 20 kg from 20 to 99.5 °C: h = 84.01 and 417.0 kJ/kg (IAPWS-IF97, 1 atm).
    expect(step(plain, 'loadMJ')).toBeCloseTo((20 * (416.99 - 84.01)) / 1000, 2);
  });

  it('counts water added from its own temperature, so that topping up changes the load', () => {
    const topped = makeBurn({
      ...plainBurn,
      marks: [...plainBurn.marks, mark('waterIn', 6000, { massKg: 2, tempC: 15 })],
    });
    // 2 kg from 15 °C (63.08 kJ/kg).
    expect(step(topped, 'loadMJ') - step(plain, 'loadMJ')).toBeCloseTo((2 * (416.99 - 63.08)) / 1000, 2);
    expect(resultValue(topped, 'evaporatedWater')).toBeCloseTo(3, 6);
  });

  it('includes the heat of water ladled out, at its temperature then', () => {
    const ladled = makeBurn({
      ...plainBurn,
      marks: [...plainBurn.marks, mark('waterOut', 3300, { massKg: 1, tempC: 70 })],
    });
    expect(step(plain, 'loadMJ') - step(ladled, 'loadMJ')).toBeCloseTo((416.99 - 293.08) / 1000, 3);
    expect(resultValue(ladled, 'evaporatedWater')).toBeCloseTo(0, 6);
  });

  it('excludes the vessel, whose heat has a result of its own', () => {
    const vessel = { id: id(400), name: 'vat', massKg: 3, specificHeatJPerKgK: 500 };
    const record = makeBurn({ ...plainBurn, record: { vessel } });
    expect(step(record, 'vesselMJ')).toBeCloseTo((3 * 500 * 79.5) / 1e6, 4);
    expect(resultValue(record, 'thermalEfficiency')).toBe(resultValue(plain, 'thermalEfficiency'));
  });

  it('converts a volume at the temperature it was read at: 30 L at 95 °C is 28.9 kg', () => {
    const record = withWeighings((weighing) =>
      weighing.of === 'water' && weighing.when === 'end'
        ? { of: 'water', when: 'end', volumeL: 15, tempC: 95 }
        : weighing,
    );
    // Density of water at 95 °C 961.9 kg/m³ (IAPWS).
    expect(resultValue(record, 'evaporatedWater')).toBeCloseTo(20 - 15 * 0.9619, 3);
  });
});

describe('goods in the bath', () => {
  const contents = { id: id(500), name: 'yarn', massKg: 3, standardUncertaintyKg: 0.01, specificHeatJPerKgK: 1400 };
  const withContents = (more: object) => makeBurn({ ...plainBurn, record: { contents: [{ ...contents, ...more }] } });

  it('count with the water, as an upper bound where neither radius nor core probe is given', () => {
    const record = withContents({});
    expect(step(record, 'loadMJ') - step(plain, 'loadMJ')).toBeCloseTo((3 * 1400 * 79.5) / 1e6, 3);
    const { remarks, interval95, value } = found(analyse(record, { draws: 20_000 }), 'sensibleEfficiency');
    expect(codes(remarks)).toContain('contentsOneSided');
    expect(value - interval95![0]).toBeGreaterThan(interval95![1] - value);
  });

  it('lag the bath by half of what a core probe lags it', () => {
    const core = { ...plainBurn.channels[0]!, id: id(110), role: 'contentCore' as const, name: 'core' };
    const reads = (channel: { role: string }, t: number) => ramp(99.5)(t) - (channel.role === 'contentCore' ? 10 : 0);
    const record = makeBurn({
      ...plainBurn,
      channels: [...plainBurn.channels, core],
      reads,
      record: { contents: [{ ...contents, coreChannelId: core.id }] },
    });
    expect(step(record, 'loadMJ') - step(plain, 'loadMJ')).toBeCloseTo((3 * 1400 * (79.5 - 5)) / 1e6, 3);
  });

  it('of known radius lag by conduction: late in a steady ramp the mean of a cylinder is βR²/8α behind', () => {
    // H. S. Carslaw, J. C. Jaeger, Conduction of Heat in Solids, 2nd edition, section 7.8 (from memory).
    const curve = waterCurve(
      trustedCurves(makeBurn({ ...plainBurn, waterC: ramp(200, 0.5), toS: 9000 })).map((flagged) => flagged.curve),
    )!;
    const [mean] = cylinderMeansC({ radiusM: 0.03 }, curve, 300, 20, [8000]);
    const bath = ramp(200, 0.5)(8000);
    expect(bath - mean!).toBeCloseTo(((0.5 / 60) * 0.03 ** 2) / (8 * 1.5e-7), 1);
  });

  it('catch up in a hold: after three of its time constants a jar is within a kelvin of the bath', () => {
    const curve = waterCurve(trustedCurves(makeBurn({ ...plainBurn, toS: 14_000 })).map((flagged) => flagged.curve))!;
    const [atBoil, later] = cylinderMeansC({ radiusM: 0.04 }, curve, 300, 20, [5100, 5100 + 3 * 1844]);
    expect(99.5 - atBoil!).toBeGreaterThan(15);
    expect(99.5 - later!).toBeLessThan(1);
  });

  it('carry water out: an unstated mass makes the steam one-sided uncertain, a stated one is subtracted', () => {
    const out = (more: object) =>
      makeBurn({
        ...plainBurn,
        marks: [...plainBurn.marks, mark('goodsOut', 7000, { massKg: 0.4, tempC: 95, ...more })],
      });
    expect(resultValue(out({ waterCarriedOutKg: 0.6 }), 'evaporatedWater')).toBeCloseTo(0.4, 6);
    const unknown = found(analyse(out({}), { draws: 20_000 }), 'evaporatedWater');
    expect(unknown.value).toBeCloseTo(1, 6);
    expect(unknown.interval95![0]).toBeLessThan(0.63);
    expect(unknown.interval95![1]).toBeLessThan(1.01);
    expect(codes(unknown.remarks)).toContain('carriedOutWaterUnknown');
  });
});

describe('cautions for preserving food', () => {
  it('are listed with every burn that heats jars, and no other', () => {
    const jars: Record<Language, string> = { en: 'jars of plums', fr: 'bocaux de prunes' };
    const cautionsFor = (name: string) => {
      const contents = [{ id: id(501), name, massKg: 6, specificHeatJPerKgK: 3600 }];
      const { remarks } = analyse(makeBurn({ ...plainBurn, record: { contents } }), { draws: 0 });
      return codes(remarks).filter((code) => code.startsWith('preserving'));
    };
    for (const name of Object.values(jars))
      expect(cautionsFor(name), name).toEqual(['preservingJarTemperature', 'preservingLowAcid', 'preservingSchedule']);
    expect(cautionsFor('yarn')).toEqual([]);
  });
});

describe('fuel burnt', () => {
  it('is the pile before less the pile after, as received', () => {
    // 4 kg at 15 % moisture: 18.5·0.85 − 2.443·0.15 = 15.3586 MJ/kg (as-received form of ISO 18125), less 0.1 kg of char.
    expect(resultValue(plain, 'fuelEnergy')).toBeCloseTo(4 * 15.3586 - 0.1 * 29.5, 2);
    expect(resultValue(plain, 'equivalentDryFuel')).toBeCloseTo((4 * 15.3586 - 2.95) / 18.5, 4);
  });

  it('has a remark where feeds and pile differ by more than 3 % and 50 g, and the pile counts', () => {
    const { remarks } = found(analyse(plain, { draws: 0 }), 'fuelEnergy');
    expect(codes(remarks)).not.toContain('feedsDisagreeWithPile');
    const forgotten = makeBurn({
      ...plainBurn,
      marks: plainBurn.marks.filter(({ elapsedUs }) => elapsedUs !== 5400e6),
    });
    expect(codes(found(analyse(forgotten, { draws: 0 }), 'fuelEnergy').remarks)).toContain('feedsDisagreeWithPile');
    expect(resultValue(forgotten, 'fuelEnergy')).toBe(resultValue(plain, 'fuelEnergy'));
  });

  it('comes from the feeds, with a remark, where the pile was not weighed', () => {
    const record = makeBurn({ ...plainBurn, weighings: plainBurn.weighings.filter(({ of }) => of !== 'fuelPile') });
    const { value, remarks } = found(analyse(record, { draws: 0 }), 'fuelEnergy');
    expect(value).toBeCloseTo(resultValue(plain, 'fuelEnergy'), 9);
    expect(codes(remarks)).toContain('fuelFromFeeds');
  });

  it('subtracts brands as wood that has lost some of its water', () => {
    const record = makeBurn({
      ...plainBurn,
      weighings: [...plainBurn.weighings, { of: 'brands', when: 'end', massKg: 0.2 }],
    });
    const less = resultValue(plain, 'fuelEnergy') - resultValue(record, 'fuelEnergy');
    expect(less).toBeGreaterThan(0.2 * 15.3586);
    expect(less).toBeLessThan(0.2 * 18.5);
  });

  it('subtracts brands at their measured moisture, on either basis', () => {
    const withBrands = (...brands: { massKg: number; moisture?: Moisture }[]) =>
      analyse(
        makeBurn({
          ...plainBurn,
          weighings: [
            ...plainBurn.weighings,
            ...brands.map((each) => ({ of: 'brands', when: 'end', ...each }) as const),
          ],
        }),
        { draws: 2000 },
      );
    const wet: Moisture = { fraction: 0.1, basis: 'wet', how: 'ovenDry' };
    const dry: Moisture = { fraction: 1 / 9, basis: 'dry', how: 'ovenDry', standardUncertainty: 0.004 };
    // 18.5·0.9 − 2.443·0.1 = 16.4057 MJ/kg (ISO 18125, from memory, worked by hand).
    const expected = resultValue(plain, 'fuelEnergy') - 0.2 * 16.4057;
    for (const brands of [[{ massKg: 0.2, moisture: wet }], [{ massKg: 0.2, moisture: dry }]]) {
      expect(found(withBrands(...brands), 'fuelEnergy').value).toBeCloseTo(expected, 6);
    }
    // 50 g at 4 % and 150 g at 12 %: 10 % together.
    const mixed = withBrands(
      { massKg: 0.05, moisture: { ...wet, fraction: 0.04 } },
      { massKg: 0.15, moisture: { ...wet, fraction: 0.12 } },
    );
    expect(found(mixed, 'fuelEnergy').value).toBeCloseTo(expected, 6);
    const namesOf = (analysis: Analysis) => {
      const { budget, defaults } = found(analysis, 'fuelEnergy');
      return [...budget!.map(({ input }) => input), ...codes(defaults)].filter((name) => name.startsWith('brands'));
    };
    expect(namesOf(mixed)).toEqual(['brands.moisture', 'brandsMoistureUncertainty']);
    expect(namesOf(withBrands({ massKg: 0.2, moisture: dry }))).toEqual(['brands.moisture']);
    // With one piece of unknown moisture, the moisture of all is unknown.
    expect(namesOf(withBrands({ massKg: 0.05, moisture: wet }, { massKg: 0.15 }))).toEqual([
      'brands.moistureLeft',
      'brandsMoisture',
    ]);
  });

  it('counts old char in the firebox as put in', () => {
    const record = makeBurn({
      ...plainBurn,
      weighings: [...plainBurn.weighings, { of: 'char', when: 'start', massKg: 0.04 }],
    });
    expect(resultValue(record, 'fuelEnergy') - resultValue(plain, 'fuelEnergy')).toBeCloseTo(0.04 * 29.5, 6);
  });

  it('adds kindling and firelighter of their own heating values', () => {
    const kindling = { ...dryWood, id: id(301), name: 'kindling', kind: 'kindling' as const };
    const lighter = { id: id(302), name: 'wax', kind: 'firelighter' as const };
    const record = makeBurn({
      ...plainBurn,
      weighings: [
        ...plainBurn.weighings,
        { of: 'fuelPile', when: 'start', massKg: 0.3, fuelLotId: kindling.id },
        { of: 'fuelPile', when: 'start', massKg: 0.02, fuelLotId: lighter.id },
      ],
      record: { fuelLots: [dryWood, kindling, lighter] },
    });
    // Wax about 40 MJ/kg (from memory).
    expect(resultValue(record, 'fuelEnergy') - resultValue(plain, 'fuelEnergy')).toBeCloseTo(
      0.3 * 15.3586 + 0.02 * 40,
      3,
    );
    expect(codes(found(analyse(record, { draws: 0 }), 'fuelEnergy').defaults)).toContain('kindlingAllBurnt');
  });

  it('converts a gross heating value to net by the hydrogen, and uses an as-received one unchanged', () => {
    const withValue = (heatingValue: object) =>
      makeBurn({ ...plainBurn, record: { fuelLots: [{ ...dryWood, heatingValue: heatingValue as never }] } });
    const gross = withValue({ MJPerKg: 20, basis: 'grossDry', hydrogenPercent: 6 });
    const net = withValue({ MJPerKg: 20 - 0.2122 * 6 - 0.0008 * 43.1, basis: 'netDry' });
    expect(resultValue(gross, 'fuelEnergy')).toBeCloseTo(resultValue(net, 'fuelEnergy'), 9);
    expect(resultValue(withValue({ MJPerKg: 15, basis: 'netAsReceived' }), 'fuelEnergy')).toBeCloseTo(60 - 2.95, 9);
  });

  it('has bounds while the char is pending, and is final when it is weighed', () => {
    const pending = withWeighings((weighing) =>
      weighing.of === 'char' ? { of: 'char', when: 'end', pending: true } : weighing,
    );
    const bounded = found(analyse(pending, { draws: 20_000 }), 'dryWoodPerBatch');
    expect(codes(bounded.remarks)).toContain('charPending');
    const done = found(analyse(plain, { draws: 20_000 }), 'dryWoodPerBatch');
    expect(bounded.interval95![0]).toBeLessThan(done.interval95![0]);
    expect(bounded.interval95![1]).toBeGreaterThan(done.interval95![1]);
    expect(found(analyse(pending, { draws: 0 }), 'thermalEfficiencyNoCharCredit').remarks).not.toContainEqual(
      expect.objectContaining({ code: 'charPending' }),
    );
  });
});

describe('fuel within a part of the burn', () => {
  const holding = { hold: { durationS: 1800, onDrop: 'pause' as const } };

  it('has an uncertainty of about one charge for the firebox, and is refused where that is too much', () => {
    expect(whyMissing(makeBurn({ ...plainBurn, record: holding }), 'turnDownRatio')).toBe('fireboxUnknown');
  });

  it('has a value with its uncertainty where charges are small', () => {
    const feeds = Array.from({ length: 40 }, (_, at) => mark('fed', 400 + at * 175, { massKg: 0.1 }));
    const marks = [...plainBurn.marks.filter(({ kind }) => kind !== 'fed'), ...feeds];
    const { value, interval95 } = found(
      analyse(makeBurn({ ...plainBurn, marks, record: holding }), { draws: 20_000 }),
      'turnDownRatio',
    );
    expect(value).toBeCloseTo(1, 0);
    expect(interval95![0]).toBeLessThan(1);
    expect(interval95![1]).toBeGreaterThan(1);
  });

  it('is weighed where the stove is on a scale: mass fed, less the gain of the scale and the evaporated water', () => {
    // 0.6 kg per hour burns during heating, 0.3 kg in the hold; 0.5 kg of water per hour evaporates from the boil on.
    const boilS = 5040;
    const scale = {
      id: id(150),
      boardId: id(50),
      name: 'under the stove',
      role: 'stoveScale' as const,
      unit: 'kg' as const,
      scale: 0.001,
      standardUncertainty: 0.005,
    };
    const fed = (t: number) => [310, 1800, 3600, 5400].filter((feedS) => feedS <= t).length;
    const burntKg = (t: number) => (0.6 * Math.max(0, Math.min(t, boilS) - 300) + 0.3 * Math.max(0, t - boilS)) / 3600;
    const evaporatedKg = (t: number) => (0.5 * Math.max(0, t - boilS)) / 3600;
    const reads = (channel: { role: string }, t: number) =>
      channel.role === 'stoveScale' ? 80 + fed(t) - burntKg(t) - evaporatedKg(t) : ramp(99.5)(t);
    const record = makeBurn({
      ...plainBurn,
      channels: [...plainBurn.channels, scale],
      reads,
      weighings: plainBurn.weighings.map((weighing) =>
        weighing.of === 'water' && weighing.when === 'end'
          ? { ...weighing, massKg: 20 - evaporatedKg(7500) }
          : weighing,
      ) as HandMadeBurn['weighings'],
      record: holding,
    });
    const { value, remarks, interval95 } = found(analyse(record, { draws: 20_000 }), 'turnDownRatio');
    expect(codes(remarks)).toContain('stoveOnScale');
    expect(value).toBeGreaterThan(1.7);
    expect(value).toBeLessThan(2.4);
    expect(interval95![0]).toBeLessThan(2);
    expect(interval95![1]).toBeGreaterThan(2);
  });
});
