import { expect, test } from 'vitest';
import { editBurnSchema } from '../../shared/contract/burns.ts';

test('an edit of a burn contains what was sent and nothing else', () => {
  expect(editBurnSchema.parse({ expectedVersion: 3 })).toEqual({ expectedVersion: 3 });
  expect(editBurnSchema.parse({ expectedVersion: 3, status: 'ended' })).toEqual({
    expectedVersion: 3,
    status: 'ended',
  });
});
