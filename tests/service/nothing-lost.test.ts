/** Everything that a board sends while a burn runs is stored, shown as being fetched again, a gap, or an alarm. */
import { describe, expect, test } from 'vitest';
import { isSealed } from '../../server/backup/readings-seal.ts';
import { liveEventSchema } from '../../shared/contract/stream.ts';
import { openEventSource } from '../support/event-source.ts';
import { createFakeClock } from '../support/fake-clock.ts';
import fc from '../support/properties.ts';
import { burnUrl, numbersOf, recordBoard, recordedBoardId } from '../support/recorded-board.ts';
import { burnId, testId } from '../support/temp-store.ts';

describe('A board that falls silent and sends again', () => {
  test.each([
    ['28 s at one scan a second', 28, 1000],
    ['26 s at ten', 260, 100],
    ['two minutes', 120, 1000],
  ])('after %s, without a reset, is recorded again without missing scans', async (_what, periods, periodMs) => {
    const bench = await recordBoard({ periodMs });
    await bench.pass(10);
    bench.board.deaf = true;
    await bench.pass(periods, 'lost');
    bench.board.deaf = false;
    await bench.pass(Math.round(12_000 / periodMs));
    expect(bench.stored()).toEqual(numbersOf(bench.made));
    const { body } = await bench.service.call('GET', '/api/boards');
    expect(body.boards[0]).toMatchObject({ id: recordedBoardId, state: 'live' });
    expect(body.boards[0].channels).toHaveLength(2);
    expect(body.boards[0].problem).toBeUndefined();
  });

  test('gets requests for its description with growing pauses while it sends none, and its scans are stored meanwhile', async () => {
    const bench = await recordBoard();
    await bench.pass(5);
    await bench.unplug();
    await bench.pass(2, 'lost');
    bench.board.deaf = true;
    bench.plug();
    await bench.pass(60);
    const late = bench.stored();
    expect(late.slice(-40)).toEqual(numbersOf(bench.made).slice(-40));
    expect(await bench.problem()).toBe('probe/no-description');
    bench.board.deaf = false;
    await bench.pass(70);
    expect(bench.stored()).toEqual(numbersOf(bench.made));
    expect(await bench.problem()).toBeUndefined();
    const asked = bench.board.commands.filter(({ kind }) => kind === 'describe').length;
    expect(asked).toBeLessThan(20);
  });

  test('and first sends its hello in the middle of a burn has its earlier scans stored under its own identity', async () => {
    const bench = await recordBoard({ deaf: true });
    await bench.pass(20);
    const { body } = await bench.service.call('GET', '/api/boards');
    expect(bench.stored(body.boards[0].id)).toEqual(numbersOf(bench.made));
    bench.board.deaf = false;
    await bench.pass(70);
    expect(bench.stored()).toEqual(numbersOf(bench.made));
    expect(bench.service.store.scans.boards(burnId)).toEqual([recordedBoardId]);
    const { channels } = (await bench.service.call('GET', burnUrl)).body.burn;
    expect(channels).toHaveLength(2);
  });
});

describe('A missing scan', () => {
  /** Unplugs a cable for a while, and stops when the repair has just begun. */
  async function inRepair() {
    const bench = await recordBoard();
    await bench.pass(10);
    await bench.unplug();
    await bench.pass(30, 'lost');
    bench.board.damagedRepeats = 1e9;
    bench.plug();
    await bench.pass(5);
    return bench;
  }

  test('is shown as being fetched, and is fetched by the next run of the service', async () => {
    const bench = await inRepair();
    expect(await bench.detail()).toMatchObject({ gaps: [], repairs: [{ cause: 'unplugged', missingScans: 32 }] });
    bench.board.damagedRepeats = 0;
    await bench.restart(20_000);
    await bench.pass(30);
    expect(bench.stored()).toEqual(numbersOf(bench.made));
    expect(await bench.detail()).toMatchObject({ gaps: [], repairs: [] });
  });

  test('is fetched though the board does not answer the next run of the service at first', async () => {
    const bench = await inRepair();
    bench.board.damagedRepeats = 0;
    bench.board.deaf = true;
    await bench.restart(5_000);
    await bench.pass(5, 'lost');
    await bench.pass(60);
    expect((await bench.detail()).gaps).toEqual([]);
    bench.board.deaf = false;
    await bench.pass(70);
    expect(bench.stored()).toEqual(numbersOf(bench.made));
    expect(await bench.detail()).toMatchObject({ gaps: [], repairs: [] });
  });

  test('is fetched after the end of the burn, which is sealed only then', async () => {
    const bench = await inRepair();
    await bench.end();
    await bench.pass(2);
    expect(await bench.detail()).toMatchObject({ gaps: [], repairs: [{ missingScans: 32 }] });
    expect(isSealed(bench.service.store, burnId)).toBe(false);
    bench.board.damagedRepeats = 0;
    await bench.pass(70);
    expect(bench.stored()).toEqual(numbersOf(bench.made));
    expect(await bench.detail()).toMatchObject({ gaps: [], repairs: [], completeness: { stored: 45, missing: 0 } });
    expect(isSealed(bench.service.store, burnId)).toBe(true);
  });

  test('is stored in order as soon as there is room, though the disk was full when the last one arrived', async () => {
    const bench = await inRepair();
    await bench.end();
    const { derived } = bench.service.store;
    const { put } = derived;
    derived.put = () => {
      throw Object.assign(new Error('database or disk is full'), { code: 'SQLITE_FULL' });
    };
    bench.board.damagedRepeats = 0;
    await bench.pass(70);
    expect(bench.service.troubles).toEqual([expect.objectContaining({ code: 'SQLITE_FULL' })]);
    derived.put = put;
    await bench.pass(10);
    expect(bench.stored()).toEqual(numbersOf(bench.made));
    expect(await bench.detail()).toMatchObject({ gaps: [], repairs: [], completeness: { stored: 45, missing: 0 } });
  });

  test('when a burn begins while a cable is unplugged is fetched for it if it was made since the start', async () => {
    const bench = await recordBoard({}, { isRunning: false });
    await bench.pass(10);
    await bench.unplug();
    await bench.pass(20, 'lost');
    await bench.wait(500);
    await bench.service.call('POST', '/api/burns', { id: burnId, status: 'running' });
    await bench.pass(5, 'lost');
    bench.plug();
    await bench.pass(30);
    const { elapsedUs } = bench.service.store.scans.columns(burnId, recordedBoardId);
    expect(bench.stored()).toEqual(numbersOf(bench.board.held).slice(-35));
    elapsedUs.forEach((us, i) => {
      expect(Math.abs(us / 1e6 - (i + 1))).toBeLessThan(0.1);
    });
  });

  test.each([
    ['the first', false],
    ['one after another', true],
  ])(
    'since the start of a burn, %s, is fetched though the service was killed before it stored a scan',
    async (_what, isSecond) => {
      const bench = await recordBoard({ periodMs: 100 }, { isRunning: isSecond });
      await bench.pass(100);
      if (isSecond) await bench.end();
      await bench.pass(100);
      const next = testId(91);
      await bench.service.call('POST', '/api/burns', { id: next, status: 'running' });
      const { length } = bench.board.held;
      await bench.pass(20, 'lost');
      await bench.restart(0);
      await bench.pass(60);
      const { sequence, elapsedUs } = bench.service.store.scans.columns(next, recordedBoardId);
      expect([...sequence]).toEqual(bench.board.held.slice(length).map((scan) => scan.sequence));
      elapsedUs.forEach((us, i) => {
        expect(Math.abs(us / 1e6 - (i + 1) / 10)).toBeLessThan(0.15);
      });
    },
  );

  test('does not belong to a burn when its board hung until after the end', async () => {
    const bench = await recordBoard();
    await bench.pass(3);
    await bench.wait(13_000);
    await bench.end();
    await bench.pass(20);
    expect(bench.stored()).toEqual(numbersOf(bench.made));
  });

  test('does not belong to a burn when its board made it after the end and a reset', async () => {
    const bench = await recordBoard();
    await bench.pass(20);
    await bench.unplug();
    await bench.pass(5, 'lost');
    await bench.end();
    await bench.wait(3_000);
    bench.board.reset();
    await bench.pass(10, 'lost');
    bench.plug();
    await bench.pass(30);
    expect(bench.stored()).toEqual(numbersOf(bench.made.slice(0, 20)));
  });

  test('at the end of a burn with an unplugged cable is fetched when the board is back, and only up to the end of the burn', async () => {
    const bench = await recordBoard();
    await bench.pass(10);
    await bench.unplug();
    await bench.pass(30, 'lost');
    await bench.end();
    expect(await bench.detail()).toMatchObject({ gaps: [], repairs: [{ cause: 'unplugged' }] });
    await bench.pass(30, 'lost');
    bench.plug();
    await bench.pass(30);
    expect(bench.stored()).toEqual(numbersOf(bench.made));
    expect(await bench.detail()).toMatchObject({ gaps: [], repairs: [], completeness: { stored: 40, missing: 0 } });
  });

  test('at the end of a burn is fetched if the board still has it, and is part of a gap otherwise', async () => {
    const bench = await recordBoard({ periodMs: 100, repeatDepth: 120 });
    await bench.pass(20);
    await bench.unplug();
    await bench.pass(250, 'lost');
    await bench.end();
    await bench.pass(20, 'lost');
    // It reports its oldest scan, and the scans that it then sends are damaged: they are requested again.
    bench.board.damagedRepeats = 120;
    bench.plug();
    await bench.pass(150);
    const fetched = bench.stored().slice(20);
    expect(fetched.length).toBeGreaterThan(30);
    expect(fetched).toEqual(numbersOf(bench.made).slice(-fetched.length));
    const { gaps, repairs } = await bench.detail();
    const { elapsedUs } = bench.service.store.scans.columns(burnId, recordedBoardId);
    expect(repairs).toEqual([]);
    expect(gaps[0]!.fromUs).toBe(elapsedUs[19]);
    for (const [i, { fromUs }] of gaps.slice(1).entries()) expect(fromUs - gaps[i]!.toUs).toBeLessThan(0.2e6);
    expect(Math.abs(gaps.at(-1)!.toUs - elapsedUs[20]!)).toBeLessThan(0.2e6);
  });

  test('becomes a gap when the board is not back within the hour', async () => {
    const bench = await recordBoard();
    await bench.pass(10);
    await bench.unplug();
    await bench.pass(30, 'lost');
    await bench.end();
    await bench.service.clock.advanceAsync(3_700_000);
    const { gaps, repairs } = await bench.detail();
    expect(repairs).toEqual([]);
    expect(gaps).toEqual([expect.objectContaining({ boardId: recordedBoardId, fromUs: 10e6, toUs: 40e6 })]);
  });

  test('becomes a gap when the board is detached', async () => {
    const bench = await inRepair();
    await bench.end();
    await bench.service.call('DELETE', `/api/boards/${recordedBoardId}`);
    await bench.wait(2_000);
    const { gaps, repairs } = await bench.detail();
    expect(repairs).toEqual([]);
    expect(gaps).toEqual([expect.objectContaining({ cause: 'unplugged' })]);
  });

  test('that was given up is stored when it arrives, and the gap gets shorter', async () => {
    const bench = await recordBoard({ repeatDepth: 5 });
    await bench.pass(10);
    await bench.pass(20, 'lost');
    const lost = bench.made.slice(-20);
    await bench.pass(10);
    const [before] = (await bench.detail()).gaps;
    expect(before).toMatchObject({ fromUs: 10e6, toUs: 27e6 });
    for (const scan of lost.slice(0, 10)) bench.board.send({ ...scan, repeated: true });
    await bench.pass(2);
    expect(bench.stored()).toEqual(numbersOf([...bench.made.slice(0, 20), ...bench.made.slice(26)]));
    expect((await bench.detail()).gaps).toEqual([{ ...before, fromUs: 20e6 }]);
  });

  test('is stored in the order of the board, in any order of arrival', async () => {
    const bench = await inRepair();
    bench.board.damagedRepeats = 0;
    await bench.restart(700);
    await bench.pass(30);
    const { elapsedUs } = bench.service.store.scans.columns(burnId, recordedBoardId);
    expect(bench.stored()).toEqual(numbersOf(bench.made));
    for (let i = 1; i < elapsedUs.length; i++) expect(elapsedUs[i]! - elapsedUs[i - 1]!).toBeLessThan(1.5e6);
  });
});

describe('A board whose clock does not count milliseconds', () => {
  const wrongClocks: [string, (ms: number) => number][] = [
    ['counts seconds', (ms) => ms / 1000],
    ['counts microseconds', (ms) => ms * 1000],
    ['stands still', () => 4711],
  ];

  test.each(wrongClocks)(
    '%s: every live scan is stored with its time of arrival, and the fault is reported',
    async (_what, uptimeAs) => {
      const bench = await recordBoard({ uptimeAs });
      await bench.pass(30);
      expect(bench.stored()).toEqual(numbersOf(bench.made));
      const { elapsedUs } = bench.service.store.scans.columns(burnId, recordedBoardId);
      elapsedUs.forEach((us, i) => {
        expect(Math.abs(us / 1e6 - (i + 1))).toBeLessThan(1.1);
      });
      expect(await bench.problem()).toBe('probe/wrong-clock');
      expect(bench.service.troubles).toEqual([]);
    },
  );

  test.each(wrongClocks)(
    '%s: a restart does not set back the burn, and an ended burn gets no more scans',
    async (_what, uptimeAs) => {
      const bench = await recordBoard({ uptimeAs });
      await bench.pass(30);
      await bench.restart(60_000);
      bench.board.rest(60_000);
      await bench.pass(30);
      const { elapsedUs } = bench.service.store.scans.columns(burnId, recordedBoardId);
      elapsedUs.forEach((us, i) => {
        expect(Math.abs(us / 1e6 - (i < 30 ? i + 1 : i + 61))).toBeLessThan(2.1);
      });
      await bench.end();
      await bench.pass(120);
      expect(bench.stored()).toEqual(numbersOf(bench.made));
      expect(await bench.detail()).toMatchObject({ gaps: [], repairs: [], completeness: { stored: 60, missing: 0 } });
    },
  );

  test.each(wrongClocks)(
    '%s: a burn that ended while its numbers restarted gets no more scans',
    async (_what, uptimeAs) => {
      const bench = await recordBoard({ uptimeAs, firstSequence: 4294967280, periodMs: 100 });
      await bench.pass(40);
      await bench.service.clock.advanceAsync(90);
      await bench.end();
      await bench.pass(120);
      expect(bench.stored()).toEqual(numbersOf(bench.made));
    },
  );

  test('is stopped: a restart after the first few scans does not set back the burn', async () => {
    const bench = await recordBoard({ uptimeAs: () => 4711 });
    await bench.pass(5);
    await bench.restart(60_000);
    bench.board.rest(60_000);
    await bench.pass(5);
    const { elapsedUs } = bench.service.store.scans.columns(burnId, recordedBoardId);
    expect(Math.abs(elapsedUs.at(-1)! / 1e6 - 70)).toBeLessThan(2.1);
  });

  test('and is not recognised yet loses nothing at the start of a burn', async () => {
    const bench = await recordBoard({ uptimeAs: (ms) => ms / 1000, periodMs: 100 }, { isRunning: false });
    await bench.pass(1);
    await bench.service.clock.advanceAsync(50);
    await bench.service.call('POST', '/api/burns', { id: burnId, status: 'running' });
    await bench.pass(10);
    expect(bench.stored()).toEqual(numbersOf(bench.board.held).slice(-10));
  });

  test.each(wrongClocks)(
    '%s: scans made after a reset, before the next one arrived, are distributed over the time between',
    async (_what, uptimeAs) => {
      const bench = await recordBoard({ uptimeAs });
      await bench.pass(30);
      await bench.unplug();
      bench.board.reset();
      await bench.pass(20, 'lost');
      bench.plug();
      await bench.pass(40);
      const { elapsedUs } = bench.service.store.scans.columns(burnId, recordedBoardId);
      expect(bench.stored()).toEqual(numbersOf(bench.made));
      elapsedUs.forEach((us, i) => {
        expect(Math.abs(us / 1e6 - (i + 1))).toBeLessThan(2.1);
      });
    },
  );

  test('because its column of seconds was mapped as milliseconds is recorded as well', async () => {
    const plain = {
      separator: 'comma',
      decimal: 'point',
      timeColumn: 0,
      timeUnit: 'ms',
      columns: [{ column: 1, name: 'Pot', unit: 'Cel' }],
    };
    const bench = await recordBoard({}, { attach: { plain } });
    for (let second = 0; second < 40; second++) {
      bench.board.sendRaw(`${100 + second},${20 + second}\n`);
      await bench.service.clock.advanceAsync(1000);
    }
    const [id] = bench.service.store.scans.boards(burnId);
    const { elapsedUs } = bench.service.store.scans.columns(burnId, id!);
    expect(elapsedUs.length).toBeGreaterThanOrEqual(39);
    expect(elapsedUs.at(-1)! / 1e6).toBeGreaterThan(37);
    expect(await bench.problem()).toBe('probe/wrong-clock');
  });
});

test('A wall clock set wrong and a board reset while the service is down do not shorten the burn', async () => {
  const clock = createFakeClock(undefined, { bootId: 'a start of the machine', us: 5e9 });
  const bench = await recordBoard({}, { clock });
  await bench.pass(20);
  clock.stepWall(-3_600_000);
  await bench.restart(30_000);
  bench.board.reset();
  await bench.pass(10);
  const { elapsedUs } = bench.service.store.scans.columns(burnId, recordedBoardId);
  expect(bench.stored()).toEqual(numbersOf(bench.made));
  expect(elapsedUs.at(-1)! / 1e6).toBeCloseTo(60, 0);
});

test('Bytes without any recorded scan are an alarm, and a gap with its span', async () => {
  const bench = await recordBoard();
  await bench.pass(10);
  const page = await openEventSource(await bench.service.app.listen({ host: '127.0.0.1', port: 0 }));
  await page.until('snapshot');
  for (let second = 0; second < 20; second++) {
    bench.board.sendRaw('it speaks, but not to us\n');
    await bench.service.clock.advanceAsync(1000);
  }
  bench.board.rest(20_000);
  const alarm = await page.until('calls', ({ calls: alarms }) => alarms.some(({ kind }) => kind === 'notRecorded'));
  expect(liveEventSchema.parse(alarm.event)).toEqual(alarm.event);
  await bench.pass(10);
  await page.until('calls', ({ calls: alarms }) => alarms.length === 0);
  const { gaps } = await bench.detail();
  expect(gaps).toEqual([expect.objectContaining({ boardId: recordedBoardId, fromUs: 10e6, cause: 'lost' })]);
  expect(gaps[0]!.toUs / 1e6).toBeGreaterThan(28);
});

test('A known board that returns on another port continues by itself', async () => {
  const bench = await recordBoard();
  await bench.pass(10);
  await bench.unplug();
  await bench.pass(5, 'lost');
  bench.plug('another');
  await bench.pass(20);
  expect(bench.stored()).toEqual(numbersOf(bench.made));
  const { body } = await bench.service.call('GET', '/api/boards');
  expect(body.boards).toEqual([expect.objectContaining({ id: recordedBoardId, path: 'another', state: 'live' })]);
});

test('A board that returns on another port has no missing scans, though its old one was lost before its hello', async () => {
  const bench = await recordBoard();
  await bench.pass(10);
  bench.board.deaf = true;
  await bench.restart(5_000);
  await bench.pass(1);
  await bench.unplug();
  await bench.pass(6, 'lost');
  bench.board.deaf = false;
  bench.board.damagedRepeats = 1e9;
  bench.plug('elsewhere');
  await bench.pass(8);
  bench.board.damagedRepeats = 0;
  await bench.pass(70);
  expect(bench.stored()).toEqual(numbersOf(bench.made));
  const { gaps, repairs } = await bench.detail();
  expect([repairs, gaps.filter(({ boardId }) => boardId === recordedBoardId)]).toEqual([[], []]);
});

test('A board that begins to count at 4294967250 has no missing scans before it', async () => {
  const bench = await recordBoard({ firstSequence: 4294967250 });
  await bench.pass(5);
  bench.board.reset();
  await bench.pass(5);
  bench.board.reset(2, 4294967250);
  await bench.pass(60);
  const { body } = await bench.service.call('GET', '/api/boards');
  expect(body.boards[0].counters.missing).toBe(0);
  expect(bench.stored()).toHaveLength(70);
});

const happening = fc.oneof(
  { weight: 8, arbitrary: fc.record({ what: fc.constant('scans' as const), times: fc.integer({ min: 1, max: 20 }) }) },
  {
    weight: 6,
    arbitrary: fc.record({
      what: fc.constantFrom('lost' as const, 'damaged' as const, 'mute' as const, 'unplug' as const),
      times: fc.integer({ min: 1, max: 60 }),
    }),
  },
  {
    weight: 4,
    arbitrary: fc.record({
      what: fc.constantFrom('reset' as const, 'restart' as const, 'garbage' as const, 'damage repeats' as const),
      times: fc.integer({ min: 1, max: 30 }),
    }),
  },
);

test('Every number between the first and the last scan of a burn is stored, or in a gap that the board cannot fill', async () => {
  await fc.assert(
    fc.asyncProperty(fc.array(happening, { minLength: 3, maxLength: 12 }), async (happenings) => {
      const bench = await recordBoard();
      await bench.pass(3);
      for (const { what, times } of happenings) {
        if (what === 'scans') await bench.pass(times);
        else if (what === 'lost' || what === 'damaged') await bench.pass(times, what);
        else if (what === 'mute') {
          bench.board.deaf = true;
          await bench.pass(times, 'lost');
          bench.board.deaf = false;
        } else if (what === 'unplug') {
          await bench.unplug();
          await bench.pass(times, 'lost');
          bench.plug();
        } else if (what === 'reset') bench.board.reset();
        else if (what === 'restart') {
          await bench.restart(times * 1000);
          bench.board.rest(times * 1000);
        } else if (what === 'garbage') bench.board.sendRaw('x'.repeat(times * 100));
        else bench.board.damagedRepeats = times;
      }
      await bench.end();
      const held = new Set(numbersOf(bench.board.held));
      await bench.pass(130);
      const { gaps, repairs } = await bench.detail();
      expect(repairs).toEqual([]);
      const stored = bench.stored();
      expect(new Set(stored).size).toBe(stored.length);
      const { elapsedUs } = bench.service.store.scans.columns(burnId, recordedBoardId);
      const elapsed = new Map(stored.map((number, i) => [number, elapsedUs[i]!]));
      const numbers = numbersOf(bench.made);
      const order = numbers.map((number) => elapsed.get(number));
      numbers.forEach((number, i) => {
        if (order[i] !== undefined) return;
        expect(held.has(number), `${number} was held by the board`).toBe(false);
        const before = order.slice(0, i).findLast((us) => us !== undefined) ?? 0;
        const after = order.slice(i).find((us) => us !== undefined) ?? Number.POSITIVE_INFINITY;
        const inGap = gaps.some(({ fromUs, toUs }) => fromUs <= before && (toUs >= after || after === Infinity));
        expect(inGap, `${number} lies in a gap`).toBe(true);
      });
      expect(bench.service.troubles).toEqual([]);
    }),
    { numRuns: 12 },
  );
});
