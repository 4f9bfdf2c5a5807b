import { expect, test } from 'vitest';
import { inventedBurn } from '../../scripts/benchmark/exports/invented-burn.ts';
import { parseRecord } from '../../server/imports/parse-record.ts';
import { burnRecordSchema } from '../../shared/contract/burn-record.ts';
import fc from '../support/properties.ts';

const sound = inventedBurn(3, 100_000);
const [board] = sound.readings;
const places = [
  ['readings'],
  ['readings', 0],
  ...['elapsedUs', 'boot', 'sequence', 'columns'].map((list) => ['readings', 0, list]),
  ...['elapsedUs', 'boot', 'sequence', 'columns'].map((list) => ['readings', 0, list, 1]),
  ['readings', 0, 'columns', 1, 'counts'],
  ['readings', 0, 'columns', 1, 'counts', 2],
  ['readings', 0, 'columns', 1, 'unknown'],
  ['title'],
];

test('a record with anything in the place of anything is read, or refused, as its schema alone would', () => {
  const anything = fc.oneof(
    fc.constantFrom(null, -1, 0.5, 2 ** 53, -0, '', {}, [], [null], [1, 2, 3], undefined),
    fc.jsonValue({ maxDepth: 2 }),
  );
  fc.assert(
    fc.property(fc.constantFrom(...places), anything, (place, entry) => {
      const record = structuredClone({ ...sound, readings: [{ ...board, boot: [1, 1, 1], sequence: [0, 1, 2] }] });
      const last = place.at(-1)!;
      const holder = place.slice(0, -1).reduce<unknown>((at, key) => (at as Record<string, unknown>)[key], record);
      (holder as Record<string, unknown>)[last] = entry;
      expect(parseRecord(record)).toEqual(burnRecordSchema.safeParse(record, { reportInput: true }));
    }),
    { numRuns: 300 },
  );
});
