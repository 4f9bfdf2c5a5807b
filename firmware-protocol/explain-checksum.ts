import { crc32, crcDigits } from './crc32.ts';
import type { LineMistake, LineMistakeCode } from './line-mistakes.ts';

/** A line cut at its `~`. */
export interface SealedText {
  /** Everything before the `~`. */
  covered: string;
  /** Everything after it. */
  digits: string;
}

export function cutAtMark(line: string): SealedText | undefined {
  const mark = line.indexOf('~');
  return mark < 0 ? undefined : { covered: line.slice(0, mark), digits: line.slice(mark + 1) };
}

/**
 * Finds why the checksum does not match: each likely mistake is computed and compared, so that the mistake found is the
 * one the board makes.
 *
 * @param previous the line before, for a checksum that is not restarted at each line
 * @returns only `damaged` where no known mistake gives these digits
 */
export function checksumMistakes({ covered, digits }: SealedText, previous?: SealedText): LineMistake[] {
  const right = crcDigits(crc32(covered));
  const mistake = (code: LineMistakeCode, expected = right, found = digits): LineMistake => ({
    code,
    field: 'checksum',
    found,
    expected,
  });
  if (digits === right) return [];
  if (digits.startsWith(right)) return [mistake('text-after-checksum')];
  for (const spelling of spellings(digits)) {
    const span = spanOf(covered, spelling.value, previous);
    if (span) return [...spelling.codes, ...span.codes].map((code) => mistake(code, span.expected ?? right));
  }
  const [short] = /^[0-9A-Fa-f]{0,4}$/.exec(digits.trim()) ?? [];
  if (short !== undefined) return [mistake('checksum-too-short')];
  for (const spelling of spellings(digits)) {
    const kind = otherKind(covered, spelling.value);
    if (kind) return [...spelling.codes.map((code) => mistake(code)), mistake('checksum-other-kind', right, kind)];
  }
  return [mistake('damaged')];
}

/** Returns the numbers that the digits may mean, with the mistakes in their spelling. */
function spellings(digits: string): { value: number; codes: LineMistakeCode[] }[] {
  const [, prefix = '', hexadecimal] = /^(0[xX]|#|\$)?([0-9A-Fa-f]{1,8})[hH]?\s*$/.exec(digits) ?? [];
  const found: { value: number; codes: LineMistakeCode[] }[] = [];
  if (hexadecimal !== undefined) {
    const codes: LineMistakeCode[] = [];
    if (prefix !== '') codes.push('checksum-prefixed');
    if (/[a-f]/.test(hexadecimal)) codes.push('checksum-lower-case');
    if (hexadecimal.length < 8) codes.push('checksum-not-padded');
    if (codes.length === 0 && digits !== hexadecimal) codes.push('text-after-checksum');
    found.push({ value: Number.parseInt(hexadecimal, 16), codes });
  }
  if (/^-?[0-9]{1,10}\s*$/.test(digits)) found.push({ value: Number(digits) >>> 0, codes: ['checksum-decimal'] });
  return found;
}

interface Span {
  codes: LineMistakeCode[];
  /** The right digits where only the blank before the `~` is missing. */
  expected?: string;
}

/** Finds the text, or the variant of the correct checksum, that gives this value. */
function spanOf(covered: string, value: number, previous: SealedText | undefined): Span | undefined {
  const bare = covered.replace(/ +$/, '');
  const afterFirstWord = covered.replace(/^[^ ]* ?/, '');
  if (crc32(covered) === value) return { codes: [] };
  // A line without the blank is refused for that; its expected digits are those of the line with the blank.
  if (bare === covered && crc32(`${covered} `) === value) return { codes: ['no-blank-before-checksum'] };
  const spans: [LineMistakeCode, string[]][] = [
    ['checksum-without-blank', [bare]],
    ['checksum-after-first-word', [afterFirstWord, afterFirstWord.replace(/ +$/, '')]],
    ['checksum-with-mark', [`${covered}~`, `${bare}~`]],
    ['checksum-with-line-end', ['\r\n', '\n', '\r'].flatMap((end) => [covered + end, bare + end])],
  ];
  for (const [code, texts] of spans) if (texts.some((text) => crc32(text) === value)) return { codes: [code] };
  const standard = crc32(covered);
  if (swapBytes(standard) === value) return { codes: ['checksum-byte-order'] };
  if (invert(standard) === value) return { codes: ['checksum-not-inverted'] };
  if (invert(crc32(bare)) === value) return { codes: ['checksum-not-inverted', 'checksum-without-blank'] };
  if (previous && continues(covered, value, previous)) return { codes: ['checksum-not-begun-anew'] };
  return undefined;
}

/** Whether the checksum continues that of the line before. */
function continues(covered: string, value: number, previous: SealedText): boolean {
  const [digits] = /^[0-9A-Fa-f]{8}/.exec(previous.digits) ?? [];
  if (digits === undefined) return false;
  const ended = Number.parseInt(digits, 16);
  const between = ['', '\n', '\r\n', '~', `~${digits}`, `~${digits}\n`, `~${digits}\r\n`];
  return between.some((text) =>
    [invert(ended), ended].some((state) => {
      const goneOn = reflected(text + covered, 0xedb88320, state);
      return goneOn === value || invert(goneOn) === value;
    }),
  );
}

/** Generator polynomials of 32 bits that libraries and converters offer (catalogue of parametrised CRC algorithms). */
const POLYNOMIALS = [0x04c11db7, 0x1edc6f41, 0xf4acfb13, 0xa833982b, 0x814141ab, 0x741b8cd7, 0x000000af];

/** Returns the parameters of another checksum of 32 bits that gives this value, as that catalogue writes them. */
function otherKind(covered: string, value: number): string | undefined {
  const texts = [covered, covered.replace(/ +$/, '')];
  for (const polynomial of POLYNOMIALS) {
    for (const start of [0xffffffff, 0]) {
      for (const [isReflected, register] of [
        [true, (text: string) => reflected(text, reverseBits(polynomial), start)],
        [false, (text: string) => unreflected(text, polynomial, start)],
      ] as const) {
        for (const text of texts) {
          const end = register(text);
          for (const xor of [0xffffffff, 0]) {
            if ((end ^ xor) >>> 0 !== value) continue;
            const hex = (number: number) => crcDigits(number);
            return `poly=${hex(polynomial)} init=${hex(start)} refin=${isReflected} refout=${isReflected} xorout=${hex(xor)}`;
          }
        }
      }
    }
  }
  return texts.some((text) => adler32(text) === value) ? 'Adler-32' : undefined;
}

function reflected(text: string, polynomial: number, start: number): number {
  let register = start;
  for (let i = 0; i < text.length; i++) {
    register ^= text.charCodeAt(i) & 0xff;
    for (let bit = 0; bit < 8; bit++) register = register & 1 ? (register >>> 1) ^ polynomial : register >>> 1;
  }
  return register >>> 0;
}

function unreflected(text: string, polynomial: number, start: number): number {
  let register = start;
  for (let i = 0; i < text.length; i++) {
    register ^= (text.charCodeAt(i) & 0xff) << 24;
    for (let bit = 0; bit < 8; bit++) register = register & 0x80000000 ? (register << 1) ^ polynomial : register << 1;
  }
  return register >>> 0;
}

/** RFC 1950, section 8.2. */
function adler32(text: string): number {
  let low = 1;
  let high = 0;
  for (let i = 0; i < text.length; i++) {
    low = (low + (text.charCodeAt(i) & 0xff)) % 65_521;
    high = (high + low) % 65_521;
  }
  return (high * 65_536 + low) >>> 0;
}

function reverseBits(value: number): number {
  let reversed = 0;
  for (let bit = 0; bit < 32; bit++) reversed = (reversed << 1) | ((value >>> bit) & 1);
  return reversed >>> 0;
}

function swapBytes(value: number): number {
  return (((value & 0xff) << 24) | ((value & 0xff00) << 8) | ((value >>> 8) & 0xff00) | (value >>> 24)) >>> 0;
}

function invert(value: number): number {
  return ~value >>> 0;
}
