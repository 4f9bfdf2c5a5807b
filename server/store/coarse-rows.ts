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

/** Rows of `ratio` scans each. */
export function coarseRows(scans: StoredScans, ratio: number): CoarseRows {
  return finished(summedRows(scans, ratio));
}

/** Rows at every ratio, finest first: each is put together from the one before. */
export function coarseRowsOfRatios(scans: StoredScans): CoarseRows[] {
  let [summed, ratioBefore] = [summedRows(scans, RATIOS[0]), RATIOS[0] as number];
  return RATIOS.map((ratio) => {
    if (ratio > ratioBefore) summed = mergedRows(summed, ratio / ratioBefore);
    ratioBefore = ratio;
    return finished(summed);
  });
}

/** Rows with the sums of their counts, which are exact, in the place of the means. */
interface SummedRows extends Omit<CoarseRows, 'meanSixteenths'> {
  sums: Float64Array;
}

function finished({ sums, ...rows }: SummedRows): CoarseRows {
  const meanSixteenths = new Float64Array(sums.length);
  for (let place = 0; place < sums.length; place++) {
    const readings = rows.readings[place]!;
    if (readings > 0) meanSixteenths[place] = Math.round((sums[place]! / readings) * MEAN_PARTS);
  }
  return { ...rows, meanSixteenths };
}

function emptySums(rows: number, channels: number): SummedRows {
  const { meanSixteenths: sums, ...empty } = emptyRows(rows, channels);
  return { ...empty, sums };
}

function summedRows({ elapsedUs, counts, status }: StoredScans, ratio: number): SummedRows {
  const scans = elapsedUs.length;
  const rows = emptySums(Math.ceil(scans / ratio), counts.length);
  const count = rows.fromUs.length;
  for (let row = 0; row < count; row++) {
    const [from, to] = [row * ratio, Math.min(scans, (row + 1) * ratio)];
    let longestUs = 0;
    for (let scan = from + 1; scan < to; scan++) {
      const stepUs = elapsedUs[scan]! - elapsedUs[scan - 1]!;
      if (stepUs > longestUs) longestUs = stepUs;
    }
    rows.fromUs[row] = elapsedUs[from]!;
    rows.toUs[row] = elapsedUs[to - 1]!;
    rows.longestStepUs[row] = longestUs;
  }
  for (const [channel, column] of counts.entries()) {
    const states = status[channel]!;
    for (let row = 0; row < count; row++) {
      let [readings, sum, lowest, highest] = [0, 0, 0, 0];
      const to = Math.min(scans, (row + 1) * ratio);
      for (let scan = row * ratio; scan < to; scan++) {
        if (states[scan] !== 0) continue;
        const count = column[scan]!;
        if (readings === 0 || count < lowest) lowest = count;
        if (readings === 0 || count > highest) highest = count;
        sum += count;
        readings++;
      }
      const place = channel * count + row;
      rows.readings[place] = readings;
      rows.lowest[place] = lowest;
      rows.highest[place] = highest;
      rows.sums[place] = sum;
    }
  }
  return rows;
}

/** `ratio` rows after another as one. */
function mergedRows(fine: SummedRows, ratio: number): SummedRows {
  const fineCount = fine.fromUs.length;
  const rows = emptySums(Math.ceil(fineCount / ratio), fine.channels);
  const count = rows.fromUs.length;
  for (let from = 0; from < fineCount; from++) {
    const row = Math.floor(from / ratio);
    const isFirst = from % ratio === 0;
    if (isFirst) rows.fromUs[row] = fine.fromUs[from]!;
    const stepUs = isFirst ? 0 : fine.fromUs[from]! - fine.toUs[from - 1]!;
    rows.longestStepUs[row] = Math.max(rows.longestStepUs[row]!, stepUs, fine.longestStepUs[from]!);
    rows.toUs[row] = fine.toUs[from]!;
    for (let channel = 0; channel < fine.channels; channel++) {
      const [place, finePlace] = [channel * count + row, channel * fineCount + from];
      const readings = fine.readings[finePlace]!;
      if (readings === 0) continue;
      const isAlone = rows.readings[place] === 0;
      if (isAlone || fine.lowest[finePlace]! < rows.lowest[place]!) rows.lowest[place] = fine.lowest[finePlace]!;
      if (isAlone || fine.highest[finePlace]! > rows.highest[place]!) rows.highest[place] = fine.highest[finePlace]!;
      rows.readings[place]! += readings;
      rows.sums[place]! += fine.sums[finePlace]!;
    }
  }
  return rows;
}

export function encodeRows(rows: CoarseRows): Buffer {
  const out = createByteWriter();
  out.int(rows.fromUs.length);
  out.int(rows.channels);
  writeIntegers(out, rows.fromUs);
  writeIntegers(out, difference(rows.toUs, rows.fromUs));
  writeIntegers(out, rows.longestStepUs);
  writeIntegers(out, rows.readings);
  writeIntegers(out, rows.meanSixteenths);
  const middle = new Float64Array(rows.meanSixteenths.length);
  for (let place = 0; place < middle.length; place++)
    middle[place] = Math.floor(rows.meanSixteenths[place]! / MEAN_PARTS);
  writeIntegers(out, difference(middle, rows.lowest));
  writeIntegers(out, difference(rows.highest, middle));
  return out.finish();
}

/** @throws AppError store/block-damaged */
export function decodeRows(bytes: Uint8Array): CoarseRows {
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
