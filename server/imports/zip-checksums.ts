/** CRC-32 of each file of a zip archive as its central directory states it (APPNOTE 6.3.10, 4.3.12 and 4.3.16): fflate checks none. */
const END_OF_DIRECTORY = 0x06054b50;
const DIRECTORY_ENTRY = 0x02014b50;
const END_BYTES = 22;
const ENTRY_BYTES = 46;
const MOST_COMMENT_BYTES = 0xffff;

/** @returns by name; undefined where the directory cannot be followed */
export function statedChecksums(archive: Uint8Array): ReadonlyMap<string, number> | undefined {
  const bytes = Buffer.from(archive.buffer, archive.byteOffset, archive.byteLength);
  const end = endOfDirectory(bytes);
  if (end === undefined) return undefined;
  const checksums = new Map<string, number>();
  let at = bytes.readUInt32LE(end + 16);
  for (let left = bytes.readUInt16LE(end + 10); left > 0; left--) {
    if (at + ENTRY_BYTES > end || bytes.readUInt32LE(at) !== DIRECTORY_ENTRY) return undefined;
    const [nameBytes, extraBytes, commentBytes] = [28, 30, 32].map((offset) => bytes.readUInt16LE(at + offset));
    const name = bytes.toString('utf8', at + ENTRY_BYTES, at + ENTRY_BYTES + nameBytes!);
    checksums.set(name, bytes.readUInt32LE(at + 16));
    at += ENTRY_BYTES + nameBytes! + extraBytes! + commentBytes!;
  }
  return checksums;
}

/** A comment of any length may follow it. */
function endOfDirectory(bytes: Buffer): number | undefined {
  const lowest = Math.max(0, bytes.length - END_BYTES - MOST_COMMENT_BYTES);
  for (let at = bytes.length - END_BYTES; at >= lowest; at--) {
    if (bytes.readUInt32LE(at) === END_OF_DIRECTORY) return at;
  }
  return undefined;
}
