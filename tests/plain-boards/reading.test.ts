import { describe, expect, it } from 'vitest';
import type { PlainFormat } from '../../shared/contract/boards.ts';
import { guessPlainFormat } from '../../shared/plain-lines/guess-format.ts';
import { readPlainLine } from '../../shared/plain-lines/read-line.ts';
import { splitPlainLine } from '../../shared/plain-lines/split-line.ts';
import fc from '../support/properties.ts';

const SEPARATORS = { comma: ',', semicolon: ';', tab: '\t', blanks: ' ' } as const;

function format(
  separator: PlainFormat['separator'],
  decimal: PlainFormat['decimal'],
  columns: number,
  time?: { column: number; unit: 's' | 'ms' },
): PlainFormat {
  return {
    separator,
    decimal,
    headerLines: 0,
    ...(time ? { timeColumn: time.column, timeUnit: time.unit } : {}),
    columns: Array.from({ length: columns }, (_, column) => ({ column, name: `Column ${column + 1}`, unit: 'Cel' })),
  };
}

describe('A line of numbers', () => {
  it.each([
    ['20.5,30.25', format('comma', 'point', 2)],
    ['20.5, 30.25', format('comma', 'point', 2)],
    ['20,5;30,25', format('semicolon', 'comma', 2)],
    ['20.5;30.25', format('semicolon', 'point', 2)],
    ['20,5\t30,25', format('tab', 'comma', 2)],
    ['20.5   30.25 ', format('blanks', 'point', 2)],
    ['  20,5 30,25', format('blanks', 'comma', 2)],
    ['T1=20.5,T2=30.25', format('comma', 'point', 2)],
    ['pot: 20.5°C; flue: 30.25 °C', format('semicolon', 'point', 2)],
  ])('%j is split into its columns', (line, layout) => {
    expect(readPlainLine(line, layout)).toEqual({
      kind: 'data',
      timeMs: null,
      counts: [205_000, 302_500],
      faults: [null, null],
    });
  });

  it('has faults where there is no number, and the numbers next to them', () => {
    const read = (line: string) => readPlainLine(line, format('comma', 'point', 3));
    expect(read('20.5,,nan')).toMatchObject({ counts: [205_000, null, null], faults: [null, 'noAnswer', 'noAnswer'] });
    expect(read('20.5,inf,open')).toMatchObject({ faults: [null, 'outOfRange', 'open'] });
    expect(read('20.5,?,#!')).toMatchObject({ faults: [null, 'noAnswer', 'unreadable'] });
    expect(read('nan,nan,nan')).toMatchObject({ kind: 'data', faults: ['noAnswer', 'noAnswer', 'noAnswer'] });
  });

  it('may contain the board’s own time, in milliseconds or seconds', () => {
    const columns = [{ column: 1, name: 'Pot', unit: 'Cel' as const }];
    const base = { ...format('comma', 'point', 1), columns };
    expect(readPlainLine('12500,20.5', { ...base, timeColumn: 0, timeUnit: 'ms' })).toMatchObject({ timeMs: 12_500 });
    expect(readPlainLine('12.5,20.5', { ...base, timeColumn: 0, timeUnit: 's' })).toMatchObject({ timeMs: 12_500 });
  });

  it.each(['', '   ', 'time,pot,flue', 'Ready.', 'ets Jul 29 2019 12:21:46', '20.5', ',,'])(
    'is not found in %j',
    (line) => {
      expect(readPlainLine(line, format('comma', 'point', 3))).toEqual({ kind: 'other' });
    },
  );

  it('is the same after printing and parsing, in every layout', () => {
    const layouts = fc.constantFrom(
      ...(['comma', 'semicolon', 'tab', 'blanks'] as const).flatMap((separator) =>
        (['point', 'comma'] as const)
          .filter((decimal) => !(separator === 'comma' && decimal === 'comma'))
          .map((decimal) => [separator, decimal] as const),
      ),
    );
    const counts = fc.array(fc.integer({ min: -20_000_000, max: 20_000_000 }), { minLength: 1, maxLength: 8 });
    fc.assert(
      fc.property(layouts, counts, ([separator, decimal], values) => {
        const line = values
          .map((value) => (value / 10_000).toFixed(4).replace('.', decimal === 'point' ? '.' : ','))
          .join(SEPARATORS[separator]);
        const read = readPlainLine(line, format(separator, decimal, values.length));
        expect(read).toMatchObject({ kind: 'data', counts: values.map((value) => value + 0) });
      }),
    );
  });

  it.each([
    ['20.5\t', ['20.5', '']],
    ['\t20.5', ['', '20.5']],
    ['\t20.5\t\t30.25\r', ['', '20.5', '', '30.25']],
  ])('%j has the empty columns around its tabs, so that no reading changes its column', (line, fields) => {
    expect(splitPlainLine(line, 'tab')).toEqual(fields);
  });

  it('that begins with a tab has no reading of the first probe, and the second probe has its own', () => {
    expect(readPlainLine('\t20.5', format('tab', 'point', 2))).toEqual({
      kind: 'data',
      timeMs: null,
      counts: [null, 205_000],
      faults: ['noAnswer', null],
    });
  });
});

describe('A guess at the layout', () => {
  const guess = (...lines: string[]) => guessPlainFormat(lines);
  const layoutOf = ({ format: found }: ReturnType<typeof guess>) =>
    found && [found.separator, found.decimal, found.columns.length];

  it.each([
    [
      ['20.5,30.25', '21.0,31.25', '21.5,32.5'],
      ['comma', 'point', 2],
    ],
    [
      ['20.5, 30.25', '21.0, 31.25'],
      ['comma', 'point', 2],
    ],
    [
      ['20,5;30,25', '21;31,25'],
      ['semicolon', 'comma', 2],
    ],
    [
      ['20,5;30,25', '21,0;31,25'],
      ['semicolon', 'comma', 2],
    ],
    [
      ['20.5;30.25;', '21.0;31.25;'],
      ['semicolon', 'point', 2],
    ],
    [
      ['20.5\t30.25', '21.5\t31.25'],
      ['tab', 'point', 2],
    ],
    [
      ['20,5 30,25', '21,5 31,25'],
      ['blanks', 'comma', 2],
    ],
    [
      ['20.5 30.25', '21.5  31.25'],
      ['blanks', 'point', 2],
    ],
    [
      ['20.5', '21.0'],
      ['semicolon', 'point', 1],
    ],
    [
      ['20.5 °C', '21.0 °C'],
      ['semicolon', 'point', 1],
    ],
  ])('for %j is %j, without a second possibility', (lines, layout) => {
    const found = guess(...lines);
    expect(layoutOf(found)).toEqual(layout);
    expect(found.ambiguous).toBe(false);
  });

  it('reports that "20,5" is one number or two, and reads it as one where the second half looks like decimals', () => {
    const decimals = guess('20,05', '20,50', '21,25');
    expect(layoutOf(decimals)).toEqual(['semicolon', 'comma', 1]);
    expect(decimals.ambiguous).toBe(true);
    expect(decimals.alternatives.map((each) => [each.separator, each.columns.length])).toContainEqual(['comma', 2]);

    const columns = guess('20,118,7', '21,97,8', '22,101,9');
    expect(layoutOf(columns)).toEqual(['comma', 'point', 3]);
  });

  it('reads a comma that would have to be both decimal mark and separator as a separator, which the preview shows', () => {
    const pairs = guess('20,05,30,50', '20,55,31,00', '21,00,31,55');
    expect(layoutOf(pairs)).toEqual(['comma', 'point', 4]);
  });

  it('finds the header, its names and units, and the time column', () => {
    const found = guess('millis;Pot low;Wood (kg)', '1000;20,5;3,25', '2000;20,75;3,25', '3001;21,0;3,20');
    expect(found.format).toEqual({
      separator: 'semicolon',
      decimal: 'comma',
      headerLines: 1,
      timeColumn: 0,
      timeUnit: 'ms',
      columns: [
        { column: 1, name: 'Pot low', unitFrom: 'nowhere' },
        { column: 2, name: 'Wood (kg)', unit: 'kg', unitFrom: 'heading' },
      ],
    });
  });

  it('reads an untitled first column that rises by even steps as the time', () => {
    const found = guess('0.0,20.5', '1.0,20.75', '2.0,20.5', '3.0,21.0', '4.0,21.25');
    expect(found.format).toMatchObject({ timeColumn: 0, timeUnit: 's', columns: [{ column: 1 }] });
    const rising = guess('20.5,30.0', '21.1,30.5', '21.3,30.25', '22.9,31.0', '23.0,31.0');
    expect(rising.format!.timeColumn).toBeUndefined();
  });

  it('has names from labels before the numbers', () => {
    expect(guess('pot=20.5 flue=180.0', 'pot=20.6 flue=181.5').format!.columns.map((c) => c.name)).toEqual([
      'pot',
      'flue',
    ]);
  });

  it('ignores start-up text and missing readings', () => {
    const found = guess('Sensor board v2', 'ready', '20.5,nan,30.0', '20.5,22.0,30.0', '20.75,22.0,');
    expect(layoutOf(found)).toEqual(['comma', 'point', 3]);
  });

  it('does not exist without numbers', () => {
    expect(guess('hello', 'world')).toEqual({ format: null, ambiguous: false, alternatives: [] });
    expect(guess().format).toBeNull();
  });

  it('parses the lines it comes from, in every layout with decimals', () => {
    const rows = fc.array(fc.array(fc.integer({ min: -99_999, max: 99_999 }), { minLength: 2, maxLength: 5 }), {
      minLength: 3,
      maxLength: 8,
    });
    fc.assert(
      fc.property(
        rows,
        fc.constantFrom('semicolon', 'tab', 'blanks' as const),
        fc.boolean(),
        (values, separator, comma) => {
          const width = Math.min(...values.map((row) => row.length));
          const lines = values.map((row) =>
            row
              .slice(0, width)
              .map((value) => (value / 100).toFixed(2).replace('.', comma ? ',' : '.'))
              .join(SEPARATORS[separator]),
          );
          const { format: found } = guessPlainFormat(lines);
          const counts = lines.map((line) => {
            const read = readPlainLine(line, { ...found!, columns: format('comma', 'point', width).columns });
            return read.kind === 'data' ? read.counts : null;
          });
          expect(counts).toEqual(values.map((row) => row.slice(0, width).map((value) => value * 100)));
        },
      ),
    );
  });
});
