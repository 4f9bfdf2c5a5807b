import { parse } from 'csv-parse/sync';
import { expect, test } from 'vitest';
import { csv } from '../../server/exports/csv.ts';
import { tableOf } from '../../server/exports/table.ts';
import fc from '../support/properties.ts';
import { hostileTexts } from './tables.ts';

const written = (texts: readonly (string | number | null)[]) =>
  [
    ...csv(
      tableOf({
        name: 'texts',
        description: 'invented',
        columns: [
          { name: 'before', type: 'integer', description: '' },
          { name: 'text', type: 'text', description: '' },
          { name: 'after', type: 'integer', description: '' },
        ],
        rows: texts.map((text, row) => [row, text, -row]),
      }),
    ),
  ].join('');

/** Returns the middle column as another CSV parser reads it. */
const readBack = (text: string) => (parse(text, { from: 2 }) as string[][]).map((row) => row[1]!);

/** The rule as documented in every package. */
const withoutApostrophe = (text: string) => (text.startsWith("'") ? text.slice(1) : text);

test('any text is recovered by another parser after removal of its leading apostrophe', () => {
  const anyText = fc.oneof(
    fc.string({ unit: 'binary' }),
    fc.constantFrom(...hostileTexts, "'", "'=1", '\u0000', ' =1'),
  );
  fc.assert(
    fc.property(
      fc.array(
        anyText.filter((text) => text !== ''),
        { minLength: 1 },
      ),
      (texts) => {
        const expected = texts.map((text) => Buffer.from(text.replaceAll('\u0000', '\ufffd')).toString());
        expect(readBack(Buffer.from(written(texts)).toString()).map(withoutApostrophe)).toEqual(expected);
      },
    ),
  );
});

test('no cell begins with text that a spreadsheet would execute', () => {
  const cells = readBack(written([...hostileTexts, '=1+1', '\t=1', '  =1', '＝1', '\r\n=1', '+1', '@A1', '-1']));
  expect(cells.filter((text) => /^\s*[=+\-@＝＋－＠]/.test(text))).toEqual([]);
});

test('numbers are written with a point, negative ones without an apostrophe, and missing ones as empty cells', () => {
  expect(written([-23.5, 1e-7, null])).toBe('before,text,after\r\n0,-23.5,0\r\n1,1e-7,-1\r\n2,,-2\r\n');
});
