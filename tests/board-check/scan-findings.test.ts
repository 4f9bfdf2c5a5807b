import { expect, test } from 'vitest';
import { createScanFindings } from '../../server/board-check/scan-findings.ts';

/** Scans of a board that takes one a second, received from the first number to the last. */
function receive(
  scans: ReturnType<typeof createScanFindings>,
  clock: { s: number },
  first: number,
  last: number,
): void {
  for (let sequence = first; sequence <= last; sequence++) {
    clock.s = sequence;
    scans.scan(
      { kind: 'scan', repeated: false, boot: 7, sequence, uptimeMs: sequence * 1000, readings: [80, 81] },
      false,
    );
  }
}

const codes = (scans: ReturnType<typeof createScanFindings>) => scans.findings(1000).map(({ code }) => code);

test('what a board sends while the check has its port closed is not missing, and no pause of the board', () => {
  const clock = { s: 0 };
  const scans = createScanFindings(() => clock.s);
  receive(scans, clock, 0, 9);
  scans.portOpened();
  receive(scans, clock, 14, 22);
  expect(codes(scans)).toEqual(
    expect.arrayContaining(['board/numbering-good', 'board/period-kept', 'board/clock-good']),
  );
  expect(codes(scans)).not.toContain('board/jitter');
});

test('the same numbers left out with the port open are told', () => {
  const clock = { s: 0 };
  const scans = createScanFindings(() => clock.s);
  receive(scans, clock, 0, 9);
  receive(scans, clock, 14, 22);
  expect(scans.findings(1000)).toContainEqual({
    code: 'board/numbers-skipped',
    level: 'doubtful',
    params: { count: 4 },
  });
});
