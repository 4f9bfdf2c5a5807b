import { expect, test } from 'vitest';
import { toBurnRecord } from '../../server/simulator/burn-record.ts';
import { heronBurns } from '../../server/simulator/heron.ts';
import { simulateBurn } from '../../server/simulator/simulate-burn.ts';
import { analyse } from '../../shared/analysis/analyse.ts';
import {
  contradictionCodes,
  isContradiction,
  resultsConcerned,
  whereToLook,
} from '../../shared/analysis/messages/contradiction-codes.ts';
import { moistureContradiction } from '../../shared/analysis/plausibility/moisture.ts';
import type { Channel } from '../../shared/contract/burn-record.ts';
import { codes } from './support/asking.ts';
import {
  calibratedProbe,
  dryWood,
  type HandMadeBurn,
  makeBurn,
  mark,
  plainBurn,
  ramp,
  secondProbe,
} from './support/hand-made-burn.ts';

const reported = (burn: HandMadeBurn) => analyse(makeBurn(burn), { draws: 0 }).remarks.filter(isContradiction);
const weighedAs = (of: string, when: string, fields: object, weighings = plainBurn.weighings) =>
  weighings.map((one) => (one.of === of && one.when === when ? { ...one, ...fields } : one));
const litAt = (elapsedS: number) => plainBurn.marks.map((one) => (one.kind === 'lit' ? mark('lit', elapsedS) : one));
const wood = (moisture: object) => ({ fuelLots: [{ ...dryWood, moisture: { ...dryWood.moisture!, ...moisture } }] });

const byClass = ({ calibration: _calibration, ...channel }: Channel): Channel => ({
  ...channel,
  standardUncertainty: 0.8,
});

/** Returns water probes with these errors, K. */
function off(byK: readonly number[], change = (channel: Channel) => channel): Partial<HandMadeBurn> {
  const channels = [calibratedProbe, secondProbe].slice(0, byK.length).map(change);
  return {
    everyS: 4,
    channels,
    reads: ({ id }, t) => ramp(99.5)(t) + byK[channels.findIndex((channel) => channel.id === id)]!,
  };
}

/** Each case computed by hand from the burn of round numbers. */
const cases: readonly (readonly [string, Partial<HandMadeBurn>, readonly string[], object?])[] = [
  ['nothing of a burn that fits together', {}, []],
  [
    'water weighed at 13 °C whose probes read 85 °C at lighting',
    { waterC: ramp(99.5, 1, 300, 85), weighings: weighedAs('water', 'start', { tempC: 13 }) },
    ['waterUnlikeProbesAtLighting'],
    { weighedC: 13, probesC: 85 },
  ],
  ['water weighed 9 K cooler than it was read', { weighings: weighedAs('water', 'start', { tempC: 11 }) }, []],
  [
    'water weighed hot and lit cold',
    { weighings: weighedAs('water', 'start', { tempC: 60 }) },
    ['waterUnlikeProbesAtLighting'],
    { weighedC: 60, probesC: 20 },
  ],
  [
    'water left that is hotter than its probes read',
    { waterC: ramp(60), weighings: weighedAs('water', 'end', { tempC: 95 }) },
    ['waterHotterThanProbesAtEnd'],
    { weighedC: 95, probesC: 60 },
  ],
  // 6.65 MJ of load and some 2.3 MJ of steam, from 0.5 kg of wood at 15 % (15.4 MJ/kg) less 0.1 kg of char (2.95 MJ).
  [
    'more heat in the water than in the wood',
    {
      marks: plainBurn.marks.filter(({ kind }) => kind !== 'fed'),
      weighings: weighedAs('fuelPile', 'end', { massKg: 4.5 }),
    },
    ['efficiencyAboveAny', 'efficiencyAboveAny', 'efficiencyAboveAny'],
  ],
  [
    'water that ended colder than it began',
    {
      waterC: (s) => 60 - s / 400,
      weighings: weighedAs('water', 'end', { tempC: 41 }, weighedAs('water', 'start', { tempC: 60 })),
    },
    ['efficiencyBelowZero'],
    { result: 'sensibleEfficiency' },
  ],
  [
    'no char after two hours',
    { weighings: weighedAs('char', 'end', { massKg: 0 }) },
    ['noCharAfterHours'],
    { burntS: 7200, woodKg: 4 },
  ],
  [
    'no char after half an hour',
    {
      marks: [mark('lit', 300), mark('fireOut', 2100)],
      weighings: weighedAs('water', 'end', { tempC: 50 }, weighedAs('char', 'end', { massKg: 0 })),
    },
    [],
  ],
  [
    'a meter said to show the wet mass',
    { record: wood({ fraction: 0.2, how: 'meter' }) },
    ['moistureMeterWet'],
    { lot: 'beech', fraction: 0.2, otherwise: 1 / 6 },
  ],
  [
    'green wood that burns',
    { record: wood({ fraction: 0.5 }) },
    ['moistureWetLikeGreen'],
    { fraction: 0.5, otherwise: 1 / 3 },
  ],
  ['the same of the dry mass', { record: wood({ fraction: 0.5, basis: 'dry' }) }, []],
  ['lit ten minutes before the first reading', { marks: litAt(-600) }, ['litBeforeReadings'], { beforeS: 600 }],
  ['lit a minute before the first reading', { marks: litAt(-60) }, []],
  // 100 kPa: water boils at 99.606 °C (IAPWS-IF97), and both probes are calibrated to 0.05 K.
  ['one of two probes 3 K high', off([0, 3]), ['probeAboveBoil'], { channel: 'water, high', overK: 2.9 }],
  ['one of two probes 3 K low', off([-3, 0]), ['probeBelowBoil'], { channel: 'water', underK: 3.1 }],
  ['both probes 3 K high', off([3, 3.1]), ['waterAboveBoil'], { overK: 2.9, boilingTempC: 99.6 }],
  ['the only probe 3 K high', off([3]), ['waterAboveBoil'], { overK: 2.9 }],
  ['two probes that are off by what their class allows', off([1.4, -1.4], byClass), []],
  ['one probe 3.9 K high that is known to 0.8 K, beside a sound one', off([0, 3.9], byClass), ['probeAboveBoil']],
];

test.each(cases.map(([what, change, expected, params = {}]) => ({ what, change, expected, params })))(
  'returns $expected for $what',
  ({ change, expected, params }) => {
    const found = reported({ ...plainBurn, ...change });
    expect(codes(found)).toEqual(expected);
    for (const [name, value] of Object.entries(params)) {
      const param = found[0]!.params[name];
      if (typeof value === 'number') expect(param).toBeCloseTo(value, value < 1 ? 3 : 0);
      else expect(param).toBe(value);
    }
  },
);

test('contradictions do not change any result', () => {
  for (const [, change] of cases) {
    for (const { id, ...result } of analyse(makeBurn({ ...plainBurn, ...change }), { draws: 0 }).results) {
      expect(['remarks' in result && result.remarks.some(isContradiction), id]).toEqual([false, id]);
    }
  }
});

test('the finished burns of the demonstration have no contradictions', () => {
  for (const { scenario, seed, errors, description } of heronBurns()) {
    const coarse = { ...scenario, timing: { ...scenario.timing, readingEveryS: 30 } };
    const record = toBurnRecord(simulateBurn(coarse, seed, errors), description);
    expect(analyse(record, { draws: 0 }).remarks.filter(isContradiction)).toEqual([]);
  }
});

test('every contradiction lists the results it makes doubtful, and where to look', () => {
  for (const code of contradictionCodes) {
    const params = code.startsWith('efficiency') ? { result: 'thermalEfficiency' } : {};
    expect(resultsConcerned({ code, params }).length).toBeGreaterThan(0);
    expect(whereToLook({ code, params }).length).toBeGreaterThan(0);
  }
});

test('moisture on dry basis, and from an oven on either basis, is accepted as entered', () => {
  const moisture = { fraction: 0.22, how: 'ovenDry', basis: 'wet' } as const;
  expect(moistureContradiction('oak', moisture)).toBeUndefined();
  expect(moistureContradiction('oak', { ...moisture, how: 'meter', basis: 'dry' })).toBeUndefined();
});
