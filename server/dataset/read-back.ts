/** Reads burns back from published files: the record as stored in burns, with the readings of its boards. */
import { readFileSync } from 'node:fs';
import { basename } from 'node:path';
import { zstdDecompressSync } from 'node:zlib';
import { parquetReadObjects } from 'hyparquet';
import type { BurnRecord, FaultCode, Readings } from '../../shared/contract/burn-record.ts';
import type { burnsTable } from '../../shared/dataset/burns.ts';
import type { DatasetTable } from '../../shared/dataset/column.ts';
import type { readingsTable } from '../../shared/dataset/readings.ts';
import { benchesIn, filesOfTable, PARQUET } from './places.ts';

type NameIn<T extends DatasetTable> = T['columns'][number]['name'];

/** Every burn in the folder, of every bench, one after another; each as its record was when it was published. */
export async function* publishedRecords(folder: string): AsyncGenerator<BurnRecord> {
  for (const bench of benchesIn(folder)) {
    const readings = new Map(filesOfTable(folder, bench, 'readings').map((path) => [basename(path, PARQUET), path]));
    for (const path of filesOfTable(folder, bench, 'burns')) {
      for (const { burn, record } of await rowsOf<NameIn<typeof burnsTable>>(path, ['burn', 'record'])) {
        const whole = JSON.parse(record as string) as BurnRecord;
        const own = readings.get(burn as string);
        // Hand readings are in the record already.
        yield { ...whole, readings: [...(own ? await boardReadings(own) : []), ...whole.readings] };
      }
    }
  }
}

async function boardReadings(path: string): Promise<Readings[]> {
  const rows = await rowsOf<NameIn<typeof readingsTable>>(path, [
    'board_id',
    'channel_id',
    'elapsed_us',
    'boot',
    'sequence',
    'count',
    'fault',
  ]);
  const boards = Map.groupBy(rows, (row) => row.board_id as string | null);
  return [...boards].flatMap(([boardId, ofBoard]) => {
    if (boardId === null) return [];
    const channels = Map.groupBy(ofBoard, (row) => row.channel_id as string | null);
    // Each channel of a board has a row for every scan.
    const [scans = []] = channels.values();
    return {
      boardId,
      elapsedUs: scans.map((row) => Number(row.elapsed_us)),
      sequence: scans.map((row) => Number(row.sequence)),
      boot: scans.map((row) => Number(row.boot)),
      columns: [...channels].flatMap(([channelId, own]) => (channelId === null ? [] : columnOf(channelId, own))),
    };
  });
}

function columnOf(channelId: string, rows: readonly { count: unknown; fault: unknown }[]): Readings['columns'][number] {
  const faults = rows.flatMap(({ fault }, scan): [number, FaultCode][] =>
    fault === null || fault === undefined ? [] : [[scan, fault as FaultCode]],
  );
  return {
    channelId,
    counts: rows.map(({ count }) => (count as number | null) ?? null),
    ...(faults.length > 0 && { faults }),
  };
}

async function rowsOf<Name extends string>(path: string, columns: Name[]): Promise<Record<Name, unknown>[]> {
  const { buffer, byteOffset, byteLength } = readFileSync(path);
  return (await parquetReadObjects({
    file: buffer.slice(byteOffset, byteOffset + byteLength) as ArrayBuffer,
    columns,
    compressors: { ZSTD: (input) => zstdDecompressSync(input) },
  })) as Record<Name, unknown>[];
}
