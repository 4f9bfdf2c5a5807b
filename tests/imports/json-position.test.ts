import { expect, test } from 'vitest';
import { findJsonFault, jsonOffset, placeOf } from '../../server/imports/json-position.ts';
import fc from '../support/properties.ts';

const refused = (text: string) => {
  try {
    JSON.parse(text);
    return false;
  } catch {
    return true;
  }
};

test('a fault is found in every text that JSON.parse refuses, and in no other', () => {
  const damaged = fc
    .tuple(fc.json(), fc.nat(), fc.constantFrom('', ',', '"', '{', '}', '[', ']', ':', '\\', 'x', '1', '.', '\n'))
    .map(([text, at, put]) => text.slice(0, at % (text.length + 1)) + put + text.slice((at % (text.length + 1)) + 1));
  fc.assert(
    fc.property(fc.oneof(damaged, fc.string(), fc.json()), (text) => {
      expect(findJsonFault(text) !== undefined).toBe(refused(text));
    }),
    { numRuns: 500 },
  );
});

test.each([
  ['{"a": 1,\n "b" 2}', 2, 6, 'colon'],
  ['{"a": 1\n "b": 2}', 2, 2, 'commaOrEnd'],
  ['[1, 2,]', 1, 7, 'value'],
  ['{"a": 1,}', 1, 9, 'key'],
  ['{"a": "x', 1, 9, 'stringEnd'],
  ['{"a": "x\ny"}', 1, 9, 'stringEnd'],
  ['"\\q"', 1, 2, 'escape'],
  ['{} {}', 1, 4, 'nothingMore'],
  ['', 1, 1, 'value'],
  ['[NaN]', 1, 2, 'value'],
  ['[1,\r\n 012]', 2, 3, 'commaOrEnd'],
])('the fault of %j is at line %i, column %i: expected %s', (text, line, column, expected) => {
  const fault = findJsonFault(text)!;
  expect({ ...placeOf(text, fault.offset), expected: fault.expected }).toEqual({ line, column, expected });
});

test('the place of any value is found by its path, in any layout', () => {
  fc.assert(
    fc.property(fc.jsonValue(), fc.constantFrom(0, 2, '\t'), (value, layout) => {
      const text = JSON.stringify(value, null, layout);
      const visit = (part: unknown, path: (string | number)[]): void => {
        const from = text.slice(jsonOffset(text, path));
        const own = JSON.stringify(part);
        expect(from.replace(/\s/g, '').startsWith(own.replace(/\s/g, ''))).toBe(true);
        if (typeof part !== 'object' || part === null) return;
        for (const [key, child] of Object.entries(part))
          visit(child, [...path, Array.isArray(part) ? Number(key) : key]);
      };
      visit(value, []);
    }),
  );
});

test('a hundred thousand open brackets are a fault and no crash', () => {
  expect(findJsonFault('['.repeat(100_000))).toBeDefined();
});
