import { crc32, deflateSync } from 'node:zlib';

const SIGNATURE = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);
const EIGHT_BITS_WITH_ALPHA = [8, 6, 0, 0, 0];

/**
 * A square picture as PNG (ISO/IEC 15948): no filter, no interlace.
 * @param rgba four bytes per pixel, row by row, not multiplied by alpha
 */
export function pngOf(rgba: Uint8Array, size: number): Buffer {
  const header = Buffer.alloc(13);
  header.writeUInt32BE(size, 0);
  header.writeUInt32BE(size, 4);
  header.set(EIGHT_BITS_WITH_ALPHA, 8);
  const rowBytes = size * 4;
  // Each row begins with the number of its filter, 0 for none.
  const rows = Buffer.alloc(size * (rowBytes + 1));
  for (let row = 0; row < size; row++)
    rows.set(rgba.subarray(row * rowBytes, (row + 1) * rowBytes), row * (rowBytes + 1) + 1);
  return Buffer.concat([SIGNATURE, chunk('IHDR', header), chunk('IDAT', deflateSync(rows)), chunk('IEND')]);
}

function chunk(name: string, data: Buffer = Buffer.alloc(0)): Buffer {
  const named = Buffer.concat([Buffer.from(name, 'latin1'), data]);
  const ends = Buffer.alloc(8);
  ends.writeUInt32BE(data.length, 0);
  ends.writeUInt32BE(crc32(named), 4);
  return Buffer.concat([ends.subarray(0, 4), named, ends.subarray(4)]);
}
