import { expect, test } from 'vitest';
import { lossesOfDay } from '../../scripts/faults/day/day-report.ts';
import { SHORTEST_DAY_MS, simulateDay } from '../../scripts/faults/day/simulate-day.ts';

test.skipIf(process.platform !== 'linux')(
  'four boards of eight channels at ten scans a second lose nothing without a word: leads, silence, restarts, clocks',
  async () => {
    const day = await simulateDay({ lengthMs: SHORTEST_DAY_MS, stretches: 0 }, () => {});
    expect(lossesOfDay(day)).toEqual([]);
    expect(day.boards.map(({ inGaps }) => inGaps > 0)).toEqual([false, true, false, false]);
    for (const { made, stored, inGaps } of day.boards) expect(stored + inGaps).toBe(made);
  },
);
