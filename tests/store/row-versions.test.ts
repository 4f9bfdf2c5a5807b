import { expect, onTestFinished, test } from 'vitest';
import { openStoreToRead } from '../../server/store/open-store.ts';
import { boardId, burnId, saveBurn, scanAt, tempStore, testId } from '../support/temp-store.ts';

test('a connection that only reads sees every change of a burn and of the inventory, and none of another burn', async () => {
  const store = tempStore();
  saveBurn(store);
  saveBurn(store, testId(9));
  const reader = openStoreToRead(store.folder);
  onTestFinished(() => reader.close());
  const gap = { fromUs: 0, toUs: 5e6, cause: 'lost' as const, boardId };
  const mark = { id: testId(20), kind: 'lit' as const, elapsedUs: 0 };
  const writes: (() => unknown)[] = [
    () => store.documents.create('mark', { id: mark.id, burnId, body: mark }),
    () => store.documents.withdraw('mark', mark.id, { expectedVersion: 1 }),
    () => store.scans.append(burnId, boardId, scanAt(1)),
    () => store.gaps.add(burnId, { ...gap, isOpen: true }),
    () => store.gaps.replace(store.gaps.open(burnId)[0]!, [gap]),
    () => store.documents.create('stove', { id: testId(30), body: { id: testId(30), name: 'Heron' } }),
  ];
  const [seen, others] = [[reader.changesOf(burnId)], new Set([reader.changesOf(testId(9))])];
  for (const write of writes) {
    await write();
    seen.push(reader.changesOf(burnId));
    others.add(reader.changesOf(testId(9)));
  }
  expect(new Set(seen).size).toBe(writes.length + 1);
  expect(reader.changesOf(burnId)).toBe(seen.at(-1));
  // The stove alone concerns both.
  expect(others.size).toBe(2);
});
