/**
 * Consecutive scans of a board as one block of columns, lossless. A board's time follows its uptime and an arrival follows the
 * reading, so of those only the rest is written. Under a fault the count is 0 by rule: the count before it is written, and no jump.
 */
import { createByteWriter, readBytes } from './block-bytes.ts';
import { readIntegers, writeIntegers } from './integer-column.ts';
import { NOTHING } from './scan-columns.ts';
import { type StoredScans, unfilledScans } from './stored-scans.ts';

/** Beyond this (17 years, in microseconds) a difference might not be exact: then the column itself is written. */
const LARGEST_RELATED = 2 ** 49;
const [ALONE, RELATED] = [0, 1] as const;
const US_PER_MS = 1000;

export function encodeBlock(scans: StoredScans): Buffer {
  const out = createByteWriter(scans.elapsedUs.length);
  out.int(scans.elapsedUs.length);
  out.int(scans.counts.length);
  writeIntegers(out, scans.uptimeMs);
  for (const [column, base, factor] of [
    [scans.elapsedUs, scans.uptimeMs, US_PER_MS],
    [scans.arrivedUs, scans.elapsedUs, 1],
  ] as const) {
    const isRelated = isSmall(column) && isSmall(base);
    out.byte(isRelated ? RELATED : ALONE);
    writeIntegers(out, isRelated ? restOf(column, base, factor) : column);
  }
  for (const column of [scans.boot, scans.sequence, scans.clash, scans.width]) writeIntegers(out, column);
  for (const [channel, status] of scans.status.entries()) {
    out.plane(Buffer.from(status.buffer, status.byteOffset, status.length));
    writeIntegers(out, withoutJumps(scans.counts[channel]!, status));
  }
  return out.finish();
}

/** @throws AppError store/block-damaged */
export function decodeBlock(bytes: Uint8Array): StoredScans {
  const block = openBlock(bytes);
  const scans = unfilledScans(block.count, block.channels);
  block.readInto(scans, 0);
  return scans;
}

/**
 * A block about to be read into columns that have room for it, at any place; whatever is there is written over.
 * @throws AppError store/block-damaged
 */
export function openBlock(bytes: Uint8Array) {
  const from = readBytes(bytes);
  const count = from.int();
  const channels = from.int();
  return {
    count,
    channels,
    readInto(into: StoredScans, at: number): void {
      readIntegers(from, into.uptimeMs, at, count);
      for (const [column, base, factor] of [
        [into.elapsedUs, into.uptimeMs, US_PER_MS],
        [into.arrivedUs, into.elapsedUs, 1],
      ] as const) {
        const isRelated = from.byte() === RELATED;
        readIntegers(from, column, at, count);
        if (isRelated) addBase(column, base, factor, at, count);
      }
      for (const column of [into.boot, into.sequence, into.clash, into.width]) readIntegers(from, column, at, count);
      for (let channel = 0; channel < channels; channel++) {
        const status = into.status[channel]!.subarray(at, at + count);
        const counts = into.counts[channel]!;
        const equal = from.equalPlane();
        if (equal === undefined) status.set(from.plane(count));
        else status.fill(equal);
        readIntegers(from, counts, at, count);
        if (equal !== 0) for (let scan = 0; scan < count; scan++) if (status[scan] !== 0) counts[at + scan] = 0;
      }
      for (let channel = channels; channel < into.counts.length; channel++) {
        into.status[channel]!.fill(NOTHING, at, at + count);
        into.counts[channel]!.fill(0, at, at + count);
      }
    },
  };
}

function restOf(column: Float64Array, base: Float64Array, factor: number): Float64Array {
  const rest = new Float64Array(column.length);
  for (let scan = 0; scan < rest.length; scan++) rest[scan] = column[scan]! - factor * base[scan]!;
  return rest;
}

function addBase(column: Float64Array, base: Float64Array, factor: number, at: number, count: number): void {
  for (let scan = at; scan < at + count; scan++) column[scan]! += factor * base[scan]!;
}

function isSmall(column: Float64Array): boolean {
  for (let scan = 0; scan < column.length; scan++) if (Math.abs(column[scan]!) >= LARGEST_RELATED) return false;
  return true;
}

function withoutJumps(counts: Int32Array, status: Uint8Array): Int32Array {
  const smooth = counts.slice();
  for (let scan = 1; scan < smooth.length; scan++) if (status[scan] !== 0) smooth[scan] = smooth[scan - 1]!;
  return smooth;
}
