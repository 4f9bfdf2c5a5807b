import { constants, isUtf8 } from 'node:buffer';
import { AppError } from '../../base/app-error.ts';

export const encodings = ['utf-8', 'utf-16le', 'utf-16be', 'windows-1252'] as const;
export type Encoding = (typeof encodings)[number];

const LOOKED_AT_BYTES = 1024;
/** Of western text in two bytes a letter, nearly every other byte is zero, always the same one of the two. */
const ZEROS = 0.8;

/** What the first bytes say, or what the bytes can be: text that is no UTF-8 is taken for that of an older Windows. */
export function guessEncoding(bytes: Uint8Array): Encoding {
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return 'utf-16le';
  if (bytes[0] === 0xfe && bytes[1] === 0xff) return 'utf-16be';
  const unmarked = unmarkedUtf16(bytes.subarray(0, LOOKED_AT_BYTES));
  if (unmarked) return unmarked;
  return isUtf8(bytes) ? 'utf-8' : 'windows-1252';
}

function unmarkedUtf16(start: Uint8Array): 'utf-16le' | 'utf-16be' | undefined {
  const zeros = [0, 0];
  for (const [index, byte] of start.entries()) if (byte === 0) zeros[index % 2]!++;
  const [even, odd] = [zeros[0]!, zeros[1]!];
  const least = (ZEROS * start.length) / 2;
  if (start.length < 4 || even + odd < least) return undefined;
  if (odd >= least && even === 0) return 'utf-16le';
  return even >= least && odd === 0 ? 'utf-16be' : undefined;
}

/**
 * The text without its byte order mark.
 * @throws AppError import/too-large when it is longer than any text this program can hold
 */
export function decode(bytes: Uint8Array, encoding: Encoding, file: string): string {
  refuseTooLong(bytes, file);
  return new TextDecoder(encoding).decode(bytes);
}

/** @throws AppError import/not-text when the bytes are text neither in UTF-8 nor in UTF-16; import/too-large */
export function textOf(bytes: Uint8Array, file: string): string {
  const encoding = guessEncoding(bytes.subarray(0, LOOKED_AT_BYTES));
  if (encoding.startsWith('utf-16')) return decode(bytes, encoding, file);
  refuseTooLong(bytes, file);
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch (error) {
    throw new AppError('import/not-text', { file }, { cause: error });
  }
}

function refuseTooLong({ length }: Uint8Array, file: string): void {
  const most = constants.MAX_STRING_LENGTH;
  if (length > most) throw new AppError('import/too-large', { file, limitMb: Math.floor(most / 1024 ** 2) });
}
