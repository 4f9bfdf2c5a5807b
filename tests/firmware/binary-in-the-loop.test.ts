import { describe, expect, test } from 'vitest';
import { type AvrBoard, createAvrBoard } from '../../scripts/avr-board/board.ts';
import { openPseudoTerminal } from '../../server/simulator/pseudo-terminal.ts';
import type { Board } from '../../shared/contract/boards.ts';
import { type AvrBench, avrBench } from '../support/avr-bench.ts';
import { type TestService, testService } from '../support/test-service.ts';
import { watchBridge } from '../support/watched-bridge.ts';

const probe = await openPseudoTerminal();
if (probe.available) await probe.unplug();
else console.warn(`The firmware is not run: ${probe.reason}`);

/** Sets all probes of the board with one of each kind to known values. */
function setUpProbes(board: AvrBoard) {
  const [low, high] = board.amplifiers14 as [(typeof board.amplifiers14)[0], (typeof board.amplifiers14)[0]];
  const [flue, riser] = board.amplifiers19 as [(typeof board.amplifiers19)[0], (typeof board.amplifiers19)[0]];
  const yard = board.oneWire[0]!;
  low.hotC = 93.2;
  high.hotC = 700;
  low.coldC = 25;
  high.coldC = 26.5;
  flue.hotC = 412.3;
  riser.hotC = -12.4;
  yard.tempC = -3.25;
  board.chip.analogueV[0] = 2;
  board.loadCell!.counts = 1_234_567;
  return { low, high, flue, riser, yard, cell: board.loadCell! };
}

async function boardNow(service: TestService): Promise<Board> {
  return (await service.call('GET', '/api/boards')).body.boards[0];
}

/**
 * Advances time until the service reports this state of the board; requests it ten times a second, since an answer
 * costs more than the chip.
 */
function untilBoard(service: TestService, bench: AvrBench, holds: (board: Board) => boolean): Promise<void> {
  return bench.until(async () => {
    const board = await boardNow(service);
    return board !== undefined && holds(board);
  }, 100);
}

async function attachLive(service: TestService, bench: AvrBench): Promise<void> {
  void service.call('POST', '/api/boards', { path: bench.path });
  await untilBoard(service, bench, ({ state }) => state === 'live');
}

/** Waits for the next scan that was read after now. */
async function nextScan(service: TestService, bench: AvrBench, count = 1): Promise<Board> {
  const target = bench.scansReceived + count;
  await bench.until(() => bench.scansReceived >= target);
  await bench.pass(20);
  return boardNow(service);
}

const valuesOf = ({ channels }: Board) => channels.map(({ latest }) => latest?.value);
const faultsOf = ({ channels }: Board) => channels.map(({ latest }) => latest?.fault);

describe.skipIf(!probe.available)('The hex file, run in a simulated microcontroller and read by the service', () => {
  test('sends its hello, measures, reports each fault, and sets its amplifiers up again', async () => {
    const board = createAvrBoard('bench-board-mixed');
    const { low, high, flue, riser, yard, cell } = setUpProbes(board);
    const bench = await avrBench(board);
    const service = await testService({ clock: bench.clock, portFactory: bench.ports });
    await attachLive(service, bench);
    await bench.until(() => board.chip.eeprom.memory[19] !== 0xff);
    await nextScan(service, bench);
    await untilBoard(service, bench, ({ channels }) => channels.every(({ latest }) => latest !== undefined));

    const well = await boardNow(service);
    expect(well).toMatchObject({ name: 'Bench board', firmware: '1.0.0', periodMs: 1000, repeatDepthScans: 60 });
    // The identity from the host is in its EEPROM.
    const stored = Buffer.from(board.chip.eeprom.memory.subarray(0, 16)).toString('hex');
    expect(well.id.replaceAll('-', '')).toBe(stored);
    expect(flue.type).toBe('K');

    // Within 0.15 K and half a step of the chip; the two 14-bit chips have different temperatures.
    const [lowC, highC, flueC, riserC, terminalsC, yardC, draught, massKg] = valuesOf(well) as number[];
    expect(Math.abs(lowC! - low.hotC)).toBeLessThan(0.2);
    expect(Math.abs(highC! - high.hotC)).toBeLessThan(0.2);
    expect(flueC).toBeCloseTo(412.3, 1);
    expect(riserC).toBeCloseTo(-12.4, 1);
    expect(terminalsC).toBe(25);
    expect(yardC).toBe(-3.25);
    expect(draught).toBeCloseTo(0.4, 2);
    expect(massKg).toBeCloseTo(Math.floor(1_234_567 / 256) * 0.003, 6);

    low.fault = 'open';
    high.fault = 'short-to-ground';
    flue.fault = 'open';
    riser.fault = 'voltage';
    yard.connected = false;
    board.chip.analogueV[0] = 0;
    cell.connected = false;
    expect(faultsOf(await nextScan(service, bench))).toEqual([
      'open',
      'shortToGround',
      'open',
      'shortToSupply',
      undefined,
      'noAnswer',
      'shortToGround',
      'noAnswer',
    ]);

    low.fault = 'short-to-supply';
    high.powered = false;
    flue.fault = 'hot-range';
    riser.fault = null;
    riser.powered = false;
    yard.connected = true;
    yard.tempC = 85;
    board.chip.analogueV[0] = 5;
    cell.connected = true;
    cell.counts = 0x7fffff;
    expect(faultsOf(await nextScan(service, bench))).toEqual([
      'shortToSupply',
      'noAnswer',
      'outOfRange',
      'noAnswer',
      undefined,
      'unreadable',
      'shortToSupply',
      'outOfRange',
    ]);

    low.fault = null;
    low.hotC = 20;
    high.powered = true;
    high.fault = null;
    flue.fault = 'cold-range';
    riser.powered = true;
    yard.tempC = -127;
    board.chip.analogueV[0] = 3;
    cell.counts = -1;
    expect(faultsOf(await nextScan(service, bench))).toEqual([
      undefined,
      undefined,
      'outOfRange',
      undefined,
      undefined,
      'outOfRange',
      undefined,
      undefined,
    ]);

    // A dip of the supply that resets only the chips: no old value, no zero, and a reading again after their
    // conversion.
    flue.fault = null;
    yard.tempC = 12;
    await nextScan(service, bench);
    flue.brownOut();
    yard.brownOut();
    const dipped = faultsOf(await nextScan(service, bench));
    expect([dipped[2], dipped[5]]).toEqual(['noAnswer', 'noAnswer']);
    const up = await nextScan(service, bench);
    expect(faultsOf(up).every((fault) => fault === undefined)).toBe(true);
    expect(up.channels[2]!.latest!.value).toBeCloseTo(412.3, 1);
    expect(flue.converted).toBeGreaterThan(0);

    // Readings of a chip that divides by one sensitivity, for voltages of the tables of NIST Monograph 175 (ITS-90),
    // type K, with terminals at 25 °C (1.000 mV): it is 6.5 K high at 700 °C (29.129 mV) and 6.1 K low at 1,100 °C
    // (45.119 mV).
    const reported = [29.129, 45.119].map((millivolts) => 25 + ((millivolts - 1.0) * 1000) / 41.276);
    expect([reported[0]! - 700, reported[1]! - 1100].map((errorK) => Math.round(errorK * 10) / 10)).toEqual([
      6.5, -6.1,
    ]);
    low.printed = { hotC: reported[0]!, coldC: 25 };
    high.printed = { hotC: reported[1]!, coldC: 25 };
    const [at700, at1100] = valuesOf(await nextScan(service, bench)) as number[];
    expect(Math.abs(at700! - 700)).toBeLessThan(0.15);
    expect(Math.abs(at1100! - 1100)).toBeLessThan(0.15);
    low.printed = high.printed = null;

    // A word with a flipped bit is read a second time.
    low.glitch = 0x0100_0000;
    flue.glitch = 0x10;
    yard.glitch = 0x40;
    const glitched = await nextScan(service, bench);
    expect(faultsOf(glitched).every((fault) => fault === undefined)).toBe(true);
    expect(Math.abs(glitched.channels[0]!.latest!.value! - 20)).toBeLessThan(0.2);
    expect(glitched.counters).toMatchObject({ badChecksum: 0, badLines: 0, missing: 0, resets: 0, discardedBytes: 0 });

    // Before and after a reset, no transfer met two chips, or none.
    expect(board.chip.spiTrouble).toEqual({ collisions: 0, unheard: 0 });
    expect(board.chip.untouchedBytes).toBeGreaterThan(100);
  });

  test('continues after an unplugged cable, a hang and a brown-out, and distinguishes them', async () => {
    const board = createAvrBoard('bench-board-14');
    const bench = await avrBench(board);
    const service = await testService({ clock: bench.clock, portFactory: bench.ports });
    await attachLive(service, bench);
    const { id, repeatDepthScans } = await nextScan(service, bench, 2);
    expect(repeatDepthScans).toBe(100);

    await bench.unplug();
    await bench.pass(2_500);
    await bench.plug();
    await untilBoard(
      service,
      bench,
      ({ counters: { missing, recovered = 0 } }) => recovered >= 2 && recovered === missing,
    );
    expect(await nextScan(service, bench)).toMatchObject({ id, state: 'live', counters: { resets: 0 } });

    board.chip.hang();
    await bench.until(() => board.chip.resets.at(-1) === 'watchdog');
    await untilBoard(service, bench, ({ counters }) => counters.resets === 1);
    board.chip.reset('brownOut');
    await untilBoard(service, bench, ({ counters }) => counters.resets === 2);
    expect(await nextScan(service, bench)).toMatchObject({ id, state: 'live' });
    expect(board.chip.resets.slice(1)).toEqual(['power', 'watchdog', 'brownOut']);
    // Three starts, each counted at its own address of the EEPROM.
    const places = [0, 1, 2, 3, 4].map((index) => board.chip.eeprom.memory[32 + 8 * index]);
    expect(places).toEqual([0xff, 1, 2, 3, 0xff]);
  });

  test('continues counting across 2^32, stores its last scans meanwhile, and changes its period', async () => {
    const board = createAvrBoard('bench-board-19');
    const bench = await avrBench(board);
    // Two scans before the host is connected, which show the addresses in RAM of their number and the milliseconds.
    await bench.pass(2_500);
    const two = wordsEqual(board, 2);
    await bench.pass(1_000);
    const three = wordsEqual(board, 3).filter((address) => two.includes(address));
    windOn(board, three, 0xfffffffe);
    const { bridge, scans, gaps } = watchBridge({ clock: bench.clock, ports: bench.ports });
    const attached = bridge.attach({ path: bench.path, mode: 'protocol' });
    await bench.until(() => scans.length >= 1);
    bench.lost = true;
    await bench.pass(2_000);
    bench.lost = false;
    await bench.until(() => scans.some(({ sequence }) => sequence === 1));
    await bench.until(() => scans.filter(({ repeated }) => repeated).length >= 2);
    const bySequence = new Map(scans.map((scan) => [scan.sequence, scan]));
    const wrapped = [0xfffffffe, 0xffffffff, 0, 1].map((sequence) => bySequence.get(sequence));
    expect(wrapped.every((scan) => scan !== undefined)).toBe(true);
    expect(gaps.filter(({ from }) => from !== null)).toEqual([]);
    const uptimes = wrapped.map((scan) => scan!.deviceUptimeMs);
    for (let i = 1; i < uptimes.length; i++) expect((uptimes[i]! - uptimes[i - 1]!) >>> 0).toBe(1000);
    expect(Math.min(...uptimes)).toBeLessThan(10_000);
    expect(Math.max(...uptimes)).toBeGreaterThan(0xffff0000);

    const answered = bridge.setPeriod(attached.id, 500);
    await bench.until(() => bridge.boards()[0]?.periodMs === 500);
    expect(await answered).toMatchObject({ kind: 'ok', periodMs: 500 });
    const before = scans.length;
    await bench.until(() => scans.length >= before + 2);
    const [a, b] = scans.slice(-2) as [(typeof scans)[0], (typeof scans)[0]];
    expect(b.deviceUptimeMs - a.deviceUptimeMs).toBe(500);
    // The shortest period is the conversion time of its amplifiers.
    const fastest = bridge.setPeriod(attached.id, 10);
    await bench.until(() => bridge.boards()[0]?.periodMs === 120);
    expect(await fastest).toMatchObject({ kind: 'ok', periodMs: 120 });
    await bridge.close();
  });
});

/** Finds the addresses in RAM of the number, as 32 bits. */
function wordsEqual(board: AvrBoard, number: number, within = 0): number[] {
  const view = new DataView(board.chip.ram.buffer);
  return Array.from({ length: 2040 }, (_, i) => i + 0x100).filter(
    (address) => Math.abs(view.getUint32(address, true) - number) <= within,
  );
}

/** Sets the counters of scans and milliseconds, and the time of the last scan, to just before 2^32. */
function windOn(board: AvrBoard, counters: number[], sequence: number): void {
  const view = new DataView(board.chip.ram.buffer);
  const nowMs = Math.floor(board.chip.timeUs / 1000);
  const clocks = wordsEqual(board, nowMs, 2);
  expect([counters.length, clocks.length]).toEqual([1, 1]);
  const shift = 2 ** 32 - 1500 - view.getUint32(clocks[0]!, true);
  const lastScans = wordsEqual(board, nowMs - 500, 100).filter((address) => address > clocks[0]! - 200);
  view.setUint32(counters[0]!, sequence, true);
  for (const address of [...clocks, ...lastScans]) view.setUint32(address, view.getUint32(address, true) + shift, true);
}
