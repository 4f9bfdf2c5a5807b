/** Where in a JSON text something is: where it breaks, or where the value at a path begins. */

/** What would have been right at the place where a text is no JSON. */
export const jsonExpectations = ['value', 'key', 'colon', 'commaOrEnd', 'stringEnd', 'escape', 'nothingMore'] as const;
export type JsonExpectation = (typeof jsonExpectations)[number];

export interface JsonFault {
  offset: number;
  expected: JsonExpectation;
}

export interface TextPosition {
  /** Both count from 1. */
  line: number;
  column: number;
}

class Broken extends Error {
  readonly fault: JsonFault;
  constructor(offset: number, expected: JsonExpectation) {
    super(expected);
    this.fault = { offset, expected };
  }
}

/** The first fault of a text that `JSON.parse` refuses; undefined when this reader finds none. */
export function findJsonFault(text: string): JsonFault | undefined {
  try {
    const end = skipBlanks(text, skipValue(text, skipBlanks(text, 0)));
    return end < text.length ? { offset: end, expected: 'nothingMore' } : undefined;
  } catch (error) {
    if (error instanceof Broken) return error.fault;
    // Brackets in their tens of thousands overflow the stack of this reader, as they would that of any other.
    if (error instanceof RangeError) return { offset: 0, expected: 'value' };
    throw error;
  }
}

/** Where the value at `path` begins in a text that is valid JSON; of a part that is not there, where its parent begins. */
export function jsonOffset(text: string, path: readonly PropertyKey[]): number {
  let offset = skipBlanks(text, 0);
  for (const step of path) {
    const next = childOffset(text, offset, step);
    if (next === undefined) break;
    offset = next;
  }
  return offset;
}

export function placeOf(text: string, offset: number): TextPosition {
  let line = 1;
  let start = 0;
  for (let at = text.indexOf('\n'); at >= 0 && at < offset; at = text.indexOf('\n', start)) {
    line += 1;
    start = at + 1;
  }
  return { line, column: offset - start + 1 };
}

/** The text from an offset on, short enough for a sentence; blank at the end of the text. */
export function excerptAt(text: string, offset: number): string {
  const line = text.slice(offset, offset + 24).split(/[\r\n]/)[0]!;
  return text.length > offset + 24 && line.length === 24 ? `${line}…` : line;
}

function childOffset(text: string, offset: number, step: PropertyKey): number | undefined {
  const open = text[offset];
  if (open !== '{' && open !== '[') return undefined;
  let at = skipBlanks(text, offset + 1);
  for (let index = 0; text[at] !== '}' && text[at] !== ']'; index++) {
    let key: string | number = index;
    if (open === '{') {
      const end = skipString(text, at);
      key = JSON.parse(text.slice(at, end)) as string;
      at = skipBlanks(text, skipBlanks(text, end) + 1);
    }
    if (String(key) === String(step)) return at;
    at = skipBlanks(text, skipValue(text, at));
    if (text[at] === ',') at = skipBlanks(text, at + 1);
  }
  return undefined;
}

function skipBlanks(text: string, at: number): number {
  for (let code = text.charCodeAt(at); code === 32 || code === 10 || code === 13 || code === 9; ) {
    code = text.charCodeAt(++at);
  }
  return at;
}

const NUMBER = /-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?/y;
const WORD = /true|false|null/y;

/** @returns the offset behind the value that begins at `at` */
function skipValue(text: string, at: number): number {
  const first = text[at];
  if (first === '"') return skipString(text, at);
  if (first === '{') return skipList(text, at, '}');
  if (first === '[') return skipList(text, at, ']');
  for (const pattern of [NUMBER, WORD]) {
    pattern.lastIndex = at;
    if (pattern.test(text)) return pattern.lastIndex;
  }
  throw new Broken(at, 'value');
}

function skipList(text: string, from: number, close: string): number {
  let at = skipBlanks(text, from + 1);
  if (text[at] === close) return at + 1;
  for (;;) {
    if (close === '}') {
      if (text[at] !== '"') throw new Broken(at, 'key');
      at = skipBlanks(text, skipString(text, at));
      if (text[at] !== ':') throw new Broken(at, 'colon');
      at = skipBlanks(text, at + 1);
    }
    at = skipBlanks(text, skipValue(text, at));
    if (text[at] === close) return at + 1;
    if (text[at] !== ',') throw new Broken(at, 'commaOrEnd');
    at = skipBlanks(text, at + 1);
  }
}

const ESCAPE = /\\(?:["\\/bfnrt]|u[0-9a-fA-F]{4})/y;

function skipString(text: string, from: number): number {
  for (let at = from + 1; at < text.length; at++) {
    const code = text.charCodeAt(at);
    if (code === 34) return at + 1;
    if (code < 32) throw new Broken(at, 'stringEnd');
    if (code !== 92) continue;
    ESCAPE.lastIndex = at;
    if (!ESCAPE.test(text)) throw new Broken(at, 'escape');
    at = ESCAPE.lastIndex - 1;
  }
  throw new Broken(text.length, 'stringEnd');
}
