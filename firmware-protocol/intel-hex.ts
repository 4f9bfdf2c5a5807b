const MOST_BYTES = 256 * 1024;

/**
 * Reads a file in the hexadecimal object format of 8-bit processors (I8HEX: records 00 and 01; also 02 and 04, which
 * set the upper part of addresses).
 * @returns the program's bytes from address 0 up; bytes without a record are 0xFF, as in erased flash
 * @throws SyntaxError that names the line, for a record that is cut short, does not match its checksum or is of another
 * kind
 */
export function readIntelHex(text: string): Uint8Array {
  const pieces: { address: number; data: Uint8Array }[] = [];
  let upper = 0;
  let ended = false;
  text.split(/\r?\n/).forEach((line, index) => {
    if (line.trim() === '' || ended) return;
    const wrong = (what: string) => new SyntaxError(`line ${index + 1} of the hex file ${what}`);
    if (!/^:([0-9A-Fa-f]{2}){5,}$/.test(line)) throw wrong('is no record');
    const bytes = Uint8Array.from(line.slice(1).match(/../g)!, (pair) => Number.parseInt(pair, 16));
    const [count, high, low, kind] = bytes as unknown as [number, number, number, number];
    if (bytes.length !== count + 5) throw wrong('is cut short');
    if (bytes.reduce((sum, byte) => sum + byte, 0) % 256 !== 0) throw wrong('does not fit its checksum');
    const data = bytes.subarray(4, -1);
    if (kind === 0) pieces.push({ address: upper + high * 256 + low, data });
    else if (kind === 1) ended = true;
    else if (kind === 2) upper = (data[0]! * 256 + data[1]!) * 16;
    else if (kind === 4) upper = (data[0]! * 256 + data[1]!) * 65_536;
    else if (kind !== 3 && kind !== 5) throw wrong('is of an unknown kind');
  });
  if (!ended) throw new SyntaxError('the hex file has no end: it was cut short');
  const size = Math.max(0, ...pieces.map(({ address, data }) => address + data.length));
  if (size > MOST_BYTES) throw new SyntaxError(`the hex file reaches up to byte ${size}, further than any 8-bit board`);
  const image = new Uint8Array(size).fill(0xff);
  for (const { address, data } of pieces) image.set(data, address);
  return image;
}
