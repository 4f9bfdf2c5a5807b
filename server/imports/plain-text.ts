import { AppError } from '../base/app-error.ts';
import { decode, guessEncoding } from './common/text-encoding.ts';
import { placeOf } from './json-position.ts';

/** Enough to tell a picture from a table. */
const LOOKED_AT_BYTES = 65_536;
/**
 * Of a picture, a sound or a program about one byte in ten is a control character, of text hardly any. The zeros that a
 * logger's card leaves where the power failed, and the end mark of old systems, count for nothing.
 */
const MOST_CONTROLS = 0.02;
// biome-ignore lint/suspicious/noControlCharactersInRegex: these are what is looked for
const CONTROL = /[\u0001-\u0008\u000e-\u0019\u001b-\u001f\u007f]/g;

/** A row of hundreds of columns is a tenth of it. */
const LONGEST_LINE_BYTES = 65_536;
const [LINE_FEED, CARRIAGE_RETURN] = [0x0a, 0x0d];

/** @throws AppError import/empty; import/line-too-long; import/no-text with the line and column of the first byte that is no character */
export function requireText(bytes: Uint8Array, file: string): void {
  const start = bytes.subarray(0, LOOKED_AT_BYTES);
  const encoding = guessEncoding(start);
  const text = decode(start, encoding === 'windows-1252' ? 'utf-8' : encoding, file);
  if (text.trim() === '' && bytes.length <= LOOKED_AT_BYTES) throw new AppError('import/empty', { file });
  const controls = [...text.matchAll(CONTROL)];
  if (controls.length > MOST_CONTROLS * text.length) {
    throw new AppError('import/no-text', { file, ...placeOf(text, controls[0]!.index) });
  }
  refuseLongLine(bytes, file);
}

/** @throws AppError import/line-too-long: it is no row of readings, and every look at it would take as long as at a whole file */
function refuseLongLine(bytes: Uint8Array, file: string): void {
  let start = 0;
  for (let at = 0, line = 1; at <= bytes.length; at++) {
    const isEnd = at === bytes.length || bytes[at] === LINE_FEED || bytes[at] === CARRIAGE_RETURN;
    if (!isEnd) continue;
    if (at - start > LONGEST_LINE_BYTES) {
      throw new AppError('import/line-too-long', { file, line, limitKb: LONGEST_LINE_BYTES / 1024 });
    }
    if (bytes[at] === LINE_FEED || bytes[at + 1] !== LINE_FEED) line += 1;
    start = at + 1;
  }
}
