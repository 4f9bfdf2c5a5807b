/**
 * Scans taken together at a fixed ratio: for every so many the lowest, the highest and the mean count of each channel, and the
 * longest step of time among them, so that no gap is lost. A long burn is drawn from these without reading its scans.
 */
import { createByteWriter, readBytes } from './block-bytes.ts';
import { readIntegers, writeIntegers } from './integer-column.ts';
import type { StoredScans } from './stored-scans.ts';

/** Scans a row, finest first. All together are an eighth of a block's bytes; a chart needs a few thousand rows up to 80 h at 10 Hz. */
export const RATIOS = [32, 128, 512] as const;
export type Ratio = (typeof RATIOS)[number];

/** Rows column by column, in the order of time; of what each channel has, the rows of one channel come after those of another. */
export interface CoarseRows {
  /** Moments of the first and the last scan. */
  fromUs: Float64Array;
  toUs: Float64Array;
  /** Longest time between two scans in a row; 0 for a row of one. */
  longestStepUs: Float64Array;
  channels: number;
  /** Counts that are there, their extremes and their mean in sixteenths, rounded; all 0 where there are none. */
  readings: Uint32Array;
  lowest: Int32Array;
  highest: Int32Array;
  meanSixteenths: Float64Array;
}

export const MEAN_PARTS = 16;

export function emptyRows(rows: number, channels: number): CoarseRows {
  const all = rows * channels;
  return {
    fromUs: new Float64Array(rows),
    toUs: new Float64Array(rows),
    longestStepUs: new Float64Array(rows),
    channels,
    readings: new Uint32Array(all),
    lowest: new Int32Array(all),
    highest: new Int32Array(all),
    meanSixteenths: new Float64Array(all),
  };
}

export function coarseRows(scans: StoredScans, ratio: number): CoarseRows {
  const count = scans.elapsedUs.length;
  const rows = emptyRows(Math.ceil(count / ratio), scans.counts.length);
  const endOf = (row: number) => Math.min(count, (row + 1) * ratio);
  for (let row = 0; row < rows.fromUs.length; row++) {
    const [from, to] = [row * ratio, endOf(row)];
    let longestUs = 0;
    for (let scan = from + 1; scan < to; scan++)
      longestUs = Math.max(longestUs, scans.elapsedUs[scan]! - scans.elapsedUs[scan - 1]!);
    rows.fromUs[row] = scans.elapsedUs[from]!;
    rows.toUs[row] = scans.elapsedUs[to - 1]!;
    rows.longestStepUs[row] = longestUs;
  }
  for (const [channel, counts] of scans.counts.entries()) {
    const status = scans.status[channel]!;
    for (let row = 0; row < rows.fromUs.length; row++) {
      let [readings, sum, lowest, highest] = [0, 0, 0, 0];
      for (let scan = row * ratio; scan < endOf(row); scan++) {
        if (status[scan] !== 0) continue;
        const count = counts[scan]!;
        if (readings === 0 || count < lowest) lowest = count;
        if (readings === 0 || count > highest) highest = count;
        sum += count;
        readings++;
      }
      const place = channel * rows.fromUs.length + row;
      rows.readings[place] = readings;
      rows.lowest[place] = lowest;
      rows.highest[place] = highest;
      rows.meanSixteenths[place] = readings === 0 ? 0 : Math.round((sum / readings) * MEAN_PARTS);
    }
  }
  return rows;
}

export function encodeRows(rows: CoarseRows): Buffer {
  const out = createByteWriter(true);
  out.int(rows.fromUs.length);
  out.int(rows.channels);
  writeIntegers(out, rows.fromUs);
  writeIntegers(out, difference(rows.toUs, rows.fromUs));
  writeIntegers(out, rows.longestStepUs);
  writeIntegers(out, rows.readings);
  writeIntegers(out, rows.meanSixteenths);
  const middle = rows.meanSixteenths.map((mean) => Math.floor(mean / MEAN_PARTS));
  writeIntegers(out, difference(middle, rows.lowest));
  writeIntegers(out, difference(rows.highest, middle));
  return out.finish();
}

/** @throws AppError store/block-damaged */
export function decodeRows(bytes: Buffer): CoarseRows {
  const from = readBytes(bytes);
  const count = from.int();
  const rows = emptyRows(count, from.int());
  const { fromUs, toUs, meanSixteenths, lowest, highest } = rows;
  readIntegers(from, fromUs, 0, count);
  readIntegers(from, toUs, 0, count);
  for (let row = 0; row < count; row++) toUs[row]! += fromUs[row]!;
  readIntegers(from, rows.longestStepUs, 0, count);
  for (const column of [rows.readings, meanSixteenths, lowest, highest]) readIntegers(from, column, 0, column.length);
  for (let place = 0; place < lowest.length; place++) {
    const middle = Math.floor(meanSixteenths[place]! / MEAN_PARTS);
    lowest[place] = middle - lowest[place]!;
    highest[place] = middle + highest[place]!;
  }
  return rows;
}

function difference(a: Float64Array | Int32Array, b: Float64Array | Int32Array): Float64Array {
  const result = new Float64Array(a.length);
  for (let index = 0; index < result.length; index++) result[index] = a[index]! - b[index]!;
  return result;
}
