/**
 * Scans taken together at a fixed ratio: for every so many the lowest, the highest and the mean count of each channel, and the
 * longest step of time among them, so that no gap is lost. A long burn is drawn from these without reading its scans.
 */
import { createByteWriter, readBytes } from './block-bytes.ts';
import { readIntegers, writeIntegers } from './integer-column.ts';
import type { StoredScans } from './stored-scans.ts';

/** Scans a row, finest first. The finest is a tenth of a block's bytes; at the coarsest 40 h at 10 Hz are 5,600 rows. */
export const RATIOS = [32, 256] as const;

/** Rows column by column, in the order of time. */
export interface CoarseRows {
  /** Moments of the first and the last scan. */
  fromUs: Float64Array;
  toUs: Float64Array;
  /** Longest time between two scans in a row; 0 for a row of one. */
  longestStepUs: Float64Array;
  /** By channel: counts that are there, their extremes and their mean in sixteenths, rounded; all 0 where there are none. */
  readings: Uint32Array[];
  lowest: Int32Array[];
  highest: Int32Array[];
  meanSixteenths: Float64Array[];
}

export const MEAN_PARTS = 16;

export function emptyRows(rows: number, channels: number): CoarseRows {
  return {
    fromUs: new Float64Array(rows),
    toUs: new Float64Array(rows),
    longestStepUs: new Float64Array(rows),
    readings: Array.from({ length: channels }, () => new Uint32Array(rows)),
    lowest: Array.from({ length: channels }, () => new Int32Array(rows)),
    highest: Array.from({ length: channels }, () => new Int32Array(rows)),
    meanSixteenths: Array.from({ length: channels }, () => new Float64Array(rows)),
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
      rows.readings[channel]![row] = readings;
      rows.lowest[channel]![row] = lowest;
      rows.highest[channel]![row] = highest;
      rows.meanSixteenths[channel]![row] = readings === 0 ? 0 : Math.round((sum / readings) * MEAN_PARTS);
    }
  }
  return rows;
}

export function encodeRows(rows: CoarseRows): Buffer {
  const out = createByteWriter(true);
  out.int(rows.fromUs.length);
  out.int(rows.readings.length);
  writeIntegers(out, rows.fromUs);
  writeIntegers(out, difference(rows.toUs, rows.fromUs));
  writeIntegers(out, rows.longestStepUs);
  for (const [channel, readings] of rows.readings.entries()) {
    const mean = rows.meanSixteenths[channel]!;
    writeIntegers(out, readings);
    writeIntegers(out, mean);
    writeIntegers(out, difference(middle(mean), rows.lowest[channel]!));
    writeIntegers(out, difference(rows.highest[channel]!, middle(mean)));
  }
  return out.finish();
}

/** @throws AppError store/block-damaged */
export function decodeRows(bytes: Buffer): CoarseRows {
  const from = readBytes(bytes);
  const count = from.int();
  const rows = emptyRows(count, from.int());
  const rest = new Float64Array(count);
  readIntegers(from, rows.fromUs, 0, count);
  readIntegers(from, rest, 0, count);
  for (let row = 0; row < count; row++) rows.toUs[row] = rows.fromUs[row]! + rest[row]!;
  readIntegers(from, rows.longestStepUs, 0, count);
  for (const [channel, readings] of rows.readings.entries()) {
    const mean = rows.meanSixteenths[channel]!;
    const [lowest, highest] = [rows.lowest[channel]!, rows.highest[channel]!];
    readIntegers(from, readings, 0, count);
    readIntegers(from, mean, 0, count);
    readIntegers(from, rest, 0, count);
    for (let row = 0; row < count; row++) lowest[row] = Math.floor(mean[row]! / MEAN_PARTS) - rest[row]!;
    readIntegers(from, rest, 0, count);
    for (let row = 0; row < count; row++) highest[row] = Math.floor(mean[row]! / MEAN_PARTS) + rest[row]!;
  }
  return rows;
}

/** The mean in whole counts, near which the extremes lie. */
function middle(meanSixteenths: Float64Array): Float64Array {
  return meanSixteenths.map((mean) => Math.floor(mean / MEAN_PARTS));
}

function difference(a: Float64Array | Int32Array, b: Float64Array | Int32Array): Float64Array {
  return Float64Array.from(a, (value, index) => value - b[index]!);
}
