/**
 * Parses lines whose values are found by the labels before them, in any order: "pot=20.5 flue: 180 °C", "C = 23.5",
 * "T1,20.5".
 */
import type { PlainFormat } from '../contract/boards.ts';
import { type PlainCell, readPlainField } from './field.ts';
import { storedUnits } from './stored-units.ts';
import { unitWritten } from './written-units.ts';

type Decimal = PlainFormat['decimal'];

export interface LabelledLine {
  cells: PlainCell[];
  /** Numbers without a label, which cannot be identified in the next line. */
  stray: number;
  /** Whether marks separate the labels from their values; else a blank or a comma does. */
  hasMarks: boolean;
}

const MARK = /=>|->|[=:]/g;
/** A time of day in the middle of a line, which is not a label with a value. */
const CLOCK = /(^|\W)\d{1,2}:\d{2}:\d{2}(?:\.\d+|,\d{3}(?![\d.]))?/g;
const NUMBER = {
  point: /^\s*[+-]? *(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?/,
  comma: /^\s*[+-]? *(?:\d+(?:,\d+)?|,\d+)(?:[eE][+-]?\d+)?/,
};
/** A word after a number, unless it is the label of the next value. */
const UNIT =
  /^\s*(?:(?:deg(?:rees?)?\.?|%) ?[A-Za-z]{1,2}(?![\w])|[^\s\d.,;|&/=:<>()[\]{}-][^\s\d,;|&/=:<>()[\]{}-]{0,9}|[([][^\s\d()[\]]{1,6}[)\]])(?![^\s\d.,;|&/=:<>()[\]{}-])(?!\s*(?:=|:|->))/;
const ENDS_VALUE = /^\s*(?:$|[\s,;|&/\])>}])/;
/** Separators between two values of one label; a comma alone may be a decimal mark. */
const BETWEEN = /^(?:\s*[;|/(]\s*|\s*,\s+|\s+|,(?=[+-]?\d*\.))/;
/** Words that scales print before a mass: stable or not, gross or net. They are not names of probes. */
const STATUS = /^(?:ST|US|OL|GS|NT|TR|PT|SI|[SGNDU])$/;
const LONGEST_KEY = 120;

/** Returns the values of a line by their labels. A second value under one label gets a number: "T", "T#2". */
export function labelledCells(line: string, decimal: Decimal): LabelledLine {
  const text = line.replace(CLOCK, '$1@').replaceAll('−', '-').trim();
  const marked = markedCells(text, decimal);
  const isMarked = marked.cells.some(({ text: value }) => readPlainField(value, decimal).kind !== 'text');
  return withDistinctKeys(isMarked ? marked : wordCells(text, decimal));
}

/** Parses labels that a mark separates from their values. */
function markedCells(text: string, decimal: Decimal): LabelledLine {
  const cells: PlainCell[] = [];
  let stray = 0;
  let from = 0;
  for (const mark of text.matchAll(MARK)) {
    if (mark.index < from) continue;
    const before = text.slice(from, mark.index);
    const behind = text.slice(mark.index + mark[0].length);
    const value = valueAt(behind, mark[0], decimal);
    if (value === undefined) continue;
    const { label, numbers } = labelOf(before, decimal);
    if (label === '') continue;
    stray += numbers;
    cells.push({ key: label, text: value.trim() });
    from = mark.index + mark[0].length + value.length;
    for (let more = furtherAt(text.slice(from), decimal); more; more = furtherAt(text.slice(from), decimal)) {
      cells.push({ key: label, text: more.value.trim() });
      from += more.length;
    }
  }
  stray += labelOf(text.slice(from), decimal).numbers;
  return { cells, stray, hasMarks: true };
}

/** Returns the value at the start of a text; undefined when a label follows. */
function valueAt(text: string, mark: string, decimal: Decimal): string | undefined {
  const number = numberAt(text, decimal);
  if (number !== undefined) return number;
  const word = /^[^,;|\t]*/.exec(text)![0];
  if (!/[=:]|->/.test(word)) {
    const first = /^\s*\S+/.exec(word)?.[0] ?? '';
    // The next label may follow directly after a word for a fault.
    return readPlainField(first, decimal).kind === 'fault' && first !== '' ? first : word;
  }
  const first = /^\s*[^\s=:]+(?=\s)/.exec(word)?.[0] ?? '';
  if (first !== '' && readPlainField(first, decimal).kind === 'fault') return first;
  return mark === '=' ? '' : undefined;
}

/** Returns the number at the start of a text, with its unit. */
function numberAt(text: string, decimal: Decimal): string | undefined {
  const number = NUMBER[decimal].exec(text)?.[0];
  if (number === undefined) return undefined;
  const rest = text.slice(number.length);
  const unit = UNIT.exec(rest)?.[0] ?? '';
  // A word after a blank is the unit of the number only if it is a known unit.
  const taken = /^\s/.test(unit) && unitWritten(unit) === undefined ? '' : unit;
  return ENDS_VALUE.test(rest.slice(taken.length)) ? number + taken : undefined;
}

/** Returns another value of the same label directly after the last: "23.50 °C 74.30 °F". */
function furtherAt(text: string, decimal: Decimal): { value: string; length: number } | undefined {
  const between = BETWEEN.exec(text.replace(/^[)\]]/, ' '))?.[0];
  if (between === undefined) return undefined;
  const value = numberAt(text.slice(between.length), decimal);
  return value === undefined ? undefined : { value, length: between.length + value.length };
}

/** Returns the label at the end of the text before a mark, and the number of numbers there without a label. */
function labelOf(before: string, decimal: Decimal): { label: string; numbers: number } {
  const parts = before.split(decimal === 'comma' ? /[;|&\t]/ : /[,;|&\t]/);
  const last = parts.pop() ?? '';
  // The prefix of a program's log ("I (12345) main") changes from line to line.
  const bare = last.replace(/^.*?[([]\s*[\d:.]+\s*[)\]]\s+(?=\S)/, '').replace(/^[\s\])}>@#*/-]+/, '');
  const led = /^([+-]?\d+(?:[.,]\d+)?)\s+(?=\S)/.exec(bare);
  const label = (led ? bare.slice(led[0].length) : bare).replace(/^[[({<\s]+/, '').trim();
  const loose = parts.filter((part) => part.trim() !== '' && readPlainField(part, decimal).kind === 'number').length;
  return { label: label.length > LONGEST_KEY ? '' : label, numbers: loose + (led ? 1 : 0) };
}

/** Parses words followed by a value, without any mark. A value with only a unit is identified by its quantity. */
function wordCells(text: string, decimal: Decimal): LabelledLine {
  const separators = decimal === 'comma' ? /[\s;|]+/ : /[\s,;|]+/;
  // A sign may be separated from its number, and the status of a scale from the rest.
  const tokens = text.split(separators).filter((token) => token !== '' && token !== '@' && !STATUS.test(token));
  const cells: PlainCell[] = [];
  let words: string[] = [];
  let label: string | undefined;
  let stray = 0;
  for (let at = 0; at < tokens.length; at++) {
    const sign = /^[+-]$/.test(tokens[at]!) && /^[\d.,-]/.test(tokens[at + 1] ?? '') ? tokens[at++]! : '';
    const token = `${sign}${tokens[at]!}`;
    const field = readPlainField(token, decimal);
    if (field.kind === 'text' || (field.kind === 'fault' && words.length === 0)) {
      words.push(token);
      continue;
    }
    const next = tokens[at + 1];
    const unit = next !== undefined && unitWritten(next) !== undefined ? ` ${tokens[++at]!}` : '';
    const printed = unitWritten(/[^\s\d.,+-]*$/.exec(token + unit)![0]);
    const measured = printed && storedUnits[printed].unit;
    if (words.length > 0) label = words.join(' ');
    const key = label ?? (tokens.length <= 3 ? measured : undefined);
    if (key === undefined || key.length > LONGEST_KEY) stray++;
    else cells.push({ key, text: token + unit });
    words = [];
  }
  return { cells, stray, hasMarks: false };
}

function withDistinctKeys({ cells, ...line }: LabelledLine): LabelledLine {
  const seen = new Map<string, number>();
  return {
    ...line,
    cells: cells.map(({ key, text }) => {
      const count = (seen.get(key) ?? 0) + 1;
      seen.set(key, count);
      return { key: count === 1 ? key : `${key}#${count}`, text };
    }),
  };
}
