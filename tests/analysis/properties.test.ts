import { describe, expect, it } from 'vitest';
import { analyse } from '../../shared/analysis/analyse.ts';
import type { BurnRecord } from '../../shared/contract/burn-record.ts';
import { hasValue } from '../../shared/contract/has-value.ts';
import type { ResultId } from '../../shared/contract/results.ts';
import fc from '../support/properties.ts';
import { resultValue } from './support/asking.ts';
import {
  calibratedProbe,
  type HandMadeBurn,
  makeBurn,
  mark,
  plainBurn,
  secondProbe,
} from './support/hand-made-burn.ts';

/** A pot with a slow start, a varying heating rate and a gradual end; smooth, as a mass of water is. */
function pot(rateKPerMin: number, wanderK: number) {
  return (t: number) => {
    const since = Math.max(0, t - 300);
    const climb = 20 + (since - 200 * (1 - Math.exp(-since / 200))) * (rateKPerMin / 60);
    const wander = wanderK * Math.sin(since / 300) * Math.min(1, since / 600);
    const straight = climb + wander;
    // From 97 °C on the curve approaches 99.5 °C exponentially.
    return straight < 97 ? straight : 99.5 - 2.5 * Math.exp(-(straight - 97) / 2.5);
  };
}

const pots = fc.record({
  rateKPerMin: fc.double({ min: 0.7, max: 1.6, noNaN: true }),
  wanderK: fc.double({ min: 0, max: 1, noNaN: true }),
});
const burnOf = (
  { rateKPerMin, wanderK }: { rateKPerMin: number; wanderK: number },
  change: Partial<HandMadeBurn> = {},
) => makeBurn({ ...plainBurn, waterC: pot(rateKPerMin, wanderK), ...change });

const timed: ResultId[] = ['timeToTarget', 'meanHeatingRate', 'meanUsefulPower', 'thermalEfficiency', 'cookingPower'];

function expectAlike(a: BurnRecord, b: BurnRecord, relative: number, ids: readonly ResultId[] = timed): void {
  const [first, second] = [a, b].map((record) => analyse(record, { draws: 0 }).results);
  for (const id of ids) {
    const [one, other] = [first, second].map((results) => results!.find((result) => result.id === id)!);
    expect(hasValue(one!)).toBe(hasValue(other!));
    if (hasValue(one!) && hasValue(other!)) expect(Math.abs(other.value / one.value - 1)).toBeLessThan(relative);
  }
}

const runs = { numRuns: 12 };

describe('results do not depend', () => {
  it('on how often the board was read', () => {
    fc.assert(
      fc.property(pots, fc.constantFrom(2, 5, 10), (shape, everyS) => {
        expectAlike(burnOf(shape), burnOf(shape, { everyS }), 0.003);
      }),
      runs,
    );
  });

  it('on a board that is read ten times a second', () => {
    expectAlike(
      burnOf({ rateKPerMin: 1, wanderK: 0.3 }),
      burnOf({ rateKPerMin: 1, wanderK: 0.3 }, { everyS: 0.1 }),
      0.002,
    );
  });

  it('on when recording began', () => {
    fc.assert(
      fc.property(pots, fc.integer({ min: -200, max: 90_000 }), (shape, shiftS) => {
        const record = burnOf(shape);
        const shifted: BurnRecord = {
          ...record,
          readings: record.readings.map((block) => ({
            ...block,
            elapsedUs: block.elapsedUs.map((us) => us + shiftS * 1e6),
          })),
          marks: record.marks.map((item) => ({ ...item, elapsedUs: item.elapsedUs + shiftS * 1e6 })),
        };
        expectAlike(record, shifted, 1e-6);
      }),
      runs,
    );
  });

  it('on the order of probes, lots, marks and weighings', () => {
    const channels = [calibratedProbe, secondProbe];
    const reads = (channel: { id: string }, t: number) => pot(1, 0.5)(t) + (channel.id === secondProbe.id ? 0.2 : 0);
    const record = makeBurn({ ...plainBurn, channels, reads });
    const turned: BurnRecord = {
      ...record,
      channels: record.channels.toReversed(),
      marks: record.marks.toReversed(),
      weighings: record.weighings.toReversed(),
      readings: record.readings.map((block) => ({ ...block, columns: block.columns.toReversed() })),
    };
    expectAlike(record, turned, 1e-9);
  });

  it('on whether two probes are on one board or on two whose scans do not coincide', () => {
    const channels = [calibratedProbe, secondProbe];
    const record = makeBurn({ ...plainBurn, channels, waterC: pot(1, 0.4) });
    const [block] = record.readings;
    const [first, second] = block!.columns;
    const later = block!.elapsedUs.map((us) => us + 370_000);
    const two: BurnRecord = {
      ...record,
      readings: [
        { ...block!, columns: [first!] },
        {
          ...block!,
          elapsedUs: later,
          columns: [{ ...second!, counts: later.map((us) => Math.round(pot(1, 0.4)(us / 1e6) / secondProbe.scale)) }],
        },
      ],
    };
    expectAlike(record, two, 1e-3);
  });
});

describe('energy', () => {
  it('is additive: heat until a moment and after it is the heat of the whole', () => {
    fc.assert(
      fc.property(pots, fc.integer({ min: 1500, max: 6500 }), (shape, splitS) => {
        const until = (endS: number, startS = 300) => {
          const marks = [mark('lit', startS), mark('fireOut', endS)];
          const record = burnOf(shape, { marks });
          const found = analyse(record, { draws: 0 }).results.find(({ id }) => id === 'sensibleEfficiency')!;
          return hasValue(found) ? found.working.steps.find(({ name }) => name === 'loadMJ')!.value : Number.NaN;
        };
        // Temperatures at an edge are means over some seconds: 0.04 MJ is half a kelvin, 0.6 % of the whole.
        expect(Math.abs(until(7500) - until(splitS) - until(7500, splitS))).toBeLessThan(0.04);
      }),
      runs,
    );
  });

  it('gives an efficiency that rises with the water and falls with the wood', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.1, max: 3, noNaN: true }), (moreKg) => {
        const weigh = (of: string, when: string) =>
          makeBurn({
            ...plainBurn,
            weighings: plainBurn.weighings.map((weighing) =>
              weighing.of === of && weighing.when === when
                ? { ...weighing, massKg: (weighing.massKg ?? 0) + moreKg }
                : weighing,
            ) as HandMadeBurn['weighings'],
          });
        const plain = resultValue(makeBurn(plainBurn), 'thermalEfficiency');
        expect(resultValue(weigh('water', 'start'), 'thermalEfficiency')).toBeGreaterThan(plain);
        expect(resultValue(weigh('fuelPile', 'start'), 'thermalEfficiency')).toBeLessThan(plain);
      }),
      runs,
    );
  });
});
