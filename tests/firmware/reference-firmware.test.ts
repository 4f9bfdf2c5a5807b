import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import goldenLines from '../../firmware-protocol/golden-lines.json' with { type: 'json' };
import {
  type BadLine,
  decodeLine,
  encodeLine,
  type HostCommand,
  type Message,
  type ScanMessage,
} from '../../firmware-protocol/lines.ts';
import fc from '../support/properties.ts';
import { runProgram } from '../support/run-program.ts';

const IDENTITY = '01995f3a-7c2e-7d41-9b1e-3f60a2c4d581';

const FAULTS = ['open', 'short-to-ground', 'short-to-supply', 'out-of-range', 'no-answer', 'other'];

/** A reading as the C core stores it with 32 bits. */
function countOf(reading: number | string): number {
  return typeof reading === 'number' ? reading : -2147483648 + FAULTS.indexOf(reading);
}

function runs(program: string): boolean {
  try {
    return runProgram(program, ['--version']).status === 0;
  } catch {
    return false;
  }
}
const compiler = ['cc', 'gcc', 'clang'].find(runs);
if (!compiler) console.warn('The protocol core is not tried: this machine has no C compiler (cc, gcc or clang).');

describe.skipIf(!compiler)('The protocol core in C, under sanitizers', () => {
  let folder: string;
  let program: string;
  let program16: string;

  const compile = (name: string, ...more: string[]) => {
    const source = join(import.meta.dirname, '../../firmware-protocol/firmware/src');
    const sources = [join(source, 'board.c'), join(import.meta.dirname, 'children/board-on-stdin.c')];
    const sanitizers = ['-fsanitize=address,undefined', '-fno-sanitize-recover=all', '-g'];
    const flags = ['-std=c99', '-Wall', '-Wextra', '-Wconversion', '-Werror', ...sanitizers, ...more, '-I', source];
    const output = join(folder, name);
    const compiled = runProgram(compiler!, [...flags, '-o', output, ...sources]);
    expect(compiled.stderr).toBe('');
    return output;
  };

  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), 'stovebench-board-'));
    program = compile('board');
    program16 = compile('board-16', '-DBENCH_COUNT_BITS=16');
  });

  afterAll(() => rmSync(folder, { recursive: true }));

  /** Returns the messages of the board after these events or lines from the host. */
  const run = (...lines: string[]): (Message | BadLine)[] => {
    const { stdout, stderr } = runProgram(program, [], { input: `${lines.join('\n')}\n`, encoding: 'latin1' });
    expect(stderr).toBe('');
    return stdout.split('\n').slice(0, -1).map(decodeLine);
  };
  const afterStart = (depth: number, ...lines: string[]) => run(`!start 7 ${depth}`, ...lines).slice(3);
  const sequencesOf = (messages: (Message | BadLine)[]) =>
    messages.filter((m): m is ScanMessage => m.kind === 'scan').map((m) => [m.repeated, m.sequence]);
  /** Returns the messages of one board after each of these groups of lines. */
  const sections = (groups: string[][]): string[][] => {
    const input = groups.map((lines) => lines.join('\n')).join('\n!rule\n');
    const { stdout, stderr } = runProgram(program, [], { input: `${input}\n`, encoding: 'latin1' });
    expect(stderr).toBe('');
    return stdout.split('----\n').map((reported) => reported.split('\n').slice(0, -1));
  };
  const scans = (count: number) => Array.from({ length: count }, (_, i) => `!scan ${1000 * (i + 1)} ${i} ${-i}`);

  it('sends its hello', () => {
    expect(run('!start 7 64')).toMatchObject([
      { kind: 'hello', identity: null, boot: 7, repeatDepth: 64, periodMs: 1000, channels: 2, name: 'Reference' },
      { kind: 'channel', index: 1, unit: 'Cel', scale: 0.25, form: { kind: 'value' } },
      { kind: 'channel', index: 2, unit: 'uV', form: { kind: 'thermocouple-microvolts', coldJunction: 1 } },
    ]);
  });

  it('sends every reading and every fault as the host writes them', () => {
    const readings = [0, 1, -1, 412, 2147483647, -2147483642, -2147483648, -2147483647, -2147483646];
    const sent = afterStart(64, ...readings.map((r, i) => `!scan ${i} ${r} ${-2147483645 + (i % 3)}`));
    expect(sent.map((m) => (m as ScanMessage).readings[0])).toEqual([
      ...readings.slice(0, 6),
      'open',
      'short-to-ground',
      'short-to-supply',
    ]);
    expect(sent.slice(0, 3).map((m) => (m as ScanMessage).readings[1])).toEqual(['out-of-range', 'no-answer', 'other']);
  });

  it('writes the same bytes as the host for any scan', () => {
    const int32 = fc.integer({ min: -2147483642, max: 2147483647 });
    const uint32 = fc.integer({ min: 0, max: 0xffffffff });
    const scan = fc.tuple(uint32, uint32, int32, int32);
    fc.assert(
      fc.property(fc.array(scan, { minLength: 100, maxLength: 200 }), (made) => {
        const lines = made.flatMap(([sequence, uptimeMs, a, b]) => [
          `!sequence ${sequence}`,
          `!scan ${uptimeMs} ${a} ${b}`,
        ]);
        const input = ['!start 7 8', ...lines].join('\n');
        const { stdout } = runProgram(program, [], { input, encoding: 'latin1' });
        const expected = made.map(([sequence, uptimeMs, a, b]) =>
          encodeLine({ kind: 'scan', repeated: false, boot: 7, sequence, uptimeMs, readings: [a, b] }),
        );
        expect(stdout.split('\n').slice(3, -1)).toEqual(expected);
      }),
      { numRuns: 3 },
    );
  });

  it('executes commands with a checksum, and without one when a person types them', () => {
    const commands: HostCommand[] = [
      { kind: 'identity', identity: IDENTITY },
      { kind: 'period', periodMs: 50 },
      { kind: 'blink' },
    ];
    const responses = [
      { kind: 'ok', command: 'identity', identity: IDENTITY },
      { kind: 'ok', command: 'period', periodMs: 100 },
      { kind: 'ok', command: 'blink' },
    ];
    expect(afterStart(64, ...commands.map(encodeLine))).toEqual(responses);
    expect(afterStart(64, `identity ${IDENTITY}`, 'period 50 ', 'blink\r')).toEqual(responses);
    const described = afterStart(64, `identity ${IDENTITY}`, 'describe');
    expect(described.map((m) => m.kind)).toEqual(['ok', 'hello', 'channel', 'channel', 'ok']);
    expect(described[1]).toMatchObject({ identity: IDENTITY });
  });

  it('refuses damaged, unknown, wrong or too long commands, with the reason', () => {
    const damaged = encodeLine({ kind: 'blink' }).replace('blink', 'blonk');
    expect(
      afterStart(
        64,
        damaged,
        'dance',
        'period 5',
        'period ten',
        'resend 7 1',
        'identity me',
        'x'.repeat(90),
        'describe me',
      ),
    ).toMatchObject([
      { kind: 'refused', command: '?', reason: 'bad-checksum' },
      { kind: 'refused', command: '?', reason: 'unknown-command' },
      { kind: 'refused', command: 'period', reason: 'bad-argument' },
      { kind: 'refused', command: 'period', reason: 'bad-argument' },
      { kind: 'refused', command: 'resend', reason: 'bad-argument' },
      { kind: 'refused', command: 'identity', reason: 'bad-argument' },
      { kind: 'refused', command: '?', reason: 'unknown-command' },
      { kind: 'refused', command: '?', reason: 'unknown-command' },
    ]);
    expect(afterStart(64, '!forgetful', `identity ${IDENTITY}`)).toMatchObject([
      { kind: 'refused', command: 'identity', reason: 'not-supported' },
    ]);
  });

  it('sends stored scans again unchanged', () => {
    const [first, second, , ...answer] = afterStart(64, ...scans(3), 'resend 7 0 1', '!idle');
    expect(answer).toEqual([
      { kind: 'ok', command: 'resend', oldest: 0 },
      { ...first, repeated: true },
      { ...second, repeated: true },
    ]);
  });

  it('sends the requested scans that it still stores, and the number of the oldest', () => {
    const answer = afterStart(4, ...scans(10), 'resend 7 2 7', '!idle').slice(10);
    expect(answer[0]).toEqual({ kind: 'ok', command: 'resend', oldest: 6 });
    expect(sequencesOf(answer)).toEqual([
      [true, 6],
      [true, 7],
    ]);
  });

  it('refuses scans that it does not store, those of another boot, and those of the future', () => {
    expect(afterStart(4, ...scans(10), 'resend 7 0 3', 'resend 6 8 9', 'resend 7 10 12').slice(10)).toEqual([
      { kind: 'refused', command: 'resend', reason: 'not-held', oldest: 6 },
      { kind: 'refused', command: 'resend', reason: 'other-boot' },
      { kind: 'refused', command: 'resend', reason: 'not-held', oldest: 6 },
    ]);
    expect(afterStart(0, ...scans(2), 'resend 7 0 1').slice(2)).toEqual([
      { kind: 'refused', command: 'resend', reason: 'not-held' },
    ]);
  });

  it.each([64, 5])('continues and repeats across the wrap of the sequence number, with a depth of %i', (depth) => {
    const answer = afterStart(depth, '!sequence 4294967294', ...scans(4), 'resend 7 4294967295 0', '!idle');
    expect(sequencesOf(answer)).toEqual([
      [false, 4294967294],
      [false, 4294967295],
      [false, 0],
      [false, 1],
      [true, 4294967295],
      [true, 0],
    ]);
  });

  it('drops repeats that new scans have overwritten meanwhile', () => {
    const answer = afterStart(3, ...scans(3), 'resend 7 0 2', ...scans(2), '!idle');
    expect(sequencesOf(answer).slice(5)).toEqual([[true, 2]]);
  });

  it('executes the last of two requests for stored scans, and drops the rest of the first', () => {
    const answer = afterStart(64, ...scans(9), 'resend 7 0 5', 'resend 7 7 8', '!idle');
    expect(sequencesOf(answer).slice(9)).toEqual([
      [true, 7],
      [true, 8],
    ]);
  });

  it('stores readings of 16 bits too, with faults at the end of their range', () => {
    const input = ['!start 7 3', '!scan 5 -32762 32767', '!scan 6 -32768 -32763', 'resend 7 0 1', '!idle'].join('\n');
    const { stdout, stderr } = runProgram(program16, [], { input, encoding: 'latin1' });
    expect(stderr).toBe('');
    const sent = stdout.split('\n').slice(3, -1).map(decodeLine);
    expect(sent.filter((m) => m.kind === 'scan').map(({ readings }) => readings)).toEqual([
      [-32762, 32767],
      ['open', 'other'],
      [-32762, 32767],
      ['open', 'other'],
    ]);
  });

  it('writes and reads every golden line that a board can send in a scan, or receive', () => {
    const golden = goldenLines.good.map(({ line, message }) => ({ line, message: message as Message | HostCommand }));
    const reported = golden.flatMap(({ line, message }) => {
      // With 32 bits the lowest counts are reserved for faults.
      const fits = message.kind === 'scan' && !message.repeated && !message.readings.includes(-2147483648);
      return fits ? [{ line, ...message }] : [];
    });
    expect(reported.length).toBeGreaterThanOrEqual(3);
    const written = sections(
      reported.map(({ boot, sequence, uptimeMs, readings }) => [
        `!channels ${readings.length}`,
        `!start ${boot} 8`,
        `!sequence ${sequence}`,
        `!scan ${uptimeMs} ${readings.map(countOf).join(' ')}`,
      ]),
    );
    expect(written.map((lines) => lines.at(-1))).toEqual(reported.map(({ line }) => line));

    const received = golden.filter(({ message }) =>
      ['describe', 'identity', 'period', 'resend', 'blink'].includes(message.kind),
    );
    expect(received.length).toBeGreaterThan(3);
    // A line with an ending that no host sends is from a board.
    const bad = goldenLines.bad.filter(({ line }) => line.includes('~'));
    const responses = sections([['!start 7 64', ...scans(3)], ...[...received, ...bad].map(({ line }) => [line])])
      .slice(1)
      .map((lines) => lines.map(decodeLine));
    received.forEach(({ line, message }, i) => {
      const obeyed = responses[i]!.some((each) => 'command' in each && each.command === message.kind);
      expect(obeyed, line).toBe(true);
    });
    bad.forEach(({ line }, i) => {
      expect(
        responses[received.length + i]!.every(({ kind }) => kind === 'refused'),
        line,
      ).toBe(true);
    });
  });

  it('survives any input, and sends only valid lines', () => {
    const word = fc.constantFrom('resend', 'period', 'identity', 'describe', 'blink', '7', '0', '4294967295', '~', '9');
    const step = fc.oneof(
      {
        weight: 3,
        arbitrary: fc.uint8Array({ maxLength: 90 }).map((bytes) => `!bytes ${Buffer.from(bytes).toString('hex')}`),
      },
      { weight: 3, arbitrary: fc.array(word, { maxLength: 6 }).map((words) => words.join(' ')) },
      { weight: 2, arbitrary: fc.tuple(fc.nat(9), fc.nat(9)).map(([from, to]) => `resend 7 ${from} ${to}`) },
      { weight: 2, arbitrary: fc.integer().map((value) => `!scan ${value >>> 0} ${value} ${-value}`) },
      { weight: 1, arbitrary: fc.nat().map((value) => `!sequence ${(value * 3) >>> 0}`) },
      { weight: 1, arbitrary: fc.constant('!idle') },
      { weight: 1, arbitrary: fc.nat(12).map((depth) => `!start 7 ${depth}`) },
    );
    fc.assert(
      fc.property(fc.array(step, { minLength: 200, maxLength: 600 }), (steps) => {
        for (const each of run('!start 7 3', ...steps)) expect(each.kind).not.toBe('bad');
      }),
      { numRuns: 5 },
    );
  });
});
