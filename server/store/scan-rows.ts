/**
 * How one scan lies in its row: a blob with four bytes a channel for the count and then one byte a channel for its status.
 * Rows are read many at a time as one text of hexadecimal digits, which costs a third of making a JavaScript value for
 * every column of every row.
 */
import { AppError } from '../base/app-error.ts';
import { NOTHING, type Scan, statusOf } from './scan-columns.ts';
import { emptyScans, type StoredScans } from './stored-scans.ts';

const BYTES_PER_CHANNEL = 5;
/** Four 64-bit integers and two of 32 bits, then the 16-bit length of the blob. */
const HEAD_BYTES = 42;
const UINT32 = 2 ** 32;

/** SQL for one row as hexadecimal digits, most significant first; the blob itself is little-endian. */
export const ROW_AS_HEX =
  "printf('%016X%016X%016X%016X%08X%08X%04X', elapsed_us, arrived_us, uptime_ms, boot, sequence, clash, length(readings)) || hex(readings)";

function refuse(what: string, value: unknown): never {
  throw new AppError('store/not-finite', { what, value: String(value) });
}

/** SQLite would keep NaN as NULL without complaint, so every number is looked at first. */
export function checkScan(scan: Scan): void {
  for (const name of ['elapsedUs', 'arrivedUs', 'boot'] as const) {
    if (!Number.isSafeInteger(scan[name])) refuse(name, scan[name]);
  }
  for (const name of ['uptimeMs', 'sequence'] as const) {
    const value = scan[name];
    if (!Number.isInteger(value) || value < 0 || value >= UINT32) refuse(name, value);
  }
  for (const reading of scan.readings) {
    if (typeof reading === 'number' && (reading | 0) !== reading) refuse('count', reading);
  }
}

export function packReadings(readings: Scan['readings']): Buffer {
  const blob = Buffer.alloc(readings.length * BYTES_PER_CHANNEL);
  const firstStatus = readings.length * 4;
  readings.forEach((reading, channel) => {
    if (typeof reading === 'number') blob.writeInt32LE(reading, channel * 4);
    else blob[firstStatus + channel] = reading === null ? NOTHING : statusOf(reading);
  });
  return blob;
}

/** The columns of the rows in `hex` (see `ROW_AS_HEX`). Channels that a scan does not have are `NOTHING` there. */
export function unpackRows(hex: string): StoredScans {
  const bytes = Buffer.from(hex, 'hex');
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const { rows, channels } = measure(view);
  const columns = emptyScans(rows, channels);
  let at = 0;
  for (let row = 0; row < rows; row++) {
    columns.elapsedUs[row] = readInt64(view, at);
    columns.arrivedUs[row] = readInt64(view, at + 8);
    columns.uptimeMs[row] = readInt64(view, at + 16);
    columns.boot[row] = readInt64(view, at + 24);
    columns.sequence[row] = view.getUint32(at + 32);
    columns.clash[row] = view.getUint32(at + 36);
    const inThisRow = view.getUint16(at + 40) / BYTES_PER_CHANNEL;
    columns.width[row] = inThisRow;
    at += HEAD_BYTES;
    for (let channel = 0; channel < inThisRow; channel++) {
      columns.counts[channel]![row] = view.getInt32(at + channel * 4, true);
      columns.status[channel]![row] = view.getUint8(at + inThisRow * 4 + channel);
    }
    at += inThisRow * BYTES_PER_CHANNEL;
  }
  return columns;
}

function measure(view: DataView): { rows: number; channels: number } {
  let rows = 0;
  let channels = 0;
  for (let at = 0; at < view.byteLength; rows++) {
    const length = view.getUint16(at + 40);
    channels = Math.max(channels, length / BYTES_PER_CHANNEL);
    at += HEAD_BYTES + length;
  }
  return { rows, channels };
}

/** Exact for the whole numbers a double can hold, which `checkScan` makes sure of. */
function readInt64(view: DataView, at: number): number {
  return view.getInt32(at) * UINT32 + view.getUint32(at + 4);
}
