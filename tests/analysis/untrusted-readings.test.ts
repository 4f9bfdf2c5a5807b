import { describe, expect, it } from 'vitest';
import { analyse } from '../../shared/analysis/analyse.ts';
import type { BurnRecord } from '../../shared/contract/burn-record.ts';
import type { Flag } from '../../shared/contract/results.ts';
import { createRandom } from '../../shared/statistics/random.ts';
import { resultValue } from './support/asking.ts';
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

const random = createRandom('readings with noise');
const noise = Array.from({ length: 20_000 }, () => 0.05 * random.normal());
const noisy = (t: number) => ramp(99.5)(t) + noise[Math.abs(Math.floor(t)) % noise.length]!;
const two = [calibratedProbe, secondProbe];
const boil = (99.606 - 0.5 - 20) * 60;

function flagsOf(record: BurnRecord, channelId = calibratedProbe.id): Flag[] {
  return analyse(record, { draws: 0 }).flags.filter((flag) => flag.channelId === channelId);
}

function burn(change: Partial<HandMadeBurn>): BurnRecord {
  return makeBurn({ ...plainBurn, waterC: noisy, ...change });
}

/** One probe has faulty readings between two moments; the others read the water. */
function spoilt(fromS: number, toS: number, reading: (t: number) => number | null, channels = two): BurnRecord {
  const reads = (channel: { id: string }, t: number) =>
    channel.id === calibratedProbe.id && t >= fromS && t < toS ? reading(t) : noisy(t);
  return burn({ channels, reads });
}

describe('untrusted readings', () => {
  it('do not occur with a good probe', () => {
    expect(flagsOf(burn({ channels: two }))).toEqual([]);
    expect(flagsOf(burn({ channels: two }), secondProbe.id)).toEqual([]);
  });

  it('are flagged as open, shorted, out of range or absent, as the board reports', () => {
    const record = burn({});
    const column = record.readings[0]!.columns[0]!;
    const withFaults: BurnRecord = {
      ...record,
      readings: [
        {
          ...record.readings[0]!,
          columns: [
            {
              ...column,
              counts: column.counts.map((count, at) => (at >= 1000 && at < 1040 ? null : count)),
              faults: [
                ...Array.from({ length: 10 }, (_, at): [number, 'open'] => [1000 + at, 'open']),
                ...Array.from({ length: 10 }, (_, at): [number, 'shortToGround'] => [1010 + at, 'shortToGround']),
                ...Array.from({ length: 10 }, (_, at): [number, 'outOfRange'] => [1020 + at, 'outOfRange']),
              ],
            },
          ],
        },
      ],
    };
    expect(flagsOf(withFaults)).toEqual([
      { channelId: calibratedProbe.id, code: 'open', fromS: 1000, toS: 1009 },
      { channelId: calibratedProbe.id, code: 'shorted', fromS: 1010, toS: 1019 },
      { channelId: calibratedProbe.id, code: 'outOfRange', fromS: 1020, toS: 1029 },
      { channelId: calibratedProbe.id, code: 'gap', fromS: 1030, toS: 1039 },
    ]);
  });

  it('are spikes where a single reading differs from its neighbours, and do not affect the results', () => {
    const reads = (_channel: unknown, t: number) => noisy(t) + (t % 97 === 0 ? (t % 2 === 0 ? 60 : -40) : 0);
    const record = burn({ reads });
    expect(new Set(flagsOf(record).map(({ code }) => code))).toEqual(new Set(['spike']));
    expect(Math.abs(resultValue(record, 'timeToBoil') - boil)).toBeLessThan(5);
  });

  it('are stuck where a noisy probe suddenly repeats one value for minutes', () => {
    const [flag] = flagsOf(spoilt(2000, 2600, () => 48.333));
    expect(flag).toMatchObject({ code: 'stuck' });
    expect(flag!.fromS).toBeGreaterThanOrEqual(1999);
    expect(flag!.toS).toBeLessThanOrEqual(2600);
  });

  it('are not stuck when a coarse probe stays on one count in the boil', () => {
    const coarse = { ...calibratedProbe, scale: 0.5 };
    expect(flagsOf(burn({ channels: [coarse], waterC: ramp(99.5) }))).toEqual([]);
  });

  it('are out of the water when they read hotter than water can be', () => {
    expect(flagsOf(spoilt(6000, 6300, (t) => noisy(t) + 4.5)).map(({ code }) => code)).toContain('outOfWater');
  });

  it('are out of the water when they fall faster than a pot can, without a mark that explains it', () => {
    const air = (t: number) => 35 + 4 * Math.sin(t / 40);
    const record = spoilt(3000, 3900, air);
    const [flag] = flagsOf(record);
    expect(flag).toMatchObject({ code: 'outOfWater' });
    expect(flag!.fromS).toBeGreaterThan(2900);
    expect(flag!.toS).toBeLessThan(4000);
    expect(Math.abs(resultValue(record, 'timeToBoil') - boil)).toBeLessThan(8);
  });

  it('are trusted when a mark explains the fall', () => {
    const cooled = (t: number) =>
      t < 3000 ? noisy(t) : noisy(t) - 4 * (Math.exp(-(t - 3000) / 900) - Math.exp(-(t - 3000) / 10));
    const marks = [...plainBurn.marks, mark('waterIn', 2995, { massKg: 2, tempC: 15 })];
    expect(flagsOf(burn({ waterC: cooled, marks }))).toEqual([]);
  });

  it('exclude one probe for good, while the other continues', () => {
    const air = (t: number) => 38 + 5 * Math.sin(t / 30) + 2 * Math.sin(t / 7);
    const record = spoilt(2100, 99_999, air);
    const { excludedShare } = analyse(record, { draws: 0 });
    expect(excludedShare[calibratedProbe.id]).toBeGreaterThan(0.6);
    expect(excludedShare[secondProbe.id]).toBe(0);
    expect(Math.abs(resultValue(record, 'timeToBoil') - boil)).toBeLessThan(10);
  });

  it('are left out where a person excludes them, and for half a minute after a probe is moved', () => {
    const exclusions = [
      { id: id(700), channelId: calibratedProbe.id, fromUs: 1000e6, toUs: 1100e6, reason: 'lid knocked it' },
    ];
    const marks = [...plainBurn.marks, mark('probeMoved', 2000, { channelId: calibratedProbe.id })];
    const flags = flagsOf(burn({ marks, record: { exclusions } }));
    expect(flags.map(({ code }) => code)).toEqual(['excluded', 'moved']);
  });

  it('are a gap where there is no scan', () => {
    const record = burn({});
    const usable = (at: number) => at < 3000 || at > 3200;
    const thinned: BurnRecord = {
      ...record,
      readings: record.readings.map((block) => ({
        ...block,
        elapsedUs: block.elapsedUs.filter((_, at) => usable(at)),
        columns: block.columns.map((column) => ({ ...column, counts: column.counts.filter((_, at) => usable(at)) })),
      })),
    };
    expect(flagsOf(thinned)).toEqual([{ channelId: calibratedProbe.id, code: 'gap', fromS: 2999, toS: 3201 }]);
  });

  it('never change the record', () => {
    const record = spoilt(3000, 3900, () => 35);
    const before = JSON.stringify(record);
    analyse(record, { draws: 10 });
    expect(JSON.stringify(record)).toBe(before);
  });
});

describe('raw voltages', () => {
  it('become temperatures by adding the voltage of the cold junction', () => {
    // Type K (NIST monograph 175): 4.096 mV at a cold junction of 25 °C is 124.31 °C; the flue gas probe may read that.
    const cold = { ...calibratedProbe, id: id(120), name: 'cold', role: 'coldJunction' as const };
    const raw = {
      id: id(121),
      boardId: id(50),
      name: 'flue',
      role: 'flue' as const,
      unit: 'uV' as const,
      scale: 1,
      probe: { kind: 'thermocouple' as const, type: 'K' as const },
      coldJunctionChannelId: cold.id,
    };
    const oxygen = {
      id: id(122),
      boardId: id(50),
      name: 'O2',
      role: 'oxygen' as const,
      unit: '%' as const,
      scale: 0.01,
    };
    const reads = (channel: { role: string }, t: number) =>
      channel.role === 'coldJunction'
        ? 25
        : channel.role === 'flue'
          ? 4096
          : channel.role === 'oxygen'
            ? 11
            : ramp(99.5)(t);
    const record = burn({ channels: [calibratedProbe, cold, raw, oxygen], reads, record: { airTempC: 24.31 } });
    // Siegert with a1 = 0.65 for dry wood and 20.3 % of CO2 at most: 100 K at 9.62 % CO2.
    expect(resultValue(record, 'stackLoss')).toBeCloseTo((0.65 * 100) / 9.616 / 100, 3);
  });
});

describe('setting up before lighting', () => {
  it('may move a probe from the air into the water without spoiling it', () => {
    const reads = (_channel: unknown, t: number) => (t < 120 ? 31 : noisy(t));
    const record = burn({ reads });
    expect(flagsOf(record).filter(({ code }) => code === 'outOfWater')).toEqual([]);
    expect(Math.abs(resultValue(record, 'timeToBoil') - boil)).toBeLessThan(5);
  });
});
