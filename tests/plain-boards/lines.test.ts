import { describe, expect, it } from 'vitest';
import { previewOf } from '../../server/setup/preview.ts';
import { type PlainFormat, plainFormatSchema } from '../../shared/contract/boards.ts';
import { cellsOf, placeOf } from '../../shared/plain-lines/cells.ts';
import { readPlainField } from '../../shared/plain-lines/field.ts';
import { guessPlainFormat } from '../../shared/plain-lines/guess-format.ts';
import { plainScale, readPlainLine } from '../../shared/plain-lines/read-line.ts';
import { unitsIn, unitWritten } from '../../shared/plain-lines/written-units.ts';
import fc from '../support/properties.ts';

describe('A preview', () => {
  it('of what arrives at a wrong speed has no lines and no layout', () => {
    const noise = fc.uint8Array({ minLength: 20, maxLength: 60 }).map((bytes) => Buffer.from(bytes).toString('utf8'));
    fc.assert(
      fc.property(fc.array(noise, { minLength: 24, maxLength: 24 }), (lines) => {
        // One line of chance among them.
        expect(previewOf([...lines, 'ok 7 %'])).toMatchObject({ lines: [], format: null });
      }),
    );
  });

  it.each([['20.5 \ufffdC, 21.0 \ufffdC'], ['\u001b[32m20.5 C\u001b[0m'], ['20,5\t21,0'], ['température 20,5']])(
    'shows %j',
    (line) => {
      expect(previewOf([line, line, line]).lines).toEqual([line, line, line]);
    },
  );
});

describe('The count of a converter', () => {
  it.each([
    [['8388123', '8388131', '8388140', '8388150'], 1, 8_388_131],
    [['-163840', '-163851', '-163877'], 3, -163_851],
    [['98512.4', '98511.9', '98512.0'], 3, 98_511.9],
    [['20.53', '20.57', '999999999', '20.61', '20.62'], undefined, 20.57],
  ])('%j is stored as printed, with as many decimals as fit into 32 bits', (lines, decimals, second) => {
    const { format } = guessPlainFormat(lines);
    const columns = format?.columns.map((column) => ({ ...column, unit: '1' as const })) ?? [];
    expect(columns.map((column) => column.decimals)).toEqual([decimals]);
    const read = readPlainLine(lines[1]!, plainFormatSchema.parse({ ...format, columns }));
    expect(read).toMatchObject({ kind: 'data', faults: [null] });
    const [count] = read.kind === 'data' ? read.counts : [];
    expect((count ?? Number.NaN) * plainScale(columns[0]!)).toBeCloseTo(second, 6);
  });
});

describe('A number', () => {
  it.each([
    ['74.3F', 74.3, '[degF]'],
    ['23.5 °C', 23.5, 'Cel'],
    ['23.5*C', 23.5, 'Cel'],
    ['23.5 degC', 23.5, 'Cel'],
    ['296.6 K', 296.6, 'K'],
    ['+  12.34kg', 12.34, 'kg'],
    ['-   0.02 kg G', -0.02, 'kg'],
    ['1234 g', 1234, 'g'],
    ['2.5 lbs', 2.5, '[lb_av]'],
    ['1013.2 mbar', 1013.2, 'hPa'],
    ['45 %RH', 45, '%'],
    ['12.1V', 12.1, '1'],
    ['<20.5', 20.5, undefined],
    ['[20.5]', 20.5, undefined],
  ])('%j has the unit after it', (text, value, unit) => {
    expect(readPlainField(text, 'point')).toEqual({ kind: 'number', value, ...(unit && { unit }) });
  });

  it.each([
    ['nan °C', 'noAnswer'],
    ['---- kg', 'noAnswer'],
    ['+ -----kg', 'noAnswer'],
    ['nanC', 'noAnswer'],
    ['OL', 'outOfRange'],
    ['inf °C', 'outOfRange'],
    ['open', 'open'],
  ])('%j is not one, with its unit or without', (text, fault) => {
    expect(readPlainField(text, 'point')).toEqual({ kind: 'fault', fault });
  });

  it('is not read from other text', () => {
    for (const text of ['12:34:56', '2026-11-30', '1.2.3', 'T1', '5 kg 300 g', 'nak'])
      expect(readPlainField(text, 'point')).toEqual({ kind: 'text' });
  });
});

describe('The unit in a heading', () => {
  it.each([
    ['Pot (F)', '[degF]'],
    ['temp_f', '[degF]'],
    ['tempC', 'Cel'],
    ['Temp F', '[degF]'],
    ['C', 'Cel'],
    ['Temperature in C is', 'Cel'],
    ['Pile [kg]', 'kg'],
    ['pile_kg', 'kg'],
    ['flue', undefined],
    ['probe B', undefined],
    ['magic', undefined],
  ])('%j: %j', (heading, unit) => expect(unitsIn([heading])).toEqual([unit]));

  it('does not exist where the letter only distinguishes probes', () => {
    expect(unitsIn(['A', 'B', 'C'])).toEqual([undefined, undefined, undefined]);
    expect(unitsIn(['pot_a', 'pot_c'])).toEqual([undefined, undefined]);
    expect(unitsIn(['pot_c', 'pot_f'])).toEqual(['Cel', '[degF]']);
  });

  it('is not taken from text that only begins like one', () => {
    for (const text of ['cold', 'F1', 'kilometres', '']) expect(unitWritten(text)).toBeUndefined();
  });
});

describe('A layout stored by an older version without units and labels', () => {
  const stored = {
    separator: 'blanks',
    decimal: 'point',
    headerLines: 1,
    timeColumn: 0,
    timeUnit: 'ms',
    columns: [
      { column: 2, name: 'Pot', unit: 'Cel' },
      { column: 4, name: 'Pile', unit: 'kg' },
    ],
  };

  it('is still valid, and finds its columns', () => {
    const format = plainFormatSchema.parse(stored);
    expect(readPlainLine('1000 pot 20.5 pile 3.25', format)).toEqual({
      kind: 'data',
      timeMs: 1000,
      counts: [205_000, 32_500],
      faults: [null, null],
    });
  });

  it('still identifies its columns: one by index has no key, one by label no index', () => {
    const columns = [{ key: 'pot', name: 'Pot', unit: 'Cel' }];
    expect(plainFormatSchema.safeParse({ ...stored, columns }).success).toBe(false);
    expect(plainFormatSchema.safeParse({ ...stored, layout: 'labelled', columns }).success).toBe(true);
  });
});

describe('A unit after the number', () => {
  const kilograms: PlainFormat = {
    separator: 'comma',
    decimal: 'point',
    headerLines: 0,
    columns: [{ column: 0, name: 'Pile', unit: 'kg', printed: 'kg' }],
  };
  const count = (line: string, format = kilograms) => {
    const read = readPlainLine(line, format);
    return read.kind === 'data' ? (read.counts[0] ?? read.faults[0]) : read.kind;
  };

  it('that changes during the run is converted, and of another quantity is ignored', () => {
    expect([count('1.234 kg'), count('999 g'), count('1.5'), count('20.5 °C')]).toEqual([
      12_340,
      9_990,
      15_000,
      'unreadable',
    ]);
  });

  it('gives way to the unit that a person chose', () => {
    const celsius = {
      ...kilograms,
      columns: [{ column: 0, name: 'Pot', unit: 'Cel' as const, printed: '[degF]' as const }],
    };
    expect(count('74.3F', celsius)).toBe(743_000);
  });
});

describe('Lines of further forms', () => {
  const understood = (...lines: string[]) => {
    const { format } = guessPlainFormat(lines);
    const columns = format!.columns.map(({ unit = 'Cel', ...column }) => ({ ...column, unit }));
    const read = readPlainLine(lines.at(-1)!, { ...format!, columns });
    return [columns.map((column) => [placeOf(column), column.unit]), read.kind === 'data' && read.counts];
  };

  it.each([
    [
      'two values under one label',
      ['Humidity: 45.00%  Temperature: 23.50°C 74.30°F', 'Humidity: 45.10%  Temperature: 23.60°C 74.48°F'],
      [
        ['Humidity', '%'],
        ['Temperature', 'Cel'],
        ['Temperature#2', '[degF]'],
      ],
      [451_000, 236_000, 744_800],
    ],
    [
      'the second one in brackets',
      ['Temp: 23.5 C (74.3 F)'],
      [
        ['Temp', 'Cel'],
        ['Temp#2', '[degF]'],
      ],
      [235_000, 743_000],
    ],
    [
      'ampersands',
      ['pot=23.5&flue=180.2', 'flue=181&pot=23.6'],
      [
        ['pot', 'Cel'],
        ['flue', 'Cel'],
      ],
      [236_000, 1_810_000],
    ],
    [
      'a checksum at the end',
      ['$TEMP,23.5,180.2*4F', '$TEMP,23.6,181.2*4E'],
      [
        ['1', 'Cel'],
        ['2', 'Cel'],
      ],
      [236_000, 1_812_000],
    ],
    ['a status before the sign', ['wn+0012.34kg', 'wn-0000.34kg'], [['0', 'kg']], [-3_400]],
    [
      'a sign that stands apart now and then',
      ['S     12.34 kg', 'D    12.30 kg', 'S -    0.34 kg'],
      [['kg', 'kg']],
      [-3_400],
    ],
    [
      'a name with its probe in brackets',
      ['temp_celsius{probe="pot"} 23.5', 'temp_celsius{probe="flue"} 180.5', 'temp_celsius{probe="pot"} 23.6'],
      [
        ['temp_celsius{probe="pot"}', 'Cel'],
        ['temp_celsius{probe="flue"}', 'Cel'],
      ],
      [236_000, null],
    ],
    [
      'quantities in turn, without any label',
      ['23.5C', '1.234kg', '23.6C', '999g'],
      [
        ['Cel', 'Cel'],
        ['kg', 'kg'],
      ],
      [null, 9_990],
    ],
    [
      'a name, then its value',
      ['T1,23.5', 'T2,180.5', 'T1,23.6'],
      [
        ['T1', 'Cel'],
        ['T2', 'Cel'],
      ],
      [236_000, null],
    ],
    [
      'slashes between',
      ['T1=20.5/T2=30.5', 'T1=20.6/T2=30.6'],
      [
        ['T1', 'Cel'],
        ['T2', 'Cel'],
      ],
      [206_000, 306_000],
    ],
    ['a sentence', ['Temperature in F is 74.3', 'Temperature in F is 74.5'], [['4', '[degF]']], [745_000]],
  ])('%s', (_, lines, columns, counts) => {
    expect(understood(...lines)).toEqual([columns, counts]);
  });
});

describe('Text that a board prints next to its readings', () => {
  it('is an overload where a scale prints one, whatever the number', () => {
    const { format } = guessPlainFormat(['ST,GS,+  12.34kg', 'ST,GS,+  12.36kg']);
    const columns = format!.columns.map((column) => ({ ...column, unit: column.unit! }));
    expect(readPlainLine('OL,GS,+9999.99kg', { ...format!, columns })).toMatchObject({ faults: ['outOfRange'] });
  });

  it('is ignored: the log of a program, a clock inside the line, a dotted line', () => {
    const { format } = guessPlainFormat([
      '--------------------',
      'I (1234) main: Temp: 23.5 C at 12:34:56',
      '--------------------',
      'I (2234) main: Temp: 23.6 C at 12:34:57',
    ]);
    expect(format!.columns.map(({ key, unit }) => [key, unit])).toEqual([['main: Temp', 'Cel']]);
  });

  it('has a number when it occurs twice under one label', () => {
    const format = { layout: 'labelled', separator: 'comma', decimal: 'point' } as const;
    expect(cellsOf('T=20.5 T=30.5', format).map(({ key }) => key)).toEqual(['T', 'T#2']);
  });
});

describe('Page and service', () => {
  const name = fc.stringMatching(/^[a-z]{2,8}$/);
  const names = fc.uniqueArray(name, { minLength: 2, maxLength: 6 });
  const value = fc.integer({ min: -200_000, max: 2_000_000 }).map((n) => n / 100);

  /** Returns the value that the page shows at a place, and the one that the service stores. */
  function sides(line: string, format: PlainFormat) {
    const shown = new Map(cellsOf(line, format).map(({ key, text }) => [key, text]));
    const read = readPlainLine(line, format);
    return format.columns.map((column, index) => {
      const field = readPlainField(shown.get(placeOf(column)) ?? '', format.decimal);
      return [
        field.kind === 'number' ? Math.round(field.value * 10_000) : null,
        read.kind === 'data' ? (read.counts[index] ?? null) : null,
      ];
    });
  }

  it('find the same values, with empty fields at either end of the line', () => {
    const separators = { comma: ',', semicolon: ';', tab: '\t' } as const;
    const separator = fc.constantFrom('comma', 'semicolon', 'tab' as const);
    const cells = fc
      .array(fc.option(value), { minLength: 2, maxLength: 6 })
      .filter((all) => all.some((v) => v !== null));
    fc.assert(
      fc.property(separator, cells, (by, values) => {
        const line = values.map((each) => (each === null ? '' : each.toFixed(2))).join(separators[by]);
        const columns = values.map((_, column) => ({ column, name: `Column ${column}`, unit: 'Cel' as const }));
        const both = sides(line, { separator: by, decimal: 'point', headerLines: 0, columns });
        const expected = values.map((each) => (each === null ? null : Math.round(Number(each.toFixed(2)) * 10_000)));
        expect(both).toEqual(expected.map((each) => [each, each]));
      }),
    );
  });

  it('find a value by its label in any order, with any mark and any unit', () => {
    const mark = fc.constantFrom('=', ': ', ' = ', ':', ' -> ', '=> ');
    const between = fc.constantFrom(' ', ', ', '; ', '\t', ' | ');
    const unit = fc.constantFrom('', ' °C', 'C', ' C', '*C');
    fc.assert(
      fc.property(
        names,
        fc.infiniteStream(value),
        mark,
        between,
        unit,
        fc.integer(),
        (all, values, by, gap, behind, turn) => {
          const expected = new Map(all.map((each) => [each, values.next().value as number]));
          const from = Math.abs(turn) % all.length;
          const order = [...all.slice(from), ...all.slice(0, from)];
          const line = order.map((each) => `${each}${by}${expected.get(each)!.toFixed(2)}${behind}`).join(gap);
          const columns = all.map((key) => ({ key, name: key, unit: 'Cel' as const }));
          const both = sides(line, {
            layout: 'labelled',
            separator: 'comma',
            decimal: 'point',
            headerLines: 0,
            columns,
          });
          const counts = all.map((each) => Math.round(Number(expected.get(each)!.toFixed(2)) * 10_000));
          expect(both).toEqual(counts.map((each) => [each, each]));
        },
      ),
    );
  });

  it('find a value by its path in JSON, whatever the order', () => {
    fc.assert(
      fc.property(fc.dictionary(name, fc.oneof(value, fc.array(value, { minLength: 1, maxLength: 3 }))), (object) => {
        const flat = Object.entries(object).flatMap(([key, each]) =>
          typeof each === 'number'
            ? [[key, each] as const]
            : each.map((one, index) => [`${key}[${index}]`, one] as const),
        );
        fc.pre(
          flat.length > 0 && !/unit|sensor|probe|channel|name|label|addr|rom|uom/.test(Object.keys(object).join(' ')),
        );
        const columns = flat.map(([key]) => ({ key, name: key, unit: 'Cel' as const }));
        const format: PlainFormat = { layout: 'json', separator: 'comma', decimal: 'point', headerLines: 0, columns };
        const reversed = Object.fromEntries(Object.entries(object).reverse());
        for (const line of [JSON.stringify(object), JSON.stringify(reversed)]) {
          expect(sides(line, format)).toEqual(
            flat.map(([, each]) => [Math.round(each * 10_000), Math.round(each * 10_000)]),
          );
        }
      }),
    );
  });
});
