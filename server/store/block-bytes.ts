/** The bytes of a block, written one after another, compressed as one frame and closed with their checksum. */
import { constants, crc32, zstdCompressSync, zstdDecompressSync } from 'node:zlib';
import { AppError } from '../base/app-error.ts';

export type ByteWriter = ReturnType<typeof createByteWriter>;
export type ByteReader = ReturnType<typeof readBytes>;

/** Blocks of the first form have no plane with room behind it, and compressed planes one by one. */
const [FIRST_FORM, FORM] = [1, 2] as const;
/** The form, and how long the body is when it is compressed as a whole, else 0. */
const HEAD_BYTES = 5;
const CHECKSUM_BYTES = 4;
/** Least that the runtime takes. */
const LEAST_CHUNK = 64;
const [EQUAL, PLAIN, COMPRESSED, ROOMY] = [0, 1, 2, 3] as const;
/** Fewer bytes take more time to decompress than to read from the disk. */
const LEAST_WHOLE = 4096;
/** Noise has no long repetitions: short matches would only spoil the code of the single bytes. */
const usualParams = { [constants.ZSTD_c_compressionLevel]: 3, [constants.ZSTD_c_minMatch]: 7 };
const LEAST_WINDOW = 1024;

/**
 * @param planeBytes of the planes where all are as long. Then each gets a code of its own, as if it were compressed alone: a code is made
 *   for as many bytes as the window has, so the window is as long as a plane with the room behind it
 */
export function createByteWriter(planeBytes?: number) {
  const window = planeBytes === undefined ? undefined : roomOf(Math.max(planeBytes, LEAST_WINDOW));
  const params = { ...usualParams, ...(window && { [constants.ZSTD_c_windowLog]: Math.log2(window) }) };
  const parts: Buffer[] = [];
  const byte = (value: number): void => void parts.push(Buffer.of(value));
  function int(value: number): void {
    const part = Buffer.alloc(4);
    part.writeUInt32LE(value);
    parts.push(part);
  }
  function words(values: ArrayLike<number>): void {
    const part = Buffer.alloc(values.length * 8);
    for (let index = 0; index < values.length; index++) part.writeDoubleLE(values[index]!, index * 8);
    parts.push(part);
  }
  return {
    byte,
    int,
    word: (value: number): void => words([value]),
    words,
    plane(bytes: Buffer): void {
      const [first = 0] = bytes;
      // Each is like the next.
      if (bytes.length < 2 || bytes.subarray(1).equals(bytes.subarray(0, -1))) {
        byte(EQUAL);
        byte(first);
        return;
      }
      const isRoomy = window === roomOf(bytes.length) && window > bytes.length;
      byte(isRoomy ? ROOMY : PLAIN);
      parts.push(bytes);
      if (isRoomy) parts.push(Buffer.alloc(window - bytes.length));
    },
    /** Everything that was written, and its checksum. */
    finish(): Buffer {
      const body = Buffer.concat(parts);
      const isCompressed = body.length >= LEAST_WHOLE;
      const head = Buffer.alloc(HEAD_BYTES);
      head[0] = FORM;
      head.writeUInt32LE(isCompressed ? body.length : 0, 1);
      const bytes = Buffer.concat([head, isCompressed ? zstdCompressSync(body, { params }) : body]);
      const checksum = Buffer.alloc(CHECKSUM_BYTES);
      checksum.writeUInt32LE(crc32(bytes));
      return Buffer.concat([bytes, checksum]);
    },
  };
}

/** @throws AppError store/block-damaged when the bytes are not those that were written */
export function readBytes(bytesOfBlock: Uint8Array) {
  const stored = asBuffer(bytesOfBlock);
  const end = stored.length - CHECKSUM_BYTES;
  if (!isSound(stored) || (stored[0] !== FORM && stored[0] !== FIRST_FORM)) throw new AppError('store/block-damaged');
  const wholeLength = stored.readUInt32LE(1);
  const body = stored.subarray(HEAD_BYTES, end);
  const bytes = wholeLength === 0 ? body : decompress(body, wholeLength);
  let at = 0;
  function take(length: number): Buffer {
    at += length;
    return bytes.subarray(at - length, at);
  }
  return {
    byte: (): number => bytes[at++]!,
    int: (): number => take(4).readUInt32LE(),
    word: (): number => take(8).readDoubleLE(),
    words(count: number): Float64Array {
      const part = take(count * 8);
      const values = new Float64Array(count);
      for (let index = 0; index < count; index++) values[index] = part.readDoubleLE(index * 8);
      return values;
    },
    /** The byte that all of the next plane are, which is passed over then; undefined for a plane of several. */
    equalPlane(): number | undefined {
      if (bytes[at] !== EQUAL) return undefined;
      at += 2;
      return bytes[at - 1];
    },
    /** `count` bytes. */
    plane(count: number): Buffer {
      const kind = bytes[at++];
      if (kind === EQUAL) return Buffer.alloc(count, bytes[at++]);
      if (kind === COMPRESSED) return decompress(take(take(4).readUInt32LE()), count);
      return take(kind === ROOMY ? roomOf(count) : count).subarray(0, count);
    },
  };
}

/** Whether bytes are those that were written, by their checksum. */
export function isSound(bytes: Uint8Array): boolean {
  const end = bytes.length - CHECKSUM_BYTES;
  return end >= HEAD_BYTES && asBuffer(bytes).readUInt32LE(end) === crc32(bytes.subarray(0, end));
}

/** The power of two that has room for so many. */
function roomOf(count: number): number {
  return 2 ** Math.ceil(Math.log2(count));
}

function asBuffer({ buffer, byteOffset, byteLength }: Uint8Array): Buffer {
  return Buffer.from(buffer, byteOffset, byteLength);
}

function decompress(bytes: Buffer, length: number): Buffer {
  return zstdDecompressSync(bytes, { chunkSize: Math.max(length, LEAST_CHUNK), maxOutputLength: length });
}
