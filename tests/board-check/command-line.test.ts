/** `stovebench check-board` on real pseudo-terminals. */
import { expect, test } from 'vitest';
import { createRealClock } from '../../server/base/clock.ts';
import { openPseudoTerminal } from '../../server/simulator/pseudo-terminal.ts';
import type { BoardCheck } from '../../shared/contract/board-check.ts';
import { stovebench } from '../command-line/run-command.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';
import { type BoardMaking, CHANNELS, startWrittenBoard } from '../support/written-board.ts';

const probe = await openPseudoTerminal();
if (probe.available) await probe.unplug();
else console.warn(`No board is checked on a pseudo-terminal: ${probe.reason}`);

/** Findings about the timing of scans. */
const timings: readonly string[] = ['board/jitter', 'board/period-differs', 'board/clock-off'];

async function checked(making: BoardMaking, seconds: number) {
  const terminal = await openPseudoTerminal();
  if (!terminal.available) throw new Error(terminal.reason);
  const board = startWrittenBoard(terminal, createRealClock(), { periodMs: 100, ...making });
  const args = ['check-board', terminal.path, '--for', String(seconds)];
  try {
    return { ...(await stovebench(args, temporaryFolder())), path: terminal.path };
  } finally {
    board.stop();
    await terminal.unplug();
  }
}

test.runIf(probe.available)(
  'a good board has no bad finding; its report is on standard output, the verdict on standard error and in the exit code',
  async () => {
    const { code, stdout, stderr } = await checked({}, 9);
    const report: BoardCheck = JSON.parse(stdout);
    // A busy machine receives the scans at uneven times, which is a finding as well.
    const found = report.findings.filter((each) => each.level !== 'good' && !timings.includes(each.code));
    expect(found).toEqual([]);
    expect(report.findings.map((each) => each.code)).toContain('board/identity-kept');
    const isReady = report.verdict === 'ready';
    expect([code, stderr.includes('verdict: this board is ready')]).toEqual([isReady ? 0 : 3, isReady]);
  },
);

test.runIf(probe.available)('a bad board ends with 3 and prints what to write instead', async () => {
  const { code, stdout, stderr } = await checked({ channels: [CHANNELS[0]!, CHANNELS[1]!.replace('Cel', 'degC')] }, 3);
  expect([code, JSON.parse(stdout).verdict]).toEqual([3, 'notUsable']);
  expect(stderr).toContain('wrong: Channel 2 (Flue) says unit=degC');
  expect(stderr).toContain('what to do: Write unit=Cel in its channel line');
});

test.runIf(probe.available)('for a board that prints numbers the advice is to attach it as a plain board', async () => {
  const line = (body: string) => `${body.split(' ').length}.5, 24.0\r\n`;
  const { code, stderr } = await checked({ line, answer: () => true }, 3);
  expect(code).toBe(3);
  expect(stderr).toContain('prints numbers in columns (2), not the protocol');
});

test('a missing port ends with 1 and its sentence', async () => {
  const { code, stdout, stderr } = await stovebench(['check-board', '/dev/nowhere', '--for', '5'], temporaryFolder());
  expect([code, stdout]).toEqual([1, '']);
  expect(stderr).toContain('There is no port /dev/nowhere');
});
