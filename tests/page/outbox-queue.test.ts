import { expect, test } from 'vitest';
import type { WeighUp } from '../../shared/contract/entries.ts';
import type { Mark } from '../../shared/contract/marks.ts';
import { correction, type Entry, statement, weighUpEntry, withdrawal } from '../../web/outbox/entries.ts';
import { claimed, delivered, queued, refused, unanswered } from '../../web/outbox/queue.ts';
import type { OutboxEntry } from '../../web/outbox/store.ts';
import fc from '../support/properties.ts';

const burn = 'burn';
const fed = (massKg: number, id = 'm'): Mark => ({ id, kind: 'fed', elapsedUs: 0, massKg });
const massOf = ({ body }: OutboxEntry) => ((body?.mark ?? body) as { massKg?: number } | undefined)?.massKg;

/** The queue of a device, with sequence numbers as its store gives them. */
function device(isStored: (entry: Entry) => boolean = () => false) {
  let entries: readonly OutboxEntry[] = [];
  let last = 0;
  let nowMs = 0;
  const save = (next: readonly OutboxEntry[]) => {
    entries = next.map((entry) => (entry.seq === undefined ? { ...entry, seq: ++last } : entry));
  };
  return {
    entries: () => entries,
    save,
    type: (entry: Entry) => save(queued(entries, entry, { nowMs, isStored: isStored }).entries),
    send(tab: string) {
      const step = claimed(entries, tab, nowMs);
      save(step.entries);
      return step.entry;
    },
    lose(tab: string) {
      const sent = claimed(entries, tab, nowMs).entry!;
      save(unanswered(claimed(entries, tab, nowMs).entries, sent));
    },
    pass: (ms: number) => {
      nowMs += ms;
    },
  };
}

test('of two tabs one sends at a time, in order; the other sends the entries of a closed one', () => {
  const { type, send, save, entries, pass } = device();
  type(statement(burn, 'mark', fed(1, 'a')));
  type(statement(burn, 'mark', fed(2, 'b')));
  const first = send('one');
  expect([first?.about.id, send('two')]).toEqual(['a', undefined]);
  save(delivered(entries(), first!));
  expect(send('two')?.about.id).toBe('b');
  pass(20_000);
  expect(send('one')).toBeUndefined();
  pass(6_000);
  const again = send('one');
  expect(again?.about.id).toBe('b');
  // A clock that was set back to yesterday blocks nothing.
  pass(-86_400_000);
  expect(send('three')?.about.id).toBe('b');
});

test('an entry that may have reached the service is not changed under its identifier: a correction follows it', () => {
  const { type, send, lose, save, entries } = device();
  type(statement(burn, 'mark', fed(8)));
  type(correction(burn, 'mark', { thing: fed(6), from: 0 }));
  // Nothing was sent yet: one entry.
  expect(entries().map(massOf)).toEqual([6]);
  lose('one');
  type(correction(burn, 'mark', { thing: fed(0.6), from: 0 }));
  expect(entries().map((entry) => [entry.method, massOf(entry), entry.from])).toEqual([
    ['POST', 6, undefined],
    ['PUT', 0.6, 1],
  ]);
  type(withdrawal(burn, 'mark', { id: 'm', from: 0 }));
  expect(entries().map(({ method, path }) => `${method} ${path}`)).toEqual([
    'POST /burns/burn/marks',
    'DELETE /burns/burn/marks/m?expectedVersion=1',
  ]);
  // The service answers that it never had the entry: then there is nothing to withdraw.
  const sent = send('two')!;
  save(refused(entries(), sent, { code: 'mark/in-the-future', message: 'later' }));
  expect(entries()).toEqual([]);
});

test('a weigh-up after one that may have arrived has the versions that follow from the first', () => {
  const { type, lose, entries } = device();
  const ash = (massKg: number, expectedVersion?: number) => ({
    weighing: { id: 'a', of: 'ash' as const, when: 'end' as const, massKg },
    ...(expectedVersion !== undefined && { expectedVersion }),
  });
  type(weighUpEntry(burn, { weighings: [ash(1)], status: 'ended' }));
  lose('one');
  type(weighUpEntry(burn, { weighings: [ash(2)] }));
  expect(entries().map(({ body }) => (body as unknown as WeighUp).weighings)).toEqual([[ash(1)], [ash(2, 1)]]);
});

test('a late refusal does not change what was typed meanwhile', () => {
  const { type, send, save, entries, pass } = device();
  const refusal = { code: 'weighing/more-fuel-left', message: 'too much' };
  type(statement(burn, 'mark', fed(8)));
  const late = send('one')!;
  pass(30_000);
  save(refused(entries(), send('two')!, refusal));
  type(correction(burn, 'mark', { thing: fed(0.8), from: 0 }));
  save(refused(entries(), late, refusal));
  save(delivered(entries(), late));
  expect(entries().map((entry) => [massOf(entry), entry.refusal])).toEqual([[0.8, undefined]]);
});

/** Stores marks like the service: the same entry or the same change again has no effect. */
function service() {
  const versions = new Map<string, (number | undefined)[]>();
  const of = (id: string) => versions.get(id) ?? [];
  return {
    of,
    onEntry(entry: OutboxEntry) {
      const { id } = entry.about;
      const [there, from] = [of(id), entry.method === 'POST' ? 0 : entry.from!];
      if (entry.method === 'POST' ? there.length > 0 : there.length > from && there[from] === massOf(entry)) return;
      if (there.length !== from) throw new Error(`${id}: version ${from} of ${there.length}`);
      versions.set(id, [...there, massOf(entry)]);
    },
  };
}

test('with two tabs and any losses of the connection, the last entry is the stored one, and nothing is refused', () => {
  const tabs = fc.constantFrom('one', 'two');
  const acts = fc.array(
    fc.oneof(
      fc.record({ act: fc.constant('type' as const), id: fc.constantFrom('a', 'b'), massKg: fc.option(fc.nat(3)) }),
      fc.record({ act: fc.constantFrom('send', 'arrive', 'answer', 'lose', 'close'), tab: tabs }),
      fc.record({ act: fc.constant('wait' as const) }),
    ),
    { maxLength: 40 },
  );
  fc.assert(
    fc.property(acts, (history) => {
      const there = service();
      const newest = (id: string) => there.of(id).at(-1);
      const isStored = ({ method, from, about, body }: Entry) =>
        method === 'PUT' &&
        there.of(about.id).length === from &&
        newest(about.id) === (body as { mark: { massKg: number } }).mark.massKg;
      const { type, send, save, entries, pass } = device(isStored);
      const wanted = new Map<string, number | undefined>();
      const underWay = new Map<string, { sent: OutboxEntry; hasArrived: boolean }>();
      let reloads = 0;
      const nameOf = new Map([
        ['one', 'one'],
        ['two', 'two'],
      ]);
      const lose = (tab: string) => {
        const request = underWay.get(tab);
        if (request) save(unanswered(entries(), request.sent));
        underWay.delete(tab);
      };
      const arrive = (tab: string) => {
        const request = underWay.get(tab);
        if (!request || request.hasArrived) return;
        request.hasArrived = true;
        there.onEntry(request.sent);
      };
      const answer = (tab: string) => {
        const request = underWay.get(tab);
        if (!request?.hasArrived) return;
        save(delivered(entries(), request.sent));
        underWay.delete(tab);
      };
      const start = (tab: string) => {
        const sent = underWay.has(tab) ? undefined : send(nameOf.get(tab)!);
        if (sent) underWay.set(tab, { sent, hasArrived: false });
        return sent;
      };
      for (const each of history) {
        if (each.act === 'type') {
          const { id, massKg } = each;
          const from = there.of(id).length;
          const isStated = from > 0 || entries().some(({ about }) => about.id === id);
          if (massKg === null && wanted.get(id) === undefined) continue;
          if (massKg === null) type(withdrawal(burn, 'mark', { id, from }));
          else if (isStated) type(correction(burn, 'mark', { thing: fed(massKg, id), from }));
          else type(statement(burn, 'mark', fed(massKg, id)));
          wanted.set(id, massKg ?? undefined);
        } else if (each.act === 'wait') {
          // No request takes longer.
          for (const tab of ['one', 'two']) lose(tab);
          pass(30_000);
        } else if (each.act === 'send') start(each.tab);
        else if (each.act === 'arrive') arrive(each.tab);
        else if (each.act === 'answer') answer(each.tab);
        else if (each.act === 'lose') lose(each.tab);
        else {
          underWay.delete(each.tab);
          nameOf.set(each.tab, `${each.tab} ${++reloads}`);
        }
      }
      for (const tab of ['one', 'two']) lose(tab);
      pass(30_000);
      while (start('one')) {
        arrive('one');
        answer('one');
      }
      expect(entries()).toEqual([]);
      for (const [id, massKg] of wanted) expect([id, newest(id)]).toEqual([id, massKg]);
    }),
    { numRuns: 500 },
  );
});
