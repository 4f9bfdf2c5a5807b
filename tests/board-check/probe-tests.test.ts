import { expect, test } from 'vitest';
import { scanValues } from '../../server/readings/scan-values.ts';
import { allowedErrorK } from '../../shared/board-check/allowed-error.ts';
import { localBoilingPoint } from '../../shared/board-check/boiling-point.ts';
import type { CheckedChannel } from '../../shared/board-check/probe-scan.ts';
import { createProbeTests } from '../../shared/board-check/probe-tests.ts';
import type { ProbeTestKind } from '../../shared/contract/board-check.ts';
import type { Channel } from '../../shared/contract/burn-record.ts';
import { at, type Course, checked, checkedChannel, moving, wavering } from './probe-scans.ts';

const low = checkedChannel('low');
const high = checkedChannel('high');
const pair = [low, high];
const pt100 = (toleranceClass: 'AA' | 'A' | 'B' | 'C') =>
  checkedChannel('platinum', { probe: { kind: 'resistance', nominalOhm: 100, toleranceClass } });
const place = { id: low.channel.id, name: 'Dye yard' };
/** Water boils at 99.61 °C there. */
const yard = { ...place, stationPressurePa: 100_000 };

/** Returns the outcome of a test of probe 1 of two. */
function outcome(kind: ProbeTestKind, first: Course, second: Course = at(21), untilS = 400): string[] {
  const { of } = checked(pair, [first, second], { test: [0, kind], untilS, place: yard });
  return of(0).filter((each) => !/probe\/(reads|fault|no-temperature|stands-for-none)$/.test(each));
}

test.each<[name: string, kind: ProbeTestKind, first: Course, second: Course, expected: string]>([
  ['a probe that a hand warms', 'hand', moving(21, 31, 35), at(21), 'good probe/hand-passed'],
  ['wires exchanged', 'hand', moving(21, 12, 35), at(21), 'bad probe/hand-falls'],
  ['a dead probe', 'hand', at(21), at(21), 'bad probe/hand-nothing'],
  ['the other probe in the hand', 'hand', at(21), moving(21, 31, 35), 'bad probe/other-moved'],
  ['a yard as warm as a hand', 'hand', moving(33, 32.5, 35), at(33), 'doubtful probe/hand-too-warm'],
  ['a fault when pulled', 'fault', (s) => (s < 40 ? 21 : 'open'), at(21), 'good probe/pull-passed'],
  ['a number that stays', 'fault', at(21), at(21), 'bad probe/pull-unseen'],
  ['a number for no probe', 'fault', (s) => (s < 40 ? 21 : -127), at(21), 'bad probe/pull-number'],
  ['a voltage of no temperature', 'fault', (s) => (s < 40 ? 21 : undefined), at(21), 'bad probe/pull-number'],
  ['the other probe pulled', 'fault', at(21), (s) => (s < 40 ? 21 : 'open'), 'bad probe/other-moved'],
  ['a fault before', 'fault', () => 'open', at(21), 'doubtful probe/test-without-reading'],
  ['ice', 'ice', moving(21, 0.4, 40), at(21), 'good probe/ice-passed'],
  ['a poor bath or probe', 'ice', moving(21, 3.6, 40), at(21), 'doubtful probe/ice-off'],
  ['no cold junction', 'ice', moving(1, -20, 40), at(21), 'bad probe/ice-off'],
  ['°F called °C', 'ice', moving(70, 32.2, 40), at(21), 'bad probe/reads-fahrenheit'],
  ['K called °C', 'ice', moving(294, 273.4, 40), at(21), 'bad probe/reads-kelvin'],
  ['never put into the ice', 'ice', at(21), at(21), 'doubtful probe/ice-not-entered'],
  ['the other probe in the ice', 'ice', at(21), moving(21, 0.2, 40), 'bad probe/other-moved'],
  [
    'ice that melts',
    'ice',
    wavering((s) => (s < 40 ? 21 : 2 + (s - 40) / 30)),
    at(21),
    'doubtful probe/ice-not-steady',
  ],
  ['boiling water', 'boil', moving(21, 99.2, 40), at(21), 'good probe/boil-passed'],
  ['boiling water read low', 'boil', moving(21, 96, 40), at(21), 'doubtful probe/boil-off'],
  ['°F called °C at the boil', 'boil', moving(70, 211.3, 40), at(21), 'bad probe/reads-fahrenheit'],
])('%s', (_, kind, first, second, expected) => {
  expect(outcome(kind, first, second)).toEqual([expected]);
});

test('a test is open until something happens, and ends as soon as it has', () => {
  const warmed = [moving(21, 31, 35), at(21)];
  const early = checked(pair, warmed, { test: [0, 'hand'], untilS: 35 });
  expect(early.look.test).toEqual({ channel: 0, kind: 'hand', sinceS: 5 });
  expect(early.look.probes[0]?.tests.hand).toEqual({ state: 'running' });
  const later = checked(pair, warmed, { test: [0, 'hand'], untilS: 45 });
  expect(later.look.test).toBeUndefined();
  expect(later.look.probes[0]?.tests).toMatchObject({ hand: { state: 'passed' }, ice: { state: 'notTried' } });
});

test('a test that the person ends leaves nothing behind, and another can begin', () => {
  const { tests } = checked(pair, [at(21), at(21)], { test: [0, 'hand'], untilS: 40 });
  tests.end(40);
  expect(tests.look(200)).toMatchObject({ probes: [{ tests: { hand: { state: 'notTried' } } }, {}] });
  expect(tests.look(200).test).toBeUndefined();
  expect(tests.begin(1, 'fault', 200)).toBe(true);
});

test('one outlier does not decide a test', () => {
  expect(outcome('hand', (s) => (s === 45 ? 80 : 21), at(21), 60)).toEqual([]);
  expect(outcome('fault', (s) => (s === 45 ? 'open' : 21), at(21), 55)).toEqual([]);
});

test('a test waits for the slower of two probes in one bath', () => {
  const slow = wavering((s) => (s < 40 ? 21 : 21 * Math.exp(-(s - 40) / 40)));
  expect(outcome('ice', slow, moving(21, 0, 40))).toEqual(['good probe/ice-passed']);
});

test('a probe that cools by itself does not count as exchanged wires, nor one on a hot stove as a hand', () => {
  const cooling = wavering((s) => 26 - s / 40);
  expect(outcome('hand', cooling, at(21), 60)).toEqual([]);
  expect(outcome('hand', at(21), (s) => 300 + s / 2, 100)).toEqual([]);
});

test('a board that stops when a probe is pulled has a finding', () => {
  const { of } = checked(pair, [at(21), at(21)], { test: [0, 'fault'], untilS: 60, silentFromS: 40 });
  expect(of(0)).toContain('bad probe/stopped');
});

test('a board that scans once a minute gets the time it needs', () => {
  const slow = moving(21, 31, 135);
  const { of } = checked(pair, [slow, at(21)], { test: [0, 'hand'], beginS: 130, untilS: 400, everyS: 60 });
  expect(of(0)).toContain('good probe/hand-passed');
});

test('a scale is pressed with the hand, and each channel has only the tests that make sense for it', () => {
  const scale = checkedChannel('pile', { role: 'fuelScale', unit: 'kg', scale: 0.001, probe: { kind: 'other' } });
  const junction = checkedChannel('junction', { role: 'coldJunction' });
  const pressure = checkedChannel('air', { role: 'stationPressure', unit: 'Pa', scale: 1 });
  const pressed = (to: number) => [wavering((s) => (s < 40 ? 4 : to), 0.001)];
  expect(checked([scale], pressed(6), { test: [0, 'hand'] }).of(0)).toContain('good probe/press-passed');
  expect(checked([scale], pressed(2), { test: [0, 'hand'] }).of(0)).toContain('bad probe/press-falls');
  expect(checked([scale], pressed(4), { test: [0, 'hand'], untilS: 200 }).of(0)).toContain('bad probe/press-nothing');
  const tests = createProbeTests([low, scale, junction, pressure], undefined);
  const offered = tests.look(0).probes.map((probe) => Object.keys(probe.tests));
  expect(offered).toEqual([['hand', 'fault', 'ice', 'boil'], ['hand', 'fault'], ['hand'], ['fault']]);
  expect([tests.begin(1, 'ice', 0), tests.begin(9, 'hand', 0)]).toEqual([false, false]);
});

test('without a place the boil is shown and compared with nothing', () => {
  const { of, look } = checked([low], [moving(21, 95, 40)], { test: [0, 'boil'], untilS: 200 });
  expect(of(0)).toContain('doubtful probe/boil-no-place');
  expect(look.probes[0]?.tests.boil?.reached).toBeCloseTo(95, 1);
});

test('a pressure that the board measures gives the boiling point, whatever the data of the place', () => {
  const air = checkedChannel('air', { role: 'stationPressure', unit: 'Pa', scale: 1 });
  const mountainAir = wavering(() => 84_560, 20);
  const { of, look } = checked([low, air], [moving(21, 95.1, 40), mountainAir], {
    test: [0, 'boil'],
    untilS: 200,
    place: yard,
  });
  expect(of(0)).toContain('good probe/boil-passed');
  expect(look.probes[0]?.tests.boil?.expected).toBeCloseTo(95, 1);
});

test.each<[name: string, channel: CheckedChannel, course: Course, untilS: number, expected: string]>([
  ['a quiet probe', low, at(21), 60, 'good probe/reads'],
  ['an open probe', low, () => 'open', 60, 'doubtful probe/fault'],
  ['a loose terminal', low, (s) => (s % 7 === 0 ? 'open' : 21), 60, 'doubtful probe/fault-comes-and-goes'],
  ['a noisy probe', low, wavering(() => 21, 1.5), 60, 'doubtful probe/noisy'],
  ['a hopelessly noisy probe', low, wavering(() => 21, 8), 60, 'bad probe/noisy'],
  [
    'noise of two coarse steps',
    checkedChannel('coarse', { scale: 1 }),
    wavering(() => 21, 1.5),
    60,
    'good probe/reads',
  ],
  ['a number that never moves', low, () => 21.37, 100, 'doubtful probe/still'],
  ['a coarse step at rest', checkedChannel('coarse', { scale: 0.25 }), () => 21.25, 100, 'good probe/reads'],
  ['the reset value of a one-wire chip', low, () => 85, 30, 'bad probe/stands-for-none'],
  ['a driver’s number for no chip', low, () => -127, 30, 'bad probe/stands-for-none'],
  ['colder than nature has it', low, () => -300, 30, 'bad probe/impossible'],
  ['a voltage without its cold junction', low, () => undefined, 30, 'bad probe/no-temperature'],
  [
    'hPa called Pa',
    checkedChannel('air', { role: 'stationPressure', unit: 'Pa', scale: 0.01 }),
    wavering(() => 985),
    60,
    'bad probe/pressure-unit',
  ],
  ['°F called °C, seen beside the others', low, at(69.8), 60, 'doubtful probe/looks-fahrenheit'],
  ['K called °C, seen beside the others', low, at(294.1), 60, 'doubtful probe/looks-kelvin'],
])('without any test: %s', (_, channel, course, untilS, expected) => {
  const others = [high, checkedChannel('middle')];
  expect(checked([channel, ...others], [course, at(21), at(21)], { untilS }).of(0)).toEqual([expected]);
});

test('a finding about a probe is removed when its cause is over', () => {
  const mended = checked([low], [(s) => (s < 30 ? 'open' : 21 + 0.02 * Math.sin(s))], { untilS: 100 });
  expect(mended.of(0)).toEqual(['good probe/reads']);
  const moved = checked([low], [(s) => (s < 100 ? 21 : 21.01)], { untilS: 101 });
  expect(moved.of(0)).toEqual(['good probe/reads']);
});

test('a suspected scale of temperature remains a finding until the probe is in ice or boiling water', () => {
  const fahrenheit = [at(21), at(69.8)];
  expect(checked(pair, fahrenheit, { test: [0, 'hand'], untilS: 200 }).of(1)).toEqual([
    'doubtful probe/looks-fahrenheit',
  ]);
  const dipped = [at(21), moving(69.8, 32.1, 40)];
  expect(checked(pair, dipped, { test: [1, 'ice'], untilS: 200 }).of(1)).toContain('bad probe/reads-fahrenheit');
  expect(checked(pair, dipped, { test: [1, 'ice'], untilS: 200 }).of(1)).not.toContain(
    'doubtful probe/looks-fahrenheit',
  );
});

test('a change in a test is neither noise nor another scale', () => {
  const { look } = checked(pair, [moving(21, 99.4, 40), at(37.8)], {
    test: [0, 'boil'],
    untilS: 130,
    place: yard,
  });
  expect(look.findings.map(({ code }) => code)).toEqual(['probe/reads', 'probe/boil-passed', 'probe/reads']);
});

// IEC 60584-1:2013, table of tolerances; IEC 60751:2008, table of tolerance classes.
test.each<[string, Channel['probe'], number, number]>([
  ['thermocouple K, class 1', { kind: 'thermocouple', type: 'K', toleranceClass: '1' }, 0, 1.5],
  ['thermocouple K, class 2', { kind: 'thermocouple', type: 'K', toleranceClass: '2' }, 100, 2.5],
  ['thermocouple T, class 1', { kind: 'thermocouple', type: 'T', toleranceClass: '1' }, 100, 0.5],
  ['platinum, class A', { kind: 'resistance', nominalOhm: 100, toleranceClass: 'A' }, 0, 0.15],
  ['platinum, class A', { kind: 'resistance', nominalOhm: 100, toleranceClass: 'A' }, 100, 0.35],
  ['platinum, class B', { kind: 'resistance', nominalOhm: 100, toleranceClass: 'B' }, 0, 0.3],
  ['platinum, class B', { kind: 'resistance', nominalOhm: 100, toleranceClass: 'B' }, 100, 0.8],
])('%s has the tolerance of its class', (_, probe, tempC, classK) => {
  // A cold junction without error does not widen the class.
  const coldJunction = checkedChannel('junction', { role: 'coldJunction', standardUncertainty: 1e-9 }).channel;
  const asked = checkedChannel('asked', probe && { probe }, { coldJunction });
  expect(allowedErrorK(asked, tempC, 0)).toBeCloseTo(classK, 9);
});

test('a platinum probe of class A has a tenth of the tolerance of a thermocouple', () => {
  const read = (channel: CheckedChannel, tempC: number) =>
    checked([channel], [moving(21, tempC, 40)], { test: [0, 'ice'], untilS: 200 }).of(0);
  expect(read(pt100('A'), 0.2)).toContain('good probe/ice-passed');
  expect(read(pt100('A'), 0.45)).toContain('doubtful probe/ice-off');
  expect(read(pt100('C'), 0.45)).toContain('good probe/ice-passed');
  expect(read(low, 2.4)).toContain('good probe/ice-passed');
});

test('a calibrated probe has the tolerance of its calibration', () => {
  const calibration = { version: 1, method: 'icePoint', offset: -0.8, gain: 1, standardUncertainty: 0.1 } as const;
  const calibrated = checkedChannel('calibrated', { calibration });
  expect(allowedErrorK(calibrated, 0, 0.1)).toBeCloseTo(Math.hypot(0.2, 0.2), 9);
});

// IAPWS R7-97(2012), table 36: saturation at 0.1 MPa is 372.755919 K.
test('water boils at the temperature of the steam table, by the pressure of the place', () => {
  expect(localBoilingPoint({ ...place, stationPressurePa: 100_000 })?.tempC).toBeCloseTo(99.605919, 5);
  expect(localBoilingPoint({ ...place, altitudeM: 0 }, 100_000)?.tempC).toBeCloseTo(99.605919, 5);
  expect(localBoilingPoint(place)).toBeUndefined();
  expect(localBoilingPoint(undefined)).toBeUndefined();
});

// U.S. Standard Atmosphere, 1976: 84 560 Pa at 1500 m. Steam tables (IAPWS-IF97) give 94.9 to 95.1 °C for 84 to 85 kPa.
test('on a mountain it boils lower, with more uncertainty from the weather than from a barometer', () => {
  const mountain = localBoilingPoint({ ...place, altitudeM: 1500 })!;
  expect(mountain.tempC).toBeGreaterThan(94.9);
  expect(mountain.tempC).toBeLessThan(95.1);
  const measured = localBoilingPoint({ ...place, altitudeM: 1500 }, 84_560)!;
  expect(measured.tempC).toBeCloseTo(mountain.tempC, 2);
  expect(measured.standardUncertaintyK).toBeLessThan(mountain.standardUncertaintyK / 5);
});

// NIST Standard Reference Database 60, type K, reference at 0 °C: 1.000 mV at 25 °C, 1.326 mV at 33 °C.
test('a raw thermocouple is tested with its cold junction', () => {
  const junction = checkedChannel('junction', { role: 'coldJunction', boardId: low.channel.id, index: 1 });
  const raw = checkedChannel(
    'raw',
    { unit: 'uV', scale: 1, boardId: low.channel.id, index: 0, coldJunctionChannelId: junction.channel.id },
    { coldJunction: junction.channel },
  );
  const channels = [raw.channel, junction.channel];
  const read = (kind: ProbeTestKind, microvolts: number) => {
    const tests = createProbeTests([raw, junction], undefined);
    const take = (atS: number, count: number) => {
      const { values } = scanValues(channels, low.channel.id, [count, 2500]);
      tests.take({
        atS,
        readings: channels.map(({ id }, index) => ({ value: values[id], count: [count, 2500][index] })),
      });
    };
    for (let atS = 0; atS < 30; atS++) take(atS, 0);
    tests.begin(0, kind, 29.5);
    for (let atS = 30; atS < 80; atS++) take(atS, microvolts);
    return tests.look(80).findings.find(({ code }) => code.startsWith(`probe/${kind}`));
  };
  expect(read('ice', -1000)).toMatchObject({ code: 'probe/ice-passed', channel: 0 });
  expect(read('ice', -1000)?.params.tempC).toBeCloseTo(0, 1);
  expect(read('hand', 326)?.params.riseK).toBeCloseTo(8, 1);
  expect(read('hand', -326)?.code).toBe('probe/hand-falls');
});
