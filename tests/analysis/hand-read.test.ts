import { describe, expect, it } from 'vitest';
import { analyse } from '../../shared/analysis/analyse.ts';
import { channelCurves } from '../../shared/analysis/curves/channel-curve.ts';
import { straightLines } from '../../shared/analysis/curves/straight-lines.ts';
import { waterCurve } from '../../shared/analysis/curves/water-curve.ts';
import { createLiveBurn } from '../../shared/analysis/live/live-burn.ts';
import { trustedCurves } from '../../shared/analysis/quantities/trusted-curves.ts';
import { readingLimits } from '../../shared/analysis/reading-limits.ts';
import type { BurnRecord, Channel } from '../../shared/contract/burn-record.ts';
import { hasValue } from '../../shared/contract/has-value.ts';
import type { Mark } from '../../shared/contract/marks.ts';
import type { ResultId } from '../../shared/contract/results.ts';
import fc from '../support/properties.ts';
import { calibratedProbe, id, makeBurn, mark, plainBurn, ramp } from './support/hand-made-burn.ts';

const dial: Channel = {
  id: id(110),
  name: 'dial',
  role: 'water',
  unit: 'Cel',
  scale: 0.001,
  handRead: true,
  standardUncertainty: 1,
  noiseStandardDeviation: 1 / Math.sqrt(12),
};

/** The plain burn, with its water read from a dial at these minutes. */
function readAt(minutes: readonly number[], waterC = plainBurn.waterC, more: Partial<BurnRecord> = {}): BurnRecord {
  const record = makeBurn({ ...plainBurn, channels: [] });
  return {
    ...record,
    channels: [dial],
    readings: [
      {
        elapsedUs: minutes.map((minute) => minute * 60e6),
        columns: [
          { channelId: dial.id, counts: minutes.map((minute) => Math.round(waterC(minute * 60) / dial.scale)) },
        ],
      },
    ],
    ...more,
  };
}

const every = (stepMin: number, toMin = 125) =>
  Array.from({ length: Math.floor(toMin / stepMin) + 1 }, (_, index) => index * stepMin);
const water = (record: BurnRecord) => waterCurve(trustedCurves(record).map(({ curve }) => curve))!;

function resultOf(record: BurnRecord, wanted: ResultId) {
  const result = analyse(record, { draws: 2000 }).results.find((each) => each.id === wanted)!;
  if (!hasValue(result)) throw new Error(`${wanted} is missing: ${result.missing.code}`);
  return result;
}

describe('readings of a person', () => {
  it('have no gaps when some of them are a minute apart and others a quarter of an hour', () => {
    const record = readAt([0, 4, 19, 34, 49, 64, 79, 80, 81, 82, 83, 84, 85, 86, 87, 88, 103, 118]);
    expect(water(record).segments).toHaveLength(1);
    expect(analyse(record, { draws: 100 }).flags).toEqual([]);
    // The same scans of a board are gaps between dense stretches.
    const { handRead: _, ...sent } = dial;
    expect(water({ ...record, channels: [sent] }).segments.length).toBeGreaterThan(1);
  });

  it('have a gap where there is no reading for more than twenty minutes', () => {
    const { segments, timeS } = water(readAt([...every(5, 30), ...every(5, 125).filter((minute) => minute >= 60)]));
    expect(segments.map(({ from, to }) => [timeS[from]! / 60, timeS[to - 1]! / 60])).toEqual([
      [0, 30],
      [60, 125],
    ]);
  });

  it('are interpolated without smoothing: the corner at the boil is not rounded off', () => {
    const { timeS, tempC } = water(readAt(every(5)));
    expect([...tempC]).toEqual([...timeS].map((atS) => expect.closeTo(plainBurn.waterC(atS), 3)));
  });

  it.each([1, 2, 5, 10])(
    'every %d min find the boil, with an interval that covers the pause between two readings',
    (stepMin) => {
      // Lit at 5 min at 20 °C, 1 K/min: at 99.106 °C, half a kelvin below the boil of 100 kPa, after 79.106 min.
      const trueS = 79.106 * 60;
      const exact = { ...dial, standardUncertainty: 0.05, noiseStandardDeviation: 0.01, timeConstantS: 1e-3 };
      const record = { ...readAt(every(stepMin)), channels: [exact] };
      const { value, interval95, remarks } = resultOf(record, 'timeToBoil');
      expect(Math.abs(value - trueS)).toBeLessThan(stepMin * 60);
      expect(interval95![0]).toBeLessThan(trueS);
      expect(interval95![1]).toBeGreaterThan(trueS);
      // A rectangular distribution as wide as the pause has 95 % within 0.95 of its width; the other uncertainties add
      // to it.
      expect(interval95![1] - interval95![0]).toBeGreaterThan(0.9 * stepMin * 60);
      expect(remarks?.some(({ code }) => code === 'crossingBetweenReadings')).toBe(true);
    },
  );

  it('begin with the one before lighting, even if it is minutes old', () => {
    const record = readAt([
      1, 7, 12, 17, 22, 27, 32, 37, 42, 47, 52, 57, 62, 67, 72, 77, 82, 87, 92, 97, 102, 107, 112,
    ]);
    // 20 kg from 20 °C to the boil: about 79 K over 79 min, 1 K/min · 20 kg · 4.19 kJ/(kg·K) / 60 s = 1.4 kW.
    const { value } = resultOf(record, 'meanUsefulPower');
    expect(value).toBeGreaterThan(1300);
    expect(value).toBeLessThan(1480);
  });

  it('count in a hold by linear interpolation: one low reading is a drop of minutes', () => {
    const dipsAtMin = 100;
    const waterC = (elapsedS: number) => (elapsedS === dipsAtMin * 60 ? 95 : ramp(99.5)(elapsedS));
    const hold = { durationS: 1800, onDrop: 'pause' as const };
    const stored = analyse(readAt(every(5), ramp(99.5), { hold }), { draws: 200 });
    const dropped = analyse(readAt(every(5), waterC, { hold }), { draws: 200 });
    const below = (analysis: typeof stored) => {
      const result = analysis.results.find((each) => each.id === 'holdBelowTarget')!;
      return hasValue(result) ? result.value : Number.NaN;
    };
    expect(below(stored)).toBe(0);
    // Down from 99.5 to 95 °C and back in ten minutes: below the floor of 97.6 °C for (97.6 − 95)/4.5 of them, 5.8 min.
    expect(below(dropped) / 60).toBeGreaterThan(4);
    expect(below(dropped) / 60).toBeLessThan(7);
  });

  it('do not give the recovery after a feed', () => {
    const { results } = analyse(readAt(every(5)), { draws: 100 });
    expect(results.find((each) => each.id === 'recoveryAfterFeed')).toMatchObject({
      missing: { code: 'readingsTooFarApart', params: { apartS: 300 } },
    });
  });

  it('do not count where a board reads the same water, unless the board stopped early', () => {
    const both = (boardToS: number): BurnRecord => {
      const board = makeBurn({ ...plainBurn, toS: boardToS, channels: [calibratedProbe] });
      const byHand = readAt(every(5), (elapsedS) => plainBurn.waterC(elapsedS) - 3);
      return { ...board, channels: [calibratedProbe, dial], readings: [...board.readings, ...byHand.readings] };
    };
    expect(water(both(7500)).channels).toEqual([calibratedProbe]);
    expect(water(both(1200)).channels).toEqual([dial]);
  });
});

describe('the lines between readings', () => {
  it('pass through every reading, stay between neighbours, and do not cross a longer pause', () => {
    const readings = fc.array(
      fc.record({ stepS: fc.integer({ min: 1, max: 3000 }), tempC: fc.double({ min: -5, max: 105, noNaN: true }) }),
      { minLength: 1, maxLength: 40 },
    );
    fc.assert(
      fc.property(readings, (steps) => {
        let atS = 0;
        const timeS = steps.map(({ stepS }) => (atS += stepS));
        const tempC = steps.map((step) => step.tempC);
        const joined = straightLines({ timeS, tempC, bridgeS: 1200 });
        for (const [place, moment] of timeS.entries()) {
          expect(joined.tempC[joined.timeS.indexOf(moment)]).toBe(tempC[place]);
        }
        for (let index = 1; index < joined.timeS.length; index++) {
          const [fromS, toS] = [joined.timeS[index - 1]!, joined.timeS[index]!];
          expect(toS).toBeGreaterThan(fromS);
          if (toS - fromS > 30) expect(toS - fromS).toBeGreaterThan(1200);
        }
        expect(Math.max(...joined.tempC)).toBeLessThanOrEqual(Math.max(...tempC) + 1e-9);
        expect(Math.min(...joined.tempC)).toBeGreaterThanOrEqual(Math.min(...tempC) - 1e-9);
      }),
    );
  });
});

describe('a running burn read by hand', () => {
  const setup = makeBurn({
    ...plainBurn,
    everyS: 600,
    channels: [dial],
    record: { hold: { durationS: 1800, onDrop: 'pause' } },
  });
  const reported = (...list: object[]) => list.map((item, at) => ({ ...item, id: id(1000 + at) })) as Mark[];
  const reading = (minute: number, value: number) => mark('reading', minute * 60, { channelId: dial.id, value });

  it('shows the last reading until the next one, in any order of arrival, and removes a withdrawn one', () => {
    const live = createLiveBurn(setup);
    live.pass(20 * 60e6);
    live.marks(reported(mark('lit', 300), reading(15, 30), reading(10, 25)));
    expect(live.estimate()).toMatchObject({ waterTempC: 30, waterReadUs: 15 * 60e6, elapsedUs: 20 * 60e6 });
    expect(live.estimate().rateKPerMin).toBeCloseTo(1, 9);
    live.marks(reported(mark('lit', 300), reading(10, 25)));
    expect(live.estimate()).toMatchObject({ waterTempC: 25, waterReadUs: 10 * 60e6 });
    expect(live.estimate().rateKPerMin).toBeUndefined();
  });

  it('counts the hold on the lines between readings and for ten minutes beyond the last', () => {
    const live = createLiveBurn(setup);
    live.marks(reported(mark('lit', 300), reading(80, 99.5), reading(85, 99.5)));
    const countedAt = (minute: number) => {
      live.pass(minute * 60e6);
      return live.estimate().hold!;
    };
    expect(countedAt(90)).toMatchObject({ state: 'counting', countedS: expect.closeTo(600, 0) });
    expect(countedAt(110).countedS).toBeCloseTo(900, 0);
    live.marks(
      reported(mark('lit', 300), reading(80, 99.5), reading(85, 99.5), reading(101, 99.5), reading(112, 99.5)),
    );
    expect(countedAt(112).state).toBe('done');
  });
});

it('the limits of a reading are slightly below ice and above the boil for water, and up to glowing iron for a flue', () => {
  expect(readingLimits({ role: 'water', unit: 'Cel' })).toEqual({ low: -5, high: 110 });
  expect(readingLimits({ role: 'flue', unit: 'Cel' }).high).toBeGreaterThan(1000);
  expect(readingLimits({ role: 'stationPressure', unit: 'Pa' })).toEqual({ low: 30_000, high: 110_000 });
  expect(channelCurves(readAt([0, 5]))).toHaveLength(1);
});
