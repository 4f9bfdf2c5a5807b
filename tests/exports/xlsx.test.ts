import readWorkbook from 'read-excel-file/node';
import { expect, test } from 'vitest';
import { tableOf } from '../../server/exports/table.ts';
import { xlsx } from '../../server/exports/xlsx.ts';
import { allRows, smallTable } from './tables.ts';

const write = (...tables: Parameters<typeof xlsx>[0]) => Buffer.concat([...xlsx(tables)]);

test('an independent reader finds every sheet, number, gap and text of a workbook, and no formula', async () => {
  const marks = tableOf({
    name: 'marks',
    description: 'invented',
    columns: [{ name: 'kind', type: 'text', description: '' }],
    rows: [['lit'], ['fed']],
  });
  const sheets = await readWorkbook(write(smallTable(), marks), { trim: false });
  expect(sheets.map((sheet) => sheet.sheet)).toEqual(['readings', 'marks']);
  expect(sheets[0]?.data).toEqual([
    ['elapsed [s]', 'water [Cel]', 'note'],
    // XML cannot contain a bell character; everything else is unchanged.
    ...allRows(smallTable()).map((row) => row.map((cell) => (cell === 'a\u0007bell' ? 'abell' : cell))),
  ]);
  expect(sheets[1]?.data).toEqual([['kind'], ['lit'], ['fed']]);
});

test('the same tables give the same bytes', () => {
  expect(write(smallTable()).equals(write(smallTable()))).toBe(true);
});

test('a table longer than a sheet continues in a second sheet', async () => {
  const rows = 1_048_576 + 10;
  const long = {
    ...smallTable(),
    columns: [{ name: 'n', type: 'integer' as const, description: '' }],
    *pages() {
      for (let start = 0; start < rows; start += 65_536)
        yield [Array.from({ length: Math.min(65_536, rows - start) }, (_, row) => start + row)];
    },
  };
  let largest = 0;
  let ending: Uint8Array[] = [];
  for (const piece of xlsx([long])) {
    largest = Math.max(largest, piece.length);
    ending = [...ending.slice(-8), piece];
  }
  expect(largest).toBeLessThan(2_000_000);
  // The directory at the end of the archive lists two sheets; reading a million rows back would only be slow.
  const directory = Buffer.concat(ending).toString('latin1');
  expect(directory).toContain('xl/worksheets/sheet2.xml');
  expect(directory).not.toContain('xl/worksheets/sheet3.xml');
});
