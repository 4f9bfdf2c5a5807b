import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { DuckDBInstance } from '@duckdb/node-api';
import readWorkbook from 'read-excel-file/node';
import { expect, test } from 'vitest';
import { burnFile } from '../../server/exports/burn-files.ts';
import { channelCurves } from '../../shared/analysis/curves/channel-curve.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';
import { exportedBurn, recordOf, sampleRecord, whole } from './sample-burn.ts';
import { hostileTexts } from './tables.ts';

async function duckdb() {
  return (await DuckDBInstance.create(':memory:')).connect();
}

test('DuckDB finds in the Parquet file of a burn the water that the analysis reads', async () => {
  const burn = await exportedBurn();
  const file = join(temporaryFolder(), 'readings.parquet');
  writeFileSync(file, whole((await burnFile('readings.parquet', burn)).chunks));
  const record = recordOf(burn.store, burn.record.id);
  const [curve] = channelCurves(record).filter(({ channel }) => channel.role === 'water');
  const corrected = curve!.channel.calibration ? ' corrected' : '';
  const column = `${curve!.channel.name}${corrected} [${curve!.channel.unit}]`;
  const db = await duckdb();
  const read = await db.runAndReadAll(
    `SELECT "elapsed [s]", "${column}" FROM read_parquet('${file}') ORDER BY "elapsed [s]"`,
  );
  const rows = read.getRows() as [number, number][];
  expect(rows.length).toBe(record.readings[0]!.elapsedUs.length);
  for (const [index, [elapsedS, value]] of rows.entries()) {
    expect(elapsedS).toBe(curve!.timeS[index]);
    expect(value).toBeCloseTo(curve!.value[index]!, 6);
  }
});

test('DuckDB reads the same numbers from the CSV of the readings as from the Parquet file', async () => {
  const burn = await exportedBurn();
  const folder = temporaryFolder();
  for (const name of ['readings.csv', 'readings.parquet'] as const) {
    writeFileSync(join(folder, name), whole((await burnFile(name, burn)).chunks));
  }
  const db = await duckdb();
  const rows = async (from: string) => {
    const read = await db.runAndReadAll(`SELECT * EXCLUDE (utc) FROM ${from} ORDER BY "elapsed [s]"`);
    return {
      names: read.columnNames(),
      values: read.getRows().map((row) => row.map((v) => (v === null ? v : String(v)))),
    };
  };
  const fromCsv = await rows(`read_csv('${folder}/readings.csv', all_varchar = false)`);
  expect(fromCsv.names).toEqual((await rows(`read_parquet('${folder}/readings.parquet')`)).names);
  expect(fromCsv.values.map((row) => row.map(Number))).toEqual(
    (await rows(`read_parquet('${folder}/readings.parquet')`)).values.map((row) => row.map(Number)),
  );
});

test('a foreign reader finds a sheet for every part of a burn, hostile notes as they were written', async () => {
  const record = sampleRecord();
  record.marks.forEach((mark, index) => {
    const note = hostileTexts[index % hostileTexts.length]!.replace('\u0007', '').trim();
    mark.note = note;
  });
  const burn = await exportedBurn(record);
  const sheets = await readWorkbook(whole((await burnFile('burn.xlsx', burn)).chunks), { trim: false });
  expect(sheets.map(({ sheet }) => sheet)).toEqual([
    'burn',
    'readings',
    'marks',
    'weighings',
    'results',
    'budget',
    'fuel-lots',
    'channels',
    'gaps',
    'exclusions',
    'edits',
  ]);
  const [head, ...rows] = sheets[2]!.data;
  const note = head!.indexOf('note');
  expect(rows.map((row) => row[note])).toEqual(burn.record.marks.map((mark) => mark.note));
  const [, ...readings] = sheets[1]!.data;
  expect(readings.length).toBe(record.readings[0]!.elapsedUs.length);
});

test('two probes of one name get columns of their own in every table', async () => {
  const record = sampleRecord();
  for (const channel of record.channels) channel.name = 'probe';
  const burn = await exportedBurn(record);
  const [head = ''] = whole((await burnFile('readings.csv', burn)).chunks)
    .toString()
    .split('\r\n');
  const names = head.split(',');
  expect(new Set(names).size).toBe(names.length);
});
