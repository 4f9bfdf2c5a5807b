import { expect, test } from 'vitest';
import { notesToBurn, previewNotes } from '../../server/imports/notes/notes.ts';
import { assembleRecord } from '../../server/records/burn-record.ts';
import { channelCurves } from '../../shared/analysis/curves/channel-curve.ts';

const as = { title: 'notes', startedUtcMs: Date.UTC(2026, 4, 2, 8) };

/** One reading as it is found: minutes since the first line, values. */
function read(text: string) {
  const { lines } = previewNotes(text);
  return lines.map(({ elapsedS, values, problem }) => problem ?? [elapsedS! / 60, ...values]);
}

test.each([
  '10:05 23,5\n10:15 30',
  '10:05  23.5 °C\n10:15  30 °C',
  '10h05 - 23,5°C\n10h15 - 30°C',
  '10 h 05 : 23,5\n10 h 15 : 30',
  '10.05 23.5\n10.15 30',
  '- 10:05 = 23,5\n- 10:15 = 30',
  '• 10:05 → 23.5C\n• 10:15 → 30C',
  '10:05:00; 23,5\n10:15:00; 30',
  '10:05 T=23,5\n10:15 T=30',
  '10:05 | water: 23.5\n10:15 | water: 30',
  '10:05 am 23.5\n10:15 am 30',
  '10:05\t23,5 degrés\n10:15\t30 degrés',
  '\n  10:05 23,5  \n\n10:15 30\n\n',
])('two readings ten minutes apart are found in %j', (text) => {
  expect(read(text)).toEqual([
    [0, 23.5],
    [10, 30],
  ]);
});

test.each([
  '0 min 23,5\n10 min 30',
  "0' 23,5\n10' 30",
  '0 mn: 23.5\n10 mn: 30',
  '0 s 23.5\n600 s 30',
  '0: 23,5\n10: 30',
  '0 = 23.5\n10 = 30',
  '0:00 23,5\n0:10 30',
  '+0 min → 23.5\n+10 min → 30',
  '0 min 23,5\n0 h 10 min 30',
])('time that has passed is found in %j', (text) => {
  expect(read(text)).toEqual([
    [0, 23.5],
    [10, 30],
  ]);
});

test('several values a line, past noon and past midnight', () => {
  expect(read('11:50 pm 23,5 / 24\n12:10 am 30; 31')).toEqual([
    [0, 23.5, 24],
    [20, 30, 31],
  ]);
});

test('what was done is found beside what was read', () => {
  const { lines } = previewNotes(
    '10:00 lit\n10:05 23,5 lid on\n10:20 fed 2,3 kg\n10:30 45 couvercle enlevé\n11:00 éteint\n11:05 windy',
  );
  expect(lines.map(({ mark, massKg, values }) => [mark, massKg, ...values])).toEqual([
    ['lit', undefined],
    ['lidOn', undefined, 23.5],
    ['fed', 2.3],
    ['lidOff', undefined, 45],
    ['fireOut', undefined],
    ['note', undefined],
  ]);
});

test('a line without a time, or with one before the last, is a problem of that line and named in the refusal', () => {
  expect(read('10:05 23\nwarm today\n10:01 24\n10:10 25')).toEqual([[0, 23], 'noTime', 'laterTime', [5, 25]]);
  const text = '10:05 23\n10:01 24';
  expect(() => notesToBurn(text, 'notes', previewNotes(text).format, as)).toThrow(
    'import/note-wrong {"line":2,"found":"10:01 24","expected":"laterTime"}',
  );
});

test('notes become a burn entered by hand: a dial thermometer, its readings in °C, what was done as marks', () => {
  const text = '10:00 lit\n10:05 68 °F\n10:20 fed 2 kg\n11:05 212 °F';
  const { record: draft, boards } = notesToBurn(text, 'notes', previewNotes(text).format, as);
  const record = assembleRecord(draft, boards);
  const [water] = channelCurves(record);
  const { role, probe, handRead } = water!.channel;
  expect([record.origin, role, probe, handRead]).toEqual(['enteredByHand', 'water', { kind: 'dial' }, true]);
  expect([...water!.timeS]).toEqual([0, 3600]);
  expect([...water!.value].map((value) => Math.round(value * 1e3) / 1e3)).toEqual([20, 100]);
  expect(record.marks.map(({ kind, elapsedUs }) => [kind, elapsedUs / 1e6])).toEqual([
    ['lit', -300],
    ['fed', 900],
  ]);
});
