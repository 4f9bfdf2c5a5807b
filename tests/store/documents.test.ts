import { expect, test } from 'vitest';
import { AppError } from '../../server/base/app-error.ts';
import fc from '../support/properties.ts';
import { burnId, openTestStore, plannedBurn, saveBurn, tempStore, testId } from '../support/temp-store.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';

const stove = { id: testId(10), name: 'Heron' };

test('every version of a document stays, with who made it', () => {
  const { documents } = tempStore();
  documents.create('stove', { id: stove.id, body: stove, by: 'first' });
  documents.revise('stove', stove.id, { expectedVersion: 1, body: { ...stove, name: 'Heron, raised' }, by: 'second' });
  expect(documents.history('stove', stove.id).map(({ version, body, by }) => [version, body.name, by])).toEqual([
    [1, 'Heron', 'first'],
    [2, 'Heron, raised', 'second'],
  ]);
  expect(documents.get('stove', stove.id)).toMatchObject({ version: 2, body: { name: 'Heron, raised' } });
});

test('creating the same identifier twice keeps one document and answers it', () => {
  const { documents } = tempStore();
  expect(documents.create('stove', { id: stove.id, body: stove }).created).toBe(true);
  const again = documents.create('stove', { id: stove.id, body: { ...stove, name: 'another' } });
  expect(again).toMatchObject({ created: false, document: { version: 1, body: { name: 'Heron' } } });
  expect(documents.list('stove')).toHaveLength(1);
});

test('a change made from an old version is refused and shows the newest one', () => {
  const { documents } = tempStore();
  documents.create('stove', { id: stove.id, body: stove });
  documents.revise('stove', stove.id, { expectedVersion: 1, body: { ...stove, name: 'second' }, by: 'second' });
  const late = () => documents.revise('stove', stove.id, { expectedVersion: 1, body: { ...stove, name: 'third' } });
  expect(late).toThrow(
    expect.objectContaining({
      code: 'store/conflict',
      params: { expected: 1, found: 2 },
      details: { newest: expect.objectContaining({ version: 2, by: 'second', body: { ...stove, name: 'second' } }) },
    }),
  );
  expect(documents.history('stove', stove.id)).toHaveLength(2);
});

test('withdrawing is a version too and can be undone by the next one', () => {
  const store = tempStore();
  saveBurn(store);
  const mark = { id: testId(20), kind: 'lit' as const, elapsedUs: 0 };
  store.documents.create('mark', { id: mark.id, burnId, body: mark });
  expect(store.documents.withdraw('mark', mark.id, { expectedVersion: 1 })).toMatchObject({
    version: 2,
    withdrawn: true,
  });
  const back = store.documents.revise('mark', mark.id, { expectedVersion: 2, body: mark });
  expect(back).toMatchObject({ version: 3, withdrawn: false });
});

test('an identifier that belongs to another burn is refused', () => {
  const store = tempStore();
  const other = testId(3);
  saveBurn(store);
  saveBurn(store, other);
  const mark = { id: testId(20), kind: 'lit' as const, elapsedUs: 0 };
  store.documents.create('mark', { id: mark.id, burnId, body: mark });
  expect(() => store.documents.create('mark', { id: mark.id, burnId: other, body: mark })).toThrow(
    expect.objectContaining({ code: 'burn/already-there' }),
  );
});

test.each([Number.NaN, Number.POSITIVE_INFINITY])('a document with %s in it is refused, not kept as null', (value) => {
  const { documents } = tempStore();
  const vessel = { id: testId(11), name: 'vat', massKg: value };
  expect(() => documents.create('vessel', { id: vessel.id, body: vessel })).toThrow(
    expect.objectContaining({ code: 'store/not-finite', params: { what: 'massKg', value: String(value) } }),
  );
  expect(documents.list('vessel')).toEqual([]);
});

test('a burn is removed with everything about it, and what stands on the shelf stays', () => {
  const store = tempStore();
  saveBurn(store);
  store.documents.create('stove', { id: stove.id, body: stove });
  const mark = { id: testId(20), kind: 'lit' as const, elapsedUs: 0 };
  store.documents.create('mark', { id: mark.id, burnId, body: mark });
  store.removeBurn(burnId);
  expect(store.documents.get('burn', burnId)).toBeUndefined();
  expect(store.documents.get('mark', mark.id)).toBeUndefined();
  expect(store.documents.list('stove')).toHaveLength(1);
});

test('work done together is kept whole or not at all', () => {
  const { documents, together } = tempStore();
  const work = () =>
    together(() => {
      documents.create('stove', { id: stove.id, body: stove });
      throw new AppError('request/failed');
    });
  expect(work).toThrow(AppError);
  expect(documents.list('stove')).toEqual([]);
});

test('documents are there after the store was closed and opened again', () => {
  const folder = temporaryFolder();
  const first = openTestStore(folder);
  first.documents.create('stove', { id: stove.id, body: stove });
  first.close();
  expect(
    openTestStore(folder)
      .documents.list('stove')
      .map(({ body }) => body),
  ).toEqual([stove]);
});

test('the unfinished burns are those of the list, whatever was written, undone, closed or opened again', () => {
  const statuses = ['planned', 'running', 'ended', 'complete'] as const;
  const step = fc.record({
    burn: fc.integer({ min: 1, max: 3 }),
    to: fc.constantFrom(...statuses, 'removed' as const),
    next: fc.constantFrom('nothing', 'undone', 'asked', 'opened again', 'closed unasked'),
  });
  fc.assert(
    fc.property(fc.array(step, { maxLength: 12 }), (steps) => {
      const folder = temporaryFolder();
      let store = openTestStore(folder);
      const reopen = () => {
        store.close();
        store = openTestStore(folder);
      };
      const expectSame = () => {
        const listed = store.documents.list('burn').filter(({ body }) => /running|ended/.test(body.status));
        const unfinished = store.documents.unfinishedBurns();
        expect(unfinished.map(({ id, version }) => [id, version]).sort()).toEqual(
          listed.map(({ id, version }) => [id, version]).sort(),
        );
      };
      for (const { burn, to, next } of steps) {
        const id = testId(burn);
        const write = () => {
          const version = store.documents.get('burn', id)?.version;
          if (to === 'removed') store.removeBurn(id);
          else if (version === undefined)
            store.documents.create('burn', { id, body: { ...plannedBurn(id), status: to } });
          else
            store.documents.revise('burn', id, { expectedVersion: version, body: { ...plannedBurn(id), status: to } });
        };
        if (next !== 'undone') write();
        else
          expect(() =>
            store.together(() => {
              write();
              store.documents.unfinishedBurns();
              throw new AppError('request/failed');
            }),
          ).toThrow(AppError);
        if (next === 'closed unasked') reopen();
        if (next === 'asked' || next === 'opened again') expectSame();
        if (next === 'opened again') reopen();
      }
      expectSame();
      store.close();
    }),
    { numRuns: 12 },
  );
});
