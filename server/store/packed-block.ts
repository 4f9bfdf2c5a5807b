/** Scans that follow each other as one block with its coarse rows, ready to be written; made without the database. */
import { isSound } from './block-bytes.ts';
import { coarseRowsOfRatios, encodeRows } from './coarse-rows.ts';
import { decodeBlock, encodeBlock } from './scan-block.ts';
import type { ScanColumns } from './scan-columns.ts';
import {
  comparePlaces,
  lastPlace,
  type Place,
  placeAt,
  type StoredScans,
  sameScans,
  sliceScans,
  withoutPlaces,
} from './stored-scans.ts';

/** A block grows up to this: fewer and longer ones are read faster. */
export const SCANS_PER_BLOCK = 16_384;

const UINT32 = 2 ** 32;

export interface BlockBytes {
  rowsOf32: Uint8Array;
  rowsOf128: Uint8Array;
  rowsOf512: Uint8Array;
  columns: Uint8Array;
}

export interface PackedBlock {
  scans: number;
  first: Place;
  last: Place;
  /** Boots with their lowest and highest number. */
  numbers: readonly (readonly [boot: number, from: number, to: number])[];
  bytes: BlockBytes;
}

export function packScans(scans: StoredScans): PackedBlock {
  const [rowsOf32, rowsOf128, rowsOf512] = coarseRowsOfRatios(scans).map(encodeRows) as [Buffer, Buffer, Buffer];
  return {
    scans: scans.elapsedUs.length,
    first: placeAt(scans, 0),
    last: lastPlace(scans),
    numbers: numbersOf(scans),
    bytes: { rowsOf32, rowsOf128, rowsOf512, columns: encodeBlock(scans) },
  };
}

/**
 * All scans of a board as blocks, each unpacked again and compared with what it was made of.
 * @returns undefined where they are not in order, where a number comes twice, or where one is none that a block or a row can hold
 */
export function packColumns(columns: ScanColumns): Iterable<PackedBlock> | undefined {
  const count = columns.elapsedUs.length;
  const width = new Uint16Array(count).fill(columns.counts.length);
  const scans: StoredScans = { ...columns, clash: new Uint32Array(count), width };
  return isInOrder(scans) && hasSoundNumbers(scans) ? blocksOf(scans) : undefined;
}

function* blocksOf(scans: StoredScans): Generator<PackedBlock> {
  for (let from = 0; from < scans.elapsedUs.length; from += SCANS_PER_BLOCK) {
    const part = sliceScans(scans, from, from + SCANS_PER_BLOCK);
    const block = packScans(part);
    if (!sameScans(part, decodeBlock(block.bytes.columns))) throw new Error('a block does not hold what was written');
    yield block;
  }
}

/** The scans of a block as columns again. @throws AppError store/block-damaged */
export function unpackBlock({ bytes }: PackedBlock): ScanColumns {
  return withoutPlaces(decodeBlock(bytes.columns));
}

/** Whether every part of a block is what was written. */
export function isSoundBlock({ bytes }: PackedBlock): boolean {
  return Object.values(bytes).every(isSound);
}

/** By time, and by number within each boot. */
function isInOrder(scans: StoredScans): boolean {
  const { boot, sequence, elapsedUs } = scans;
  const highest = new Map<number, number>();
  let lastBoot: number | undefined;
  let last = -1;
  for (let scan = 0; scan < boot.length; scan++) {
    if (boot[scan] !== lastBoot) {
      if (lastBoot !== undefined) highest.set(lastBoot, last);
      lastBoot = boot[scan]!;
      last = highest.get(lastBoot) ?? -1;
    }
    if (sequence[scan]! <= last) return false;
    last = sequence[scan]!;
    if (scan === 0 || elapsedUs[scan]! > elapsedUs[scan - 1]!) continue;
    if (comparePlaces(placeAt(scans, scan - 1), placeAt(scans, scan)) >= 0) return false;
  }
  return true;
}

function hasSoundNumbers({ elapsedUs, arrivedUs, uptimeMs, boot }: StoredScans): boolean {
  for (const column of [elapsedUs, arrivedUs, boot])
    for (let scan = 0; scan < column.length; scan++) if (!Number.isSafeInteger(column[scan])) return false;
  for (let scan = 0; scan < uptimeMs.length; scan++) {
    const value = uptimeMs[scan]!;
    if (!(Number.isInteger(value) && value >= 0 && value < UINT32)) return false;
  }
  return true;
}

function numbersOf({ boot, sequence }: StoredScans): [number, number, number][] {
  const numbers = new Map<number, [number, number, number]>();
  let range: [number, number, number] | undefined;
  for (let scan = 0; scan < boot.length; scan++) {
    const number = sequence[scan]!;
    if (range?.[0] !== boot[scan]) {
      range = numbers.get(boot[scan]!) ?? [boot[scan]!, number, number];
      numbers.set(boot[scan]!, range);
    }
    if (number < range![1]) range![1] = number;
    else if (number > range![2]) range![2] = number;
  }
  return [...numbers.values()];
}
