import { describe, expect, it } from 'vitest';
import type { PlainFormat } from '../../shared/contract/boards.ts';
import { createFakeBench, type FakeBench } from '../support/fake-bench.ts';

const PATH = '/dev/plain';
const KEY = '01995f3a-7c2e-7d41-9b1e-3f60a2c4d581';

const LAYOUT: PlainFormat = {
  separator: 'semicolon',
  decimal: 'comma',
  headerLines: 1,
  columns: [
    { column: 0, name: 'Pot low', unit: 'Cel' },
    { column: 1, name: 'Wood', unit: 'kg' },
  ],
};
const TIMED: PlainFormat = {
  ...LAYOUT,
  timeColumn: 2,
  timeUnit: 'ms',
};

const ALTERNATING: PlainFormat = {
  layout: 'labelled',
  separator: 'comma',
  decimal: 'point',
  headerLines: 0,
  columns: [
    { key: 'C', name: 'C', unit: 'Cel' },
    { key: 'F', name: 'F', unit: '[degF]' },
  ],
};

async function attach(bench: FakeBench, plain: PlainFormat) {
  const device = bench.ports.plug(PATH);
  bench.bridge.attach({ path: PATH, mode: 'plain', baudRate: 9600, plain, boardKey: KEY });
  await bench.clock.advanceAsync(0);
  return {
    device,
    /** Prints a line each second. */
    async print(...lines: string[]) {
      for (const line of lines) {
        await bench.clock.advanceAsync(1000);
        device.write(`${line}\r\n`);
      }
    },
  };
}

describe('A board that only prints numbers', () => {
  it('gives scans of the mapped columns, with numbers and times made by the host', async () => {
    const bench = createFakeBench();
    const { print } = await attach(bench, LAYOUT);
    await print('Pot low;Wood', '20,5;3,25', '20,75;', 'nan;3,2');
    expect(bench.scans).toMatchObject([
      { boardKey: KEY, boot: 1, sequence: 0, counts: [205_000, 32_500], faults: [null, null], hostUs: 2_000_000 },
      { boot: 1, sequence: 1, counts: [207_500, null], faults: [null, 'noAnswer'], hostUs: 3_000_000 },
      { boot: 1, sequence: 2, counts: [null, 32_000], faults: ['noAnswer', null], repeated: false },
    ]);
    expect(bench.bridge.boards()[0]).toMatchObject({
      state: 'live',
      mode: 'plain',
      boardKey: KEY,
      repeatDepth: 0,
      channels: [
        { index: 0, label: 'Pot low', unit: 'Cel', quantity: 'temperature', scale: 1e-4 },
        { index: 1, label: 'Wood', unit: 'kg', quantity: 'mass', scale: 1e-4 },
      ],
    });
  });

  it('is not read from the first, possibly incomplete line: "0,5" may be the end of "20,5"', async () => {
    const bench = createFakeBench();
    const { print } = await attach(bench, LAYOUT);
    await print('0,5;3,25', '20,5;3,25');
    expect(bench.scans.map((scan) => scan.counts[0])).toEqual([205_000]);
    expect(bench.bridge.boards()[0]!.counters.discardedBytes).toBe(8);
  });

  it('that never ends a line is counted, byte by byte beyond the longest line, while it prints', async () => {
    const bench = createFakeBench();
    const { device } = await attach(bench, LAYOUT);
    const discarded = () => bench.bridge.boards()[0]!.counters.discardedBytes!;
    device.write('7'.repeat(10_000));
    await bench.clock.advanceAsync(1000);
    const atFirst = discarded();
    expect(atFirst).toBeGreaterThan(5000);
    device.write('7'.repeat(10_000));
    await bench.clock.advanceAsync(1000);
    expect(discarded()).toBe(atFirst + 10_000);
  });

  it('has times from its own time column, across the wrap of milliseconds', async () => {
    const bench = createFakeBench();
    const { device, print } = await attach(bench, TIMED);
    await print('header', '20,5;3;4294966296');
    await bench.clock.advanceAsync(1300);
    device.write('20,5;3;4294967296\n20,5;3;4294968296\n');
    expect(bench.scans.map((scan) => scan.deviceUptimeMs)).toEqual([4294966296, 0, 1000]);
    const times = bench.scans.map((scan) => scan.hostUs);
    expect(times[2]! - times[1]!).toBe(1_000_000);
  });

  it('that restarts is recognised by its time column', async () => {
    const bench = createFakeBench();
    const { print } = await attach(bench, TIMED);
    await print('x', '20,5;3;50000', '20,5;3;51000', '20,5;3;200', '20,5;3;1200');
    expect(bench.scans.map((scan) => [scan.boot, scan.sequence])).toEqual([
      [1, 0],
      [1, 1],
      [2, 0],
      [2, 1],
    ]);
    expect(bench.gaps).toMatchObject([{ missing: null, cause: 'reset' }]);
  });

  it('has a gap where lines are missing, by the usual interval of its lines', async () => {
    const bench = createFakeBench();
    const { print } = await attach(bench, LAYOUT);
    await print('x', ...Array.from({ length: 10 }, () => '20,5;3'));
    await bench.clock.advanceAsync(6000);
    await print('20,5;3');
    expect(bench.scans.at(-1)!.sequence).toBe(16);
    expect(bench.gaps).toMatchObject([
      { from: { sequence: 9 }, to: { sequence: 16 }, missing: 6, cause: 'lost', reason: 'cannotRepeat' },
    ]);
  });

  it('whose lines waited and arrived at once has no gap, and each line has its own time', async () => {
    const bench = createFakeBench();
    const { device, print } = await attach(bench, LAYOUT);
    await print('x', ...Array.from({ length: 10 }, () => '20,5;3'));
    await bench.clock.advanceAsync(5000);
    device.write('20,5;3\n'.repeat(5));
    expect(bench.gaps).toEqual([]);
    expect(bench.scans.map((scan) => scan.sequence)).toEqual(Array.from({ length: 15 }, (_, i) => i));
    expect(bench.scans.slice(10).map((scan) => scan.hostUs / 1e6)).toEqual([12, 13, 14, 15, 16]);
  });

  it('that was unplugged continues as a new boot, with a gap', async () => {
    const bench = createFakeBench();
    const { device, print } = await attach(bench, LAYOUT);
    await print('x', '20,5;3', '20,5;3');
    device.unplug();
    await bench.clock.advanceAsync(10_000);
    const again = bench.ports.plug(PATH);
    await bench.clock.advanceAsync(6_000);
    again.write('0,5;3\n21,5;3\n');
    expect(bench.scans.at(-1)).toMatchObject({ boot: 2, sequence: 0, counts: [215_000, 30_000] });
    expect(bench.gaps).toMatchObject([
      { from: { boot: 1, sequence: 1 }, to: { boot: 2, sequence: 0 }, missing: null, cause: 'unplugged' },
    ]);
    expect(bench.bridge.boards()[0]!.counters).toMatchObject({ disconnects: 1, resets: 0 });
  });

  it('never counts from a number that an earlier run of the service has used', async () => {
    const bench = createFakeBench({
      knownScansOf: () => ({
        last: { boot: 7, sequence: 99, deviceUptimeMs: 5_000 },
        clock: 'right' as const,
        holes: [],
      }),
    });
    const { print } = await attach(bench, LAYOUT);
    await print('x', '20,5;3');
    expect(bench.scans[0]).toMatchObject({ boot: 8, sequence: 0 });
    expect(bench.gaps).toMatchObject([{ from: { boot: 7, sequence: 99 }, cause: 'serviceStopped' }]);
  });

  it('with the wrong columns mapped is reported, with its lines', async () => {
    const bench = createFakeBench();
    const { print } = await attach(bench, { ...LAYOUT, columns: [{ column: 4, name: 'Pot', unit: 'Cel' }] });
    await print('Pot low;Wood', '20,5;3', '20,5;3', '20,5;3', '20,5;3', '20,5;3');
    const state = bench.bridge.boards()[0]!;
    expect(state.problem).toMatchObject({ code: 'not-plain' });
    expect(state.recentLines.at(-1)).toBe('20,5;3');
  });

  it('has its text decoded as UTF-8', async () => {
    const bench = createFakeBench();
    const { print } = await attach(bench, LAYOUT);
    await print('x', '20,5 °C;3,0 kg');
    expect(bench.bridge.boards()[0]!.recentLines.at(-1)).toBe('20,5 °C;3,0 kg');
    expect(bench.scans[0]!.counts).toEqual([205_000, 30_000]);
  });

  it('that prints one value per line gives a scan when all of them have arrived', async () => {
    const bench = createFakeBench();
    const { print } = await attach(bench, ALTERNATING);
    await print('x', 'C = 23.5', 'F = 74.3', 'F = 74.5', 'C = 23.6');
    expect(bench.scans.map(({ counts, sequence }) => [sequence, counts])).toEqual([
      [0, [235_000, 743_000]],
      [1, [236_000, 745_000]],
    ]);
    expect(bench.bridge.boards()[0]!.counters).toMatchObject({ lines: 4, badLines: 0 });
  });

  it('loses no value of an incomplete scan: it is stored when its label repeats, after a pause, or at the end', async () => {
    const bench = createFakeBench();
    const { device, print } = await attach(bench, ALTERNATING);
    await print('x', 'C = 23.5', 'C = 23.6');
    expect(bench.scans.map(({ counts }) => counts)).toEqual([[235_000, null]]);
    await bench.clock.advanceAsync(3_000);
    expect(bench.scans.map(({ counts }) => counts)).toEqual([
      [235_000, null],
      [236_000, null],
    ]);
    await print('F = 74.3');
    device.unplug();
    await bench.clock.advanceAsync(100);
    expect(bench.scans.at(-1)!.counts).toEqual([null, 743_000]);
  });

  it('has the lines of one scan combined once its interval is known, whichever was first after the opening', async () => {
    const bench = createFakeBench();
    const { device } = await attach(bench, ALTERNATING);
    device.write('C = 20\nF = 68\n');
    for (let second = 1; second <= 12; second++) {
      await bench.clock.advanceAsync(950);
      device.write(`C = ${20 + second}\n`);
      await bench.clock.advanceAsync(50);
      device.write(`F = ${68 + second * 1.8}\n`);
    }
    const whole = bench.scans.slice(-6).map(({ counts: [c, f] }) => Math.round((f! / 10_000 - 32) / 1.8) - c! / 10_000);
    expect(whole).toEqual([0, 0, 0, 0, 0, 0]);
  });

  it('takes no commands, and cannot be attached without a layout', async () => {
    const bench = createFakeBench();
    await attach(bench, LAYOUT);
    const { id } = bench.bridge.boards()[0]!;
    expect(await bench.bridge.blink(id)).toMatchObject({ kind: 'refused', reason: 'not-supported' });
    expect(() => bench.bridge.attach({ path: '/dev/other', mode: 'plain' })).toThrow(RangeError);
  });
});
