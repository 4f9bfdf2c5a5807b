import { expect, test } from 'vitest';
import { createScanFindings } from '../../server/board-check/scan-findings.ts';

/** Receives the scans of a board with one per second, from the first number to the last. */
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

test('scans sent while the check has the port closed are not missing, and not a pause of the board', () => {
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

test('the same numbers missing with the port open are a finding', () => {
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
