import { join } from 'node:path';
import { expect, test } from 'vitest';
import { isAppError } from '../../server/base/app-error.ts';
import { firstRows } from '../../server/imports/columns/split-rows.ts';
import { lookAt } from '../../server/imports/import-work.ts';
import { openFile } from '../../server/imports/open-file.ts';
import { tempStore } from '../support/temp-store.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';
import { bytesOf } from './files.ts';

function codeOf(text: string, as?: 'notes'): string {
  try {
    return openFile(bytesOf(text), 'a file', as).kind;
  } catch (error) {
    if (!isAppError(error)) throw error;
    return `${error.code} ${error.params.line ?? ''}`;
  }
}

test('a line that no logger and no person writes is refused by its number, before anything looks into it', () => {
  const digits = '1'.repeat(20_000_000);
  expect(codeOf(`s,C\r\n0,20\r\n${digits}`)).toBe('import/line-too-long 3');
  expect(codeOf(digits)).toBe('import/line-too-long 1');
  expect(codeOf(`10:05 20\n10:10 ${'1'.repeat(5000)}`, 'notes')).toBe('import/line-too-long 2');
});

function lookedAt(text: string) {
  const separator = text.includes(';') ? 'semicolon' : 'comma';
  return { rows: firstRows(text, { separator }, 10) };
}

test('rows of thousands of cells, and cells of thousands of digits, are looked at as far as a logger would write them', () => {
  const { rows } = lookedAt(`0${',1'.repeat(20_000)}\n`.repeat(4));
  expect(rows[0]?.cells.length).toBeLessThan(1000);
  const long = lookedAt(`0;20\n1;${'1'.repeat(3000)}\n`);
  expect(long.rows[1]?.cells[1]).toMatch(/^…1{200}$/);
});

test('a table says which of its lines is being read, and one of more lines than a burn has readings is refused unread', async () => {
  const store = tempStore();
  const reports: [number, number][] = [];
  const look = (text: string) => {
    const folder = temporaryFolder({ 'table.csv': text });
    const input = { folder: store.folder, path: join(folder, 'table.csv'), file: 'table.csv' };
    return lookAt(store, input, { progress: (...report) => reports.push(report) });
  };
  const rows = Array.from({ length: 10_000 }, (_, row) => `${row};${20 + (row % 7)}\r\n`);
  expect((await look(`Time (s);Pot (°C)\r\n${rows.join('')}`)).kind).toBe('columns');
  expect(reports).toEqual([
    [4096, 10_002],
    [8192, 10_002],
  ]);
  await expect(look('0;0\n'.repeat(3_000_000))).rejects.toThrow('import/too-many-lines');
  expect(reports.length).toBe(2);
});
