/** The pages that lie in a write-ahead log, for a database of which nothing else is left. Format: SQLite, "Database File Format", section 4. */

const HEADER_BYTES = 32;
const FRAME_HEADER_BYTES = 24;
const MAGIC = 0x377f0682;

/**
 * The database as the last whole transaction of the log left it; pages that the log does not hold are zeros.
 * @returns empty when the log holds no whole transaction
 */
export function pagesOfLog(log: Buffer): Buffer {
  if (log.length < HEADER_BYTES || (log.readUInt32BE(0) & ~1) >>> 0 !== MAGIC) return Buffer.alloc(0);
  const isBigEndian = (log.readUInt32BE(0) & 1) === 1;
  const pageBytes = log.readUInt32BE(8);
  const salt = log.subarray(16, 24);
  let sums = checksum(log.subarray(0, 24), [0, 0], isBigEndian);
  let pages = new Map<number, Buffer>();
  let whole: { pages: Map<number, Buffer>; count: number } | undefined;
  const step = FRAME_HEADER_BYTES + pageBytes;
  for (let at = HEADER_BYTES; pageBytes >= 512 && at + step <= log.length; at += step) {
    const page = log.subarray(at + FRAME_HEADER_BYTES, at + step);
    sums = checksum(page, checksum(log.subarray(at, at + 8), sums, isBigEndian), isBigEndian);
    const isSound =
      salt.equals(log.subarray(at + 8, at + 16)) &&
      sums[0] === log.readUInt32BE(at + 16) &&
      sums[1] === log.readUInt32BE(at + 20);
    if (!isSound) break;
    pages.set(log.readUInt32BE(at), page);
    const count = log.readUInt32BE(at + 4);
    if (count > 0) {
      whole = { pages, count };
      pages = new Map(pages);
    }
  }
  if (!whole) return Buffer.alloc(0);
  const bytes = Buffer.alloc(whole.count * pageBytes);
  for (const [number, page] of whole.pages) if (number <= whole.count) page.copy(bytes, (number - 1) * pageBytes);
  return bytes;
}

type Sums = readonly [number, number];

function checksum(bytes: Buffer, [first, second]: Sums, isBigEndian: boolean): Sums {
  let [a, b] = [first, second];
  const word = (at: number) => (isBigEndian ? bytes.readUInt32BE(at) : bytes.readUInt32LE(at));
  for (let at = 0; at + 8 <= bytes.length; at += 8) {
    a = (a + word(at) + b) >>> 0;
    b = (b + word(at + 4) + a) >>> 0;
  }
  return [a, b];
}
