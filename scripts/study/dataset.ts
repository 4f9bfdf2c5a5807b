/**
 * Measures what a published dataset costs at scale: bytes per reading, how fast it is written, how it grows from 100 to
 * 10,000 burns, and the cost of a run that finds nothing new. The burns are simulated.
 */
import { mkdtempSync, readdirSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { readState } from '../../server/dataset/file-state.ts';
import { benchesIn, filesOfBench } from '../../server/dataset/places.ts';
import { datasetTables } from '../../shared/dataset/dataset.ts';
import type { Study } from '../tools/study.ts';
import { type Extent, writeSimulatedDataset } from './dataset/simulated-benches.ts';

/**
 * A reading in a file with the others of its burn: its count, its value and its share of times and numbers. Measured
 * 2.3 to 3.2.
 */
const MOST_BYTES_A_READING = 4;

const study: Study = ({ quick }) => {
  const extents: Extent[] = quick
    ? [{ benches: 4, burns: 40, withReadings: 2 }]
    : [
        { benches: 20, burns: 100, withReadings: 5 },
        { benches: 20, burns: 1000, withReadings: 50 },
        { benches: 20, burns: 10_000, withReadings: 500 },
      ];
  const outcomes = extents.map(measured);
  return {
    tables: [
      {
        title:
          'a dataset of simulated burns, written by the code that publishes (readings at 1 Hz × 8 of every twentieth burn)',
        columns: [
          'benches',
          'burns',
          'files',
          'readings',
          'MB',
          'of it readings',
          'B a reading',
          'B a burn besides',
          'readings a second',
          's to look at all',
        ],
        rows: outcomes.map((o) => [
          o.benches,
          o.burns,
          o.files,
          o.readingRows,
          o.bytes / 1e6,
          o.readingBytes / 1e6,
          o.readingBytes / o.readingRows,
          (o.bytes - o.readingBytes) / o.burns,
          o.readingRows / o.writtenS,
          o.lookedS,
        ]),
      },
    ],
    refuted: outcomes.flatMap(({ burns, readingBytes, readingRows }) =>
      readingBytes / readingRows > MOST_BYTES_A_READING
        ? [
            `${burns} burns: ${(readingBytes / readingRows).toFixed(2)} bytes a reading, more than ${MOST_BYTES_A_READING}`,
          ]
        : [],
    ),
  };
};

function measured(extent: Extent) {
  const folder = mkdtempSync(join(tmpdir(), 'stovebench-dataset-'));
  try {
    const beganMs = performance.now();
    const { files, readingRows } = writeSimulatedDataset(folder, extent);
    const writtenMs = performance.now();
    for (const bench of benchesIn(folder)) for (const path of filesOfBench(folder, bench)) readState(path);
    const lookedS = (performance.now() - writtenMs) / 1000;
    const sizes = Object.keys(datasetTables).map((table) => [table, bytesBelow(join(folder, table))] as const);
    const bytes = sizes.reduce((sum, [, own]) => sum + own, 0);
    const readingBytes = sizes.find(([table]) => table === 'readings')![1];
    return { ...extent, files, readingRows, bytes, readingBytes, writtenS: (writtenMs - beganMs) / 1000, lookedS };
  } finally {
    rmSync(folder, { recursive: true });
  }
}

function bytesBelow(folder: string): number {
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .reduce((sum, entry) => sum + statSync(join(entry.parentPath, entry.name)).size, 0);
}

export default study;
