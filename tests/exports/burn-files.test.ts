import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { DuckDBInstance } from '@duckdb/node-api';
import { parse } from 'csv-parse/sync';
import { strFromU8, unzipSync } from 'fflate';
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

test('DuckDB reads the same from the CSV of the readings as from the Parquet file, value by value', async () => {
  const burn = await exportedBurn();
  const folder = temporaryFolder();
  for (const name of ['readings.csv', 'readings.parquet'] as const) {
    writeFileSync(join(folder, name), whole((await burnFile(name, burn)).chunks));
  }
  const db = await duckdb();
  const types = await db.runAndReadAll(`DESCRIBE SELECT * FROM read_parquet('${folder}/readings.parquet')`);
  const columns = types.getRows().map(([name, type]) => `'${String(name)}': '${String(type)}'`);
  const rows = async (from: string) => {
    const read = await db.runAndReadAll(`SELECT * FROM ${from}`);
    return read.getRows().map((row) => row.map((value) => (value === null ? null : String(value))));
  };
  const fromCsv = await rows(`read_csv('${folder}/readings.csv', header = true, columns = {${columns.join(', ')}})`);
  expect(fromCsv.length).toBe(recordOf(burn.store, burn.record.id).readings[0]!.elapsedUs.length);
  expect(fromCsv).toEqual(await rows(`read_parquet('${folder}/readings.parquet')`));
});

test('every row of every table has its burn, stove, revision, bench and time zone', async () => {
  const burn = await exportedBurn();
  const { stove, revision, zone } = burn.record;
  const expected = { burn: burn.record.id, stove: stove!.name, revision: revision!.label, bench: burn.benchId, zone };
  for (const name of ['readings.csv', 'results.csv', 'marks.csv', 'weighings.csv'] as const) {
    const rows = parse(whole((await burnFile(name, burn)).chunks).toString(), { columns: true }) as object[];
    expect(rows.length, name).toBeGreaterThan(0);
    for (const row of rows) expect(row).toMatchObject(expected);
  }
});

test('marks and weighings have the wall-clock time in addition to the elapsed time', async () => {
  const burn = await exportedBurn();
  for (const name of ['marks.csv', 'weighings.csv'] as const) {
    const text = whole((await burnFile(name, burn)).chunks).toString();
    const timed = (parse(text, { columns: true }) as Record<string, string>[]).filter(
      (row) => row['elapsed [s]'] !== '',
    );
    expect(timed.length).toBeGreaterThan(0);
    for (const row of timed) {
      const elapsedMs = Date.parse(row.utc!) - burn.record.startedUtcMs!;
      expect(elapsedMs).toBe(Math.round(Number(row['elapsed [s]']) * 1000));
    }
  }
});

test('an independent reader finds a sheet for every part of a burn, and hostile notes unchanged', async () => {
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
    'scales',
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

test('in the workbook of a burn numbers are numbers, dates are dates, and the chart draws the temperatures that results use', async () => {
  const burn = await exportedBurn();
  const bytes = whole((await burnFile('burn.xlsx', burn)).chunks);
  const [cover, readings] = await readWorkbook(bytes, { trim: false });
  const stated = new Map(cover!.data.map(([property, value]) => [property, value]));
  // A day number is a double, which the reader truncates to milliseconds.
  const moments = (dates: readonly unknown[]) => dates.map((date) => Math.round((date as Date).getTime() / 10));
  expect(moments([stated.get('started')])).toEqual([burn.record.startedUtcMs! / 10]);
  expect(stated.get('vessel mass [kg]')).toBe(burn.record.vessel!.massKg);
  const [head, ...rows] = readings!.data;
  const utc = rows.map((row) => row[head!.indexOf('utc')]);
  const elapsedS = rows.map((row) => row[head!.indexOf('elapsed [s]')]);
  const expected = elapsedS.map((s) => new Date(burn.record.startedUtcMs! + Number(s) * 1000));
  expect(moments(utc)).toEqual(moments(expected));

  const chart = strFromU8(unzipSync(bytes)['xl/charts/chart1.xml']!).replaceAll('&#39;', "'");
  const names = [...chart.matchAll(/<c:tx><c:strRef><c:f>'readings'!\$([A-Z]+)\$1</g)].map(([, letters]) => letters!);
  const drawn = names.map((letters) => head![columnOf(letters)]);
  const record = recordOf(burn.store, burn.record.id);
  const used = channelCurves(record).filter(({ channel }) => ['Cel', 'uV', 'Ohm'].includes(channel.unit));
  expect(drawn.map((name) => String(name).replace(' corrected', ''))).toEqual(
    used.map(({ channel }) => `${channel.name} [Cel]`),
  );
  for (const letters of names) {
    expect(chart).toContain(`<c:yVal><c:numRef><c:f>'readings'!$${letters}$2:$${letters}$${rows.length + 1}<`);
  }
});

/** "A" is 0, "AA" is 26. */
function columnOf(letters: string): number {
  return [...letters].reduce((sum, letter) => sum * 26 + letter.charCodeAt(0) - 64, 0) - 1;
}

test('two probes of one name have separate columns in every table', async () => {
  const record = sampleRecord();
  for (const channel of record.channels) channel.name = 'probe';
  const burn = await exportedBurn(record);
  const [head = ''] = whole((await burnFile('readings.csv', burn)).chunks)
    .toString()
    .split('\r\n');
  const names = head.split(',');
  expect(new Set(names).size).toBe(names.length);
});
