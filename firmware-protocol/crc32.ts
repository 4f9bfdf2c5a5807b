/**
 * CRC-32 as in IEEE 802.3 (reflected polynomial 0xEDB88320, start and final XOR 0xFFFFFFFF), over the low eight bits of
 * every character. Lines are ASCII, so characters and bytes are the same thing here.
 *
 * @returns an unsigned 32-bit integer; the standard check value is `crc32('123456789') === 0xCBF43926`
 *   (catalogue of parametrised CRC algorithms, "CRC-32/ISO-HDLC").
 */
export function crc32(text: string): number {
  let crc = 0xffffffff;
  for (let i = 0; i < text.length; i++) {
    crc = (crc >>> 8) ^ TABLE[(crc ^ text.charCodeAt(i)) & 0xff]!;
  }
  return (crc ^ 0xffffffff) >>> 0;
}

/** Formats a CRC as on the line: eight upper-case hexadecimal digits. */
export function crcDigits(crc: number): string {
  return crc.toString(16).toUpperCase().padStart(8, '0');
}

const TABLE = Uint32Array.from({ length: 256 }, (_, byte) => {
  let value = byte;
  for (let bit = 0; bit < 8; bit++) value = value & 1 ? (value >>> 1) ^ 0xedb88320 : value >>> 1;
  return value >>> 0;
});
