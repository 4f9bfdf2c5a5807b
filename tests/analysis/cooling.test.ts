import { describe, expect, it } from 'vitest';
import { coolingCases, coolingClaims, tallyCoolings } from '../../scripts/study/readings/coolings.ts';
import { analyse } from '../../shared/analysis/analyse.ts';
import { type BurnRecord, methodSets } from '../../shared/contract/burn-record.ts';
import { hasValue } from '../../shared/contract/has-value.ts';
import { found, whyMissing } from './support/asking.ts';
import { calibratedProbe, makeBurn, mark, plainBurn, ramp } from './support/hand-made-burn.ts';

/** Fire out and pot off at 7500 s; the pot then cools as exp(−t/τ) towards air of 20 °C. */
const TIME_CONSTANT_S = 9000;
const cooled = (lastsS: number) =>
  makeBurn({
    ...plainBurn,
    everyS: 5,
    toS: 7500 + lastsS,
    channels: [calibratedProbe],
    waterC: (atS) => (atS < 7500 ? ramp(99.5)(atS) : 20 + 79.5 * Math.exp(-(atS - 7500) / TIME_CONSTANT_S)),
    marks: [...plainBurn.marks, mark('potOff', 7500)],
  });

it('the time constant and the loss coefficient follow from a pot that cools off the fire, with the uncertainty of the air', () => {
  const analysis = analyse(cooled(3600), { draws: 20_000 });
  const timeConstant = found(analysis, 'coolingTimeConstant');
  expect(timeConstant.value).toBeGreaterThan(0.995 * TIME_CONSTANT_S);
  expect(timeConstant.value).toBeLessThan(1.005 * TIME_CONSTANT_S);
  expect(timeConstant.interval95![0]).toBeLessThan(TIME_CONSTANT_S);
  expect(timeConstant.interval95![1]).toBeGreaterThan(TIME_CONSTANT_S);
  expect(timeConstant.budget![0]!.input).toBe('air.temperature');
  // Newton's law: UA = C/τ; 19 kg of water of 4190 J/(kg·K).
  const lossCoefficient = found(analysis, 'lossCoefficient');
  expect(lossCoefficient.value).toBeCloseTo((19 * 4190) / timeConstant.value, 6);
  expect(lossCoefficient.unit).toBe('W/K');
});

it('a pot that cools for less than twenty minutes gives no loss', () => {
  expect(whyMissing(cooled(900), 'lossCoefficient')).toBe('noCooling');
  expect(whyMissing(makeBurn(plainBurn), 'coolingTimeConstant')).toBe('noCooling');
});

describe('a cooling run recorded by itself, with neither lighting nor fuel', () => {
  const run = (weighings: Parameters<typeof makeBurn>[0]['weighings'], lastsS = 1800, marked = [mark('lidOn', 5)]) =>
    makeBurn({
      ...plainBurn,
      everyS: 5,
      toS: lastsS,
      channels: [calibratedProbe],
      waterC: (atS) => 20 + 75 * Math.exp(-atS / TIME_CONSTANT_S),
      marks: marked,
      weighings,
      record: { purpose: 'cooling', fuelLots: [] },
    });
  const water = (when: 'start' | 'end', massKg: number) => [{ of: 'water', when, massKg } as const];

  it.each(methodSets)('has the results of the cooling with their uncertainty, and no others: %s', (method) => {
    const { results, heat, remarks } = analyse(run(water('start', 20)), { method, draws: 4000 });
    const values = results.filter(hasValue);
    expect(values.map(({ id }) => id)).toEqual(['coolingTimeConstant', 'lossCoefficient']);
    expect(values.every(({ standardUncertainty }) => standardUncertainty! > 0)).toBe(true);
    expect(values[0]!.value).toBeGreaterThan(0.995 * TIME_CONSTANT_S);
    expect(values[0]!.value).toBeLessThan(1.005 * TIME_CONSTANT_S);
    // Newton's law: UA = C/τ; 20 kg of water of 4190 J/(kg·K).
    expect(values[1]!.value).toBeCloseTo((20 * 4190) / values[0]!.value, 6);
    expect(
      results
        .filter((result) => !hasValue(result))
        .every((result) => 'missing' in result && result.missing.code === 'nothingBurnt'),
    ).toBe(true);
    expect([heat, remarks]).toEqual([undefined, []]);
  });

  it('allows for evaporation before or after the weighing, less under a lid', () => {
    const reach = (record: BurnRecord) => {
      const { value, interval95, budget } = found(analyse(record, { draws: 20_000 }), 'lossCoefficient');
      const steamed = budget!.find(({ input }) => input === 'water.steamedCooling')!;
      return { value, low: value - interval95![0], high: interval95![1] - value, steamed };
    };
    const covered = reach(run(water('start', 20)));
    const open = reach(run(water('start', 20), 1800, [mark('lidOff', 5)]));
    const after = reach(run(water('end', 20), 1800, [mark('lidOff', 5)]));
    // 20 kg that fall by 75·(1 − e^−0.2) = 13.6 K lose 1.14 MJ: at most 0.50 kg of steam at 2.27 MJ/kg, half of it on
    // average.
    expect(open.steamed.contribution / open.value).toBeCloseTo(0.5 / 2 / Math.sqrt(12) / 20, 3);
    expect(covered.steamed.contribution).toBeLessThan(0.3 * open.steamed.contribution);
    expect([open.steamed.sign, after.steamed.sign]).toEqual([-1, 1]);
    expect(after.high).toBeGreaterThan(open.high);
  });

  it('returns a reason when data are missing', () => {
    expect(whyMissing(run(water('start', 20), 900), 'lossCoefficient')).toBe('noCooling');
    expect(whyMissing(run([]), 'lossCoefficient')).toBe('waterNotWeighedBefore');
    expect(whyMissing(run([]), 'coolingTimeConstant')).toBeUndefined();
    // The pot was hot for twenty minutes only: then it was on the fire again.
    const back = run(water('start', 20), 2400, [mark('potOff', 5), mark('potOn', 600)]);
    expect(whyMissing(back, 'coolingTimeConstant')).toBe('noCooling');
  });
});

/** The small version of `npm run study -- readings`, with fixed seeds. */
it.each(coolingCases.map((each) => ({ ...each })))('the interval contains the loss of the pot: $name', (each) => {
  expect(coolingClaims(each, tallyCoolings(each, 20, 1000))).toEqual([]);
});
