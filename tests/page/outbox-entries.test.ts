import { expect, test } from 'vitest';
import { lidStayedOn, type ShownMark } from '../../web/burn/burn-state.ts';
import { pileSum } from '../../web/burn/pile-sums.ts';
import { correction, merged, shownOf, statement, weighUpEntry, withdrawal } from '../../web/outbox/entries.ts';

const burn = 'burn';
const fed = (massKg: number) => ({ id: 'm', kind: 'fed' as const, elapsedUs: 0, massKg });
const refusal = { code: 'weighing/more-fuel-left', message: 'too much' };

test('two entries about one thing become one: an unsent one is not sent, a correction has the version it was made from', () => {
  const [stated, corrected, gone] = [
    statement(burn, 'mark', fed(8)),
    correction(burn, 'mark', { thing: fed(0.8), from: 2 }),
    withdrawal(burn, 'mark', { id: 'm', from: 2 }),
  ];
  expect(merged(stated, gone, 0)).toBeUndefined();
  expect(merged({ ...stated, refusal }, corrected, undefined)).toEqual({ ...stated, body: fed(0.8) });
  const again = correction(burn, 'mark', { thing: fed(0.9), from: 3 });
  expect(merged(corrected, again, 2)).toMatchObject({
    method: 'PUT',
    from: 2,
    body: { mark: fed(0.9), expectedVersion: 2 },
  });
  expect(merged(corrected, withdrawal(burn, 'mark', { id: 'm', from: 3 }), 2)).toMatchObject({
    method: 'DELETE',
    path: '/burns/burn/marks/m?expectedVersion=2',
  });
  // A refused one is replaced by one made from the version shown since.
  expect(merged({ ...corrected, refusal }, again, 3)).toEqual(again);
});

test('the later of two weigh-ups replaces the weighings it contains, and the rest of the earlier stays', () => {
  const weighing = (id: string, massKg: number) => ({
    weighing: { id, of: 'ash' as const, when: 'end' as const, massKg },
  });
  const earlier = weighUpEntry(burn, { weighings: [weighing('a', 1), weighing('b', 2)], status: 'ended' });
  const later = weighUpEntry(burn, { weighings: [weighing('b', 3)], takeBack: [{ id: 'a', expectedVersion: 0 }] });
  expect(merged({ ...earlier, refusal }, later, undefined)).toEqual({
    ...earlier,
    body: { weighings: [weighing('b', 3)], takeBack: [], status: 'ended' },
  });
});

test('a waiting entry is shown as it will be, a refused one next to the stored one', () => {
  const stored = [{ thing: fed(1), version: 4, withdrawn: false }];
  expect(shownOf(stored, [{ id: 'm', thing: fed(2) }])).toEqual([{ thing: fed(2), version: 4, state: 'waiting' }]);
  expect(shownOf(stored, [{ id: 'm' }])).toEqual([]);
  expect(shownOf(stored, [{ id: 'm', thing: fed(2), refusal }])).toEqual([
    { thing: fed(1), version: 4, state: 'refused', refusal: { typed: fed(2), problem: refusal } },
  ]);
});

test('the mass gone from a pile is compared with the feeds from it, within 3 % and 50 g', () => {
  const marks = [fed(2), { ...fed(1), fuelLotId: 'b' }, { ...fed(0.1), kind: 'logOut' as const }].map(
    (mark): ShownMark => ({ mark, version: 1, state: 'kept' }),
  );
  const sum = (lotId: string | undefined, beforeKg: number, afterKg: number | undefined) =>
    pileSum(marks, { lotId, isFirst: lotId !== 'b' }, { beforeKg, afterKg });
  expect(sum(undefined, 5, 2.1)).toMatchObject({ fedKg: 2.9, contradicts: false });
  expect(sum(undefined, 5, 2)).toMatchObject({ goneKg: 3, contradicts: true });
  expect(sum('a', 5, 3.1)).toMatchObject({ fedKg: 1.9, contradicts: false });
  expect(sum('b', 5, 4.06)).toMatchObject({ fedKg: 1, contradicts: true });
  expect(sum('b', 5, undefined)).toMatchObject({ contradicts: false });
});

test('the lid counts as on when it was on at fire out and was not taken off since', () => {
  const stayed = (...kinds: ('fireOut' | 'lidOn' | 'lidOff')[]) =>
    lidStayedOn(
      kinds.map((kind, at) => ({ mark: { id: String(at), kind, elapsedUs: at }, version: 1, state: 'kept' })),
    );
  expect(stayed()).toBe(true);
  expect(stayed('lidOff', 'lidOn', 'fireOut')).toBe(true);
  expect(stayed('lidOff', 'fireOut', 'lidOn')).toBe(false);
  expect(stayed('fireOut', 'lidOff', 'lidOn')).toBe(false);
  expect(stayed('lidOff')).toBe(false);
});
