import type { BurnRecord } from '../../../shared/contract/burn-record.ts';

const id = (number: number) => `00000000-0000-7000-8000-${String(number).padStart(12, '0')}`;

/**
 * The record of a burn with eight channels, four at sixteenths and four at quarters of a degree, rising slowly with some noise. Invented.
 * @param scans how many, `everyUs` apart and up to 0.9 ms late
 */
export function inventedBurn(scans: number, everyUs: number): BurnRecord {
  const indices = [0, 1, 2, 3, 4, 5, 6, 7];
  const column = (of: (scan: number) => number) => Array.from({ length: scans }, (_, scan) => of(scan));
  return {
    format: 'stovebench-burn-record',
    version: 1,
    id: id(1),
    title: 'A long burn',
    origin: 'simulated',
    status: 'complete',
    methodSet: 'bench-1',
    primaryResult: 'dryWoodPerBatch',
    target: { kind: 'boil' },
    startedUtcMs: Date.UTC(2026, 4, 2),
    fuelLots: [],
    channels: indices.map((channel) => ({
      id: id(10 + channel),
      boardId: id(2),
      index: channel,
      name: `probe ${channel}`,
      role: channel === 0 ? 'water' : 'other',
      unit: 'Cel',
      scale: channel < 4 ? 0.0625 : 0.25,
    })),
    readings: [
      {
        boardId: id(2),
        elapsedUs: column((scan) => scan * everyUs + ((scan * 37) % 900)),
        columns: indices.map((channel) => ({
          channelId: id(10 + channel),
          counts: column((scan) => 320 + channel * 40 + ((scan / 600) | 0) + ((scan * 7) % 5)),
        })),
      },
    ],
    marks: [],
    weighings: [],
  };
}
