/** Scans as the store has them: their columns, and what says in which order they lie. */
import { emptyColumns, type ScanColumns } from './scan-columns.ts';

export interface StoredScans extends ScanColumns {
  /** 0, or counted up where a board used a number again for other readings. */
  clash: Uint32Array;
  /** Channels of the scan as it was sent: what lies beyond is `NOTHING` in the columns. */
  width: Uint16Array;
}

/** Where a scan lies among the others of its board: by time, then by number. */
export interface Place {
  elapsed: number;
  boot: number;
  sequence: number;
  clash: number;
}

/** Before every scan. */
export const FIRST_PLACE: Place = { elapsed: Number.MIN_SAFE_INTEGER, boot: 0, sequence: 0, clash: 0 };

const WIDE = ['elapsedUs', 'arrivedUs', 'uptimeMs', 'boot'] as const;
const ONE_A_SCAN = [...WIDE, 'sequence', 'clash', 'width'] as const;

export function comparePlaces(a: Place, b: Place): number {
  return a.elapsed - b.elapsed || a.boot - b.boot || a.sequence - b.sequence || a.clash - b.clash;
}

export function placeAt(scans: StoredScans, scan: number): Place {
  return {
    elapsed: scans.elapsedUs[scan]!,
    boot: scans.boot[scan]!,
    sequence: scans.sequence[scan]!,
    clash: scans.clash[scan]!,
  };
}

export function emptyScans(scans: number, channels: number): StoredScans {
  return { ...emptyColumns(scans, channels), clash: new Uint32Array(scans), width: new Uint16Array(scans) };
}

/** Room that holds anything until it is written: zeros that are written over would take as long as a tenth of the reading. */
export function unfilledScans(scans: number, channels: number): StoredScans {
  const room = (bytesEach: number) => Buffer.allocUnsafeSlow(scans * bytesEach).buffer;
  const [wide, number] = [() => new Float64Array(room(8)), () => new Uint32Array(room(4))];
  return {
    elapsedUs: wide(),
    arrivedUs: wide(),
    uptimeMs: wide(),
    boot: wide(),
    sequence: number(),
    clash: number(),
    width: new Uint16Array(room(2)),
    counts: Array.from({ length: channels }, () => new Int32Array(room(4))),
    status: Array.from({ length: channels }, () => new Uint8Array(room(1))),
  };
}

/** Scans `from` up to `to`, in the same memory, with the channels that these scans have. */
export function sliceScans(scans: StoredScans, from: number, to: number): StoredScans {
  const width = scans.width.subarray(from, to);
  const channels = width.reduce((most, each) => Math.max(most, each), 0);
  return {
    elapsedUs: scans.elapsedUs.subarray(from, to),
    arrivedUs: scans.arrivedUs.subarray(from, to),
    uptimeMs: scans.uptimeMs.subarray(from, to),
    boot: scans.boot.subarray(from, to),
    sequence: scans.sequence.subarray(from, to),
    clash: scans.clash.subarray(from, to),
    width,
    counts: scans.counts.slice(0, channels).map((column) => column.subarray(from, to)),
    status: scans.status.slice(0, channels).map((column) => column.subarray(from, to)),
  };
}

/** How many scans of `scans`, which are in order, lie at or before a place. */
export function scansUpTo(scans: StoredScans, place: Place): number {
  let [low, high] = [0, scans.elapsedUs.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (comparePlaces(placeAt(scans, middle), place) <= 0) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** All of several parts, each in order by itself, in the order of their places and in memory of their own. */
export function joinScans(parts: readonly StoredScans[]): StoredScans {
  const filled = parts.filter(({ elapsedUs }) => elapsedUs.length > 0);
  const count = filled.reduce((sum, { elapsedUs }) => sum + elapsedUs.length, 0);
  const all = emptyScans(count, Math.max(0, ...filled.map(({ counts }) => counts.length)));
  let at = 0;
  for (const part of filled) {
    for (const name of ONE_A_SCAN) all[name].set(part[name], at);
    for (const [channel, column] of part.counts.entries()) all.counts[channel]!.set(column, at);
    for (const [channel, column] of part.status.entries()) all.status[channel]!.set(column, at);
    at += part.elapsedUs.length;
  }
  const isInOrder = filled.every(
    (part, index) => index === 0 || comparePlaces(lastPlace(filled[index - 1]!), placeAt(part, 0)) < 0,
  );
  return isInOrder ? all : sorted(all);
}

export function lastPlace(scans: StoredScans): Place {
  return placeAt(scans, scans.elapsedUs.length - 1);
}

function sorted(scans: StoredScans): StoredScans {
  const order = Uint32Array.from(scans.elapsedUs, (_, scan) => scan);
  order.sort((a, b) => comparePlaces(placeAt(scans, a), placeAt(scans, b)));
  const result = emptyScans(order.length, scans.counts.length);
  for (const [to, from] of order.entries()) {
    for (const name of ONE_A_SCAN) result[name][to] = scans[name][from]!;
    for (const [channel, column] of scans.counts.entries()) result.counts[channel]![to] = column[from]!;
    for (const [channel, column] of scans.status.entries()) result.status[channel]![to] = column[from]!;
  }
  return result;
}

export function sameScans(a: StoredScans, b: StoredScans): boolean {
  return (
    ONE_A_SCAN.every((name) => sameNumbers(a[name], b[name])) &&
    a.counts.length === b.counts.length &&
    a.counts.every((column, channel) => sameNumbers(column, b.counts[channel]!)) &&
    a.status.every((column, channel) => sameNumbers(column, b.status[channel]!))
  );
}

type Numbers = StoredScans[(typeof ONE_A_SCAN)[number]] | Int32Array | Uint8Array;

/** Their bytes are compared first: the loop is needed only for zeros with different signs, and takes twenty times as long. */
function sameNumbers(a: Numbers, b: Numbers): boolean {
  if (a.length !== b.length) return false;
  if (bytesOf(a).equals(bytesOf(b))) return true;
  for (let index = 0; index < a.length; index++) if (a[index] !== b[index]) return false;
  return true;
}

function bytesOf({ buffer, byteOffset, byteLength }: Numbers): Buffer {
  return Buffer.from(buffer, byteOffset, byteLength);
}

/** The columns alone, for whoever is outside the store. */
export function withoutPlaces({ clash: _clash, width: _width, ...columns }: StoredScans): ScanColumns {
  return columns;
}
