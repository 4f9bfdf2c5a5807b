import { expect, test } from 'vitest';
import { type BadLine, decodeLine, encodeLine, type HostCommand, type Message } from '../../firmware-protocol/lines.ts';
import { heronScenario } from '../../server/simulator/heron-setup.ts';
import { type BoardSettings, createSimulatedBoard } from '../../server/simulator/protocol-board.ts';
import { createSimulatedSetup } from '../../server/simulator/simulated-setup.ts';
import { createRandom } from '../../shared/statistics/random.ts';
import { createFakeClock } from '../support/fake-clock.ts';

const identity = '01985c2e-0000-7000-8000-000000000001';

/** A board on its own: its lines so far, decoded, and a function to send it commands. */
function quietBoard(settings: Partial<BoardSettings> = {}) {
  const clock = createFakeClock();
  const scenario = heronScenario('1', 'M');
  const sent: (Message | BadLine)[] = [];
  const bench = createSimulatedSetup(scenario, 1, () => {});
  const board = createSimulatedBoard(
    {
      identity: null,
      name: 'bench',
      firmware: 'f1',
      repeatDepth: 20,
      periodMs: 1000,
      channels: scenario.channels,
      ...settings,
    },
    bench,
    clock,
    createRandom(1),
    (text) => {
      expect(text.endsWith('\n')).toBe(true);
      sent.push(decodeLine(text.slice(0, -1)));
    },
  );
  const send = (text: string) => board.receive(Buffer.from(text, 'latin1'));
  return {
    board,
    bench,
    clock,
    send,
    command: (command: HostCommand) => send(`${encodeLine(command)}\n`),
    /** Returns all messages since the last call. */
    take: () => sent.splice(0),
  };
}

const kinds = (messages: (Message | BadLine)[]) => messages.map((message) => message.kind);
const sequences = (messages: (Message | BadLine)[], repeated: boolean) =>
  messages.flatMap((message) => (message.kind === 'scan' && message.repeated === repeated ? [message.sequence] : []));

test('switched on, the board sends its hello, describes its channels and scans once per period; every line decodes', () => {
  const { board, clock, take } = quietBoard();
  board.switchOn();
  clock.advance(5000);
  const reported = take();
  expect(kinds(reported)).toEqual(['hello', ...Array(8).fill('channel'), ...Array(5).fill('scan')]);
  expect(reported[0]).toMatchObject({ identity: null, boot: 0, repeatDepth: 20, periodMs: 1000, channels: 8 });
  const flue = reported.find((message) => message.kind === 'channel' && message.label === 'flue');
  expect(flue).toMatchObject({ unit: 'uV', form: { kind: 'thermocouple-microvolts', coldJunction: 8 } });
  const scans = reported.filter((message) => message.kind === 'scan');
  expect(scans.map((scan) => scan.uptimeMs)).toEqual([1000, 2000, 3000, 4000, 5000]);
  expect(scans.map((scan) => scan.sequence)).toEqual([0, 1, 2, 3, 4]);
  expect(scans[0]!.readings).toHaveLength(8);
});

test('a timer that fires late loses no scan', () => {
  const { board, clock, take } = quietBoard();
  board.switchOn();
  clock.leap(7500);
  clock.advance(1000);
  expect(sequences(take(), false)).toEqual([0, 1, 2, 3, 4, 5, 6, 7]);
});

test('a whole burn through the board decodes line by line, faults included', () => {
  const { board, bench, clock, take } = quietBoard();
  bench.addFault({ site: 'waterLow', kind: 'open', fromS: 10, toS: 20 });
  board.switchOn();
  clock.advance(8000 * 1000);
  const reported = take();
  expect(reported.filter((message) => message.kind === 'bad')).toEqual([]);
  const open = reported.filter((message) => message.kind === 'scan' && message.readings[0] === 'open');
  expect(open).toHaveLength(10);
  expect(bench.over).toBe(true);
});

test('on request, the board repeats exactly what it sent, between its live scans', () => {
  const { board, clock, command, take } = quietBoard();
  board.switchOn();
  clock.advance(15_000);
  const first = take().filter((message) => message.kind === 'scan');
  command({ kind: 'resend', boot: 0, from: 3, to: 6 });
  clock.advance(300);
  const answer = take();
  expect(answer[0]).toEqual({ kind: 'ok', command: 'resend', oldest: 0 });
  expect(answer.slice(1)).toEqual(first.slice(3, 7).map((scan) => ({ ...scan, repeated: true })));
});

test('scans no longer in the buffer are refused, with the number of the oldest; a part still there is sent', () => {
  const { board, clock, command, take } = quietBoard({ repeatDepth: 10 });
  board.switchOn();
  clock.advance(30_000);
  take();
  command({ kind: 'resend', boot: 0, from: 2, to: 5 });
  expect(take()).toEqual([{ kind: 'refused', command: 'resend', reason: 'not-held', oldest: 20 }]);
  command({ kind: 'resend', boot: 0, from: 15, to: 22 });
  clock.advance(500);
  expect(sequences(take(), true)).toEqual([20, 21, 22]);
  command({ kind: 'resend', boot: 9, from: 25, to: 26 });
  expect(take()).toEqual([{ kind: 'refused', command: 'resend', reason: 'other-boot' }]);
});

test('a board that stores nothing refuses to repeat', () => {
  const { board, clock, command, take } = quietBoard({ repeatDepth: 0 });
  board.switchOn();
  clock.advance(3000);
  take();
  command({ kind: 'resend', boot: 0, from: 0, to: 1 });
  expect(take()).toEqual([{ kind: 'refused', command: 'resend', reason: 'not-held' }]);
});

test('many repeats are sent a few at a time and none twice', () => {
  const { board, clock, command, take } = quietBoard({ repeatDepth: 200 });
  board.switchOn();
  clock.advance(120_000);
  take();
  command({ kind: 'resend', boot: 0, from: 0, to: 99 });
  clock.advance(100);
  expect(sequences(take(), true)).toHaveLength(25);
  clock.advance(900);
  expect(sequences(take(), true)).toEqual(Array.from({ length: 75 }, (_, i) => 25 + i));
});

test('sequence and clock wrap to zero, and repeats work across the wrap', () => {
  const { board, clock, command, take } = quietBoard({ sequence: 2 ** 32 - 2, uptimeMs: 2 ** 32 - 2500 });
  board.switchOn();
  clock.advance(5000);
  const scans = take().filter((message) => message.kind === 'scan');
  expect(scans.map((scan) => scan.sequence)).toEqual([2 ** 32 - 2, 2 ** 32 - 1, 0, 1, 2]);
  expect(scans.map((scan) => scan.uptimeMs)).toEqual([2 ** 32 - 1500, 2 ** 32 - 500, 500, 1500, 2500]);
  command({ kind: 'resend', boot: 0, from: 2 ** 32 - 1, to: 1 });
  clock.advance(500);
  expect(sequences(take(), true)).toEqual([2 ** 32 - 1, 0, 1]);
});

test('the identity is written once and sent in every hello, after a reset too', () => {
  const { board, command, take } = quietBoard();
  board.switchOn();
  take();
  command({ kind: 'identity', identity });
  expect(take()).toEqual([{ kind: 'ok', command: 'identity', identity }]);
  board.reset();
  expect(take()[0]).toMatchObject({ kind: 'hello', identity, boot: 1 });
  command({ kind: 'describe' });
  expect(take()[0]).toMatchObject({ kind: 'hello', identity });
});

test('a reset starts a new boot at clock and sequence zero, with nothing to repeat', () => {
  const { board, clock, command, take } = quietBoard({ uptimeMs: 50_000 });
  board.switchOn();
  clock.advance(10_500);
  take();
  board.reset();
  clock.advance(1500);
  const reported = take();
  expect(kinds(reported)).toEqual(['hello', ...Array(8).fill('channel'), 'scan', 'scan']);
  expect(reported.filter((message) => message.kind === 'scan')).toMatchObject([
    { boot: 1, sequence: 0, uptimeMs: 500 },
    { boot: 1, sequence: 1, uptimeMs: 1500 },
  ]);
  command({ kind: 'resend', boot: 0, from: 0, to: 5 });
  expect(take()).toEqual([{ kind: 'refused', command: 'resend', reason: 'other-boot' }]);
});

test('the period can be changed while it runs', () => {
  const { board, clock, command, take } = quietBoard();
  board.switchOn();
  clock.advance(2500);
  command({ kind: 'period', periodMs: 250 });
  take();
  clock.advance(1000);
  const scans = take().filter((message) => message.kind === 'scan');
  expect(scans.map((scan) => scan.uptimeMs)).toEqual([2750, 3000, 3250, 3500]);
});

test('blinking is acknowledged', () => {
  const { board, command, take } = quietBoard();
  command({ kind: 'blink' });
  expect(take()).toEqual([{ kind: 'ok', command: 'blink' }]);
  expect(board.blinks).toBe(1);
});

test('a command may arrive in pieces, with either line ending, or typed by hand without a checksum', () => {
  const { send, take } = quietBoard();
  send('bli');
  send('nk\r\ndes');
  expect(kinds(take())).toEqual(['ok']);
  send('cribe\n\n');
  expect(kinds(take())).toEqual(['hello', ...Array(8).fill('channel'), 'ok']);
});

test('a command that cannot be executed is refused with its reason', () => {
  const { send, command, take } = quietBoard();
  send('dance\n');
  send('period soon\n');
  send(`${encodeLine({ kind: 'blink' }).slice(0, -1)}0\n`);
  send(`${'x'.repeat(500)}\n`);
  command({ kind: 'blink' });
  expect(take()).toEqual([
    { kind: 'refused', command: 'dance', reason: 'unknown-command' },
    { kind: 'refused', command: 'period', reason: 'bad-argument' },
    { kind: 'refused', command: '?', reason: 'bad-checksum' },
    { kind: 'refused', command: '?', reason: 'bad-argument' },
    { kind: 'ok', command: 'blink' },
  ]);
});

test('lost lines leave missing numbers, which the board can send again; corrupt lines never decode', () => {
  const { board, clock, command, take } = quietBoard({ repeatDepth: 300 });
  board.switchOn();
  take();
  board.disturb({ lost: 0.2, corrupt: 0.2 });
  clock.advance(200_000);
  const reported = take();
  const bad = reported.filter((message) => message.kind === 'bad');
  expect(bad.length).toBeGreaterThan(15);
  expect(bad.length).toBeLessThan(60);
  expect(reported.length).toBeLessThan(190);
  board.disturb({ lost: 0, corrupt: 0 });
  command({ kind: 'resend', boot: 0, from: 0, to: 199 });
  clock.advance(2000);
  expect(sequences(take(), true)).toEqual(Array.from({ length: 200 }, (_, i) => i));
});
