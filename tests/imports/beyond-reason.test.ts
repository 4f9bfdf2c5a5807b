import { expect, test } from 'vitest';
import { isAppError } from '../../server/base/app-error.ts';
import { firstRows } from '../../server/imports/columns/split-rows.ts';
import { openFile } from '../../server/imports/open-file.ts';
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
