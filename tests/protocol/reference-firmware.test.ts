import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
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

function runs(program: string): boolean {
  try {
    return runProgram(program, ['--version']).status === 0;
  } catch {
    return false;
  }
}
const compiler = ['cc', 'gcc', 'clang'].find(runs);
if (!compiler) console.warn('The reference firmware is not tried: this machine has no C compiler (cc, gcc or clang).');

describe.skipIf(!compiler)('The reference firmware in C', () => {
  let folder: string;
  let program: string;

  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), 'stovebench-board-'));
    program = join(folder, 'board');
    const reference = join(import.meta.dirname, '../../firmware-protocol/reference');
    const sources = [join(reference, 'board.c'), join(import.meta.dirname, 'children/board-on-stdin.c')];
    const flags = ['-std=c99', '-Wall', '-Wextra', '-Wconversion', '-Werror', '-I', reference, '-o', program];
    const compiled = runProgram(compiler!, [...flags, ...sources]);
    expect(compiled.stderr).toBe('');
  });

  afterAll(() => rmSync(folder, { recursive: true }));

  /** What the board says when this happens to it, or comes from the host. */
  const run = (...lines: string[]): (Message | BadLine)[] => {
    const { stdout } = runProgram(program, [], { input: `${lines.join('\n')}\n`, encoding: 'latin1' });
    return stdout.split('\n').slice(0, -1).map(decodeLine);
  };
  const afterStart = (depth: number, ...lines: string[]) => run(`!start 7 ${depth}`, ...lines).slice(3);
  const sequencesOf = (messages: (Message | BadLine)[]) =>
    messages.filter((m): m is ScanMessage => m.kind === 'scan').map((m) => [m.repeated, m.sequence]);
  const scans = (count: number) => Array.from({ length: count }, (_, i) => `!scan ${1000 * (i + 1)} ${i} ${-i}`);

  it('says who it is', () => {
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

  it('writes the same bytes as the host would for any scan', () => {
    const int32 = fc.integer({ min: -2147483642, max: 2147483647 });
    const uint32 = fc.integer({ min: 0, max: 0xffffffff });
    fc.assert(
      fc.property(uint32, uint32, int32, int32, (sequence, uptimeMs, a, b) => {
        const lines = [`!start 7 8`, `!sequence ${sequence}`, `!scan ${uptimeMs} ${a} ${b}`];
        const { stdout } = runProgram(program, [], { input: lines.join('\n'), encoding: 'latin1' });
        const scan: Message = { kind: 'scan', repeated: false, boot: 7, sequence, uptimeMs, readings: [a, b] };
        expect(stdout.split('\n').at(-2)).toBe(encodeLine(scan));
      }),
      { numRuns: 40 },
    );
  });

  it('obeys commands with a checksum, and without one when a person types them', () => {
    const commands: HostCommand[] = [
      { kind: 'identity', identity: IDENTITY },
      { kind: 'period', periodMs: 50 },
      { kind: 'blink' },
    ];
    const answers = [
      { kind: 'ok', command: 'identity', identity: IDENTITY },
      { kind: 'ok', command: 'period', periodMs: 100 },
      { kind: 'ok', command: 'blink' },
    ];
    expect(afterStart(64, ...commands.map(encodeLine))).toEqual(answers);
    expect(afterStart(64, `identity ${IDENTITY}`, 'period 50 ', 'blink\r')).toEqual(answers);
    const described = afterStart(64, `identity ${IDENTITY}`, 'describe');
    expect(described.map((m) => m.kind)).toEqual(['ok', 'hello', 'channel', 'channel', 'ok']);
    expect(described[1]).toMatchObject({ identity: IDENTITY });
  });

  it('refuses what is damaged, unknown, wrong or too long, with the reason', () => {
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

  it('sends held scans again as they were', () => {
    const [first, second, , ...answer] = afterStart(64, ...scans(3), 'resend 7 0 1', '!idle');
    expect(answer).toEqual([
      { kind: 'ok', command: 'resend', oldest: 0 },
      { ...first, repeated: true },
      { ...second, repeated: true },
    ]);
  });

  it('sends what it still holds of what was asked for, and says what is the oldest', () => {
    const answer = afterStart(4, ...scans(10), 'resend 7 2 7', '!idle').slice(10);
    expect(answer[0]).toEqual({ kind: 'ok', command: 'resend', oldest: 6 });
    expect(sequencesOf(answer)).toEqual([
      [true, 6],
      [true, 7],
    ]);
  });

  it('refuses scans that it does not hold, those of another boot, and those of the future', () => {
    expect(afterStart(4, ...scans(10), 'resend 7 0 3', 'resend 6 8 9', 'resend 7 10 12').slice(10)).toEqual([
      { kind: 'refused', command: 'resend', reason: 'not-held', oldest: 6 },
      { kind: 'refused', command: 'resend', reason: 'other-boot' },
      { kind: 'refused', command: 'resend', reason: 'not-held', oldest: 6 },
    ]);
    expect(afterStart(0, ...scans(2), 'resend 7 0 1').slice(2)).toEqual([
      { kind: 'refused', command: 'resend', reason: 'not-held' },
    ]);
  });

  it('goes on and remembers across the wrap of the sequence number, with a depth that divides 2^32', () => {
    const answer = afterStart(64, '!sequence 4294967294', ...scans(4), 'resend 7 4294967295 0', '!idle');
    expect(sequencesOf(answer)).toEqual([
      [false, 4294967294],
      [false, 4294967295],
      [false, 0],
      [false, 1],
      [true, 4294967295],
      [true, 0],
    ]);
  });

  it('drops repeats that new scans have pushed out meanwhile', () => {
    const answer = afterStart(3, ...scans(3), 'resend 7 0 2', ...scans(2), '!idle');
    expect(sequencesOf(answer).slice(5)).toEqual([[true, 2]]);
  });
});
