import { expect, test } from 'vitest';
import { isAppError } from '../../server/base/app-error.ts';
import { columnsToBurn, previewColumns } from '../../server/imports/columns/columns-file.ts';
import { assembleRecord } from '../../server/records/burn-record.ts';
import { channelCurves } from '../../shared/analysis/curves/channel-curve.ts';
import type { ColumnFormat } from '../../shared/contract/imports.ts';
import fc from '../support/properties.ts';
import { bytesOf } from './files.ts';

const as = { title: 'a logger', startedUtcMs: Date.UTC(2026, 4, 2, 8), zone: 'Europe/Paris' };

/** What a file becomes when its guess is taken as it is: elapsed seconds, and values by name. */
function taken(bytes: Uint8Array, change: Partial<ColumnFormat> = {}) {
  const { format } = previewColumns(bytes, 'logger.csv');
  const { record: draft, boards } = columnsToBurn(bytes, 'logger.csv', { ...format, ...change }, as);
  const record = assembleRecord(draft, boards);
  const curves = channelCurves(record);
  return {
    record,
    elapsedS: [...(curves[0]?.timeS ?? [])],
    values: Object.fromEntries(
      curves.map(({ channel, value }) => [channel.name, [...value].map((v) => Math.round(v * 1e4) / 1e4)]),
    ),
    faults: curves.flatMap(({ faults }) => faults),
  };
}

/** Invented files, laid out as loggers and spreadsheets lay them out. */
const files: Record<string, { text: string; elapsedS: number[]; values: Record<string, number[]> }> = {
  'commas, elapsed seconds, units in brackets': {
    text: 'Time (s),Pot [°C],Flue [°C]\n0,21.5,80\n10,22.25,120.5\n20,23,160\n30,24,180\n',
    elapsedS: [0, 10, 20, 30],
    values: { 'Pot [°C]': [21.5, 22.25, 23, 24], 'Flue [°C]': [80, 120.5, 160, 180] },
  },
  'semicolons and decimal commas, time of day, French names, CRLF': {
    text: 'heure;eau (°C);fumées (°C)\r\n10:05:00;21,5;80,0\r\n10:05:30;22,25;95,5\r\n10:06:00;23,0;110,25\r\n',
    elapsedS: [0, 30, 60],
    values: { 'eau (°C)': [21.5, 22.25, 23], 'fumées (°C)': [80, 95.5, 110.25] },
  },
  'tabs, ISO times with a zone, no heading': {
    text: '2026-05-02T10:00:00+02:00\t21.5\n2026-05-02T10:00:05+02:00\t21.75\n2026-05-02T10:00:10+02:00\t22\n',
    elapsedS: [0, 5, 10],
    values: { 'Column 2': [21.5, 21.75, 22] },
  },
  'spreadsheet days, degrees Fahrenheit': {
    text: 'When,Water (°F)\n46144.5,70\n46144.5006944444,71.6\n46144.5013888889,212\n',
    elapsedS: [0, 60, 120],
    values: { 'Water (°F)': [21.1111, 22, 100] },
  },
  'date and time apart, day first, names above units, quoted fields': {
    text: '"Date","Time","Pot, low","Pot, high"\n,,"°C","°C"\n"28/05/2026","10:00:00","21.5","22.5"\n"28/05/2026","10:00:10","22.5","23.5"\n',
    elapsedS: [0, 10],
    values: { 'Pot, low °C': [21.5, 22.5], 'Pot, high °C': [22.5, 23.5] },
  },
  'lines of the logger itself before and after the table': {
    text: 'Logger model 3, serial 0042\nStarted: 2026-05-02\n\nseconds;T1;T2\n0;20,5;30,5\n1;20,6;30,6\n2;20,7;30,7\n3;20,8;30,8\n',
    elapsedS: [0, 1, 2, 3],
    values: { T1: [20.5, 20.6, 20.7, 20.8], T2: [30.5, 30.6, 30.7, 30.8] },
  },
  'blanks, past midnight': {
    text: '23:59:30 20.5\n23:59:50 20.75\n00:00:10 21\n',
    elapsedS: [0, 20, 40],
    values: { 'Column 2': [20.5, 20.75, 21] },
  },
  'seconds since 1970': {
    text: 'epoch,temp\n1777708800,20.5\n1777708802,20.6\n1777708804,20.7\n',
    elapsedS: [0, 2, 4],
    values: { temp: [20.5, 20.6, 20.7] },
  },
  'several rows in one second are spread over it': {
    text: 'time,temp\n10:00:00,20\n10:00:00,21\n10:00:01,22\n10:00:01,23\n',
    elapsedS: [0, 0.5, 1, 1.5],
    values: { temp: [20, 21, 22, 23] },
  },
  milliseconds: {
    text: 'millis,pot\n100,20\n1100,21\n2100,22\n3100,23\n',
    elapsedS: [0, 1, 2, 3],
    values: { pot: [20, 21, 22, 23] },
  },
  'minutes, kelvin, kilopascals, grams, and volts that are no unit of ours': {
    text: 'minutes,water (K),air (kPa),pile (g),battery (V)\n0,293.15,98.5,1500,12.6\n1,294.15,98.6,1400,12.5\n',
    elapsedS: [0, 60],
    values: {
      'water (K)': [20, 21],
      'air (kPa)': [98_500, 98_600],
      'pile (g)': [1.5, 1.4],
      'battery (V)': [12.6, 12.5],
    },
  },
  'month first, noon told by letters': {
    text: 'When,Water (°C)\n5/28/2026 11:59:50 AM,20\n5/28/2026 12:00:20 PM,21\n',
    elapsedS: [0, 30],
    values: { 'Water (°C)': [20, 21] },
  },
  'elapsed minutes and seconds': {
    text: 'elapsed mm:ss;water\n0:00;20\n0:30;21\n125:00;97\n',
    elapsedS: [0, 30, 7500],
    values: { water: [20, 21, 97] },
  },
};

test.each(Object.entries(files))('a file with %s is read without help', (_, { text, elapsedS, values }) => {
  const read = taken(bytesOf(text));
  expect(read.elapsedS).toEqual(elapsedS);
  expect(read.values).toEqual(values);
});

test.each(['utf-16le', 'utf-16be', 'windows-1252', 'utf-8 with its mark'])('a file in %s is read', (encoding) => {
  const text = 'Zeit (s);Wasser (°C)\n0;20,5\n1;20,6\n2;20,7\n';
  const little = Buffer.from(`\ufeff${text}`, 'utf16le');
  const bytes = {
    'utf-16le': little,
    'utf-16be': Buffer.from(little).swap16(),
    'windows-1252': Buffer.from(text, 'latin1'),
    'utf-8 with its mark': Buffer.from(`\ufeff${text}`),
  }[encoding]!;
  expect(taken(bytes).values).toEqual({ 'Wasser (°C)': [20.5, 20.6, 20.7] });
});

test.each([
  ['02/05/2026 10:00,20\n03/05/2026 10:00,21\n', ['dayMonth']],
  ['10,20,5\n11,20,6\n12,20,7\n', ['decimal']],
  ['pot\n20\n25\n22\n', ['noTime']],
  ['time (s),pot\n0,70\n10,150\n20,212\n', ['fahrenheit']],
  ['time (s),a,b\n0,70,1\n10,71,2\n20,72,3\n', ['unit', 'role']],
])('what a file leaves open is a doubt that the person is shown: %j', (text, doubts) => {
  expect(previewColumns(bytesOf(text), 'f').doubts).toEqual(expect.arrayContaining(doubts));
});

test('a unit behind the numbers counts, and none anywhere is asked about', () => {
  const fahrenheit = previewColumns(bytesOf('time (s),pot\n0,68 F\n10,212.0 F\n'), 'f');
  expect(fahrenheit.format.columns.map(({ unit }) => unit)).toEqual(['[degF]']);
  expect(fahrenheit.read.map(({ values }) => values)).toEqual([[20], [100]]);
  expect(fahrenheit.doubts).toEqual([]);
  expect(previewColumns(bytesOf('time (s),pot_f\n0,68\n10,212\n'), 'f').format.columns[0]!.unit).toBe('[degF]');
  expect(previewColumns(bytesOf('time (s),pot\n0,20\n10,100\n'), 'f').doubts).toEqual(['unit']);
});

const two = (n: number) => String(n).padStart(2, '0');

/** One row a minute, from a clock that is put forward or back by an hour on the way. */
function minuteRows(startMinute: number, setAt: number, byMinutes: number, day = '2026-03-29 '): string {
  const rows = Array.from({ length: 90 }, (_, row) => {
    const minute = startMinute + row + (row >= setAt ? byMinutes : 0);
    return `${day}${two(Math.floor(minute / 60))}:${two(minute % 60)};${20 + row / 2}`;
  });
  return ['time;pot (°C)', ...rows].join('\n');
}

test.each([
  ['put forward in the night', minuteRows(75, 45, 60), { line: 47, byS: 3600 }],
  ['put back', minuteRows(120, 60, -60, '2026-10-25 '), { line: 62, byS: -3600 }],
  ['put back, with times of day alone', minuteRows(120, 60, -60, ''), { line: 62, byS: -3600 }],
])('a clock that was %s is asked about, and no minute and no row is lost', (_, text, step) => {
  const preview = previewColumns(bytesOf(text), 'f');
  const { doubts, clockSets, format, rows, durationS, problemCount } = preview;
  expect([doubts, clockSets, format.clockSteps]).toEqual([['clockSet'], [step], [step]]);
  expect([rows, durationS, problemCount]).toEqual([90, 89 * 60, 0]);
  const { clockSteps: _taken, ...asWritten } = format;
  const refused = previewColumns(bytesOf(text), 'f', asWritten);
  expect(refused.clockSets).toEqual([step]);
  expect(refused.durationS).not.toBe(89 * 60);
});

test('an hour without rows by day stays an hour, and is asked about', () => {
  const { format, clockSets, doubts, durationS } = previewColumns(bytesOf(minuteRows(675, 45, 60)), 'f');
  expect([format.clockSteps, clockSets, doubts]).toEqual([undefined, [{ line: 47, byS: 3600 }], ['clockSet']]);
  expect(durationS).toBe(89 * 60 + 3600);
});

test.each([
  ['time (s);pot;pile (g)\n0;20.5;1,050.5\n10;21.5;980.5\n20;22;970\n', [1.0505, 0.9805, 0.97]],
  ['time (s);pot;pile (g)\n0;20,5;1 050,5\n10;21,5;980,5\n20;22;970\n', [1.0505, 0.9805, 0.97]],
  ['time (s);pot;pile (g)\n0;20,5;1\u202f050,5\n10;21,5;980,5\n20;22;970\n', [1.0505, 0.9805, 0.97]],
  ['time (s);pot;pile (g)\n0;20,5;1.050,5\n10;21,5;980,5\n20;22;970\n', [1.0505, 0.9805, 0.97]],
  ['time (s);pot;pile (g)\n0;20.5;1\u2019050.5\n10;21.5;980.5\n20;22;970\n', [1.0505, 0.9805, 0.97]],
  ['time (s),pot,pile (g)\n0,20.5,"1,050"\n10,21.5,980\n20,22,970\n', [1.05, 0.98, 0.97]],
])('thousands set apart are read and doubted, and no column is lost: %j', (text, pile) => {
  expect(previewColumns(bytesOf(text), 'f').doubts).toContain('thousands');
  expect(taken(bytesOf(text)).values).toEqual({ pot: [20.5, 21.5, 22], 'pile (g)': pile });
});

test('three digits behind the decimal mark, among whole hundreds, are doubted and read as the person says', () => {
  const bytes = bytesOf('time (s);pot;flue\n0;20,5;1,050\n10;21,5;980\n20;22;970\n');
  const { doubts, format } = previewColumns(bytes, 'f');
  expect(doubts).toEqual(['thousands', 'unit']);
  expect(taken(bytes).values.flue).toEqual([1.05, 980, 970]);
  expect(taken(bytes, { ...format, thousands: 'comma' }).values).toEqual({
    pot: [20.5, 21.5, 22],
    flue: [1050, 980, 970],
  });
});

test.each([
  ['time (s);pot;note\n0;20,5;"windy\n10;21,5;\n20;22,5;"ok"\n30;23;\n', 2],
  ['time (s);pot;note\n0;20,5;\n10;21,5;"windy\n20;22,5;\n30;23;\n', 3],
  ['time (s),pot,note\n0,20.5,\n10,21.5,\n20,22.5,\n30,23,"the end\n', 5],
  ['time (s),pot\n0,20.5\n10,"21.5\n20,22.5\n30,23\n', 3],
])('an open quotation mark is doubted and swallows no row: %j', (text, line) => {
  const { doubts, openQuoteLine, problemCount } = previewColumns(bytesOf(text), 'f');
  expect([doubts, openQuoteLine, problemCount]).toEqual([['openQuote', 'unit'], line, 0]);
  expect(taken(bytesOf(text)).values.pot).toEqual([20.5, 21.5, 22.5, 23]);
});

test('a heading or a remark in two lines between quotation marks opens none', () => {
  const heading = taken(bytesOf('"Time\n(s)","Pot\n(°C)","Flue"\n0,20.5,80\n10,21.5,90\n'));
  expect(heading.values).toEqual({ 'Pot\n(°C)': [20.5, 21.5], Flue: [80, 90] });
  const { doubts, rows } = previewColumns(bytesOf('Time (s);Pot;note\n0;20.5;"a\nb"\n10;21.5;c\n'), 'f');
  expect([doubts, rows]).toEqual([['unit'], 2]);
});

test.each([
  'No;time;pot\n1;10:00;20,5\n2;10:01;21,5\n3;10:02;22,5\n',
  ';time;pot\n1;10:00;20,5\n2;10:01;21,5\n3;10:02;22,5\n4;10:03;23,5\n',
  'time,pot,n°\n10:00,20.5,7\n10:01,21.5,8\n10:03,22.5,10\n',
  Array.from({ length: 12 }, (_, row) => `${57 + row};10:${two(row)};${20 + row / 2}`).join('\n'),
])('a column of row numbers is no temperature: %j', (text) => {
  const { format, doubts } = previewColumns(bytesOf(text), 'f');
  expect([format.columns.length, format.columns[0]?.role, doubts]).toEqual([1, 'water', ['rowNumbers', 'unit']]);
});

/** Ways to write when a row was taken, `s` seconds after 2 May 2026, 23:50:00 UTC; each with a heading that loggers use. */
const began = Date.UTC(2026, 4, 2, 23, 50);
const colons = (s: number) => `${Math.floor(s / 3600)}:${two(Math.floor(s / 60) % 60)}:${two(s % 60)}`;
const iso = (s: number) => new Date(began + s * 1000).toISOString();
const spellings: Record<string, (s: number) => string> = {
  'time (s)': String,
  'time (ms)': (s) => String(s * 1000),
  'time (min)': (s) => (s / 60).toFixed(8),
  'time (h)': (s) => (s / 3600).toFixed(10),
  elapsed: colons,
  'time of day': (s) => iso(s).slice(11, 19),
  'time, UTC': iso,
  'local time': (s) => iso(s).slice(0, 19).replace('T', ' '),
  'date and time': (s) => iso(s).replace(/^(\d+)-(\d+)-(\d+)T(.{8}).*/, '$3.$2.$1 $4'),
  // Days since 30 December 1899, the "1900 date system" of ECMA-376-1:2016, 18.17.4.1, after February 1900.
  'spreadsheet time': (s) => ((began + s * 1000 - Date.UTC(1899, 11, 30)) / 86_400_000).toFixed(9),
  'unix time': (s) => String(began / 1000 + s),
  timestamp: (s) => String(began + s * 1000),
};

test.each(Object.entries(spellings))('a column headed "%s" tells when each row was taken', (heading, write) => {
  const steps = fc.array(fc.integer({ min: 1, max: 3600 }), { minLength: 3, maxLength: 12 });
  fc.assert(
    fc.property(steps, fc.constantFrom('\t', ';'), (between, separator) => {
      const elapsedS = [0];
      for (const step of between) elapsedS.push(elapsedS.at(-1)! + step);
      const rows = elapsedS.map((s, row) => [write(s), 20 + row].join(separator));
      const read = taken(bytesOf([`${heading}${separator}water (°C)`, ...rows].join('\r\n')));
      // To the thousandth of a second, what nine digits of a day tell.
      expect(read.elapsedS.map((s) => Math.round(s * 1e3) / 1e3)).toEqual(elapsedS);
      expect(read.values['water (°C)']).toEqual(elapsedS.map((_, row) => 20 + row));
    }),
    { numRuns: 25 },
  );
});

test('a table without times is taken to be read as often as the person says', () => {
  const bytes = bytesOf('pot\n20\n25\n22\n');
  expect(taken(bytes, { time: { kind: 'every', everyS: 7.5 } }).elapsedS).toEqual([0, 7.5, 15]);
});

test('a time in local time becomes UTC by the zone, summer time and all', () => {
  const at = (text: string) => taken(bytesOf(`${text},20\n${text.replace(':00', ':01')},21\n`)).record.startedUtcMs;
  expect(at('2026-05-02 10:00')).toBe(Date.UTC(2026, 4, 2, 8));
  expect(at('2026-01-02 10:00')).toBe(Date.UTC(2026, 0, 2, 9));
});

test('the same file read the same way gets the same identities, read another way it gets others', () => {
  const bytes = bytesOf(files.milliseconds!.text);
  expect(taken(bytes).record).toEqual(taken(bytes).record);
  const other = taken(bytes, { time: { kind: 'elapsed', column: 0, unit: 's' } }).record;
  expect(other.id).not.toBe(taken(bytes).record.id);
});

const broken = 'time (s),pot\n0,20\n10,oops\n20,22\n5,23\n30\n40,24\n';

test('a wrong cell is refused with its line, its column, what is there and what should be', () => {
  const refused = (() => {
    try {
      taken(bytesOf(broken));
    } catch (error) {
      return isAppError(error) ? error : undefined;
    }
    return undefined;
  })();
  expect([refused?.code, refused?.params]).toEqual([
    'import/cell-wrong',
    { file: 'logger.csv', line: 3, column: 2, expected: 'number', found: 'oops', count: 3 },
  ]);
  const { problems } = previewColumns(bytesOf(broken), 'f');
  expect(problems.map(({ line, column, expected }) => [line, column, expected])).toEqual([
    [3, 2, 'number'],
    [5, 1, 'laterTime'],
    [6, 2, 'cells'],
  ]);
});

test('a person may have what cannot be read skipped: the cell is a fault, a row without its time is left out', () => {
  const read = taken(bytesOf(broken), { unreadable: 'skip' });
  expect(read.elapsedS).toEqual([0, 10, 20, 40]);
  expect(read.values.pot).toEqual([20, Number.NaN, 22, 24]);
  expect(read.faults).toEqual([[1, 'unreadable']]);
});

test('what a logger writes for a broken probe is a fault, and nothing is nothing: never a zero', () => {
  const read = taken(bytesOf('time (s),pot\n0,20\n10,NaN\n20,\n30,OL\n40,21\n50,open\n'), { unreadable: 'skip' });
  expect(read.values.pot).toEqual([20, Number.NaN, Number.NaN, Number.NaN, 21, Number.NaN]);
  expect(read.faults).toEqual([
    [1, 'noAnswer'],
    [3, 'outOfRange'],
    [5, 'open'],
  ]);
});

test('a file without numbers in columns is refused', () => {
  for (const text of ['', 'dear friend,\nsee you on Sunday\n', '\u0000\u0001\u0002']) {
    expect(() => previewColumns(bytesOf(text), 'letter.txt')).toThrow('import/no-columns');
  }
});

test('any table that is written by the rules of CSV is read back to the last digit', () => {
  const value = fc.integer({ min: -999_999, max: 9_999_999 }).map((n) => n / 1000);
  const rows = fc.array(fc.tuple(value, value), { minLength: 3, maxLength: 20 });
  const layout = fc.constantFrom([';', '.'], [';', ','], ['\t', '.'], ['\t', ','], [',', '.'], ['|', ',']);
  fc.assert(
    fc.property(rows, layout, (table, [separator, mark]) => {
      const number = (n: number) => String(n).replace('.', mark!);
      const lines = table.map(([a, b], row) => [String(row * 2), number(a), number(b)].join(separator));
      const text = [`time (s)${separator}wood (kg)${separator}water (kg)`, ...lines].join('\n');
      const read = taken(bytesOf(text));
      expect(read.values['wood (kg)']).toEqual(table.map(([a]) => a));
      expect(read.values['water (kg)']).toEqual(table.map(([, b]) => b));
    }),
  );
});
