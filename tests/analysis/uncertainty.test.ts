import { describe, expect, it } from 'vitest';
import { analyse } from '../../shared/analysis/analyse.ts';
import { budgetsOf } from '../../shared/analysis/engine/budget.ts';
import { each } from '../../shared/analysis/engine/columns.ts';
import { type Distribution, ownError } from '../../shared/analysis/engine/declaration.ts';
import { declaring } from '../../shared/analysis/engine/declare.ts';
import { spreads } from '../../shared/analysis/engine/draws.ts';
import { evaluate } from '../../shared/analysis/engine/evaluation.ts';
import { interval95 } from '../../shared/analysis/engine/interval.ts';
import { plan } from '../../shared/analysis/engine/plan.ts';
import type { BurnRecord, Scale } from '../../shared/contract/burn-record.ts';
import { hasValue } from '../../shared/contract/has-value.ts';
import type { ResultId } from '../../shared/contract/results.ts';
import { quantiles } from '../../shared/statistics/quantile.ts';
import { createRandom } from '../../shared/statistics/random.ts';
import { codes, found } from './support/asking.ts';
import {
  calibratedProbe,
  dryWood,
  exactScale,
  type HandMadeBurn,
  id,
  makeBurn,
  mark,
  plainBurn,
  secondProbe,
} from './support/hand-made-burn.ts';

const plain = makeBurn(plainBurn);

const { quantity } = declaring<null>();

/** The sum of a constant and some inputs, propagated with the million draws that JCGM 101 recommends. */
function sumOf(inputs: readonly [Distribution, number][], constant = 0, draws = 1_000_000) {
  const terms = inputs.map(([distribution, u], at) => ({
    input: ownError(`input ${at}`, u, { distribution }),
    weight: 1,
  }));
  const sum = quantity({
    name: 'sum',
    symbol: 'y',
    unit: 'kg',
    formula: '',
    source: '',
    needs: [],
    state: () => ({ measured: [{ constant, terms }], compute: each((value) => value) }),
  });
  const evaluation = evaluate(null);
  const best = evaluation.quantity(sum).best;
  const computing = plan(evaluation, [sum]);
  const budget = budgetsOf(computing)[0]!.map(({ entry }) => entry);
  return { best, budget, ...spreads(computing, [best], draws, 'additive')[0]! };
}

describe('propagation by Monte Carlo', () => {
  // Additive examples of JCGM 101:2008, clause 9.2 (from memory; the closed forms agree).
  it('adds four normal inputs of unit uncertainty to u = 2, ±3.92', () => {
    const {
      standardUncertainty,
      interval95: [low, high],
    } = sumOf(Array(4).fill(['normal', 1]));
    expect(standardUncertainty).toBeCloseTo(2, 1);
    expect(low).toBeCloseTo(-3.92, 1);
    expect(high).toBeCloseTo(3.92, 1);
  });

  it('adds four rectangular inputs of unit uncertainty to u = 2, ±3.88 and not ±3.92', () => {
    const {
      standardUncertainty,
      interval95: [low, high],
    } = sumOf(Array(4).fill(['rectangular', 1]));
    expect(standardUncertainty).toBeCloseTo(2, 2);
    expect((high - low) / 2).toBeCloseTo(2 * Math.sqrt(3) * (2 - 0.6 ** 0.25), 1);
  });

  it('lets one rectangular input of 10 dominate three of 1: u = 10.15, ±17.0 where a normal would claim ±19.9', () => {
    const {
      standardUncertainty,
      interval95: [low, high],
    } = sumOf([
      ['rectangular', 1],
      ['rectangular', 1],
      ['rectangular', 1],
      ['rectangular', 10],
    ]);
    expect(standardUncertainty).toBeCloseTo(10.15, 1);
    expect((high - low) / 2).toBeGreaterThan(16.8);
    expect((high - low) / 2).toBeLessThan(17.2);
  });

  it('leaves a one-sided error one-sided, with the value inside the interval', () => {
    const {
      best,
      interval95: [low, high],
    } = sumOf([['oneSided', 1]], 5);
    expect(best).toBe(5);
    expect(low).toBe(5);
    expect(high).toBeCloseTo(5 + 0.975 * Math.sqrt(12), 1);
  });

  it('agrees with the law of propagation where everything is linear', () => {
    const { budget, standardUncertainty } = sumOf([
      ['normal', 3],
      ['rectangular', 4],
    ]);
    expect(Math.hypot(...budget.map(({ contribution }) => contribution))).toBeCloseTo(5, 9);
    expect(standardUncertainty).toBeCloseTo(5, 1);
    expect(budget.map(({ contribution }) => contribution)).toEqual([4, 3]);
  });

  it('finds the exact quantiles of all draws from the tails only', () => {
    const random = createRandom('tails');
    for (const draw of [
      () => random.normal(),
      () => random.uniform(),
      () => Math.round(3 * random.normal()),
      () => 7,
      () => random.normal() ** 5,
    ]) {
      const values = Float64Array.from({ length: 20_000 }, draw);
      const [low, high] = interval95(values);
      const [exactLow, exactHigh] = quantiles(values, [0.025, 0.975]);
      expect(low).toBeCloseTo(exactLow!, 12);
      expect(high).toBeCloseTo(exactHigh!, 12);
    }
  });
});

describe('errors that are shared', () => {
  const uncertainScale: Scale = {
    id: id(901),
    name: 'one scale',
    standardUncertaintyKg: 1e-6,
    gainStandardUncertainty: 0.01,
    zeroStandardUncertaintyKg: 0.1,
  };
  const otherScale: Scale = { ...uncertainScale, id: id(902), name: 'another scale' };
  const onScales = (fuel: Scale, water: Scale): BurnRecord =>
    makeBurn({
      ...plainBurn,
      weighings: plainBurn.weighings.map((weighing) => ({
        ...weighing,
        scaleId: weighing.of === 'water' ? water.id : fuel.id,
      })) as HandMadeBurn['weighings'],
      record: {
        scales: fuel === water ? [fuel] : [fuel, water],
        fuelLots: [{ ...dryWood, moisture: { ...dryWood.moisture!, standardUncertainty: 1e-6 } }],
      },
    });
  const contribution = (record: BurnRecord, result: ResultId, input: string) =>
    Math.hypot(
      ...(found(analyse(record, { draws: 100 }), result).budget ?? [])
        .filter((entry) => entry.input === input)
        .map((entry) => entry.contribution),
    );

  it('let the gain of a scale cancel in an efficiency when water and wood are weighed on it, and not on two', () => {
    const same = contribution(onScales(uncertainScale, uncertainScale), 'thermalEfficiency', 'scale.gain');
    const two = contribution(onScales(uncertainScale, otherScale), 'thermalEfficiency', 'scale.gain');
    expect(same).toBeLessThan(two / 20);
  });

  it('let the tare cancel in what evaporated but not in the mass at the start', () => {
    const record = onScales(uncertainScale, uncertainScale);
    expect(contribution(record, 'evaporatedWater', 'scale.zero')).toBe(0);
    expect(contribution(record, 'specificFuelConsumption', 'scale.zero')).toBeGreaterThan(0);
  });

  it('let the offset of a probe cancel in a rise of temperature, but not in a moment', () => {
    const record = makeBurn({ ...plainBurn, record: { target: { kind: 'temperature', tempC: 80 } } });
    expect(contribution(record, 'sensibleEfficiency', 'probe.offset')).toBeLessThan(1e-5);
    // 0.05 K at 1 K/min is 3 s.
    expect(contribution(record, 'timeToTarget', 'probe.offset')).toBeCloseTo(3, 1);
  });

  it('have the identity of what each is shared with, so that burns can be compared', () => {
    const { budget } = found(analyse(plain, { draws: 100 }), 'dryWoodPerBatch');
    const sharing = Object.fromEntries(budget!.map(({ input, sharing, sharedId }) => [input, [sharing, sharedId]]));
    expect(sharing['fuelLot.moisture']).toEqual(['fuelLot', dryWood.id]);
    expect(sharing['fuelLot.charHeatingValue']).toEqual(['fuelLot', dryWood.id]);
    expect(sharing['weighing.char']).toEqual(['none', undefined]);
    const time = found(
      analyse(makeBurn({ ...plainBurn, record: { target: { kind: 'temperature', tempC: 80 } } }), { draws: 100 }),
      'timeToTarget',
    );
    expect(time.budget!.map(({ input, sharing: kind }) => [input, kind])).toEqual(
      expect.arrayContaining([
        ['probe.offset', 'channel'],
        ['mark.lit', 'mark'],
      ]),
    );
  });

  it('move all thermocouples of a board together through its cold junction', () => {
    const { calibration: _none, ...bare } = calibratedProbe;
    const probe = { kind: 'thermocouple' as const, type: 'K' as const, toleranceClass: '1' as const };
    const channels = [
      { ...bare, probe },
      { ...bare, id: secondProbe.id, name: 'second', probe },
    ];
    const { budget } = found(
      analyse(makeBurn({ ...plainBurn, channels, record: { target: { kind: 'temperature', tempC: 80 } } }), {
        draws: 100,
      }),
      'timeToTarget',
    );
    const cold = budget!.filter(({ input }) => input === 'board.coldJunction');
    expect(cold).toHaveLength(1);
    expect(cold[0]).toMatchObject({ sharing: 'board', sharedId: id(50) });
    // ±1 K rectangular, 1 K/min: 35 s; each probe of ±1.5 K alone has half the weight: 26 s.
    expect(cold[0]!.contribution).toBeCloseTo(60 / Math.sqrt(3), 0);
    expect(budget!.find(({ input }) => input === 'probe.offset')!.contribution).toBeCloseTo(
      (0.5 * 1.5 * 60) / Math.sqrt(3),
      0,
    );
  });
});

describe('what was assumed', () => {
  it('is listed with the result that uses it, and never replaces a stated uncertainty', () => {
    const bare = makeBurn({
      ...plainBurn,
      channels: [
        {
          ...calibratedProbe,
          calibration: undefined,
          timeConstantS: undefined,
          probe: { kind: 'thermocouple', type: 'K' },
        } as never,
      ],
      marks: [{ ...mark('lit', 300), standardUncertaintyS: undefined } as never, mark('fireOut', 7500)],
      record: {
        scales: [],
        fuelLots: [{ id: dryWood.id, name: 'wood', kind: 'wood' }],
        place: { id: id(200), name: 'yard', altitudeM: 120 },
      },
    });
    const analysis = analyse(JSON.parse(JSON.stringify(bare)), { draws: 100 });
    expect(codes(found(analysis, 'timeToBoil').defaults)).toEqual(
      expect.arrayContaining([
        'probeClass',
        'coldJunctionUncertainty',
        'probeLag',
        'singleProbe',
        'litUncertainty',
        'weather',
      ]),
    );
    expect(codes(found(analysis, 'thermalEfficiency').defaults)).toEqual(
      expect.arrayContaining(['scaleUncertainty', 'moisture', 'heatingValue', 'charHeatingValue']),
    );
    const stated = analyse(plain, { draws: 100 })
      .results.filter(hasValue)
      .flatMap(({ defaults }) => codes(defaults));
    expect(stated).not.toEqual(expect.arrayContaining(['moisture']));
    expect(
      stated.filter((code) =>
        [
          'probeClass',
          'litUncertainty',
          'scaleUncertainty',
          'heatingValue',
          'pressureUncertainty',
          'moistureUncertainty',
        ].includes(code),
      ),
    ).toEqual([]);
  });

  it('widens the interval towards the possible side: an unknown lag can only mean an earlier boil', () => {
    const { timeConstantS: _unknown, ...slow } = calibratedProbe;
    const {
      value,
      interval95: [low, high],
    } = found(analyse(makeBurn({ ...plainBurn, channels: [slow as typeof calibratedProbe] })), 'timeToBoil') as {
      value: number;
      interval95: [number, number];
    };
    expect(value - low).toBeGreaterThan(high - value);
  });
});

describe('repeating', () => {
  it('gives the same interval for the same seed and a slightly different one for another', () => {
    const interval = (seed: number) => found(analyse(plain, { draws: 5000, seed }), 'thermalEfficiency').interval95;
    expect(interval(1)).toEqual(interval(1));
    expect(interval(1)).not.toEqual(interval(2));
    expect(interval(1)![0]).toBeCloseTo(interval(2)![0], 3);
  });

  it('scales an exact burn down to almost nothing', () => {
    const fuelLots = [
      {
        ...dryWood,
        moisture: { ...dryWood.moisture!, standardUncertainty: 1e-9 },
        heatingValue: { ...dryWood.heatingValue!, standardUncertaintyMJPerKg: 1e-9 },
        standardUncertaintyCharMJPerKg: 1e-9,
      },
    ];
    const weighings = plainBurn.weighings.map((weighing) => ({
      ...weighing,
      standardUncertaintyKg: 1e-9,
    })) as HandMadeBurn['weighings'];
    const record = makeBurn({ ...plainBurn, weighings, record: { fuelLots, scales: [exactScale] } });
    expect(found(analyse(record, { draws: 2000 }), 'equivalentDryFuel').standardUncertainty!).toBeLessThan(1e-6);
  });
});
